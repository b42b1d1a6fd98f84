"""What the electrical design takes for granted is said, and only where it does."""

from __future__ import annotations

from typing import Any

import pytest
from electrics import CONVERTERS, MICRO
from houses import house

from planset.design.electrical.assumed import electrical_assumptions
from planset.job.electrical.service import ExistingSource

EXISTING = ExistingSource.model_validate({"name": "older", "current": "9 A", "breaker": "15 A"})


@pytest.mark.parametrize(
    ("words", "name", "changes"),
    [
        ("no more than 3 current-carrying", "gable-40x30", {}),
        ("go without fuses", CONVERTERS, {"electrical.strings.S2.input": 1}),
        ("three pairs of lines", MICRO, {"electrical.service.phases": 3}),
        ("no outer covering", "gable-40x30", {"electrical.wiring.dc.insulation": "RHW-2"}),
        ("other circuits", "gable-40x30", {"electrical.wiring.dc.other_conductors": 2}),
        ("there already", "gable-40x30", {"electrical.service.existing_sources": (EXISTING,)}),
    ],
)
def test_said_where_it_is_assumed(words: str, name: str, changes: dict[str, Any]) -> None:
    assert any(words in text for text, _ in electrical_assumptions(house(changes, name)))
    others = ["gable-40x30", CONVERTERS, MICRO]
    silent = [
        other
        for other in others
        if not any(words in text for text, _ in electrical_assumptions(house(name=other)))
    ]
    assert silent
