"""A job to begin with, and the schema by which an editor checks it."""

from __future__ import annotations

import itertools
import json
import re
from functools import cache, reduce
from operator import getitem
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from pydantic import ValidationError, create_model

from planset.catalog.fields import StrictModel
from planset.cli import main
from planset.finding import Outcome
from planset.job.job import Job
from planset.job.schema import SCHEMA_FILE, STARTER, job_schema
from planset.output.starter import JOB_FILE
from planset.pipeline import Status, draw
from planset.source import read_yaml
from planset.units import parse_length, parse_pitch, parse_speed_mph, parse_temperature_c
from tests.example_job import edited

ROOT = Path(__file__).parents[1]
GOOD_JOB = ROOT / "tests" / "bad_jobs" / "good.yaml"
SCHEMA = job_schema()
VALIDATOR = Draft202012Validator(SCHEMA)
Place = tuple[str | int, ...]


def run(*arguments: str | Path) -> int | str | None:
    with pytest.raises(SystemExit) as ended:
        main([str(argument) for argument in arguments])
    return ended.value.code


# --- new -----------------------------------------------------------------------------------


def test_it_draws_as_it_stands_and_nothing_fails(tmp_path: Path) -> None:
    folder = tmp_path / "some" / "where"
    assert run("new", folder) == 0
    assert {path.name for path in folder.iterdir()} == {JOB_FILE, SCHEMA_FILE}
    drawn = draw(folder / JOB_FILE, folder / "out")
    assert drawn.status is not Status.REFUSED
    assert Outcome.FAIL not in {finding.outcome for finding in drawn.checked.findings}


def test_its_first_line_leads_an_editor_to_the_schema_beside_it(tmp_path: Path) -> None:
    run("new", tmp_path)
    first, *_ = (tmp_path / JOB_FILE).read_text(encoding="utf-8").splitlines()
    named = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)
    assert named is not None
    assert json.loads((tmp_path / named[1]).read_text(encoding="utf-8")) == SCHEMA


@pytest.mark.parametrize("there", [JOB_FILE, SCHEMA_FILE])
def test_nothing_is_overwritten(
    there: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / there).write_text("mine", encoding="utf-8")
    assert run("new", tmp_path) == 3
    assert capsys.readouterr().err == (
        f"{tmp_path / there} is there already; name another folder, or move it away\n"
    )
    assert [path.read_text(encoding="utf-8") for path in tmp_path.iterdir()] == ["mine"]


def test_a_link_to_nowhere_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / JOB_FILE).symlink_to(tmp_path / "elsewhere.yaml")
    assert run("new", tmp_path) == 3
    assert not (tmp_path / "elsewhere.yaml").exists()


