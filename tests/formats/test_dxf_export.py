"""Files made by the shorter ways are, byte for byte, those ezdxf makes by itself."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import nullcontext
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from ezdxf.document import Drawing
from ezdxf.entities.dxfns import DXFNamespace
from ezdxf.filemanagement import new
from ezdxf.lldxf.const import DXFError
from pages import DRAWING

from planset.formats import dxf_document, dxf_write
from planset.formats.dxf_document import fixed_metadata
from planset.formats.dxf_export import values_set_straight, values_written_straight
from planset.formats.dxf_write import write_dxf


def test_our_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_dxf(DRAWING, tmp_path / "ours.dxf")
    monkeypatch.setattr(dxf_document, "values_written_straight", nullcontext)
    monkeypatch.setattr(dxf_write, "values_set_straight", nullcontext)
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
        with values_set_straight(), values_written_straight():
            ours = text_of(every_kind())
    assert ours == plain


@pytest.mark.parametrize(
    "values",
    [
        {"layer": "A<B"},
        {"start": "here"},
        {"start": None},
        {"color": 300},
        {"color": "red"},
        {"lineweight": 17},  # mended to one that exists
        {"extrusion": (0, 0, 0)},  # mended
        {"ltscale": "2"},
        {"radius": 1.0},
    ],
)
def test_a_value_is_refused_or_mended_as_ever(values: dict[str, Any]) -> None:
    def made() -> str:
        try:
            line = new("R2013").modelspace().add_line((0, 0), (1, 1), values)
        except (DXFError, TypeError, ValueError) as refused:
            return f"{type(refused).__name__}: {refused}"
        return str(line.dxfattribs())

    plain = made()
    with values_set_straight():
        assert made() == plain


def test_words_on_two_lines_are_refused_as_ever() -> None:
    document = new("R2013")
    text = document.modelspace().add_text("one")
    text.dxf.unprotected_set("text", "one\ntwo")
    with pytest.raises(AssertionError, match="line break"), values_written_straight():
        text_of(document)


@pytest.mark.parametrize(
    ("inside", "method"),
    [
        (values_written_straight, "export_dxf_attribs"),
        (values_set_straight, "__setattr__"),
    ],
)
def test_ezdxf_is_put_back(inside: Callable[[], Any], method: str) -> None:
    before = getattr(DXFNamespace, method)

    def fail_inside() -> None:
        with inside():
            assert getattr(DXFNamespace, method) is not before
            raise OSError

    with pytest.raises(OSError):  # noqa: PT011 - it is ours
        fail_inside()
    assert getattr(DXFNamespace, method) is before
