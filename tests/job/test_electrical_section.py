"""Systems of every kind are read, with the catalog entries they name."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from planset.errors import JobErrors
from planset.job.electrical.wiring import RoofPlace
from planset.job.load import Inputs, read_job
from planset.source import read_yaml

EXAMPLES = Path(__file__).parents[2] / "examples"
Job = dict[str, Any]

RUN = {
    "insulation": "THWN-2",
    "material": "copper",
    "raceway": "emt",
    "places": [{"place": "wall", "length": "5 ft"}],
}
COMBINER = {"id": "ACC", "bus": "100 A", "interrupting": "10000 A", "location": "wall"}


def example(name: str) -> Inputs:
    return read_job(EXAMPLES / name / "job.yaml")


def tile_gable() -> Job:
    job: Job = read_yaml(EXAMPLES / "tile-gable" / "job.yaml").data
    return job


def read(job: Job, folder: Path) -> Inputs:
    path = folder / "job.yaml"
    path.write_text(json.dumps(job), encoding="utf-8")
    return read_job(path)


def told(job: Job, folder: Path) -> list[str]:
    with pytest.raises(JobErrors) as caught:
        read(job, folder)
    return [problem.field for problem in caught.value.problems]


# --- what the examples show ----------------------------------------------------------------


def test_a_string_inverter() -> None:
    inputs = example("tile-gable")
    assert [*inputs.inverters] == ["oe-76"]
    assert inputs.shutdown is not None
    assert (inputs.converter, inputs.battery, inputs.hazard_control) == (None, None, None)
    runs = inputs.job.electrical.wiring.runs
    assert [run.name for run in runs] == ["array", "dc", "output", "connection"]


def test_microinverters() -> None:
    inputs = example("shingle-hip")
    assert (dict(inputs.inverters), inputs.shutdown) == ({}, None)
    assert [*inputs.microinverters] == ["mq-350"]
    assert inputs.microinverters["mq-350"].trunk.pitch == 72


def test_converters() -> None:
    inputs = example("cross-gable")
    assert inputs.converter is not None
    assert inputs.inverters["dl-76"].fixed_dc_v == 400
    assert [s.junction_box for s in inputs.job.electrical.strings] == [None, "JB2", "JB3"]


def test_a_battery_behind_a_hybrid_inverter() -> None:
    inputs = example("battery-retrofit")
    assert inputs.battery is not None
    assert inputs.inverters["hk-58"].backup is not None
    derate = inputs.job.electrical.main_derate
    assert derate is not None
    assert (derate.main, derate.calculation and derate.calculation.method) == (None, "220.83")


def test_every_named_file_is_known() -> None:
    inputs = example("battery-retrofit")
    names = {Path(document.file).stem for document in inputs.catalog_documents}
    assert {"hk-58", "hb-10", "rs-3"} <= names


# --- other systems, made of the house under tile -------------------------------------------


def test_two_inverters_with_a_box_each(tmp_path: Path) -> None:
    job = tile_gable()
    electrical = job["electrical"]
    electrical["inverters"].append({**electrical["inverters"][0], "id": "INV2"})
    electrical["inverters"][1] |= {"junction_box": "JB2", "breaker": "40 A"}
    electrical["junction_boxes"].append({**electrical["junction_boxes"][0], "id": "JB2"})
    for string, inverter in zip(electrical["strings"], ("INV1", "INV2"), strict=True):
        string |= {"inverter": inverter}
    electrical["combiner"] = COMBINER
    dc = electrical["wiring"]["dc"]
    runs = [{**dc, "junction_box": "JB1"}, {**dc, "junction_box": "JB2", "places": RUN["places"]}]
    electrical["wiring"] |= {"combined": RUN, "dc": runs}
    found = read(job, tmp_path).job.electrical
    assert len(found.inverters) == 2
    first, second = (found.wiring.run("dc", box) for box in ("JB1", "JB2"))
    assert first is not None
    assert second is not None
    assert len(first.places) == 2
    assert [place.length for place in second.places] == [60]
    assert found.wiring.run("array", "JB2") == found.wiring.array
    assert found.wiring.run("dc", "JB3") is None


def test_a_subpanel(tmp_path: Path) -> None:
    job = tile_gable()
    job["electrical"]["interconnection"] = {
        "method": "subpanel_breaker",
        "position": "opposite_main",
        "interrupting": "10000 A",
        "subpanel": "SP1",
        "bus": "125 A",
        "location": "garage",
        "feeder_breaker": "100 A",
        "feeder_position": "elsewhere",
    }
    assert told(job, tmp_path) == ["electrical.wiring.feeder"]
    job["electrical"]["wiring"]["feeder"] = RUN
    assert read(job, tmp_path).job.electrical.wiring.feeder is not None


def test_a_dc_disconnect_and_a_hazard_control_system(tmp_path: Path) -> None:
    job = tile_gable()
    electrical = job["electrical"]
    electrical.pop("shutdown")
    electrical["hazard_control"] = "hc-tile"
    apart = {"id": "DC1", "rating": "30 A", "voltage": "600 V", "location": "east wall"}
    electrical["inverters"][0]["dc_disconnect"] = apart
    hung = {"tag": "DC1", "left": 0, "bottom": 48, "width": 8, "height": 12, "depth": 5}
    electrical["walls"][0]["equipment"].append(hung)
    inputs = read(job, tmp_path)
    assert inputs.hazard_control is not None
    assert inputs.shutdown is None


def test_one_branch_needs_no_combiner(tmp_path: Path) -> None:
    job = tile_gable()
    electrical = job["electrical"]
    for field in ("inverters", "strings", "shutdown", "walls"):
        electrical.pop(field)
    placed = job["site_plan"]["equipment"]
    placed[:] = [item for item in placed if item["tag"] != "INV1"]
    branch = {"id": "B1", "array": "A1", "modules": 20, "inverter": "mq-350", "junction_box": "JB1"}
    electrical["branches"] = [branch]
    electrical["wiring"] = {"terminals": 75, "branch": RUN, "connection": RUN}
    assert read(job, tmp_path).microinverters


def test_a_route_in_place_of_a_length() -> None:
    run = example("tile-gable").job.electrical.wiring.run("dc")
    assert run is not None
    roof = run.places[0]
    assert isinstance(roof, RoofPlace)
    assert roof.length is None
    assert [(point.along, point.up) for point in roof.route] == [(404.5, 26), (404.5, 8), (527, 8)]
