"""Where all that reviewers ask for stands: what planset looks for, and what tests see instead.

Made from a survey of 55 published checklists of building departments and of plan review records:
"must have" for a first usable set, "expected" by most, "when asked" by some.
"""

from __future__ import annotations

from dataclasses import dataclass

from planset.catalog.contents import CONTENT_ITEMS

EXAMPLE_NAME = "tile-gable"
NOT_YET = "not yet"
OUT_OF_REACH = "out of reach"
_SET, _SHEETS = "tests/test_set.py", "tests/test_data_sheets.py"
_CONTENTS = "tests/review/test_contents_data_sheets.py"


@dataclass(frozen=True)
class Item:
    """One thing that is asked for.

    Attributes:
        name: What it is.
        asked: By whom: "must have", "expected", "when asked".
        place: A sheet, `EVERY_SHEET`, a file with the test that sees it there, or `NOT_YET` or
            `OUT_OF_REACH` and why.
    """

    name: str
    asked: str
    place: str


_SEEN_BY_TESTS = (
    Item("data sheets a job names", "must have", f"{_SHEETS}::test_they_follow_the_sheets"),
    Item(
        "which data sheets and listings are missing",
        "must have",
        f"{_CONTENTS}::test_each_device_without_one_is_told",
    ),
    Item("one file with bookmarks", "must have", f"{_SET}::test_bookmarks_are_the_sheets"),
    Item(
        "true scale in the PDF",
        "must have",
        f"{_SET}::test_the_roof_is_drawn_to_the_scale_it_states",
    ),
    Item("searchable text in the PDF", "must have", f"{_SET}::test_what_a_reviewer_searches_for"),
    Item("true size in the DXF", "must have", f"{_SET}::test_the_roof_is_drawn_at_true_size"),
    Item("units of the DXF", "must have", "tests/formats/test_dxf_document.py::test_header"),
    Item(
        "layers of the DXF",
        "must have",
        "tests/formats/test_dxf_document.py::test_layers_carry_the_pens",
    ),
    Item(
        "real dimensions in the DXF",
        "must have",
        f"{_SET}::test_dimensions_state_what_they_measure",
    ),
    Item(
        "revisions and answers to corrections",
        "expected",
        "tests/sheets/test_revisions.py::test_each_answer_leads_to_its_sheet",
    ),
    Item(
        "clouds and deltas",
        "expected",
        "tests/sheets/test_revision_marks.py::test_what_changed_stands_in_a_cloud",
    ),
    Item("coordinates for the crew", "expected", "S-101"),
    Item("cut list of rails", "expected", "Z-101"),
    Item("bill of materials", "expected", "Z-601"),
    Item("photographs of panel and framing", "expected", "out of reach: the surveyor's pictures"),
)

ITEMS: tuple[Item, ...] = (
    *(Item(one.name, one.asked, one.sheet) for one in CONTENT_ITEMS),
    *_SEEN_BY_TESTS,
)

SAYS = {
    "cut list of rails": r"CUT LIST, HERON TILE RAIL",
    "bill of materials": r"HERON HOOK .* 75 2 77 EACH",
    "lot lines and distances to them": r"26'-0\" CLEAR.*PL1  S 80 DEG E  77'-0\"",
    "structures and driveway": r"EXISTING GARDEN SHED.*DRIVEWAY",
    "street, north, scale": r"SCALE: 1/16\" = 1'-0\".*NORTH.*ALDER BEND",
    "meter and equipment in plan": r"EQUIPMENT WALL .*M1 UTILITY METER RIGHT 15'-0\"",
    "access point of the fire service": r"ROOF ACCESS POINT",
    "junction box and conduit in plan": r"JUNCTION BOX.*RACEWAY ON THE ROOF",
    "labels: wording and place": r"LABEL SCHEDULE .*L1 PV SYSTEM DISCONNECT DISC1",
    "project address": r"ADDRESS 418 Alder Bend",
    "owner": r"OWNER R\. and M\. Hadlow",
    "contractor and license": r"CONTRACTOR Gullwing .* license PL-20418",
    "scope of work in words": r"SCOPE New 20-module roof array",
    "code editions": r"CODE BASIS .*RESIDENTIAL IRC 2021 .*ELECTRICAL NEC 2020",
    "power, DC and AC": r"8\.04 kW DC, 7\.60 kW AC",
    "number of modules": r"20 MODULES",
    "design wind and snow": r"WIND 110 mph, exposure B.*SNOW 0 psf",
    "sheet index": r"SHEET INDEX G-001 COVER SHEET",
    "roof planes with pitch": r"PLANE PITCH .*FRONT 5:12",
    "azimuth of each plane": r"AZIM\. 190 DEG",
    "edges by name": r"EAVE .*RAKE .*RIDGE",
    "obstructions": r"V1 PLUMBING VENT",
    "every module": r"M01 .*M20",
    "pathways and setbacks with dimensions": r'CLEAR [^"]+" ON SLOPE CLEAR',
    "share of the roof covered": r"AREA RATIO \S+ % OF 33 %",
    "framing": r"LEGEND .*RAFTER",
    "every attachment": r"H01 .*H75",
    "spacing of attachments": r"UP: FACE OF THE",
    "wind zones in plan": r"ZONE 2e",
    "counts of attachments": r"COUNTS ",
    "attachment in section with the covering": r"CLAY S-TILE",
    "fastener, pilot hole, embedment": r"LAG 5/16 in .*PILOT .*RAFTER",
    "flashing and weatherproofing": r"WEATHERPROOFING",
    "weight of the array": r"DEAD .* PSF",
    "load of an attachment": r"ATTACHMENTS OF ARRAY A1, DEMAND / CAPACITY",
    "strings": r"\bS1\b.*PV SOURCE CIRCUIT",
    "overcurrent devices": r"40 A, 2P",
    "disconnects": r"PV SYSTEM DISCONNECT",
    "grounding": r"GROUNDING ELECTRODE",
    "busbar and main": r"BUS 200 A, MAIN 200 A",
    "rapid shutdown": r"RAPID SHUTDOWN",
    "point of connection": r"MAIN SERVICE PANEL",
    "checks before output, as a list": r"COMPLIANCE TABLE .*FIRE ACCESS REQUIREMENT",
    "seal and approval boxes": r"FOR BUILDING DEPARTMENT USE.*SEAL AND",
    "sheet size of the scale": r"SHEET 11 X 17 IN: SCALES HOLD",
    "a jurisdiction's values with source and date": r"Town code \S+ 2024-01-01",
    "engineer's inputs": r"SITE CRITERIA",
    "tributary areas": r"SQ FT",
    "uplift and point loads beside capacities": r"UPLIFT, LB: .*RATIO",
    "section or elevation": r"ALONG THE RAFTER",
    "electrical calculations": r"VALUE FORMULA NUMBERS RESULT",
    "coordinates for the crew": r"HEIGHTS OF ATTACHMENTS, ON SLOPE",
}
"""Item to the words by which the example, in particular, shows it."""
