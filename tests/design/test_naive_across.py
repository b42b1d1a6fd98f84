"""Rails across the slope against a second, naive computation, within 0.5 %.

The house and its array are those of tests/rules/base/gable-40x30-across, read off that file and its
catalog entries; figures, curves and factors are those of ASCE 7-16 and NDS 2018 as `naive` names
them. A rail across is reckoned as one of `naive` turned by a right angle.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache

import naive
import pytest
from houses import house
from naive import Field, Hook, House, Lumber

from planset.design.design import Design, build_design
from planset.design.rafter import CHECKS

CLOSE = 0.005
LEFT, LOW, ACROSS, UP, GAP = 60.0, 36.0, 71.6, 35.625, 0.5
RIGHT = LEFT + 5 * ACROSS + 4 * GAP
INSET, PAST = 6.0, 1.0
LATERAL = naive.lateral_of_5_16(0.50, 0.25, 87_000, 0.5 + 1 / 16)
THREAD = 3.5 / 2 + 0.5 - 3 / 16  # T less the tip; the deck leaves more of the screw than that
WITHDRAWAL = 1800 * 0.50**1.5 * 0.3125**0.75 * THREAD

Zone = Callable[[float, float, float, float], str]


@dataclass(frozen=True)
class Turned:
    """A rail across as a rail up: its distance from the eave, and its field turned."""

    line: float
    field: Field


def gcp(name: str, area: float) -> float:
    """Figure 30.3-2C."""
    curves = {"1": (20, -1.5, 300, -0.8), "2": (10, -2.5, 150, -1.2), "3r": (4, -3.6, 50, -1.8)}
    curve = {"1": "1", "2e": "1", "3r": "3r"}.get(name, "2")
    return naive.on_curve(area, curves[curve])


def zone_of(u0: float, u1: float, y0: float, y1: float) -> str:
    """Zones of a gable 480 in by 180 in in plan, eaves at 120 in, 6:12."""
    a = naive.strip(360, 120 + 45)
    at_rake, at_eave, at_ridge = u0 < a or u1 > 480 - a, y0 < a, y1 > 180 - a
    if at_rake and (at_ridge or at_eave):
        return "3r" if at_ridge else "3e"
    if at_rake or at_ridge:
        return "2r" if at_ridge else "2n"
    return "2e" if at_eave else "1"


@cache
def shared() -> House:
    height = 120 + 45
    kz = 2.01 * (max(15, height / 12) / 1200) ** (2 / 7)
    qh = 0.00256 * kz * 0.85 * 110**2
    module = 48 / (ACROSS * UP / 144)
    return House(
        6, qh, ((2, 0.7, 100, 0.3),), 3.0, min(module, 3.0), 0, 0, naive.COMBINATIONS_16, PAST,
        LATERAL,
    )  # fmt: skip


def turned(every: int, shift: int) -> list[Turned]:
    """Two rails under each of four rows, on every so many rafters from number 4 on."""
    lumber = Lumber(1.5, 5.5, 900 * 1.3 * 1.15, 180, 625, 1.6e6, 0.58e6, 24, (0, 90, 180), 15)
    cos = shared().cos

    def swapped(v0: float, v1: float, y0: float, y1: float) -> str:
        return zone_of(y0 / cos, y1 / cos, v0 * cos, v1 * cos)

    rails = []
    for n in range(8):
        low = LOW + (n // 2) * (UP + GAP)
        bottom, top = (low, low + UP / 2) if n % 2 == 0 else (low + UP / 2, low + UP)
        line = low + INSET if n % 2 == 0 else low + UP - INSET
        first = 12 + 24 * (3 + shift * (n % 2))
        hooks = naive.every(first, 24 * every, LEFT - PAST, RIGHT + PAST)
        rails.append(
            Turned(
                line, Field(bottom, top, LEFT, RIGHT, (line,), hooks, swapped, gcp, True, lumber)
            )
        )
    return rails


@cache
def built(every: int, *, stagger: bool) -> Design:
    changes = {
        "arrays.A1.mounting.attach_every": every,
        "arrays.A1.mounting.stagger": stagger,
    }
    return build_design(house(changes, "gable-40x30-across"))


CASES = pytest.mark.parametrize(
    ("every", "stagger"), [(1, False), (2, False), (2, True), (3, True)]
)


@CASES
def test_every_attachment_and_its_screws(every: int, stagger: bool) -> None:
    (loads,) = built(every, stagger=stagger).loads.arrays
    rails = turned(every, every // 2 if stagger else 0)
    expected = [hook for rail in rails for hook in naive.hooks_of(shared(), rail.field).values()]
    assert len(loads.attachments) == len(expected)
    assert loads.method.holds
    share = THREAD / (8 * 0.3125)
    for load, use, hook in zip(loads.attachments, loads.lags, expected, strict=True):
        assert load.zone == hook.zone, load.attachment
        assert load.uplift_lb == pytest.approx(hook.uplift, rel=CLOSE)
        assert load.down_lb == pytest.approx(hook.down, rel=CLOSE)
        assert load.along_lb == pytest.approx(hook.slide, rel=CLOSE)
        ratio = naive.lag_ratio(shared(), hook, WITHDRAWAL, share)
        assert use.ratio == pytest.approx(ratio, rel=CLOSE), use.attachment


@CASES
def test_every_rail(every: int, stagger: bool) -> None:
    (loads,) = built(every, stagger=stagger).loads.arrays
    rails = turned(every, every // 2 if stagger else 0)
    for use, rail in zip(loads.rails, rails, strict=True):
        hooks = list(naive.hooks_of(shared(), rail.field).values())
        for check, side in ((use.up, -1), (use.down, 1)):
            assert check is not None
            ratio = naive.rail_ratio(shared(), rail.field, hooks, side)
            assert check.ratio == pytest.approx(ratio, rel=CLOSE), use.rail


def test_every_rafter_under_all_rails() -> None:
    """Each rafter bears all eight rails, so that modules cover it from end to end of the array."""
    framing = built(1, stagger=False).loads.framing
    assert framing.beyond_supports == ()
    rails = turned(1, 0)
    of_rail = [list(naive.hooks_of(shared(), rail.field).values()) for rail in rails]
    found: dict[tuple[int, float], dict[str, float]] = {}
    for use in framing.rafters:
        of_span = found.setdefault((use.rafter, use.from_in), dict.fromkeys(CHECKS, 0.0))
        for name in CHECKS:
            of_span[name] = max(of_span[name], use.check.named(name).ratio)
    lines = rails[0].field.hooks
    assert {rafter for rafter, _ in found} == {round((u - 12) / 24) + 1 for u in lines}
    shares = naive.halves(lines, LEFT, RIGHT)
    for n, (u, share) in enumerate(zip(lines, shares, strict=True)):
        own: dict[tuple[int, int], Hook] = {
            (0, k): replace(hooks[n], v=rail.line)
            for k, (rail, hooks) in enumerate(zip(rails, of_rail, strict=True))
        }
        up = replace(
            rails[0].field,
            left=share[0], right=share[1], low=LOW, high=LOW + 4 * UP + 3 * GAP,
            rails=(u,), hooks=tuple(rail.line for rail in rails),
        )  # fmt: skip
        for _, low, ratios in naive.rafter_ratios(shared(), up, own):
            number = round((u - 12) / 24) + 1
            assert found[number, low] == pytest.approx(ratios, rel=CLOSE), (number, low)


def test_the_zones_are_those_of_the_figure() -> None:
    seen = {load.zone for load in built(2, stagger=True).loads.attachments}
    assert seen == {"1", "2e", "2r"}
