"""Reading a good job: values, units, lines, catalog entries."""

import datetime
from pathlib import Path
from typing import Any

import pytest
from pydantic import ValidationError

from planset.catalog.validate import validate
from planset.errors import JobErrors
from planset.job.job import Job
from planset.job.load import Inputs, read_job
from planset.source import Location, SourceDocument, read_yaml

GOOD_JOB = Path(__file__).parents[1] / "bad_jobs" / "good.yaml"
EXAMPLE = Path(__file__).parents[2] / "examples" / "tile-gable" / "job.yaml"


@pytest.fixture(scope="module")
def inputs() -> Inputs:
    return read_job(GOOD_JOB)


def edited(folder: Path, *edits: tuple[str, str]) -> Path:
    text = GOOD_JOB.read_text(encoding="utf-8")
    for old, new in edits:
        assert text.count(old) == 1
        text = text.replace(old, new)
    path = folder / "job.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def test_the_example_can_be_used() -> None:
    assert read_job(EXAMPLE).modules


def test_values_are_in_the_units_of_the_program(inputs: Inputs) -> None:
    job = inputs.job
    assert job.roof.ridge_length == 528
    assert job.roof.pitch == pytest.approx(5 / 12)
    assert job.roof.covering.rise == 2.75
    assert job.site.wind_speed == 110
    assert job.site.elevation == 7680
    # (25 - 32) 5/9 and (97 - 32) 5/9
    assert job.site.lowest_ambient == pytest.approx(-35 / 9)
    assert job.site.high_ambient == pytest.approx(325 / 9)
    assert job.arrays[0].corner.along == 57.5
    assert job.arrays[0].module_count == 20
    assert job.electrical.service.bus == 200
    assert job.project.issued == datetime.date(2026, 11, 25)
    assert job.building.escape_openings_onto_roof == ()


def test_rafter_size_comes_from_the_lumber_table(inputs: Inputs) -> None:
    # 2x6 dressed, NDS Supplement Table 1B
    assert inputs.job.framing.member_width_in == 1.5
    assert inputs.job.framing.member_depth_in == 5.5


def test_catalog_entries_by_the_names_of_the_job(inputs: Inputs) -> None:
    assert list(inputs.modules) == ["tr-402"]
    assert inputs.modules["tr-402"].width == 67.8
    assert inputs.mountings["heron-tile"].attachment.lags.diameter == 0.3125
    assert inputs.inverters["oe-76"].inputs == 2
    assert inputs.shutdown is not None
    assert inputs.jurisdiction.codes.fire.edition == 2021


def test_lines_are_those_of_the_file(inputs: Inputs) -> None:
    lines = GOOD_JOB.read_text(encoding="utf-8").splitlines()
    assert "corner:" in lines[inputs.line_of("arrays", 0, "corner", "up") - 1]
    assert "wind_speed" in lines[inputs.line_of("site", "wind_speed") - 1]
    assert lines[inputs.line_of("electrical", "absent") - 1] == "electrical:"


def test_nothing_can_be_changed(inputs: Inputs) -> None:
    with pytest.raises(ValidationError):
        inputs.job.roof.pitch = 1.0
    with pytest.raises(TypeError):
        inputs.modules["other"] = inputs.modules["tr-402"]  # type: ignore[index]


@pytest.mark.parametrize(
    ("units", "bare", "inches"), [("in", "7", 7), ("ft", "2", 24), ("mm", "254", 10)]
)
def test_bare_numbers_are_in_the_declared_units(
    tmp_path: Path, units: str, bare: str, inches: float
) -> None:
    path = edited(
        tmp_path,
        ("units: in ", f"units: {units} "),
        ("first_attachment: 7 in", f"first_attachment: {bare}"),
    )
    read = read_job(path)
    assert read.job.arrays[0].mounting.first_attachment == pytest.approx(inches)
    # catalog files keep to the inch whatever the job declares
    assert read.inverters["oe-76"].inputs == 2
    assert read.modules["tr-402"].width == 67.8


