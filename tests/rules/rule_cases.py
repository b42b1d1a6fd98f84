"""Case files of the rules: what a case is, and the design it stands for."""

import json
import shutil
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from planset.catalog.fields import Sourced
from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.local_access import LocalAccess
from planset.catalog.module import Clamping
from planset.catalog.mounting import MountingSystem
from planset.catalog.rail import RailProfile
from planset.citation import CodeEdition, read_edition
from planset.design import design as stages
from planset.design.design import Design, build_design
from planset.design.layout import PlacedArray, place_arrays
from planset.job.arrays import ArrayMounting
from planset.job.load import Inputs, read_job
from planset.rules.rule import Rule
from planset.source import read_yaml

HERE = Path(__file__).parent
BASE = HERE / "base"
CASE_FILES = sorted((HERE / "cases").glob("*.yaml"))

ACCESS = {
    "IRC": "residential",
    "CRC": "residential",
    "IFC": "fire",
    "CFC": "fire",
    "NFPA 1": "fire",
}
"""The adopted code a document can be, of the two that may judge access to dwellings."""

OPTIONAL = {
    "driveway_sides",
    "utility_emergency_telephone",
    "apart",
    "exposure",
    "flashing_lap",
    "supplemental_electrodes",
    "resistance",
    "voltage_rating",
    "device_a",
    "max_device_a",
    "max_rise_percent",
    "ohm_per_kft",
    "shutdown_contact",
    "enclosure",
    "fuses",
    "circuits",
    "electrode",
    "existing_sources",
    "dc_disconnect",
    "fuse",
    "leads",
    "letter",
    "sound",
    "walls",
    "grounding",
    "hazard_control",
    "breaker",
    "other_conductors",
    "shared",
    "production_meter",
    "size",
    "trade_size",
    "fire_walls",
    "engineering",
    "openings_below_eaves",
    "other_buildings",
    "panel_pressure",
    "screening",
    "snow",
    "survey",
    *LocalAccess.model_fields,
    *MountingSystem.model_fields,
    *RailProfile.model_fields,
    *ArrayMounting.model_fields,
    *Clamping.model_fields,
    "clamping",
    "omit",
    "row_gap",
}
"""Fields a case may add to what it changes."""


@dataclass(frozen=True)
class Expected:
    """What the rule must find; see cases/README.md."""

    outcome: str
    measured: float | None = None
    limit: float | None = None
    unit: str | None = None
    citation: str | None = None
    about: str | None = None
    says: str | None = None


@dataclass(frozen=True, eq=False)
class Case:
    """One case of one rule; see cases/README.md."""

    expect: Expected
    base: str = "gable-40x30"
    patch: Mapping[str, Any] = field(default_factory=dict)
    catalog: Mapping[str, Any] = field(default_factory=dict)
    codes: tuple[str, ...] | None = None
    source: str = ""

    def editions_for(self, rule: Rule) -> tuple[CodeEdition | None, ...]:
        """The editions the case runs in: those it names, or all its rule maps; None for no book."""
        return tuple(map(read_edition, self.codes or ())) or tuple(rule.clauses) or (None,)


def read_cases(path: Path) -> tuple[str, dict[str, Case]]:
    """Rule id and cases of a file; an unknown key is an error."""
    data = read_yaml(path).data
    assert set(data) == {"id", "cases"}, path
    cases = {
        name: Case(**{**given, "expect": Expected(**given["expect"])})
        for name, given in data["cases"].items()
    }
    return data["id"], cases


def build(case: Case, rule: Rule, edition: CodeEdition | None) -> Design:
    """The design of a case, where the town adopts an edition of the code that decides the rule."""
    inputs = adopting(case, rule, edition)
    if rule.held_by not in FIRE_CODES:
        return build_design(inputs)
    known = _latest.get(case)
    with suppress(_OtherArraysError):
        return _build_as(known, inputs) if known else _keep(case, build_design(inputs))
    return build_design(inputs)


FIRE_CODES = ("dwelling access", "fire")
"""By what a rule is held whose editions change access to roofs and nothing else of a design."""

_latest: dict[Case, Design] = {}


class _OtherArraysError(Exception):
    """The arrays are not those of the design known, as where they are fitted around access."""


def _keep(case: Case, design: Design) -> Design:
    _latest.clear()
    _latest[case] = design
    return design


def _build_as(known: Design, inputs: Inputs) -> Design:
    """The design of the same job under another fire code, which takes over all but access.

    Raises:
        _OtherArraysError: The arrays are others.
    """

    def same_arrays(*given: Any) -> tuple[PlacedArray, ...]:
        if place_arrays(*given) != known.arrays:
            raise _OtherArraysError
        return known.arrays

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(stages, "place_arrays", same_arrays)
        patched.setattr(stages, "acting_on", lambda *_: None)
        patched.setattr(stages, "place_racking", lambda *_: known.racking)
        patched.setattr(stages, "loads_of", lambda *_: known.loads)
        patched.setattr(stages, "build_electrical", lambda *_: known.electrical)
        return build_design(inputs)


def adopting(case: Case, rule: Rule, edition: CodeEdition | None) -> Inputs:
    """The job of a case in a town that adopts an edition of the code that decides the rule."""
    inputs = _inputs(case)
    if edition is None:
        return inputs
    return replace(inputs, jurisdiction=_adopting(inputs.jurisdiction, rule, edition))


@cache
def _inputs(case: Case) -> Inputs:
    """The job of a case, from its patched files; reading takes most of a case's time."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        shutil.copytree(BASE / "catalog", folder / "catalog")
        job = folder / "job.yaml"
        _write(job, read_yaml(BASE / f"{case.base}.yaml").data, case.patch)
        for entry, changes in _by_entry(case).items():
            path = folder / "catalog" / f"{entry}.yaml"
            _write(path, read_yaml(path).data, changes)
        return read_job(job)


def _by_entry(case: Case) -> dict[str, dict[str, Any]]:
    """Changes to each catalog entry."""
    changes: dict[str, dict[str, Any]] = {}
    for path, value in case.catalog.items():
        entry, _, inner = path.partition(".")
        changes.setdefault(entry, {})[inner] = value
    return changes


def _adopting(town: Jurisdiction, rule: Rule, edition: CodeEdition) -> Jurisdiction:
    """The town with an edition in force where the rule looks for it."""
    section: str = rule.held_by
    access = town.access
    if section == "dwelling access":
        section = ACCESS[edition.document]
        judged_by = Sourced[Any](value=section, source="Case", date="2024-01-01")
        access = access.model_copy(update={"judged_by": judged_by})
    adopted = getattr(town.codes, section).model_copy(
        update={
            "code": edition.document,
            "edition": edition.year,
            "supplement": edition.supplement or None,
        }
    )
    codes = town.codes.model_copy(update={section: adopted})
    return town.model_copy(update={"codes": codes, "access": access})


def _write(path: Path, data: Any, changes: Mapping[str, Any]) -> None:
    """Write data with changes; JSON is YAML, and its indent gives each field a line."""
    for place, value in changes.items():
        _change(data, place.split("."), value)
    path.write_text(json.dumps(data, indent=1), encoding="utf-8")


def _change(data: Any, place: list[str], value: Any) -> None:
    """Set a field, or remove it when the value is null; it must be there, or be optional."""
    *way, last = place
    for step in way:
        entries = {item["id"]: item for item in data} if isinstance(data, list) else data
        data = entries[step]
    if value is None:
        del data[last]
    else:
        assert last in data or last in OPTIONAL, ".".join(place)
        data[last] = value
