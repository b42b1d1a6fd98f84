"""An example with a line of a data sheet changed for the worse; no line of the job can state it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from planset.design.design import build_design
from planset.finding import Outcome
from planset.job.load import read_job
from planset.rules.run import judge

ROOT = Path(__file__).parents[1]
EXAMPLES, CATALOG = ROOT / "examples", ROOT / "planset" / "catalog" / "data"
TILE, HIP, CROSS, BATTERY = "tile-gable", "shingle-hip", "cross-gable", "battery-retrofit"

SHEETS = [
    (
        CROSS,
        "converters/dl-450",
        ("most_per_string: 24", "most_per_string: 8"),
        "electrical.converter-string",
        "DL-450 data sheet",
    ),
    (
        CROSS,
        "converters/dl-450",
        ("string_max_v: 480", "string_max_v: 520"),
        "electrical.string-voltage",
        "NEC 2023 690.7(B)",
    ),
    (
        CROSS,
        "converters/dl-450",
        ("shutdown: UL 1741", "# UL 1741"),
        "electrical.rapid-shutdown",
        "NEC 2023 690.12",
    ),
    (
        CROSS,
        "converters/dl-450",
        ("safe_v: 1 ", "safe_v: 4 "),
        "electrical.rapid-shutdown",
        "NEC 2023 690.12(B)(1)",
    ),
    (
        HIP,
        "microinverters/mq-350",
        ("shutdown: UL 1741", "# UL 1741"),
        "electrical.rapid-shutdown",
        "NEC 2023 690.12",
    ),
    (
        HIP,
        "microinverters/mq-350",
        ("max_dc_v: 60", "max_dc_v: 41"),
        "electrical.microinverter-input",
        "MQ-350 data sheet",
    ),
    (
        TILE,
        "shutdown/rs-1",
        ("safe_v: 0.7", "safe_v: 3.5"),
        "electrical.rapid-shutdown",
        "NEC 2020 690.12(B)(1)",
    ),
    (
        BATTERY,
        "batteries/hb-10",
        ("live_parts: enclosed", "live_parts: accessible"),
        "electrical.battery-voltage",
        "NEC 2023 706.20(B)",
    ),
]


@pytest.mark.parametrize(("example", "entry", "edit", "rule", "citation"), SHEETS)
def test_a_changed_data_sheet_fails(
    example: str,
    entry: str,
    edit: tuple[str, str],
    rule: str,
    citation: str,
    tmp_path: Path,
) -> None:
    old, new = edit
    text = (CATALOG / f"{entry}.yaml").read_text(encoding="utf-8")
    assert text.count(old) == 1, old
    changed = tmp_path / "catalog" / f"{entry}.yaml"
    changed.parent.mkdir(parents=True)
    changed.write_text(text.replace(old, new), encoding="utf-8")
    job = tmp_path / "job.yaml"
    job.write_text(_without_data_sheets(example), encoding="utf-8")
    failed = [f for f in judge(build_design(read_job(job))) if f.outcome is Outcome.FAIL]
    assert [f for f in failed if f.rule == rule and citation in f.citation], [
        (f.rule, f.citation, f.message) for f in failed
    ]


def _without_data_sheets(example: str) -> str:
    """The job of an example; sheets of the maker lie in a folder of its own."""
    text = (EXAMPLES / example / "job.yaml").read_text(encoding="utf-8")
    return text.partition("data_sheets:")[0]


@pytest.mark.parametrize("example", [HIP, CROSS])
def test_the_coldest_site_breaks_no_electronics_at_the_modules(
    example: str, tmp_path: Path
) -> None:
    # 37.4 V x (1 + 0.0027 x 85) = 45.98 V at -60 C, the coldest that a job takes, where
    # microinverters take 60 V and converters 65 V; a string of converters stays at its listing's
    text = (EXAMPLES / example / "job.yaml").read_text(encoding="utf-8")
    job = tmp_path / "job.yaml"
    job.write_text(re.sub(r"lowest_ambient: \S+ F", "lowest_ambient: -60 C", text), "utf-8")
    found = judge(build_design(read_job(job)))
    electrical = [f for f in found if f.rule.startswith("electrical.")]
    assert not [f.message for f in electrical if f.outcome is Outcome.FAIL]
    assert any("45.98 V" in f.message for f in electrical)
