"""What reviewers look for in a set: each item, its sheet, and the words by which it is seen.

From a survey of 55 published checklists of building departments and of plan review records. What
the survey states as one item is parted where it stands on several sheets.
"""

from dataclasses import dataclass
from typing import Literal

EVERY_SHEET = "every sheet"

Asked = Literal["must have", "expected", "when asked"]
"""By nearly every reviewer, by most, or only where the jurisdiction says so."""

Condition = Literal["", "mounting", "obstructions", "slope", "resubmittal"]
"""What a job must have for an item to be looked for: "" for nothing, "mounting" for attachments
that it designs, "slope" for a roof that is not flat, "resubmittal" for revisions."""


@dataclass(frozen=True, slots=True)
class ContentItem:
    """One thing that reviewers look for.

    Attributes:
        name: What it is, by which a profile asks for it.
        asked: By whom.
        sheet: The sheet it belongs on, or `EVERY_SHEET`.
        says: A pattern that the words of the sheet match where it is shown, in one line.
        when: What the job must have for it to be looked for.
    """

    name: str
    asked: Asked
    sheet: str
    says: str
    when: Condition = ""


CONTENT_ITEMS: tuple[ContentItem, ...] = (
    ContentItem("project address", "must have", "G-001", r"\bADDRESS (?!PARCEL\b)\S"),
    ContentItem("owner", "must have", "G-001", r"\bOWNER (?!ADDRESS\b)\S"),
    ContentItem("contractor and license", "must have", "G-001", r"\bCONTRACTOR \S.* license \S"),
    ContentItem("scope of work in words", "must have", "G-001", r"\bSCOPE (?!OWNER\b)\S"),
    ContentItem(
        "code editions",
        "must have",
        "G-001",
        r"CODE BASIS .*RESIDENTIAL \S.*FIRE \S.*ELECTRICAL NEC \d{4}",
    ),
    ContentItem("power, DC and AC", "must have", "G-001", r"\d kW DC, [\d.]+ kW AC"),
    ContentItem("number of modules", "must have", "G-001", r"\b\d+ MODULES\b"),
    ContentItem(
        "design wind and snow",
        "must have",
        "G-001",
        r"WIND \d+ mph, exposure [BCD].*SNOW [\d.]+ psf",
    ),
    ContentItem("sheet index", "must have", "G-001", r"SHEET INDEX G-001 COVER SHEET"),
    ContentItem(
        "lot lines and distances to them",
        "must have",
        "C-101",
        r"\bCLEAR\b.*\bPL1 +[NS] \d|\bPL1 +[NS] \d.*\bCLEAR\b",
    ),
    ContentItem(
        "structures and driveway",
        "must have",
        "C-101",
        r"\b(DWELLING|BUILDING|HOUSE)\b",
    ),
    ContentItem("street, north, scale", "must have", "C-101", r"\bSCALE: .*\bNORTH\b"),
    ContentItem("meter and equipment in plan", "must have", "C-101", r"EQUIPMENT WALL .*METER\b"),
    ContentItem(
        "access point of the fire service",
        "must have",
        "C-101",
        r"ROOF ACCESS POINT|FIRE SERVICE WALK",
    ),
    ContentItem(
        "roof planes with pitch", "must have", "A-101", r"PLANE (PITCH|SLOPE) .*[\d.]+:12\b"
    ),
    ContentItem(
        "azimuth of each plane", "must have", "A-101", r"\bAZIM\. [\d.]+ DEG|[\d.]+:12, AZIM\. \d"
    ),
    ContentItem(
        "edges by name",
        "must have",
        "A-101",
        r"\bEAVE\b.*\bRAKE\b|\bEAVE\b.*\bHIP\b|\bRIDGE\b",
        "slope",
    ),
    ContentItem(
        "obstructions", "must have", "A-101", r"OBSTRUCTIONS TAG OBSTRUCTION", "obstructions"
    ),
    ContentItem("every module", "must have", "A-101", r"\bM0*1\b"),
    ContentItem(
        "pathways and setbacks with dimensions", "must have", "A-101", r"\bCLEAR\b.*\b(CLEAR|MIN\.)"
    ),
    ContentItem("share of the roof covered", "must have", "A-101", r"AREA RATIO [\d.]+ %"),
    ContentItem("framing", "must have", "S-101", r"LEGEND .*\b(RAFTER|TRUSS)", "mounting"),
    ContentItem(
        "every attachment", "must have", "S-101", r"RAILS AND ATTACHMENTS, ARRAY", "mounting"
    ),
    ContentItem(
        "spacing of attachments",
        "must have",
        "S-101",
        r"UP FROM THE EAVE|\bO\.C\.|ALONG",
        "mounting",
    ),
    ContentItem("wind zones in plan", "must have", "S-101", r"\bZONE [1-3]", "mounting"),
    ContentItem("counts of attachments", "must have", "S-101", r"COUNTS ARRAY", "mounting"),
    ContentItem(
        "attachment in section with the covering",
        "must have",
        "S-501",
        r"\bSHEATHING\b",
        "mounting",
    ),
    ContentItem(
        "fastener, pilot hole, embedment",
        "must have",
        "S-501",
        r"\bLAG .*\bPILOT .*\bRAFTER",
        "mounting",
    ),
    ContentItem(
        "flashing and weatherproofing", "must have", "S-501", r"\bWEATHERPROOFING\b", "mounting"
    ),
    ContentItem("weight of the array", "must have", "S-601", r"\bDEAD .* PSF", "mounting"),
    ContentItem(
        "load of an attachment",
        "must have",
        "S-601",
        r"ATTACHMENTS OF ARRAY \S+, DEMAND",
        "mounting",
    ),
    ContentItem("junction box and conduit in plan", "must have", "E-101", r"RACEWAYS, CONDUCTORS"),
    ContentItem(
        "strings", "must have", "E-601", r"\b(PV SOURCE|CONVERTER) CIRCUIT|\bMICROINVERTER BRANCH"
    ),
    ContentItem(
        "sizes of conductors and raceways", "must have", "E-601", r"CONDUCTOR SCHEDULE .*\d CU\b"
    ),
    ContentItem("overcurrent devices", "must have", "E-601", r"\b\d+ A, [23]P\b"),
    ContentItem("disconnects", "must have", "E-601", r"\bDISCONNECT\b"),
    ContentItem("grounding", "must have", "E-601", r"GROUNDING PATH"),
    ContentItem("busbar and main", "must have", "E-601", r"\bBUS \d+ A, MAIN \d+ A"),
    ContentItem("rapid shutdown", "must have", "E-601", r"RAPID SHUTDOWN"),
    ContentItem("point of connection", "must have", "E-601", r"POINT OF CONNECTION"),
    ContentItem("labels: wording and place", "must have", "E-701", r"LABEL SCHEDULE KEY .*\bL1\b"),
    ContentItem(
        "checks before output, as a list", "must have", "G-002", r"COMPLIANCE TABLE .*REQUIREMENT"
    ),
    ContentItem(
        "seal and approval boxes",
        "must have",
        EVERY_SHEET,
        r"FOR BUILDING DEPARTMENT USE.*SEAL AND",
    ),
    ContentItem(
        "sheet size of the scale", "must have", EVERY_SHEET, r"SHEET \d+ X \d+ IN: SCALES HOLD"
    ),
    ContentItem(
        "a jurisdiction's values with source and date", "expected", "G-002", r"\d{4}-\d{2}-\d{2}"
    ),
    ContentItem("engineer's inputs", "expected", "S-601", r"SITE CRITERIA"),
    ContentItem("tributary areas", "expected", "S-601", r"\bSQ FT\b", "mounting"),
    ContentItem(
        "uplift and point loads beside capacities",
        "expected",
        "S-601",
        r"\bUPLIFT\b.*\bRATIO\b",
        "mounting",
    ),
    ContentItem(
        "section or elevation",
        "expected",
        "S-501",
        r"ALONG THE (RAFTER|SLOPE|RAIL)|ACROSS THE SLOPE",
        "mounting",
    ),
    ContentItem("electrical calculations", "expected", "E-602", r"VALUE FORMULA NUMBERS RESULT"),
    ContentItem("three-line diagram", "when asked", "E-601", r"THREE-LINE DIAGRAM"),
    ContentItem("parcel number", "when asked", "G-001", r"\bPARCEL (?!CONTRACTOR\b)\S"),
    ContentItem("serving utility", "when asked", "G-001", r"\bUTILITY (?!CODE\b)\S"),
    ContentItem(
        "occupancy and construction type", "when asked", "G-001", r"\bBUILDING \S+, type \S+"
    ),
    ContentItem("legend of symbols", "when asked", "G-001", r"\bSYMBOLS\b"),
    ContentItem("roof layers", "when asked", "G-001", r"\bROOF [^|]*\b\d layers?\b"),
    ContentItem("revision block", "when asked", "G-001", r"\bREVISIONS NO\.", "resubmittal"),
    ContentItem(
        "answers to corrections", "when asked", "G-002", r"ANSWERS TO CORRECTIONS", "resubmittal"
    ),
)
