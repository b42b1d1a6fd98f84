"""Where a value turns from pass to tight to fail."""

import pytest

from planset.rules.limits import (
    at_least_outcome,
    at_most_outcome,
    clearance_outcome,
    ratio_outcome,
)


@pytest.mark.parametrize(
    ("measured", "outcome"),
    [  # limit 36 in, build tolerance 1 in
        (37.1, "pass"),
        (37.0, "pass"),
        (36.999, "tight"),
        (36.0, "tight"),
        (36 - 1e-10, "tight"),  # noise of arithmetic
        (36 - 1e-8, "fail"),
        (35.9, "fail"),
    ],
)
def test_clearances(measured: float, outcome: str) -> None:
    assert clearance_outcome(measured, 36) == outcome


@pytest.mark.parametrize(
    ("ratio", "outcome"),
    [
        (0.0, "pass"),
        (0.95, "pass"),
        (0.951, "tight"),
        (1.0, "tight"),
        (1 + 1e-10, "tight"),  # noise of arithmetic
        (1 + 1e-8, "fail"),
        (1.1, "fail"),
    ],
)
def test_structural_ratios(ratio: float, outcome: str) -> None:
    assert ratio_outcome(ratio) == outcome


@pytest.mark.parametrize(
    ("value", "at_most", "at_least"),
    [
        (600.0, "pass", "pass"),
        (600 + 1e-10, "pass", "pass"),  # noise of arithmetic
        (600.1, "fail", "pass"),
        (599.9, "pass", "fail"),
    ],
)
def test_limits_without_build_tolerance(value: float, at_most: str, at_least: str) -> None:
    assert at_most_outcome(value, 600) == at_most
    assert at_least_outcome(value, 600) == at_least
