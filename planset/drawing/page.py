"""Pages and views: a sheet as data, before any file format.

A view shows a window of the model at a scale, placed on the page, with its own annotation.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from planset.drawing.geometry import Box, Placement, Point
from planset.drawing.primitives import Block, Primitive


@dataclass(frozen=True, slots=True)
class Scale:
    """A drawing scale.

    Attributes:
        factor: Model inches per paper inch.
        label: As printed under a view, e.g. `3/16" = 1'-0"`; "NTS" for a diagram.
    """

    factor: float
    label: str


NOT_TO_SCALE = Scale(1.0, "NTS")

# Standard scales, largest first. (Navy and trade lists; see the drafting reference in README.)
PLAN_SCALES: tuple[Scale, ...] = (
    Scale(24, '1/2" = 1\'-0"'),
    Scale(32, '3/8" = 1\'-0"'),
    Scale(48, '1/4" = 1\'-0"'),
    Scale(64, '3/16" = 1\'-0"'),
    Scale(96, '1/8" = 1\'-0"'),
    Scale(128, '3/32" = 1\'-0"'),
    Scale(192, '1/16" = 1\'-0"'),
)
# A plan that carries no dimensions may go on to the scales of site plans.
KEY_PLAN_SCALES: tuple[Scale, ...] = (
    *PLAN_SCALES,
    Scale(240, '1" = 20\'-0"'),
    Scale(360, '1" = 30\'-0"'),
    Scale(480, '1" = 40\'-0"'),
    Scale(600, '1" = 50\'-0"'),
)
# Engineers' scales, and the architects' that are usual for a small lot.
SITE_SCALES: tuple[Scale, ...] = (
    Scale(96, '1/8" = 1\'-0"'),
    Scale(120, '1" = 10\'-0"'),
    Scale(192, '1/16" = 1\'-0"'),
    Scale(240, '1" = 20\'-0"'),
    Scale(360, '1" = 30\'-0"'),
    Scale(480, '1" = 40\'-0"'),
    Scale(600, '1" = 50\'-0"'),
    Scale(720, '1" = 60\'-0"'),
    Scale(1200, '1" = 100\'-0"'),
)
DETAIL_SCALES: tuple[Scale, ...] = (
    Scale(2, '6" = 1\'-0"'),
    Scale(4, '3" = 1\'-0"'),
    Scale(8, '1-1/2" = 1\'-0"'),
    Scale(12, '1" = 1\'-0"'),
    Scale(16, '3/4" = 1\'-0"'),
    Scale(24, '1/2" = 1\'-0"'),
)


@dataclass(frozen=True, slots=True)
class View:
    """A window of the model on a page.

    Attributes:
        number: View number on its sheet, as in its title bubble.
        title: Title under the view, capitals.
        scale: Drawing scale.
        window: The part of the model that is shown, in the view's model frame [model in].
        at: Lower left corner of that window on the page [paper in].
        model: What is shown, mostly insertions of blocks [model in].
        annotation: Dimensions, labels, leaders [paper in].
    """

    number: int
    title: str
    scale: Scale
    window: Box
    at: Point
    model: tuple[Primitive, ...]
    annotation: tuple[Primitive, ...]

    @property
    def frame(self) -> Box:
        """The view's window on the page [paper in]."""
        return Box(
            self.at[0],
            self.at[1],
            self.at[0] + self.window.width / self.scale.factor,
            self.at[1] + self.window.height / self.scale.factor,
        )

    @property
    def on_paper(self) -> Placement:
        """From the view's model frame to paper."""
        factor = self.scale.factor
        return Placement(
            (self.at[0] - self.window.x0 / factor, self.at[1] - self.window.y0 / factor),
            0.0,
            1 / factor,
        )


