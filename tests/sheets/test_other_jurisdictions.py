"""The examples under other jurisdictions: their sheets speak of the editions adopted there."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
import shapely

from planset.design.electrical.topology import Kind
from planset.drawing.flatten import text_corners
from planset.drawing.page import Page
from planset.drawing.primitives import Line, Polyline, Text
from planset.drawing.text import text_width
from planset.finding import Outcome
from planset.formats.dxf_read import read_title_block
from planset.resources import drawings_folder
from planset.sheets.note_table import LINE_LAYER
from planset.sheets.plan_walls import below_outline
from planset.sheets.set import build_set
from tests.example_job import EXAMPLE, HIP, hip_by_others
from tests.sheets.drawn_sets import EXAMPLES, Made, made_of, symbols

GABLE = EXAMPLE


@cache
def made(job: Path, jurisdiction: str) -> Made:
    """The set of an example under a jurisdiction that is not its own."""
    lines = job.read_text(encoding="utf-8").splitlines()
    changed = [
        f"jurisdiction: {jurisdiction}" if line.startswith("jurisdiction:") else line
        for line in lines
    ]
    with TemporaryDirectory() as folder:
        other = Path(folder) / "job.yaml"
        other.write_text("\n".join(changed), encoding="utf-8")
        return made_of(other)


def words(job: Path, jurisdiction: str, sheet: str) -> str:
    """What stands on a sheet and on what runs over from it, without spaces."""
    whole = made(job, jurisdiction)
    lines = [line for page in whole.pages(sheet) for line in whole.lines(page.sheet)]
    return "".join("".join(lines).split())


@pytest.mark.parametrize(
    ("jurisdiction", "topography"),
    [("alder-falls", "ASCE 7-10 26.8"), ("alta-rosa", "ASCE 7-22 26.8")],
)
def test_assumptions_cite_the_adopted_edition(jurisdiction: str, topography: str) -> None:
    """Kzt stands in 26.8 of ASCE 7-10, 7-16 and 7-22 [from memory]."""
    bases = [item.basis for item in made(GABLE, jurisdiction).design.assumptions]
    assert topography in bases
    assert not [basis for basis in bases if "7-16" in basis or "NDS 2018" in basis]


def test_no_load_is_assumed_where_none_is_computed() -> None:
    assumed = made(GABLE, "alder-falls").design.assumptions
    assert made(GABLE, "alder-falls").design.loads.reason
    assert not [item for item in assumed if "Uplift" in item.text]


def test_the_detail_cites_withdrawal_as_the_rule_does() -> None:
    """NDS 2012 has withdrawal in 11.2.1, before a chapter came in between [from memory]."""
    sheet = words(GABLE, "alder-falls", "S-501")
    assert "NDS201211.2.1:" in sheet
    assert "12.2.1" not in sheet


def test_every_open_matter_names_what_is_open() -> None:
    found = made(GABLE, "alder-falls").findings
    open_matters = [finding for finding in found if finding.outcome is Outcome.OPEN]
    not_judged = [finding for finding in open_matters if "not judged" in finding.message]
    assert not_judged
    assert all(finding.message.startswith(finding.title) for finding in not_judged)


def test_the_plan_says_why_it_shows_no_pathways() -> None:
    """By the local text that frees small arrays (WAC 51-54A-1204)."""
    whole = made(GABLE, "sound-harbor")
    assert whole.design.access_areas == ()
    sheet = words(GABLE, "sound-harbor", "A-101")
    assert "NOPATHWAYSORSETBACKSREQUIRED" in sheet
    assert "Statefirecode1204.2.1" in sheet
    assert "NOPATHWAYSORSETBACKSREQUIRED" not in words(GABLE, "quarry-bend", "A-101")


def test_the_legend_stays_beside_the_plan() -> None:
    """Though not all tables do: the list of checks runs over."""
    whole = made(HIP, "timber-gap")
    plan, *following = whole.pages("A-101")
    assert following
    assert "LEGEND" in whole.lines(plan.sheet)
    assert "FIRE ACCESS" in [line for page in following for line in whole.lines(page.sheet)]


def test_the_ratio_on_the_plan_is_the_one_the_setback_is_judged_by() -> None:
    """Fort Calder holds arrays against their own plane: 393.2 of half of 1496.0 sq ft."""
    whole = made(GABLE, "fort-calder")
    sheet = words(GABLE, "fort-calder", "A-101")
    assert "RATIO,FRONT52.6%OF33%" in sheet
    assert "AREARATIO" not in sheet
    assert [item for item in whole.design.assumptions if "over their own plane" in item.text]


def test_the_words_of_a_setback_stand_off_an_opening_below_it() -> None:
    """A setback along the eave runs over the wall, where the opening has its own name."""
    small = made(HIP, "fort-calder")
    design = small.design
    large = read_title_block(drawings_folder("titleblocks") / "strip-18x24.dxf")
    drawing = build_set(design, small.findings, symbols(), large, preliminary=True)
    whole = Made(design, small.findings, drawing)
    (view,) = whole.page("A-101").views
    openings = design.inputs.job.building.openings_below_eaves or ()
    setbacks = [text for text in whole.annotated("A-101") if text.text.startswith("EDGE SETBACK")]
    assert openings
    assert setbacks
    for item in openings:
        corners = map(view.on_paper.apply, below_outline(design, item))
        opening = shapely.Polygon(list(corners))
        for text in setbacks:
            words = shapely.Polygon(text_corners(text))
            assert opening.disjoint(words), (item.kind, text.text)


@pytest.mark.parametrize(
    ("job", "jurisdiction", "cited"),
    [
        (GABLE, "sound-harbor", "ASCE 7-16 Figure 30.3-2C"),  # 5:12 is 22.6 deg
        (GABLE, "alta-rosa", "ASCE 7-22 Figure 30.3-2C"),
        (HIP, "sound-harbor", "ASCE 7-16 Figure 30.3-2G"),  # 6:12 is 26.6 deg
        (HIP, "mesa-alta", "ASCE 7-22 Figure 30.3-2F"),
    ],
)
def test_criteria_cite_the_figure_of_the_roof_and_the_clause_of_kz(
    job: Path, jurisdiction: str, cited: str
) -> None:
    """Figures of gables and hips from 20 to 27 deg, and 26.10.1 for Kz [from memory]."""
    sheet = words(job, jurisdiction, "S-601")
    edition = cited.partition(" Figure")[0]
    assert cited.replace(" ", "") in sheet
    assert f"{edition} 26.10.1".replace(" ", "") in sheet
    assert "Figure30.3-2B" not in sheet


@pytest.mark.parametrize(
    ("jurisdiction", "level"),
    [
        ("mesa-alta", "at strength level, without unbalanced snow"),
        ("sound-harbor", "at allowable stress level, unbalanced snow (ASCE 7-16 7.6.1)"),
    ],
)
def test_notes_say_only_what_the_load_tables_show(jurisdiction: str, level: str) -> None:
    """Snow of ASCE 7-22 is at strength level, of 7-16 not (7.2 of both, [from memory])."""
    with TemporaryDirectory() as folder:
        by_others = words(hip_by_others(Path(folder)), jurisdiction, "S-601")
    mounted = words(GABLE, jurisdiction, "S-601")
    for of_demand in ("allowablestressdesign(ASD)", "lagscrewsarelisted", "missedorsplitrafter"):
        assert of_demand in mounted
        assert of_demand not in by_others
    assert level.replace(" ", "") in by_others


def test_no_row_of_a_span_table_is_marked_where_the_table_does_not_hold() -> None:
    """The maker's table is for ASCE 7-16."""
    other, own = words(GABLE, "mesa-alta", "S-601"), words(GABLE, "port-larkin", "S-601")
    assert "15OF15RAILS" in other
    assert "USED" not in other
    assert "15OF15RAILS" not in own
    assert "USED" in own