def test_escape_openings_may_be_listed(tmp_path: Path) -> None:
    path = edited(
        tmp_path,
        (
            "escape_openings_onto_roof: none",
            "escape_openings_onto_roof: [{plane: front, along: 9 ft, up: 4 ft, width: 3 ft}]",
        ),
    )
    (opening,) = read_job(path).job.building.escape_openings_onto_roof
    assert (opening.plane, opening.along, opening.width) == ("front", 108, 36)


@pytest.mark.parametrize("stated", ["  shutdown: null\n", ""])
def test_rapid_shutdown_may_be_left_to_a_rule(tmp_path: Path, stated: str) -> None:
    path = edited(
        tmp_path,
        ("  shutdown: rs-1                # module-level devices\n", stated),
        ("  initiator: pv_disconnect      # what the fire service operates\n", ""),
    )
    read = read_job(path)
    assert read.shutdown is None
    assert read.job.electrical.initiator is None


def test_obstructions_may_be_none_but_must_be_stated(tmp_path: Path) -> None:
    text = GOOD_JOB.read_text(encoding="utf-8")
    start, end = text.index("obstructions:\n"), text.index("arrays:\n")
    path = tmp_path / "job.yaml"
    path.write_text(text[:start] + "obstructions: []\n" + text[end:], encoding="utf-8")
    assert read_job(path).job.obstructions == ()
    path.write_text(text[:start] + text[end:], encoding="utf-8")
    with pytest.raises(JobErrors, match="obstructions: missing; add `obstructions:`"):
        read_job(path)


def test_a_firms_own_catalog_comes_first_and_its_errors_are_told_with_the_jobs(
    tmp_path: Path,
) -> None:
    own = tmp_path / "catalog" / "inverters"
    own.mkdir(parents=True)
    (own / "oe-76.yaml").write_text("kind: string_inverter\nmodel: Own\n")
    path = edited(tmp_path, ("wind_speed: 110 mph", "wind_speed: fast"))
    with pytest.raises(JobErrors) as caught:
        read_job(path)
    files = {Path(problem.file).name for problem in caught.value.problems}
    assert files == {"job.yaml", "oe-76.yaml"}
    assert "oe-76.yaml:1: maker: missing; add `maker:` with its value" in str(caught.value)


def test_a_mounting_must_suit_the_covering(tmp_path: Path) -> None:
    packaged = Path("planset/catalog/data/mounting/heron-tile.yaml")
    text = (Path(__file__).parents[2] / packaged).read_text(encoding="utf-8")
    own = tmp_path / "catalog" / "mounting"
    own.mkdir(parents=True)
    (own / "heron-tile.yaml").write_text(
        text.replace("suits: [curved_tile]", "suits: [flat_tile, asphalt_shingle]")
    )
    with pytest.raises(JobErrors) as caught:
        read_job(edited(tmp_path))
    assert str(caught.value).removeprefix(f"{tmp_path}/") == (
        "job.yaml:108: arrays.A1.mounting.system: Heron tile rail does not suit curved_tile, "
        "only flat_tile, asphalt_shingle; choose a system whose attachment suits the covering"
    )


def test_errors_of_every_kind_are_reported_together(tmp_path: Path) -> None:
    path = edited(
        tmp_path,
        ("parcel: 07-118-042", "parcel: 0711"),  # a trap of YAML
        ("exposure: B\n", "exposure: A\n"),  # an unknown word
        ("pitch: 5:12", "pitch: steep"),  # a value of no form
        ("gap: 1/2 in", "gap: 1/2 in\n    tilt: 5"),  # an unknown field
        ("module: tr-402", "module: tr-999"),  # a name not in the catalog
        ("id: SK1", "id: V1"),  # two sections that disagree
    )
    with pytest.raises(JobErrors) as caught:
        read_job(path)
    told = "\n".join(problem.field for problem in caught.value.problems)
    for field in ("project.parcel", "site.exposure", "roof.pitch", "arrays.A1.tilt"):
        assert field in told
    assert "obstructions.V1.id" in told
    assert caught.value.exit_code == 2


