"""A small invented set, built by hand, with every primitive and every nesting a writer meets."""

from __future__ import annotations

from planset.drawing.geometry import Box
from planset.drawing.page import DrawingSet, FieldPlace, Page, Scale, TitleBlock, View
from planset.drawing.primitives import (
    Area,
    Attribute,
    Block,
    Circle,
    Dimension,
    Insert,
    Leader,
    Line,
    Link,
    Polyline,
    Text,
)

WIDTH, HEIGHT = 17.0, 11.0
PLAN = Scale(64, '3/16" = 1\'-0"')
DETAIL = Scale(4, '3" = 1\'-0"')

MODULE = Block(
    "MODULE-44X69",
    (
        Polyline(((0, 0), (44, 0), (44, 69), (0, 69)), "0", closed=True),
        Line((0, 0), (44, 69), "A-ROOF-PATT"),
    ),
    description="Module, 44 by 69 in",
    attribute_tags=("ID", "STRING"),
    constants=(Attribute("MODEL", "SAMPLE-300"),),
)
FOOT = Block("FOOT", (Circle((0, 0), 2, "S-ROOF-ANCH"), Line((-3, 0), (3, 0), "0")))
ARRAY = Block(
    "ARRAY-1",
    tuple(
        Insert(
            "MODULE-44X69",
            (45.0 * column, 70.0 * row),
            "E-SOLR-PANL",
            attributes=(Attribute("ID", f"M{row}{column}"), Attribute("STRING", "S1")),
            identity=f"module:{row}:{column}",
        )
        for row in range(2)
        for column in range(3)
    )
    + tuple(
        Insert("FOOT", (45.0 * column, 10.0), "S-ROOF-ANCH", identity=f"attachment:{column}")
        for column in range(4)
    ),
    description="Six modules",
)
ROOF = Block(
    "ROOF",
    (
        Polyline(((0, 0), (360, 0), (360, 240), (0, 240)), "A-ROOF-OTLN", closed=True),
        Line((0, 120), (360, 120), "A-ROOF-RIDG"),
        Polyline(
            ((300, 20), (340, 20), (340, 40), (300, 40)),
            "A-ROOF-OBST",
            closed=True,
            bulges=(0, 1, 0, 1),
        ),
        Line((10, 10), (10, 230), "S-ROOF-FRAM"),
        Insert("ARRAY-1", (40, 80), "0", rotation_deg=0.0),
        Insert("MODULE-44X69", (200, 110), "E-SOLR-PANL", rotation_deg=-90, scale=0.5),
        Dimension(
            (0, 0),
            (360, 0),
            (0, -30),
            (360, -30),
            "30'-0\"",
            (180, -24),
            6.144,
            "A-ANNO-DIMS",
            360.0,
            slope_factor=1.0,
            marks=(
                Line((0, -4), (0, -36), "A-ANNO-DIMS"),
                Line((360, -4), (360, -36), "A-ANNO-DIMS"),
                Line((-4, -30), (364, -30), "A-ANNO-DIMS"),
                Text("30'-0\"", (180, -24), 6.144, "A-ANNO-DIMS", "middle"),
            ),
        ),
        Area(((120, 5), (150, 5), (150, 20), (135, 30), (120, 20)), "S-DETL-PATT"),
        Line((120, 5), (150, 5), "F-ROOF-ACCS"),
    ),
)
TITLE = Block(
    "BORDER-11X17",
    (
        Polyline(((0.5, 0.5), (16.5, 0.5), (16.5, 10.5), (0.5, 10.5)), "G-ANNO-TTLB", closed=True),
        Line((14, 0.5), (14, 10.5), "G-ANNO-TTLB-LINE"),
        Text("SHEET", (14.1, 1.2), 0.1, "G-ANNO-TTLB-TEXT"),
    ),
    attribute_tags=("SHEET_NUMBER", "PROJECT"),
)
NUMBER_PLACE = FieldPlace((15.25, 0.7), 0.25, "center", "G-ANNO-TTLB-TEXT", Box(14, 0.5, 16.5, 1.1))
TITLEBLOCK = TitleBlock(
    "BORDER-11X17",
    WIDTH,
    HEIGHT,
    TITLE,
    {"SHEET_NUMBER": NUMBER_PLACE},
    drawing_area=Box(0.5, 0.5, 14, 10.5),
    seal_area=Box(14, 7, 16.5, 10.5),
    approval_area=Box(14, 3, 16.5, 7),
)


def titled(sheet: str) -> Insert:
    """The title block of a sheet with its one field written and one value carried."""
    number = Text(sheet, (15.25, 0.7), 0.25, "G-ANNO-TTLB-TEXT", "center")
    return Insert(
        "BORDER-11X17",
        (0, 0),
        "G-ANNO-TTLB",
        attributes=(
            Attribute("SHEET_NUMBER", sheet, number),
            Attribute("PROJECT", "SAMPLE RESIDENCE"),
        ),
    )