def test_a_file_where_the_folder_should_be(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    assert run("new", tmp_path / "file") == 3
    assert capsys.readouterr().err.startswith(f"cannot begin a job in {tmp_path / 'file'}: ")


# --- schema --------------------------------------------------------------------------------


def good_jobs() -> list[Path]:
    examples = sorted((ROOT / "examples").glob("*/job.yaml"))
    cases = sorted((ROOT / "tests" / "rules" / "base").glob("*.yaml"))
    return [*examples, *cases, GOOD_JOB, STARTER]


def faults(data: Any) -> list[str]:
    return [error.json_path for error in VALIDATOR.iter_errors(data)]


@pytest.mark.parametrize("job", good_jobs(), ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_the_schema_accepts_every_good_job(job: Path) -> None:
    assert faults(read_yaml(job).data) == []


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(SCHEMA)


def test_the_command_prints_it(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert run("schema") == 0
    assert json.loads(capsys.readouterr().out) == SCHEMA
    assert run("schema", "-o", tmp_path / "s.json") == 0
    assert json.loads((tmp_path / "s.json").read_text(encoding="utf-8")) == SCHEMA
    assert run("schema", "-o", tmp_path / "no" / "s.json") == 3


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        ("exposure: B", "exposure: A", "$.site.exposure"),
        ("exposure: B", "exposre: B", "$.site"),
        ("sprinklered: false", "sprinklered: no", "$.building.sprinklered"),
        ("planset: 1 ", "planset: 2 ", "$.planset"),
        ("units: in ", "units: yard ", "$.units"),
        ("pitch: 5:12", "pitch: 5", "$.roof"),
        ("rows: 4", "rows: 0", "$.arrays[0].rows"),
        ("rows: 4", "rows: four", "$.arrays[0].rows"),
        ("front_azimuth: 190", "front_azimuth: 400", "$.roof"),
        ("wind_speed: 110 mph", "wind_speed: 110", "$.site.wind_speed"),
        ("lowest_ambient: 25 F", "lowest_ambient: 25 K", "$.site.lowest_ambient"),
        ("rating: 60 A", "rating: 60 V", "$.electrical.disconnect.rating"),
        ("gap: 1/2 in", "gap: half an inch", "$.arrays[0].gap"),
        ("street_sides: [front]", "street_sides: []", "$.site.street_sides"),
        ("street_sides: [front]", "street_sides: front", "$.site.street_sides"),
        ("number: 2026-014", "number: 2026", "$.project.number"),
        ('issued: "2026-11-25"', 'issued: "Nov 25"', "$.project.issued"),
        ("module: tr-402", "module: ../tr-402", "$.arrays[0].module"),
        ("id: A1", "id: the first array", "$.arrays[0].id"),
        ("phases: 1", "phases: 2", "$.electrical.service.phases"),
        ("title_block: strip-11x17", "# none", "$.drafting"),
        ("onto_roof: none", "onto_roof: no", "$.building.escape_openings_onto_roof"),
    ],
)  # fmt: skip
def test_the_schema_refuses_what_is_broken(old: str, new: str, where: str, tmp_path: Path) -> None:
    assert set(faults(read_yaml(edited(tmp_path, (old, new))).data)) == {where}


def places(value: Any, above: Place = ()) -> list[Place]:
    inside = (
        value.items()
        if isinstance(value, dict)
        else enumerate(value)
        if isinstance(value, list)
        else ()
    )
    below = [place for key, item in inside for place in places(item, (*above, key))]
    return [above, *below] if above else below


def with_value(data: Any, place: Place, value: Any) -> Any:
    if not place:
        return value
    copy = data.copy()
    copy[place[0]] = with_value(data[place[0]], place[1:], value)
    return copy


VALUES = (
    None, True, -3, 0, 1, 4.5, 190, 1e9, "x", "", [], {}, "none", "12'-6 1/2\"", "1.7 m", "3/4",
    " 5 : 12 ", "22.6 deg", "110  mph", "−4 °C", "20 psf", "60 A", "240 V", "2026-12-01", "A1",
    "tr-402", "front", "landscape", ["front"], ["G-001"],
)  # fmt: skip


def sections_held() -> list[str]:
    """The sections that good jobs hold, told by the keys at the left edge of their files."""
    keys = (re.findall(r"(?m)^(\w+):", job.read_text(encoding="utf-8")) for job in good_jobs())
    return list(dict.fromkeys(itertools.chain.from_iterable(keys)))


BY_SECTION = pytest.mark.parametrize("section", sections_held())


@BY_SECTION
def test_what_the_reader_accepts_the_schema_accepts(section: str) -> None:
    """Each place with every fourth value, from another one on than the place before."""
    accepts_alike(section, every=4)


@pytest.mark.long
@BY_SECTION
def test_all_that_the_reader_accepts_the_schema_accepts(section: str) -> None:
    accepts_alike(section, every=1)


def accepts_alike(section: str, every: int) -> None:
    """Change a section as good jobs hold it, place by place; what is alike in two of them once."""
    info = Job.model_fields[section]
    reader = create_model("Alone", __base__=StrictModel, **{section: (info.annotation, info)})
    found = [(job["units"], job[section]) for job in documents() if section in job]
    unlike = [one for number, one in enumerate(found) if one not in found[:number]]
    accepted = 0
    for number, (units, data) in enumerate(unlike):
        for n, place in enumerate([(), *places(data)], number):
            part, asked = asked_about((section, *place))
            for value in VALUES[n % every :: every]:
                changed = with_value(data, place, value)
                try:
                    reader.model_validate({section: changed}, context={"units": units})
                except ValidationError:
                    continue
                accepted += 1
                assert asked.is_valid(reduce(getitem, part[1:], changed)), (place, value)
    assert accepted or section == "units"  # none of the values is one


@cache
def documents() -> list[Any]:
    return [read_yaml(job).data for job in good_jobs()]


@cache
def asked_about(place: Place) -> tuple[Place, Draft202012Validator]:
    """The innermost part of a job that has all the schema asks when a place in it changes."""
    schema: Any = SCHEMA
    for depth, step in enumerate(place):
        within = group_or_list(schema)
        if within is None:
            return place[:depth], VALIDATOR.evolve(schema=schema)
        schema = within["properties"][step] if "properties" in within else within["items"]
    return place, VALIDATOR.evolve(schema=schema)


def group_or_list(schema: Any) -> Any:
    """What is asked of a group's fields or a list's entries, None where they hang together."""
    while choice := schema.keys() & {"$ref", "anyOf"}:
        if schema.keys() - choice - REMARKS:
            return None
        options = [one for one in schema.get("anyOf", [schema]) if one != {"type": "null"}]
        if len(options) > 1:
            return None
        (schema,) = options
        schema = SCHEMA["$defs"][schema["$ref"].rpartition("/")[2]] if "$ref" in schema else schema
    apart = schema.keys() - REMARKS <= EACH_BY_ITSELF
    return schema if apart and schema.keys() & {"properties", "items"} else None


REMARKS = {"$schema", "$defs", "title", "description", "default", "examples"}
EACH_BY_ITSELF = {
    "type", "properties", "required", "additionalProperties", "items", "minItems", "maxItems",
}  # fmt: skip


def test_the_schema_asks_each_field_by_itself() -> None:
    """Where it does not, as where one of several groups is meant, the whole is asked about."""
    assert asked_about(("units",))[0] == ("units",)
    assert asked_about(("site", "wind_speed"))[0] == ("site", "wind_speed")
    assert asked_about(("electrical", "strings", 0, "id"))[0] == ("electrical", "strings", 0, "id")
    assert asked_about(("roof", "pitch"))[0] == ("roof",)
    assert asked_about(("electrical", "storage", "count"))[0] == ("electrical", "storage", "count")


def pattern_of(*path: str) -> Draft202012Validator:
    """A validator of one field of a group, as ("Site", "wind_speed")."""
    group, field = path
    return Draft202012Validator(SCHEMA["$defs"][group]["properties"][field])


@pytest.mark.parametrize(
    ("field", "parse", "parts"),
    [
        (("GableRoof", "depth"), parse_length, "1 26 .5 1/2 - ' \" ’ ft in feet m cm"),
        (("GableRoof", "pitch"), parse_pitch, "5 12 .5 : / deg °"),
        (("Site", "wind_speed"), parse_speed_mph, "- − 110 .5 49. mph m/s"),
        (("Site", "lowest_ambient"), parse_temperature_c, "- 4 .5 F C ° °F"),
    ],
)  # fmt: skip
def test_however_a_quantity_is_written(field: Any, parse: Any, parts: str) -> None:
    validator = pattern_of(*field)
    read = 0
    for count in range(1, 5):
        for chosen in itertools.product([" ", *parts.split()], repeat=count):
            text = "".join(chosen)
            try:
                parse(text)
            except ValueError:
                continue
            read += 1
            assert validator.is_valid(text), text
    assert read > 20


def test_every_field_says_something_to_an_editor() -> None:
    """A description, the words to choose from, or what kind of value it is."""
    for name, group in SCHEMA["$defs"].items():
        assert group.get("description"), name
        assert group["additionalProperties"] is False, name
        for field, said in group["properties"].items():
            assert said.keys() & {"type", "$ref", "enum", "const", "anyOf", "oneOf"}, (name, field)
