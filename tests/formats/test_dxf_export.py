"""Files written by the shorter way are, byte for byte, those ezdxf writes by itself."""

from __future__ import annotations

from contextlib import nullcontext
from io import StringIO
from pathlib import Path

import pytest
from ezdxf.document import Drawing
from ezdxf.entities.dxfns import DXFNamespace
from ezdxf.filemanagement import new
from pages import DRAWING

from planset.formats import dxf_document
from planset.formats.dxf_document import fixed_metadata
from planset.formats.dxf_export import values_written_straight
from planset.formats.dxf_write import write_dxf


def test_our_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_dxf(DRAWING, tmp_path / "ours.dxf")
    monkeypatch.setattr(dxf_document, "values_written_straight", nullcontext)
    write_dxf(DRAWING, tmp_path / "plain.dxf")
    assert (tmp_path / "ours.dxf").read_bytes() == (tmp_path / "plain.dxf").read_bytes()


def every_kind() -> Drawing:
    """Entities with values set, unset, required, worked out, and equal to their defaults."""
    document = new("R2018", setup=True)
    model = document.modelspace()
    model.add_line((0, 0), (1, 1), {"color": 256, "true_color": 0x102030, "ltscale": 1.0})
    model.add_arc((0, 0), 1, 10, 80)
    model.add_mtext("two\nlines", {"char_height": 0.2})
    model.add_linear_dim((0, 2), (0, 0), (3, 0)).render()
    model.add_spline([(0, 0), (1, 2), (3, 1)])
    model.add_ellipse((0, 0), (2, 0), 0.5)
    model.add_hatch(color=2).paths.add_polyline_path([(0, 0), (1, 0), (1, 1)])
    document.layouts.get("Layout1").add_viewport((1, 1), (2, 2), (0, 0), 5)
    return document


def text_of(document: Drawing) -> str:
    stream = StringIO()
    document.write(stream)
    return stream.getvalue()


def test_any_file() -> None:
    with fixed_metadata():
        plain = text_of(every_kind())
        with values_written_straight():
            ours = text_of(every_kind())
    assert ours == plain


def test_ezdxf_is_put_back() -> None:
    before = DXFNamespace.export_dxf_attribs

    def fail_inside() -> None:
        with values_written_straight():
            assert DXFNamespace.export_dxf_attribs is not before
            raise OSError

    with pytest.raises(OSError):  # noqa: PT011 - it is ours
        fail_inside()
    assert DXFNamespace.export_dxf_attribs is before