def test_a_branch_that_finds_fewer_modules_is_drawn_with_those() -> None:
    """Under fort-calder's setbacks array A1 holds fewer modules than its branches ask for."""
    design = made(HIP, "fort-calder").design
    electrical = design.electrical
    asked = [branch.modules for branch in design.inputs.job.electrical.branches]
    found = [len(branch.modules) for branch in electrical.branches]
    assert found != asked
    drawn = electrical.topology.of_kind(Kind.MICROINVERTERS)
    assert [item.count for item in drawn] == found
    assert [item.ratings[0] for item in drawn] == [f"({count}) MQ-350, 350 W" for count in found]


def test_the_screening_list_is_named_by_its_document() -> None:
    cover = words(GABLE, "timber-gap", "G-001")
    assert "OfthelistinPrescriptivechecklist:met(" in cover
    assert "oregon" not in cover


@pytest.mark.parametrize("sheet", ["S-501", "S-601", "E-601"])
@pytest.mark.parametrize("jurisdiction", ["alder-falls", "port-larkin"])
def test_words_centered_in_a_cell_stand_off_its_sides(jurisdiction: str, sheet: str) -> None:
    whole, cells = made(GABLE, jurisdiction), 0
    for page in whole.pages(sheet):
        sides = list(upright_lines(page))
        for text in (part for part in page.paper if isinstance(part, Text)):
            x, y = text.at
            beside = [at for at, low, high in sides if low < y < high]
            left, right = [at for at in beside if at < x], [at for at in beside if at > x]
            if text.align != "center" or not left or not right:
                continue
            cells += 1
            free = min(x - max(left), min(right) - x) - text_width(text.text, text.height) / 2
            assert free > 0.04, (page.sheet, text.text)
    assert cells


def upright_lines(page: Page) -> Iterator[tuple[float, float, float]]:
    """Where lines of tables stand on a page, and from where to where they run."""
    for part in page.paper:
        if isinstance(part, Line | Polyline) and part.layer == LINE_LAYER:
            ends = (part.a, part.b) if isinstance(part, Line) else part.points
            for a, b in pairwise((*ends, ends[0])):
                if a[0] == b[0]:
                    yield a[0], min(a[1], b[1]), max(a[1], b[1])


def test_words_at_match_lines_leave_every_module_its_tag() -> None:
    """Part 1 of the plan ends at the lower edge of an array, where words have no room inside."""
    made_there = made(EXAMPLES / "flat-commercial" / "job.yaml", "sound-harbor")
    lines = [line for page in made_there.pages("E-101") for line in made_there.lines(page.sheet)]
    assert len([line for line in lines if line.startswith("MATCH LINE, SEE E-101")]) == 8
    assert [line for line in lines if line.startswith(("NOT NAMED", "MODULE S"))] == []
