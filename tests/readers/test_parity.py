"""The PDF page and the DXF layout of a sheet are one drawing: the same ink, the same words.

The layout is drawn by ezdxf, which reads the file as any CAD program would, and shares nothing
with our PDF writer. Dashes are left out: ezdxf does not scale them in a viewport.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import fontpkg_arimo
import numpy as np
import pytest
from ezdxf.addons.drawing.config import BackgroundPolicy, ColorPolicy, Configuration
from ezdxf.addons.drawing.frontend import Frontend
from ezdxf.addons.drawing.layout import Margins, Page, Settings, Units
from ezdxf.addons.drawing.properties import RenderContext
from ezdxf.addons.drawing.svg import SVGBackend
from ezdxf.bbox import Cache
from ezdxf.document import Drawing
from ezdxf.filemanagement import readfile
from ezdxf.fonts import fonts
from ezdxf.math import BoundingBox2d
from pypdf import PageObject, PdfReader

from planset.drawing.page import DrawingSet
from planset.formats.dxf_write import write_dxf
from planset.formats.pdf_write import FACE_FILE, write_pdf
from tests.readers.ink import DPI, Ink, far_share, grown
from tests.readers.programs import pdf_ink, svg_ink
from tests.readers.variants import changed, unbroken, unfilled

pytestmark = pytest.mark.readers

NEAR = 2  # pixels at 150 dpi: 1/75 in
MOST_FAR = 0.01
LINES_OF_ANY_PEN_BLACK = Configuration(
    background_policy=BackgroundPolicy.WHITE, color_policy=ColorPolicy.BLACK
)


@dataclass(frozen=True)
class Rendered:
    """A sheet in both formats: its ink, and its lines of text."""

    pdf_ink: Ink
    dxf_ink: Ink
    pdf_words: Counter[str]
    dxf_words: Counter[str]


class RecordingFrontend(Frontend):
    """ezdxf's renderer, keeping the texts it is about to draw."""

    words: Counter[str]

    def draw_text_entity(self, entity: Any, properties: Any) -> None:
        self.words[entity.plain_text().strip()] += 1
        super().draw_text_entity(entity, properties)


def layout_of(doc: Drawing, sheet: str, folder: Path) -> tuple[Ink, Counter[str]]:
    layout = doc.paperspace(sheet)
    _, (width, height) = layout.get_paper_limits()
    backend = SVGBackend()
    frontend = RecordingFrontend(
        RenderContext(doc),
        backend,
        config=LINES_OF_ANY_PEN_BLACK,
        bbox_cache=Cache(),  # so that a viewport draws only what is in its window
    )
    frontend.words = Counter()
    frontend.draw_layout(layout)
    svg = folder / f"{sheet}.svg"
    svg.write_text(
        backend.get_string(
            Page(width, height, Units.inch, Margins.all(0)),
            settings=Settings(fit_page=False, scale=25.4),  # a unit of the layout is an inch
            render_box=BoundingBox2d([(0, 0), (width, height)]),
        )
    )
    size = (round(width * DPI), round(height * DPI))
    return svg_ink(svg, size), Counter({text: n for text, n in frontend.words.items() if text})


def words_of(page: PageObject) -> Counter[str]:
    words: Counter[str] = Counter()

    def visit(text: str, *_: Any) -> None:
        if text.strip():
            words[text.strip()] += 1

    page.extract_text(visitor_text=visit)
    return words


def read_set(dxf: Path, face: str = FACE_FILE) -> Drawing:
    """The file, to be drawn with this face: ezdxf would replace one it lacks without a word."""
    fonts.font_manager.scan_folder(fontpkg_arimo.ROOT / "files")
    assert fonts.font_manager.has_font(FACE_FILE)
    doc = readfile(dxf)
    doc.styles.get("ARIAL").dxf.font = face
    return doc


@pytest.fixture(scope="module")
def files(drawing: DrawingSet, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("parity")
    solid = changed(changed(drawing, unbroken), unfilled)
    write_pdf(solid, folder / "planset.pdf")
    write_dxf(solid, folder / "planset.dxf")
    return folder


@pytest.fixture(scope="module")
def rendered(files: Path) -> dict[str, Rendered]:
    def both() -> Iterator[tuple[str, Rendered]]:
        pdf, doc = PdfReader(files / "planset.pdf"), read_set(files / "planset.dxf")
        for number, sheet in enumerate(pdf.page_labels, 1):
            ink, words = layout_of(doc, sheet, files)
            page = pdf.pages[number - 1]
            yield (
                sheet,
                Rendered(pdf_ink(files / "planset.pdf", number), ink, words_of(page), words),
            )

    return dict(both())


def test_the_same_ink(rendered: dict[str, Rendered]) -> None:
    far = {
        sheet: max(
            far_share(page.pdf_ink, page.dxf_ink, NEAR), far_share(page.dxf_ink, page.pdf_ink, NEAR)
        )
        for sheet, page in rendered.items()
    }
    print({sheet: f"{share:.3%}" for sheet, share in far.items()})  # noqa: T201 - read with -s
    assert {sheet: share for sheet, share in far.items() if share > MOST_FAR} == {}


def test_the_same_words(rendered: dict[str, Rendered]) -> None:
    for page in rendered.values():
        assert page.pdf_words.total() > 20
        assert page.pdf_words == page.dxf_words


def test_another_face_would_show(files: Path, rendered: dict[str, Rendered]) -> None:
    sheet, page = next(iter(rendered.items()))
    ink, _ = layout_of(read_set(files / "planset.dxf", "no such face.ttf"), sheet, files)
    assert far_share(ink, page.pdf_ink, NEAR) > MOST_FAR


def test_a_shift_by_a_pixel_more_than_near_would_show(rendered: dict[str, Rendered]) -> None:
    for page in rendered.values():
        moved = np.roll(page.dxf_ink, NEAR + 1, axis=(0, 1))
        assert far_share(moved, page.pdf_ink, NEAR) > MOST_FAR


def test_ink_grows_by_so_many_pixels_and_not_over_the_edge() -> None:
    ink = np.zeros((6, 6), dtype=bool)
    ink[0, 4] = True
    assert np.argwhere(grown(ink, 2)).min(axis=0).tolist() == [0, 2]
    assert np.argwhere(grown(ink, 2)).max(axis=0).tolist() == [2, 5]
    assert grown(ink, 2).sum() == 3 * 4
    assert far_share(grown(ink, 2), ink, 1) == 6 / 12
