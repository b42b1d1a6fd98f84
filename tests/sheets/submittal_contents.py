"""What reviewers ask of a set, ranked, and by what one sees that it is there.

Made from a survey of 55 published checklists of building departments and of plan review records:
"must have" for a first usable set, and "expected" by most. What the survey states as one item is
parted where it stands on several sheets.
"""

from __future__ import annotations

from dataclasses import dataclass

EXAMPLE_NAME = "tile-gable"
EVERY_SHEET = "every sheet"
NOT_YET = "not yet"
OUT_OF_REACH = "out of reach"
_SET, _SHEETS = "tests/test_set.py", "tests/test_data_sheets.py"


@dataclass(frozen=True)
class Item:
    """One thing that is asked for.

    Attributes:
        name: What it is.
        place: A sheet, `EVERY_SHEET`, a file with the test that sees it there, or `NOT_YET` or
            `OUT_OF_REACH` and why.
        says: A pattern that the words of the sheet in the example match, "" where there is none.
    """

    name: str
    place: str
    says: str = ""


MUST_HAVE = (
    Item("project address", "G-001", r"ADDRESS 418 Alder Bend"),
    Item("owner", "G-001", r"OWNER R\. and M\. Hadlow"),
    Item("contractor and license", "G-001", r"CONTRACTOR Gullwing .* license PL-20418"),
    Item("scope of work in words", "G-001", r"SCOPE New 20-module roof array"),
    Item("code editions", "G-001", r"CODE BASIS .*RESIDENTIAL IRC 2021 .*ELECTRICAL NEC 2020"),
    Item("power, DC and AC", "G-001", r"8\.04 kW DC, 7\.60 kW AC"),
    Item("number of modules", "G-001", r"20 MODULES"),
    Item("design wind and snow", "G-001", r"WIND 110 mph, exposure B.*SNOW 0 psf"),
    Item("sheet index", "G-001", r"SHEET INDEX G-001 COVER SHEET"),
    Item("lot lines and distances to them", "C-101", r"26'-0\" CLEAR.*PL1  S 80° E  77'-0\""),
    Item("structures and driveway", "C-101", r"EXISTING GARDEN SHED.*DRIVEWAY"),
    Item("street, north, scale", "C-101", r"SCALE: 1/16\" = 1'-0\".*NORTH.*ALDER BEND"),
    Item(
        "meter and equipment in plan", "C-101", r"EQUIPMENT WALL .*M1 UTILITY METER RIGHT 15'-0\""
    ),
    Item("roof planes with pitch", "A-101", r"PLANE PITCH .*FRONT 5:12"),
    Item("azimuth of each plane", "A-101", r"AZIM\. 190 DEG"),
    Item("edges by name", "A-101", r"EAVE .*RAKE .*RIDGE"),
    Item("obstructions", "A-101", r"V1 PLUMBING VENT"),
    Item("every module", "A-101", r"M01 .*M20"),
    Item("pathways and setbacks with dimensions", "A-101", r"CLEAR \S+ ON SLOPE CLEAR"),
    Item("share of the roof covered", "A-101", r"AREA RATIO \S+ % OF 33 %"),
    Item("access point of the fire service", "C-101", r"ROOF ACCESS POINT"),
    Item("junction box and conduit in plan", "E-101", r"JUNCTION BOX.*RACEWAY ON THE ROOF"),
    Item("framing", "S-101", r"LEGEND .*RAFTER"),
    Item("every attachment", "S-101", r"H01 .*H75"),
    Item("spacing of attachments", "S-101", r"UP FROM THE EAVE"),
    Item("wind zones in plan", "S-101", r"ZONE 2r"),
    Item("counts of attachments", "S-101", r"COUNTS "),
    Item("attachment in section with the covering", "S-501", r"CLAY S-TILE"),
    Item("fastener, pilot hole, embedment", "S-501", r"LAG 5/16 in .*PILOT .*RAFTER"),
    Item("flashing and weatherproofing", "S-501", r"WEATHERPROOFING"),
    Item("weight of the array", "S-601", r"DEAD .* PSF"),
    Item("load of an attachment", "S-601", r"ATTACHMENTS OF ARRAY A1, DEMAND / CAPACITY"),
    Item("strings", "E-601", r"\bS1\b.*PV SOURCE CIRCUIT"),
    Item("sizes of conductors and raceways", "not yet: not computed, so open on E-601"),
    Item("overcurrent devices", "E-601", r"40 A, 2P"),
    Item("disconnects", "E-601", r"AC DISCONNECT"),
    Item("grounding", "E-601", r"GROUNDING ELECTRODE"),
    Item("busbar and main", "E-601", r"BUS 200 A, MAIN 200 A"),
    Item("rapid shutdown", "E-601", r"RAPID SHUTDOWN"),
    Item("point of connection", "E-601", r"MAIN SERVICE PANEL"),
    Item("labels: wording and place", "E-701", r"LABEL SCHEDULE .*L1 PV SYSTEM DISCONNECT DISC1"),
    Item("data sheets a job names", f"{_SHEETS}::test_they_follow_the_sheets"),
    Item("which data sheets and listings are missing", "not yet: no check tells"),
    Item("checks before output, as a list", "G-002", r"COMPLIANCE TABLE .*FIRE ACCESS REQUIREMENT"),
    Item("seal and approval boxes", EVERY_SHEET, r"FOR BUILDING DEPARTMENT USE.*SEAL AND"),
    Item("sheet size of the scale", EVERY_SHEET, r"SHEET 11 X 17 IN: SCALES HOLD"),
    Item("one file with bookmarks", f"{_SET}::test_bookmarks_are_the_sheets"),
    Item("true scale in the PDF", f"{_SET}::test_the_roof_is_drawn_to_the_scale_it_states"),
    Item("searchable text in the PDF", f"{_SET}::test_what_a_reviewer_searches_for"),
    Item("true size in the DXF", f"{_SET}::test_the_roof_is_drawn_at_true_size"),
    Item("units of the DXF", "tests/formats/test_dxf_document.py::test_header"),
    Item("layers of the DXF", "tests/formats/test_dxf_document.py::test_layers_carry_the_pens"),
    Item("real dimensions in the DXF", f"{_SET}::test_dimensions_state_what_they_measure"),
)

EXPECTED = (
    Item("a jurisdiction's values with source and date", "G-002", r"Town code \S+ 2024-01-01"),
    Item("engineer's inputs", "S-601", r"SITE CRITERIA"),
    Item("tributary areas", "S-601", r"SQ FT"),
    Item("uplift and point loads beside capacities", "S-601", r"UPLIFT, LB: .*RATIO"),
    Item("section or elevation", "S-501", r"ALONG THE RAFTER"),
    Item("electrical calculations", "E-602", r"MAXIMUM DC VOLTAGE .*FORMULA NUMBERS RESULT"),
    Item("three-line diagram", "not yet: E-601 draws one line"),
    Item("clouds, deltas and a response letter", "not yet: only the revision's number is printed"),
    Item("coordinates for the crew", "S-101", r"HEIGHTS OF ATTACHMENTS, ON SLOPE"),
    Item("cut list of rails", "Z-101", r"CUT LIST, HERON TILE RAIL"),
    Item("bill of materials", "Z-601", r"HERON HOOK .* 75 2 77 EACH"),
    Item("photographs of panel and framing", "out of reach: the surveyor's pictures"),
)
