"""An example changed for the worse by a line or two: the rule and the clause that tell of it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from planset.design.design import build_design
from planset.finding import Outcome
from planset.job.load import read_job
from planset.rules.run import judge

EXAMPLES = Path(__file__).parents[1] / "examples"
NEXT_RUN = re.compile(r"^ {2,4}\w", re.MULTILINE)


@dataclass(frozen=True)
class Change:
    """Edits of one example, each of a text that stands there once, and what must be found."""

    name: str
    edits: tuple[tuple[str, str], ...]
    rule: str
    citation: str


def in_run(example: str, run: str, field: str) -> tuple[str, str]:
    """An edit that adds a field to a run of the wiring."""
    text = (EXAMPLES / example / "job.yaml").read_text(encoding="utf-8")
    start = text.index(f"    {run}:", text.index("  wiring:"))
    end = text.index("      raceway:", start)
    found = text[start:end]
    return found, f"{found}      {field}\n"


def change_of(example: str, run: str, old: str, new: str) -> tuple[str, str]:
    """An edit of a text of a run of the wiring, alike in each run of a list."""
    text = (EXAMPLES / example / "job.yaml").read_text(encoding="utf-8")
    start = text.index(f"    {run}:", text.index("  wiring:"))
    after = NEXT_RUN.search(text, start + 1)
    assert after is not None
    found = text[start : after.start()]
    assert old in found
    return found, found.replace(old, new)


def block(example: str, first: str, after: str) -> tuple[str, str]:
    """An edit that takes out the lines from one on to another."""
    text = (EXAMPLES / example / "job.yaml").read_text(encoding="utf-8")
    start = text.index(first)
    return text[start : text.index(after, start)], ""


TILE = "tile-gable"
TILE_CHANGES = (
    Change(
        "longer string",
        (
            ("{id: S1, array: A1, modules: 10,", "{id: S1, array: A1, modules: 17,"),
            ("{id: S2, array: A1, modules: 10,", "{id: S2, array: A1, modules: 3,"),
        ),
        "electrical.string-voltage",
        "NEC 2020 690.7(A)",
    ),
    Change(
        "colder site, with a string of 14",
        (
            ("{id: S1, array: A1, modules: 10,", "{id: S1, array: A1, modules: 14,"),
            ("{id: S2, array: A1, modules: 10,", "{id: S2, array: A1, modules: 6,"),
            ("lowest_ambient: 25 F", "lowest_ambient: -30 F"),
        ),
        "electrical.string-voltage",
        "NEC 2020 690.7(A)",
    ),
    Change(
        "smaller conductor",
        (in_run(TILE, "output", 'size: "10"'),),
        "electrical.conductor-terminals",
        "NEC 2020 705.28(B)",
    ),
    Change(
        "fuller conduit",
        (change_of(TILE, "dc", 'size: "10"', 'size: "6"\n      trade_size: 1/2'),),
        "electrical.raceway-fill",
        "NEC 2020 Table 1 of chapter 9",
    ),
    Change(
        "bigger breaker on the conductor of the smaller one",
        (("breaker: 40 A", "breaker: 70 A"), in_run(TILE, "output", 'size: "8"')),
        "electrical.conductor-protection",
        "NEC 2020 240.4",
    ),
    Change(
        "bigger breaker than the inverter's maker allows",
        (("breaker: 40 A", "breaker: 60 A"),),
        "electrical.output-device",
        "NEC 2020 110.3(B)",
    ),
    Change(
        "shutdown devices of another inverter",
        (("  shutdown: rs-1 ", "  shutdown: rs-2 "),),
        "electrical.shutdown-listing",
        "NEC 2020 690.12(D)",
    ),
    Change(
        "inverter on no wall",
        (("        - {tag: INV1, left", "        # - {left"),),
        "electrical.equipment-on-wall",
        "NEC 2020 Table 110.26(A)(1)",
    ),
    Change(
        "smaller breaker",
        (("breaker: 40 A", "breaker: 35 A"),),
        "electrical.source-device",
        "NEC 2020 705.30",
    ),
    Change(
        "no shutdown method",
        (("  shutdown: rs-1 ", "  # "),),
        "electrical.rapid-shutdown",
        "NEC 2020 690.12",
    ),
    Change(
        "nobody can shut it down",
        (("  initiator: pv_disconnect ", "  # "),),
        "electrical.rapid-shutdown",
        "NEC 2020 690.12(C)",
    ),
    Change(
        "a disconnect that cannot be locked",
        (
            (
                "    lockable: true\n    visible_open: true\n    enclosure: 3R\n    location",
                "    lockable: false\n    visible_open: true\n    enclosure: 3R\n    location",
            ),
        ),
        "electrical.disconnect-lock",
        "NEC 2020 690.13(E)",
    ),
    Change(
        "missing meter",
        (("production_meter: not_required", "production_meter: required"),),
        "electrical.production-meter",
        "interconnection handbook, 2025",
    ),
    Change(
        "higher fault current",
        (("fault_current: 9600 A", "fault_current: 22000 A"),),
        "electrical.interrupting-rating",
        "NEC 2020 110.9",
    ),
    Change(
        "breaker beside the main",
        (("position: opposite_main", "position: elsewhere"),),
        "electrical.busbar",
        "NEC 2020 705.12(B)(3)(1)",
    ),
)

HIP = "shingle-hip"
HIP_CHANGES = (
    Change(
        "longer branch",
        (
            ("{id: B1, array: A1, modules: 8,", "{id: B1, array: A1, modules: 11,"),
            ("{id: B2, array: A1, modules: 8,", "{id: B2, array: A1, modules: 5,"),
        ),
        "electrical.branch-units",
        "MQ-350 data sheet",
    ),
    Change(
        "smaller conductor",
        (in_run(HIP, "combined", 'size: "10"'),),
        "electrical.conductor-terminals",
        "NEC 2023 705.28(B)",
    ),
    Change(
        "fuller conduit",
        (change_of(HIP, "branch", 'size: "10"', 'size: "6"\n        trade_size: 1/2'),),
        "electrical.raceway-fill",
        "NEC 2023 Table 1 of chapter 9",
    ),
    Change(
        "bigger breaker",
        (("modules: 6, inverter: mq-350,", "modules: 6, inverter: mq-350, breaker: 30 A,"),),
        "electrical.branch-breaker",
        "MQ-350 data sheet",
    ),
    Change(
        "nobody can shut it down",
        (("  initiator: pv_disconnect ", "  # "),),
        "electrical.rapid-shutdown",
        "NEC 2023 690.12",
    ),
    Change(
        "missing meter",
        (
            ("  production_meter: {location", "  # {location"),
            ("        - {tag: M2, ", "        # {"),
            ("    - {tag: M2, wall", "    # {wall"),
        ),
        "electrical.production-meter",
        "rule 21-G",
    ),
    Change(
        "higher fault current",
        (("fault_current: 7400 A", "fault_current: 14000 A"),),
        "electrical.interrupting-rating",
        "NEC 2023 110.9",
    ),
    Change(
        "breaker beside the main",
        (("position: opposite_main", "position: elsewhere"),),
        "electrical.busbar",
        "NEC 2023 705.12(B)(1)",
    ),
    Change(
        "smaller disconnect",
        (("    rating: 60 A", "    rating: 30 A"),),
        "electrical.disconnect-rating",
        "NEC 2023 690.13(D)",
    ),
    Change(
        "larger breaker on the combiner's lugs",
        (("    position: opposite_main ", "    breaker: 150 A\n    position: opposite_main "),),
        "electrical.busbar",
        "NEC 2023 408.36",
    ),
)

CROSS = "cross-gable"
CROSS_CHANGES = (
    Change(
        "shorter strings than the converters are listed for",
        (
            (
                "    - {id: S1, array: A1, modules: 9, input: 1}",
                "    - {id: S1, array: A1, modules: 5, input: 1}\n"
                "    - {id: S4, array: A1, modules: 4, input: 1}",
            ),
        ),
        "electrical.converter-string",
        "DL-450 data sheet",
    ),
    Change(
        "smaller conductor, and two more strings in its raceway",
        (change_of(CROSS, "dc", 'size: "10"', 'size: "14"\n        other_conductors: 4'),),
        "electrical.conductor-ampacity",
        "NEC 2023 690.8(B)",
    ),
    Change(
        "smaller conductor at the tap",
        (in_run(CROSS, "connection", 'size: "8"'),),
        "electrical.tap-conductor",
        "NEC 2023 705.11(B)",
    ),
    Change(
        "fuller conduit",
        (in_run(CROSS, "connection", "trade_size: 1/2"),),
        "electrical.raceway-fill",
        "NEC 2023 Table 1 of chapter 9",
    ),
    Change(
        "bigger fuse",
        (("    fused: true ", "    fuse: 80 A\n    fused: true "),),
        "electrical.disconnect-rating",
        "NEC 2023 690.13",
    ),
    Change(
        "smaller disconnect",
        (("    rating: 60 A", "    rating: 30 A"),),
        "electrical.tap-disconnect",
        "NEC 2023 230.79(D)",
    ),
    Change(
        "nobody can shut it down",
        (("  initiator: pv_disconnect ", "  # "),),
        "electrical.rapid-shutdown",
        "NEC 2023 690.12(C)",
    ),
    Change(
        "a disconnect that is not made for a service",
        (("    service_rated: true ", "    # "),),
        "electrical.tap-disconnect",
        "NEC 2023 230.66",
    ),
    Change(
        "missing meter",
        (("production_meter: not_required", "production_meter: required"),),
        "electrical.production-meter",
        "interconnection requirements, 2026",
    ),
    Change(
        "higher fault current",
        (("fault_current: 9600 A", "fault_current: 22000 A"),),
        "electrical.interrupting-rating",
        "NEC 2023 110.9",
    ),
    Change(
        "plastic conduit through the attic",
        (change_of(CROSS, "dc", "raceway: emt", "raceway: pvc40"),),
        "electrical.dc-raceway",
        "NEC 2023 690.31",
    ),
)

BATTERY = "battery-retrofit"
BATTERY_CHANGES = (
    Change(
        "one long string at a colder site",
        (
            (
                "    - {id: S1, array: A1, modules: 7, input: 1}\n"
                "    - {id: S2, array: A1, modules: 7, input: 2}",
                "    - {id: S1, array: A1, modules: 14, input: 1}",
            ),
            ("lowest_ambient: 5 F", "lowest_ambient: -30 F"),
        ),
        "electrical.string-voltage",
        "NEC 2023 690.7(A)",
    ),
    Change(
        "smaller conductor",
        (in_run(BATTERY, "output", 'size: "12"'),),
        "electrical.conductor-terminals",
        "NEC 2023 705.28(B)",
    ),
    Change(
        "fuller conduit",
        (change_of(BATTERY, "dc", 'size: "10"', 'size: "6"\n      trade_size: 1/2'),),
        "electrical.raceway-fill",
        "NEC 2023 Table 1 of chapter 9",
    ),
    Change(
        "bigger main",
        (
            (
                "\n    interrupting: 10000 A\n    calculation:",
                "\n    main: 125 A\n    interrupting: 10000 A\n    calculation:",
            ),
        ),
        "electrical.busbar",
        "NEC 2023 705.12(B)(2)",
    ),
    Change(
        "bigger breaker on the conductor of the smaller one",
        (
            ("    position: opposite_main\n", "    breaker: 60 A\n    position: opposite_main\n"),
            in_run(BATTERY, "connection", 'size: "8"'),
        ),
        "electrical.conductor-protection",
        "NEC 2023 240.4",
    ),
    Change(
        "smaller conductor at the battery",
        (in_run(BATTERY, "battery", 'size: "14"'),),
        "electrical.conductor-protection",
        "NEC 2023 240.4",
    ),
    Change(
        "nothing that stops the array of an inverter that goes on",
        (block(BATTERY, "  shutdown_contact:", "  disconnect:"),),
        "electrical.rapid-shutdown",
        "NEC 2023 690.12(C)",
    ),
    Change(
        "more load than the new main carries",
        (
            ("      load: 84 A", "      load: 130 A"),
            ("backup loads, va: 5000}", "backup loads, va: 16040}"),
        ),
        "electrical.main-derate",
        "NEC 2023 article 220",
    ),
    Change(
        "no shutdown method",
        (("  shutdown: rs-3\n", ""),),
        "electrical.rapid-shutdown",
        "NEC 2023 690.12",
    ),
    Change(
        "missing meter",
        (("production_meter: not_required", "production_meter: required"),),
        "electrical.production-meter",
        "rule 21-G",
    ),
    Change(
        "higher fault current",
        (("fault_current: 8200 A", "fault_current: 22000 A"),),
        "electrical.interrupting-rating",
        "NEC 2023 110.9",
    ),
    Change(
        "one battery too many for the port",
        (("    count: 1\n", "    count: 2\n"),),
        "electrical.battery-port",
        "HK hybrid series data sheet",
    ),
    Change(
        "backup panel on no wall",
        (("        - {tag: BLP, left", "        # - {left"),),
        "electrical.equipment-on-wall",
        "NEC 2023 Table 110.26(A)(1)",
    ),
    Change(
        "backup panel not on the site plan",
        (("    - {tag: BLP, wall", "    # - {wall"),),
        "layout.equipment-placed",
        "common practice",
    ),
    Change(
        "more load than the inverter backs up",
        (("    load: 19 A", "    load: 29 A"),),
        "electrical.backup-load",
        "HK hybrid series data sheet",
    ),
)

CHANGES = [
    pytest.param(example, change, id=f"{example}, {change.name}")
    for example, changes in (
        (TILE, TILE_CHANGES),
        (HIP, HIP_CHANGES),
        (CROSS, CROSS_CHANGES),
        (BATTERY, BATTERY_CHANGES),
    )
    for change in changes
]


@pytest.mark.parametrize(("example", "change"), CHANGES)
def test_the_right_rule_fails(example: str, change: Change, tmp_path: Path) -> None:
    text = (EXAMPLES / example / "job.yaml").read_text(encoding="utf-8")
    for old, new in change.edits:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    job = tmp_path / "job.yaml"
    job.write_text(text, encoding="utf-8")
    failed = [f for f in judge(build_design(read_job(job))) if f.outcome is Outcome.FAIL]
    told = [f for f in failed if f.rule == change.rule and change.citation in f.citation]
    assert told, [(f.rule, f.citation, f.message) for f in failed]
    assert all(f.line for f in told)


@pytest.mark.parametrize("example", [TILE, HIP, CROSS, BATTERY])
def test_nothing_electrical_fails_or_is_open_before(example: str) -> None:
    found = judge(build_design(read_job(EXAMPLES / example / "job.yaml")))
    wrong = [
        f.message
        for f in found
        if f.rule.startswith("electrical.") and f.outcome in (Outcome.FAIL, Outcome.OPEN)
    ]
    assert wrong == []