@dataclass(frozen=True, slots=True)
class Page:
    """One sheet.

    Attributes:
        sheet: Sheet id, e.g. "A-101".
        title: Sheet title, capitals.
        titleblock: Name of its title block; the block of that name is inserted at (0, 0).
        views: Views, in the order of their numbers.
        paper: Everything else [paper in], the insertion of the title block included.
        for_crew: Whether it is in the file of those who build, not in that for plan review.
    """

    sheet: str
    title: str
    titleblock: str
    views: tuple[View, ...]
    paper: tuple[Primitive, ...]
    for_crew: bool = False

    @property
    def bookmark(self) -> str:
        """Sheet id and title, as in the index and the bookmarks."""
        return f"{self.sheet} {self.title}"


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """A sheet's border and the places it leaves.

    Attributes:
        name: File stem, and name of its block.
        width: Sheet width [in].
        height: Sheet height [in].
        block: Its lines and fixed text, one attribute per field.
        fields: Per field, the place of its one line of text: a template of the text (its
            `text` is the field's prompt) and the box it must stay in.
        drawing_area: Where sheets may draw [in].
        seal_area: Kept empty for a licensee's seal [in].
        approval_area: Kept empty for the building department [in].
    """

    name: str
    width: float
    height: float
    block: Block
    fields: Mapping[str, FieldPlace]
    drawing_area: Box
    seal_area: Box
    approval_area: Box


def second_line(tag: str) -> str:
    """The field in which a title block goes on with what is too long for a field's one line."""
    return f"{tag}_2"


def revision_fields(line: int) -> tuple[str, str, str]:
    """The fields of a line of a title block's revision table: number, date, description."""
    return f"REV{line}_NUMBER", f"REV{line}_DATE", f"REV{line}_TEXT"


@dataclass(frozen=True, slots=True)
class FieldPlace:
    """Where a title block writes one field.

    Attributes:
        at: Anchor of the text [in].
        height: Height of the capitals [in].
        align: "left", "center", "right" or "middle".
        layer: Layer of the text.
        box: The text stays inside this box [in].
    """

    at: Point
    height: float
    align: str
    layer: str
    box: Box

    @property
    def line_width(self) -> float:
        """How wide a line may be that keeps inside the box [in]."""
        left, right = self.at[0] - self.box.x0, self.box.x1 - self.at[0]
        return {"left": right, "right": left}.get(self.align, 2 * min(left, right))


@dataclass(frozen=True, slots=True)
class DataSheet:
    """A document of others that follows the sheets of a set, page by page as it came.

    Attributes:
        id: As in the index: "D-1".
        title: Capitals.
        sizes: Per page its width and height as seen [in].
        content: The document as a PDF file that holds its pages and nothing else.
    """

    id: str
    title: str
    sizes: tuple[Point, ...]
    content: bytes = field(repr=False)

    @property
    def bookmark(self) -> str:
        """Id and title, as in the index and the bookmarks."""
        return f"{self.id} {self.title}"

    @property
    def page_ids(self) -> tuple[str, ...]:
        """An id per page, numbered on like a sheet that runs over: D-1, D-1.1, D-1.2."""
        return tuple(f"{self.id}.{n}" if n else self.id for n in range(len(self.sizes)))


@dataclass(frozen=True, slots=True)
class DrawingSet:
    """All pages of a job and the blocks they use; a DXF file holds them together.

    Attributes:
        title: Document title.
        author: Who made it.
        subject: One line on what it is.
        titleblocks: The title blocks used, by name.
        blocks: Every block that is inserted anywhere, by name.
        pages: The sheets, in order.
        data_sheets: Documents of others that follow them.
    """

    title: str
    author: str
    subject: str
    titleblocks: Mapping[str, TitleBlock]
    blocks: Mapping[str, Block]
    pages: tuple[Page, ...]
    data_sheets: tuple[DataSheet, ...] = ()

    @property
    def for_review(self) -> DrawingSet:
        """What is handed in for plan review."""
        return replace(self, pages=tuple(page for page in self.pages if not page.for_crew))

    @property
    def for_crew(self) -> DrawingSet:
        """What the crew takes along; without pages where the job asks for none."""
        pages = tuple(page for page in self.pages if page.for_crew)
        return replace(self, title=f"{self.title}, for the crew", pages=pages, data_sheets=())