# On the plan 120 in of slope at 9 in 12 read 96 in: 120 = 96 * hypot(12, 9) / 12.
SLOPE_DIMENSION = Dimension(
    (2 + 360 / 64, 3 + 24 / 64),
    (2 + 360 / 64, 3 + 120 / 64),
    (8.2, 3 + 24 / 64),
    (8.2, 3 + 120 / 64),
    "10'-0\" ON SLOPE",
    (8.1, 3 + 72 / 64),
    0.096,
    "A-ANNO-DIMS",
    120.0,
    slope_factor=1.25,
    marks=(
        Line((7.7, 3 + 24 / 64), (8.3, 3 + 24 / 64), "A-ANNO-DIMS"),
        Line((7.7, 3 + 120 / 64), (8.3, 3 + 120 / 64), "A-ANNO-DIMS"),
        Line((8.2, 3 + 20 / 64), (8.2, 3 + 124 / 64), "A-ANNO-DIMS"),
        Text("10'-0\" ON SLOPE", (8.1, 3 + 72 / 64), 0.096, "A-ANNO-DIMS", "middle", 90.0),
    ),
)
ARROW = Leader(
    ((6.9, 6.3), (6.8, 6.3), (4.5, 5.0)),
    "A-ANNO-NOTE",
    "arrow",
    marks=(
        Polyline(((6.9, 6.3), (6.8, 6.3), (4.5, 5.0)), "A-ANNO-NOTE"),
        Area(((4.5, 5.0), (4.597, 5.084), (4.627, 5.042)), "A-ANNO-NOTE"),
    ),
    names="module:0:2",
)
DOT = Leader(
    ((3.0, 4.6), (3.0, 5.2)),
    "A-ANNO-NOTE",
    "dot",
    marks=(
        Line((3.0, 4.6), (3.0, 5.2), "A-ANNO-NOTE"),
        Circle((3.0, 5.2), 0.03, "A-ANNO-NOTE"),
    ),
)
PLAN_VIEW = View(
    1,
    "ROOF PLAN",
    PLAN,
    Box(-64, -64, 448, 320),
    (1.0, 2.0),
    model=(Insert("ROOF", (0, 0), "A-ROOF-OTLN"), Line((-60, -70), (-60, 330), "A-WALL-BELO")),
    annotation=(
        SLOPE_DIMENSION,
        ARROW,
        DOT,
        Text("MODULE, TYPICAL", (6.95, 6.25), 0.1, "A-ANNO-TEXT"),
        Text("EAVE", (2.0, 2.7), 0.1, "A-ANNO-TEXT", "right"),
    ),
)
DETAIL_VIEW = View(
    2,
    "FOOT",
    DETAIL,
    Box(-6, -6, 6, 6),
    (10.0, 2.0),
    model=(
        Insert("FOOT", (0, 0), "S-DETL-OTLN", identity="attachment:detail"),
        Area(((-4, -4), (4, -4), (4, -3), (-4, -3)), "S-DETL-MCUT"),
        Area(((-5, 3), (5, 3), (0, 5), (0, 3.5)), "S-DETL-MCUT"),  # concave: no SOLID
    ),
    annotation=(Text("FOOT", (11.5, 2.2), 0.1, "S-ANNO-TEXT", "center"),),
)
PLAN_PAGE = Page(
    "A-101",
    "ROOF PLAN",
    "BORDER-11X17",
    (PLAN_VIEW, DETAIL_VIEW),
    (
        titled("A-101"),
        Text("1  ROOF PLAN", (1.0, 1.6), 0.1875, "G-ANNO-TITL"),
        Text("SEE S-501", (10.0, 1.5), 0.1, "G-ANNO-TEXT"),
        Link((10.0, 1.45), (10.8, 1.65), "S-501"),
        Line((1.0, 1.4), (9.0, 1.4), "G-ANNO-SYMB"),
    ),
)
NOTES_PAGE = Page(
    "S-501",
    "DETAILS",
    "BORDER-11X17",
    (),
    (
        titled("S-501"),
        Text("WIDTH ± 1/8 in^2, 100% Ø", (1.0, 9.0), 0.125, "G-ANNO-TEXT"),
        Text("CENTERED", (7.0, 6.0), 0.2, "G-ANNO-TEXT", "middle", 30.0),
        Link((1.0, 8.9), (4.0, 9.2), "A-101"),
        Link((1.0, 8.0), (4.0, 8.2), "Z-101"),  # in another file
        Line((1.0, 5.0), (6.0, 5.0), "G-ANNO-NPLT"),
    ),
)
DRAWING = DrawingSet(
    "SAMPLE RESIDENCE",
    "A. DRAFTER",
    "Two sheets to try the writers on",
    {"BORDER-11X17": TITLEBLOCK},
    {block.name: block for block in (ROOF, ARRAY, FOOT, MODULE, TITLE)},
    (PLAN_PAGE, NOTES_PAGE),
)