def test_a_file_that_is_no_job_is_told_once(tmp_path: Path) -> None:
    with pytest.raises(JobErrors) as caught:
        read_job(tmp_path / "absent.yaml")
    assert len(caught.value.problems) == 1


def every_location(value: Any, location: Location = ()) -> list[Location]:
    items: list[tuple[str | int, Any]] = []
    if isinstance(value, dict):
        items = list(value.items())
    elif isinstance(value, list):
        items = list(enumerate(value))
    below = [place for key, item in items for place in every_location(item, (*location, key))]
    return [location, *below] if location else below


def replaced(value: Any, location: Location, new: Any) -> Any:
    if not location:
        return new
    copy = value.copy()
    copy[location[0]] = replaced(value[location[0]], location[1:], new)
    return copy


@pytest.mark.parametrize("new", [None, True, -3, 4.5, 1e9, "x", "", [], {}, [[]], {"x": 1}])
def test_any_value_in_any_place_is_taken_or_refused_in_our_own_words(new: Any) -> None:
    good = read_yaml(GOOD_JOB)
    for location in every_location(good.data):
        document = SourceDocument("job.yaml", replaced(good.data, location, new), good.lines)
        job, problems = validate(Job, document, {"units": "in"})
        assert (job is None) == bool(problems)
        for problem in problems:
            assert problem.line is not None
            assert problem.mend not in {"", "correct it"}, problem
            assert "Input should" not in str(problem)


# --- what loads depend on ------------------------------------------------------------------


def test_one_list_of_supports_stands_for_every_plane(inputs: Inputs) -> None:
    assert inputs.framing.supports_on("front") == (18, 111, 204)
    assert inputs.framing.supports_on("back") == (18, 111, 204)


def test_supports_by_plane_are_those_of_the_plane(tmp_path: Path) -> None:
    by_plane = "supports: {front: [18 in, 17 ft]}"
    job = edited(tmp_path, ("supports: [18 in, 111 in, 204 in]", by_plane))
    framing = read_job(job).framing
    assert framing.supports_on("front") == (18, 204)
    assert framing.supports_on("back") is None


def test_a_truss_has_no_supports(tmp_path: Path) -> None:
    edits = (("kind: rafter", "kind: truss"), ("  supports: [18 in, 111 in, 204 in]", "  #"))
    framing = read_job(edited(tmp_path, *edits)).framing
    assert (framing.kind, framing.supports_on("front")) == ("truss", None)


def test_snow_is_read_with_what_it_depends_on(tmp_path: Path) -> None:
    conditions = "snow: {roof_exposure: partially, thermal: heated, slides_clear: false}"
    job = edited(tmp_path, ("ground_snow: 0 psf", f"ground_snow: 1.2 kPa\n  {conditions}"))
    site = read_job(job).job.site
    assert site.ground_snow == pytest.approx(25.06, abs=0.01)  # 1 kPa is 20.885 psf
    assert site.snow is not None
    assert (site.snow.thermal, site.snow.winter_wind) == ("heated", None)


def test_without_an_engineer_nothing_is_decided(inputs: Inputs) -> None:
    assert inputs.job.engineering is None


def test_what_an_engineer_leaves_out_stays_safe(tmp_path: Path) -> None:
    edit = ("obstructions:\n", "engineering: {by: A. Engineer}\n\nobstructions:\n")
    engineering = read_job(edited(tmp_path, edit)).job.engineering
    assert engineering is not None
    assert (engineering.edge_factor, engineering.point_load_share) == ("every_attachment", 1)


def test_of_a_species_nobody_knows_the_weakest_is_taken(tmp_path: Path) -> None:
    edit = ("species: douglas-fir-larch", "species: unknown")
    framing = read_job(edited(tmp_path, edit)).framing
    assert (framing.species, framing.wood) == ("unknown", "spruce-pine-fir-south")
