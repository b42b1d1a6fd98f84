"""The same job under three editions of the NEC: what differs, and nothing else does."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from planset.design.design import Design, build_design
from planset.design.electrical.system import PlacedLabel
from planset.finding import Finding
from planset.job.load import Inputs, read_job
from planset.rules.run import judge

ROOT = Path(__file__).parents[1]
YEARS = (2017, 2020, 2023)

TELEPHONE = {
    # 705.10 asks for a telephone on the directory since 2023 [from memory]
    "electrical.directory-telephone": ("n/a", "n/a", "pass"),
}
EVERYWHERE = {
    **TELEPHONE,
    # 230.67 and 230.85 came in 2020
    "electrical.surge-protection": ("n/a", "pass", "pass"),
    "electrical.emergency-disconnect": ("n/a", "pass", "pass"),
    # 690.31(C)(1) asks for supports every 24 in since 2020
    "electrical.wire-support": ("n/a", "pass", "pass"),
}
TAPPED = {
    **TELEPHONE,
    "electrical.surge-protection": ("n/a", "ask", "ask"),
    "electrical.emergency-disconnect": ("n/a", "ask", "ask"),
    # 705.31 of 2017 and 705.11(C) of 2020 limit the length to 10 ft at dwellings; 2023 dropped it
    "electrical.tap-distance": ("pass", "pass", "n/a"),
    # devices on the rating of the service in 2017, since 2020 outputs on its conductors
    "electrical.supply-side-sources": ("pass", "pass", "pass"),
    "electrical.wire-support": ("n/a", "pass", "pass"),
}
WITH_BATTERY = {
    **TELEPHONE,
    "electrical.surge-protection": ("n/a", "ask", "ask"),
    "electrical.emergency-disconnect": ("n/a", "ask", "ask"),
    # 706.15 asks for a disconnect outdoors in 2020, for a shutdown there since 2023
    "electrical.battery-shutdown": ("n/a", "pass", "pass"),
    "electrical.wire-support": ("n/a", "pass", "pass"),
}
DIFFERENCES = {
    "tile-gable": EVERYWHERE,
    "shingle-hip": EVERYWHERE,
    "cross-gable": TAPPED,
    "battery-retrofit": WITH_BATTERY,
    # another building: no 230.67, no 230.85
    "flat-commercial": {**TELEPHONE, "electrical.wire-support": ("n/a", "pass", "pass")},
}
"""Example to rule to its gravest outcome in each edition, where they are not all the same."""

MOVED = {
    ("690.9(A)", "690.9(A)(1)", "690.9(A)(1)"),
    ("690.13(E)", "690.13(D)", "690.13(D)"),  # ratings
    ("690.13(F)", "690.13(E)", "690.13(E)"),  # locking
    ("690.31(G)", "690.31(D)", "690.31(D)"),
    ("705.60(B)", "705.28(B)", "705.28(B)"),
    ("705.65", "705.30", "705.30(B)"),
    ("210.19(A)", "210.19(A)", "210.19"),
    ("215.2(A)", "215.2(A)", "215.2"),
    ("250.24", "250.25", "250.25"),
    ("705.12(A)", "705.11(A)", "705.11(B)"),  # sources on the service
    ("705.12(A)", "705.11(B)", "705.11(B)"),  # conductors of the tap
    ("705.12(B)(2)(3)(a)", "705.12(B)(3)(1)", "705.12(B)(1)"),
    ("705.12(B)(2)(3)(b)", "705.12(B)(3)(2)", "705.12(B)(2)"),
    ("706.7", "706.15", "706.15"),
    ("706.20", "706.30", "706.30"),
    ("706.30(A)", "706.20(B)", "706.20(B)"),
}
"""Clauses that are not the same in all three editions, in the five examples together."""

LABELS = {
    "dc_raceway": ("WARNING: PHOTOVOLTAIC", "PHOTOVOLTAIC POWER", "PHOTOVOLTAIC POWER"),
    "dc_voltage": ("MAXIMUM CIRCUIT CURRENT", "MAXIMUM DC VOLTAGE", "MAXIMUM DC VOLTAGE"),
    "directory": ("DIRECTORY OF POWER SOURCES", "CAUTION", "EMERGENCY TELEPHONE"),
    "rapid_shutdown": ("SOLAR PV", "SOLAR PV", "SOLAR PV"),
}
"""Labels that differ, and what one of their lines begins with in each edition."""


@cache
def read(example: str) -> Inputs:
    return read_job(ROOT / "examples" / example / "job.yaml")


def under(inputs: Inputs, year: int) -> Design:
    """The design of a job in a town that adopts an edition of the NEC."""
    codes = inputs.jurisdiction.codes
    electrical = codes.electrical.model_copy(update={"edition": year})
    adopted = codes.model_copy(update={"electrical": electrical})
    return build_design(
        replace(inputs, jurisdiction=inputs.jurisdiction.model_copy(update={"codes": adopted}))
    )


@cache
def found(example: str, year: int) -> tuple[Finding, ...]:
    return tuple(f for f in judge(under(read(example), year)) if f.rule.startswith("electrical."))


def outcomes(findings: tuple[Finding, ...]) -> dict[str, tuple[object, ...]]:
    """Rule to what it found, its words and clauses apart."""
    told: dict[str, list[object]] = {}
    for f in findings:
        values = (f.outcome.value, f.measured, f.limit, f.objects)
        told.setdefault(f.rule, []).append(values)
    return {rule: tuple(values) for rule, values in told.items()}


@pytest.mark.parametrize("example", DIFFERENCES)
def test_what_is_found_differs_where_the_editions_do(example: str) -> None:
    by_year = [outcomes(found(example, year)) for year in YEARS]
    rules = {rule for told in by_year for rule in told}
    differing = {
        rule: tuple(told[rule][0][0] for told in by_year)  # type: ignore[index]
        for rule in rules
        if len({told[rule] for told in by_year}) > 1
    }
    assert differing == DIFFERENCES[example]


def clause_of(finding: Finding, year: int) -> str:
    return finding.citation.removeprefix(f"NEC {year}").strip()


def test_clauses_move_as_listed() -> None:
    moved = set()
    for example in DIFFERENCES:
        for same in zip(*(found(example, year) for year in YEARS), strict=True):
            assert len({f.rule for f in same}) == 1
            judged = all(f.outcome.value != "n/a" for f in same)
            if judged and same[0].citation.startswith("NEC"):
                moved.add(tuple(clause_of(f, y) for f, y in zip(same, YEARS, strict=True)))
    assert {clauses for clauses in moved if len(set(clauses)) > 1} == MOVED


@cache
def printed(example: str, year: int) -> dict[str, PlacedLabel]:
    return {label.name: label for label in under(read(example), year).electrical.labels}


def seen(label: PlacedLabel) -> tuple[object, ...]:
    """What a label looks like and where it hangs, but for its clause and key."""
    face, where = label.label, (label.equipment, label.quantity)
    return (label.lines, where, face.letter_in, face.other_letter_in, face.text_color)


@pytest.mark.parametrize("example", DIFFERENCES)
def test_labels_differ_where_the_editions_do(example: str) -> None:
    by_year = [printed(example, year) for year in YEARS]
    # 706.15 wants the button of a battery marked since 2020
    button = {"storage_shutdown"} & by_year[1].keys()
    assert by_year[0].keys() | button == by_year[1].keys() == by_year[2].keys()
    differing = {
        name
        for name in by_year[0]
        if any(seen(labels[name]) != seen(by_year[0][name]) for labels in by_year)
    }
    dc = {"dc_raceway", "dc_voltage"} & by_year[0].keys()  # a microinverter roof has none
    assert differing == {"directory", "rapid_shutdown"} | dc
    for name in differing:
        for labels, begins in zip(by_year, LABELS[name], strict=True):
            assert any(line.startswith(begins) for line in labels[name].lines)
    # 690.56(C): black on yellow over letters of 3/16 in; 690.12(D)(1): no color, no second height
    faces = [labels["rapid_shutdown"].label for labels in by_year]
    assert [face.text_color for face in faces] == ["black", "black", ""]
    assert [face.other_letter_in for face in faces] == [0.1875, 0.1875, None]
    # 690.56(B) of 2017 wants the directory at the disconnect of the source, too
    assert [labels["directory"].quantity for labels in by_year] == [2, 1, 1]


@pytest.mark.parametrize("example", DIFFERENCES)
def test_sizes_do_not_differ(example: str) -> None:
    # no example has a raceway between 3/4 and 7/8 in over its roof, where they would
    def sizes(year: int) -> list[object]:
        segments = under(read(example), year).electrical.topology.segments
        runs = [s.conductors for s in segments if s.conductors is not None]
        return [(run.size, run.needed_size, run.grounding, run.check, run.fill) for run in runs]

    assert sizes(2017) == sizes(2020) == sizes(2023)
    assert sizes(2017)


def test_a_low_raceway_costs_a_size_before_2023() -> None:
    # 310.15(B)(3)(c) and 310.15(B)(2): 0.80 in over the roof adds 33 C until 2020. Four conductors,
    # 16.9 A: at 36.1 C 12 AWG has 30 x 0.91 x 0.8 = 21.8 A, at 69.1 C 30 x 0.58 x 0.8 = 13.9 A, and
    # 10 AWG 40 x 0.58 x 0.8 = 18.6 A; recomputed
    inputs = read("tile-gable")
    electrical = inputs.job.electrical
    dc = electrical.wiring.dc
    assert dc is not None
    low = tuple(
        place.model_copy(update={"gap": 0.80}) if place.place == "roof" else place
        for place in dc.places
    )
    wiring = electrical.wiring.model_copy(
        update={"dc": dc.model_copy(update={"places": low, "size": None})}
    )
    job = inputs.job.model_copy(
        update={"electrical": electrical.model_copy(update={"wiring": wiring})}
    )
    lowered = replace(inputs, job=job)
    sizes = []
    for year in YEARS:
        segment = under(lowered, year).electrical.topology.segments_of("dc")[0]
        assert segment.conductors is not None
        sizes.append(segment.conductors.size)
    assert sizes == ["10", "10", "12"]
