"""One change to the example job each, and the rule whose number it must move, by hand.

examples/tile-gable: qh 14.786 psf (110 mph, B, 12.5 ft, 640 ft up), hooks every 42 in under rails
at 24 in, 5:12 (cos .92308). Its worst hook in zone 1, H07, holds 7 sq ft: GCp -1.5, gamma_E 1.5,
gamma_a 0.8; modules 48.5 lb on 20.999 sq ft hold 2.3096 psf down; four spans, 1.15.
"""

import math
from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pytest
from houses import EXAMPLE

from planset.design.design import Design, build_design
from planset.finding import Finding, Outcome
from planset.job.load import Inputs, read_job
from planset.rules.registry import RULES
from planset.rules.run import judge_by

INPUTS = read_job(EXAMPLE)
QH = 0.00256 * 2.01 * (15 / 1200) ** (2 / 7) * 0.85 * math.exp(-0.0000362 * 640) * 110**2
COS = 12 / 13
MODULE_PSF = 48.5 / (67.8 * 44.6 / 144)


def on_site(**changes: Any) -> Inputs:
    site = INPUTS.job.site.model_copy(update=changes)
    return replace(INPUTS, job=INPUTS.job.model_copy(update={"site": site}))


def mounted(**changes: Any) -> Inputs:
    (array,) = INPUTS.job.arrays
    mounting = array.mounting.model_copy(update=changes)
    arrays = (array.model_copy(update={"mounting": mounting}),)
    return replace(INPUTS, job=INPUTS.job.model_copy(update={"arrays": arrays}))


def with_lags(**changes: Any) -> Inputs:
    def changed(system: Any) -> Any:
        attachment = system.attachment
        lags = attachment.lags.model_copy(update=changes)
        return system.model_copy(
            update={"attachment": attachment.model_copy(update={"lags": lags})}
        )

    systems = {name: changed(system) for name, system in INPUTS.mountings.items()}
    return replace(INPUTS, mountings=MappingProxyType(systems))


def found(design: Design, rule_id: str) -> tuple[Finding, ...]:
    (rule,) = (rule for rule in RULES if rule.id == rule_id)
    return judge_by(rule, design)


def uplift_rule(design: Design, rule_id: str, zone: str = "1") -> Finding:
    (finding,) = (one for one in found(design, rule_id) if f"in zone {zone} " in one.message)
    return finding


def net_lb(qh_psf: float, area_sqft: float, gcp: float, equal: float, factor: float) -> float:
    """0.6 W - 0.6 D by hand, ASCE 7-16, 2.4.1 and 29.4.4."""
    up = 0.6 * qh_psf * gcp * 1.5 * equal - 0.6 * MODULE_PSF * COS
    return factor * area_sqft * up


def ratio_of(rule_id: str, zone: str = "1") -> Callable[[Design], float]:
    def read(design: Design) -> float:
        finding = uplift_rule(design, rule_id, zone) if zone else found(design, rule_id)[0]
        assert finding.measured is not None
        return finding.measured

    return read


def test_the_example_as_it_is() -> None:
    design = build_design(INPUTS)
    lb = net_lb(QH, 7, 1.5, 0.8, 1.15)
    assert pytest.approx(118.3, abs=0.1) == lb
    finding = uplift_rule(design, "structure.connector-uplift")
    assert finding.demand == pytest.approx(lb, rel=0.001)
    assert finding.measured == pytest.approx(lb / 540, rel=0.001)
    # two screws: 2 x 265.99 x 2.0625 x 1.6 x 0.8 = 1404 lb
    withdrawal = uplift_rule(design, "structure.lag-withdrawal")
    assert withdrawal.capacity == pytest.approx(1404, abs=0.5)
    assert withdrawal.measured == pytest.approx(lb / 1404.4, rel=0.001)


MORE_WIND = ("connector-uplift", "lag-withdrawal", "lag-combined", "rail-strength")


def test_twenty_miles_an_hour_more() -> None:
    # (130 / 110)^2 = 1.3967 times the wind, and the same weight against it: 118.3 goes to 169.2 lb
    before, after = build_design(INPUTS), build_design(on_site(wind_speed=130.0))
    lb = net_lb(QH * (130 / 110) ** 2, 7, 1.5, 0.8, 1.15)
    assert pytest.approx(169.2, abs=0.1) == lb
    assert uplift_rule(after, "structure.connector-uplift").demand == pytest.approx(lb, rel=0.001)
    for name in MORE_WIND:
        zone = "1" if name in MORE_WIND[:2] else ""
        read = ratio_of(f"structure.{name}", zone)
        assert 1 < read(after) / read(before) < (lb / 118.3) * 1.05, name
    # the maker's table ends at 120 mph in exposure B
    assert found(before, "structure.rail-span")[0].limit == 54
    (told,) = found(after, "structure.rail-span")
    assert (told.outcome, told.measured) == (Outcome.OPEN, None)


def test_open_water_for_open_country() -> None:
    # Kz at 15 ft: C 0.849, D 1.030; C alone makes 1.476 of B's 0.575
    country, water = (build_design(on_site(exposure=letter)) for letter in "CD")
    at_15 = {letter: 2.01 * (15 / zg) ** (2 / alpha) for letter, alpha, zg in
             (("B", 7.0, 1200), ("C", 9.5, 900), ("D", 11.5, 700))}  # fmt: skip
    for design, letter in ((country, "C"), (water, "D")):
        lb = net_lb(QH * at_15[letter] / at_15["B"], 7, 1.5, 0.8, 1.15)
        finding = uplift_rule(design, "structure.connector-uplift")
        assert finding.demand == pytest.approx(lb, rel=0.001)
        assert finding.measured == pytest.approx(lb / 540, rel=0.001)
    for name in MORE_WIND:
        read = ratio_of(f"structure.{name}", "1" if name in MORE_WIND[:2] else "")
        assert 1 < read(water) / read(country) < 1.03 / 0.849 * 1.05, name
    # no row of the maker's table is for D
    (told,) = found(water, "structure.rail-span")
    assert (told.outcome, told.measured) == (Outcome.OPEN, None)


@pytest.mark.parametrize(
    ("length_in", "thread_in", "outcome"),
    [
        (3.5, 2.25 - 0.1875, Outcome.PASS),
        (3.0, 2.0 - 0.1875, Outcome.PASS),
        (2.0, 2.0 - 0.8125 - 0.1875, Outcome.FAIL),  # 1.0 in of thread, 4 D is 1.25
    ],
)
def test_a_shorter_lag_screw(length_in: float, thread_in: float, outcome: Outcome) -> None:
    design = build_design(with_lags(length=length_in))
    (embedment,) = found(design, "structure.lag-embedment")
    assert (embedment.outcome, embedment.limit) == (outcome, 1.25)
    assert embedment.measured == pytest.approx(thread_in)
    finding = uplift_rule(design, "structure.lag-withdrawal")
    capacity = 2 * 1800 * 0.5**1.5 * 0.3125**0.75 * thread_in * 1.6 * 0.8
    assert finding.capacity == pytest.approx(capacity, rel=0.001)
    assert finding.measured == pytest.approx(118.25 / capacity, rel=0.001)
    (combined,) = found(design, "structure.lag-combined")
    if outcome is Outcome.FAIL:  # under 4 D there is no lateral value at all
        assert (combined.outcome, combined.measured) == (Outcome.FAIL, None)
    else:
        assert combined.outcome is Outcome.PASS
    # the hook does not care
    assert uplift_rule(design, "structure.connector-uplift").demand == pytest.approx(
        118.25, abs=0.05
    )


def test_every_other_hook_left_out() -> None:
    # hooks at 26, 110 and 194 in: the middle one takes 14 sq ft, gamma_a .8 - .4 log 1.4 = .7416,
    # and of two spans 1.25 of it
    design = build_design(mounted(attachment_spacing=84.0))
    lb = net_lb(QH, 14, 1.5, 0.8 - 0.4 * math.log10(1.4), 1.25)
    finding = uplift_rule(design, "structure.connector-uplift")
    assert finding.demand == pytest.approx(lb, rel=0.001)
    assert finding.measured == pytest.approx(lb / 540, rel=0.001)
    withdrawal = uplift_rule(design, "structure.lag-withdrawal")
    assert withdrawal.measured == pytest.approx(lb / 1404.4, rel=0.001)
    (span,) = found(design, "structure.rail-span")
    assert (span.outcome, span.measured, span.limit) == (Outcome.FAIL, 84, 54)
    # twice the span bends four times as much under the same load: D + 0.6 W of 16 psf, and uplift
    # falls with gamma_a alone
    before, after = (
        max(
            check.sagging.demand
            for rail in one.loads.arrays[0].rails
            for check in [rail.down]
            if check
        )
        for one in (build_design(INPUTS), design)
    )
    assert after == pytest.approx(4 * before)


def test_the_lowest_hook_of_every_rail_left_out() -> None:
    # the first one 49 in up the rail: that much hangs free, 0.33 x 42 in at most; the next hook
    # then takes 48 in of modules beside its half span: 24 in by 69 in is 11.5 sq ft
    design = build_design(mounted(first_attachment=49.0))
    (free,) = found(design, "structure.rail-cantilever")
    assert (free.outcome, free.measured) == (Outcome.FAIL, 49)
    assert free.limit == pytest.approx(13.86)
    (before,) = found(build_design(INPUTS), "structure.rail-cantilever")
    assert (before.outcome, before.measured) == (Outcome.PASS, 7)
    lowest = next(one for one in design.loads.attachments if one.area_sqft == pytest.approx(11.5))
    assert lowest.zone == "2e"
    # reaction of a free end of 48 in on spans of 42 in, three moments: M 1152, -129.6, 248.6, 17.3
    # with the other end's 5.88 in; (48 + 21 + (1152 + 129.6) / 42) / 69 = 1.442 over 1.15
    assert lowest.continuity == pytest.approx((69 + (1152 + 129.6) / 42) / 69, rel=0.0001)
    lb = net_lb(QH, 11.5, 1.5, 0.8 - 0.4 * math.log10(1.15), lowest.continuity)
    assert lowest.uplift_lb == pytest.approx(lb, rel=0.001)
    assert lowest.uplift_lb > 118.3
    finding = uplift_rule(design, "structure.connector-uplift", "2e")
    assert finding.demand == pytest.approx(lb, rel=0.001)
