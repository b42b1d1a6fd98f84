"""Every load and ratio of three whole jobs against a second, naive computation, within 0.5 %.

What is typed here is read off the jobs and their catalog entries; figures, curves and factors are
those of ASCE 7-16 and 7-22 and NDS 2018 as `naive` names them.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import naive
import pytest
from houses import EXAMPLE, house
from naive import Field, House, Lumber

from planset.design.design import Design, build_design
from planset.design.rafter import CHECKS
from planset.job.load import read_job
from planset.job.site import Snow

CLOSE = 0.005

# of all: two 5/16 x 3-1/2 in screws through 1/4 in of A36 and 9/16 in of deck in Douglas fir
LATERAL = naive.lateral_of_5_16(0.50, 0.25, 87_000, 0.5 + 1 / 16)
THREAD = 3.5 / 2 + 0.5 - 3 / 16  # T less the tip; the deck leaves more of the screw than that
WITHDRAWAL = 1800 * 0.50**1.5 * 0.3125**0.75 * THREAD
SHARE_OF_8_D = THREAD / (8 * 0.3125)
TR_402 = 48.5 / (67.8 * 44.6 / 144)  # psf of the module alone


@dataclass(frozen=True)
class Case:
    """A design, and what is expected of each array by its id and plane."""

    design: Design
    house: House
    fields: Mapping[str, tuple[str, Field]]


def douglas_fir(depth: float, size: float, supports: tuple[float, ...], dead_psf: float) -> Lumber:
    """No. 2 at 24 in, 1-1/2 in thick, repetitive."""
    fb = 900 * size * 1.15
    return Lumber(1.5, depth, fb, 180, 625, 1.6e6, 0.58e6, 24, supports, dead_psf)


# ---------------------------------------------------------------- examples/tile-gable


@cache
def tile_gable() -> Case:
    """Wind 110 mph, exposure B, 640 ft up, eaves at 9 ft, gable 44 ft by 34 ft at 5:12, 7-16."""
    height = 108 + 204 * 5 / 12 / 2
    kz = 2.01 * (max(15, height / 12) / 1200) ** (2 / 7)
    qh = 0.00256 * kz * 0.85 * math.exp(-0.0000362 * 640) * 110**2
    a = naive.strip(408, height)

    def zone(u0: float, u1: float, y0: float, y1: float) -> str:
        at_rake, at_eave, at_ridge = u0 < a or u1 > 528 - a, y0 < a, y1 > 204 - a
        if at_rake and (at_ridge or at_eave):
            return "3r" if at_ridge else "3e"
        if at_rake or at_ridge:
            return "2r" if at_ridge else "2n"
        return "2e" if at_eave else "1"

    def gcp(name: str, area: float) -> float:  # Figure 30.3-2C
        curves = {"1": (20, -1.5, 300, -0.8), "2": (10, -2.5, 150, -1.2), "3r": (4, -3.6, 50, -1.8)}
        curve = {"1": "1", "2e": "1", "3r": "3r"}.get(name, "2")
        return naive.on_curve(area, curves[curve])

    left, low = 57.5, 20.0
    right, high = left + 5 * 67.8 + 4 * 0.5, low + 4 * 44.6 + 3 * 0.5
    field = Field(
        left, right, low, high,
        rails=naive.every(12 + 24 * 2, 24, left, right),
        hooks=naive.every(low - 1 + 7, 42, low - 1, high + 1),
        zone=zone, gcp=gcp, equalized=True,
        lumber=douglas_fir(5.5, 1.3, (18, 111, 204), 17),
    )  # fmt: skip
    shared = House(
        5, qh, ((2, 0.7, 100, 0.3),), 3.2, TR_402, 0, 0, naive.COMBINATIONS_16, 1, LATERAL
    )
    return Case(build_design(read_job(EXAMPLE)), shared, {"A1": ("front", field)})


# ---------------------------------------------------------------- cross-gable-hooks.yaml


@cache
def cross_gable() -> Case:
    """Wind 110 mph, exposure C, 310 ft up, eaves at 9 ft, 88 ft by 56 ft with wings, 5:12, 7-22."""
    height = 108 + 192 * 5 / 12 / 2
    kz = 2.41 * (max(15, height / 12) / 2460) ** (2 / 9.8)
    qh = 0.00256 * kz * math.exp(-0.0000362 * 310) * 110**2
    a = naive.strip(56 * 12, height)

    def gcp(name: str, area: float) -> float:  # Figure 30.3-2C
        curves = {
            "1": (10, -1.5, 200, -0.8),
            "2": (10, -2.5, 100, -1.2),
            "3": (10, -3.0, 100, -1.4),
        }
        return naive.on_curve(area, curves[name])

    def field(
        along: float, columns: int, rows: int, first_rail: float, run: float,
        rakes: tuple[float, float], supports: tuple[float, ...],
    ) -> Field:  # fmt: skip
        """An array of a plane whose gable ends lie at two distances along its eave's line."""

        def zone(u0: float, u1: float, y0: float, y1: float) -> str:
            at_rake = u0 < rakes[0] + a or u1 > rakes[1] - a
            at_ridge = y1 > run - a
            return "3" if at_rake and at_ridge else "2" if at_rake or at_ridge else "1"

        left, low = along, 20.0
        right = left + columns * 67.8 + (columns - 1) * 0.5
        high = low + rows * 44.6 + (rows - 1) * 0.5
        return Field(
            left, right, low, high,
            rails=naive.every(first_rail, 24, left + 0.8, right - 0.8),
            hooks=naive.every(low - 1 + 7, 42, low - 1, high + 1),
            zone=zone, gcp=gcp, equalized=True,
            lumber=douglas_fir(7.25, 1.2, supports, 19),
        )  # fmt: skip

    far = math.inf
    fields = {
        # the main roof, 88 ft from gable end to gable end
        "A1": ("front", field(352, 3, 3, 16 + 24 * 14, 192, (0, 1056), (18, 96, 174))),
        # left slope of the west wing: its gable end is on the right, 24 ft along, a valley left
        "A2": ("west-left", field(30, 3, 2, 12 + 24 * 1, 144, (-far, 288), (18, 81, 144))),
        # right slope of the east wing: its gable end is on the left
        "A3": ("east-right", field(54, 3, 2, 14 + 24 * 2, 132, (0, far), (18, 75, 132))),
    }
    shared = House(
        5, qh * 0.85, ((10, 0.6, 200, 0.3),), 3.2, TR_402, 0, 0, naive.COMBINATIONS_22, 1, LATERAL
    )
    design = build_design(read_job(Path(__file__).with_name("cross-gable-hooks.yaml")))
    return Case(design, shared, fields)


# ---------------------------------------------------------------- a hip roof under snow


@cache
def snowy_hip() -> Case:
    """A hip 40 ft by 30 ft at 4:12, eaves at 16 ft, exposure C, 120 mph, 30 psf of snow, 7-16."""
    changes = {
        "roof.pitch": 4 / 12,
        "building.eave_height": 192.0,
        "site.exposure": "C",
        "site.wind_speed": 120.0,
        "site.ground_snow": 30.0,
        "site.snow": Snow(roof_exposure="partially", thermal="heated", slides_clear=False),
    }
    for array in ("A1", "A2", "A3"):
        changes[f"arrays.{array}.mounting.first_attachment"] = 8.0
        changes[f"arrays.{array}.mounting.attachment_spacing"] = 24.0
    height = 192 + 180 * 4 / 12 / 2  # 222 in, h/B 0.617
    qh = 0.00256 * 2.01 * (height / 12 / 900) ** (2 / 9.5) * 0.85 * 120**2
    a = naive.strip(360, height)
    share_of_tall = (height / 360 - 0.5) / 0.3  # between Figures 30.3-2F and 30.3-2E

    def gcp(name: str, area: float) -> float:
        low = {"1": (20, -1.3, 100, -1.0), "2r": (10, -2.4, 200, -1.3), "2e": (10, -1.8, 200, -1.1)}
        tall = {
            "1": (20, -1.8, 100, -1.0),
            "2r": (10, -2.4, 200, -1.3),
            "2e": (10, -2.6, 200, -1.4),
        }
        mild, severe = naive.on_curve(area, low[name]), naive.on_curve(area, tall[name])
        return mild + (severe - mild) * share_of_tall

    def field(
        along: float, up: float, columns: int, gap: float, rows: int, row_gap: float,
        eave: float, equalized: bool,
    ) -> Field:  # fmt: skip
        """An array of a plane between two hips of 45 degrees in plan."""

        def zone(u0: float, u1: float, y0: float, y1: float) -> str:
            # of small areas 2r pulls most, so that it takes the corners of the eaves
            to_hip = min(u0 - y1, eave - u1 - y1) / math.sqrt(2)
            return "2r" if min(to_hip, 180 - y1) < a else "2e" if y0 < a else "1"

        right = along + columns * 71.6 + (columns - 1) * gap
        high = up + rows * 35.625 + (rows - 1) * row_gap
        return Field(
            along, right, up, high,
            rails=naive.every(12 + 24 * 3, 24, along + 0.8, right - 0.8),
            hooks=naive.every(up + 8, 24, up, high),
            zone=zone, gcp=gcp, equalized=equalized,
            lumber=douglas_fir(5.5, 1.3, (0, 90, 180), 15),
        )  # fmt: skip

    # 2 h2 is 15.4 in: A1 is nearer to its hips, (108 - 91.1) / sqrt(2) in plan; A2 and A3 are not
    fields = {
        "A1": ("right", field(108, 24, 2, 0.8, 2, 0.75, 360, equalized=False)),
        "A2": ("front", field(83.182, 24.375, 4, 9.0787, 1, 0, 480, equalized=True)),
        "A3": ("back", field(83.182, 24.375, 4, 9.0787, 1, 0, 480, equalized=True)),
    }
    # pf 0.7 Ce Ct pg, Cs 1 at 18.4 degrees; drift of 15 ft, taken for 20, at S 3, density 17.9 pcf
    drift = (0.43 * 20 ** (1 / 3) * 40**0.25 - 1.5) * 17.9 / math.sqrt(3)
    on_modules, on_roof = 0.7 * 1.2 * 30 + drift, 0.7 * 1.0 * 30 + drift
    module = 48 / (71.6 * 35.625 / 144)
    shared = House(
        4, qh, ((10, 0.7, 100, 0.3),), 3.0, min(module, 3.0), on_modules, on_roof,
        naive.COMBINATIONS_16, 0, LATERAL,
    )  # fmt: skip
    return Case(build_design(house(changes, "hip-40x30-three")), shared, fields)


# ---------------------------------------------------------------- all three

Job = Callable[[], Case]

EVERY_JOB = pytest.mark.parametrize("job", [tile_gable, cross_gable, snowy_hip])


@EVERY_JOB
def test_every_attachment(job: Job) -> None:
    case = job()
    for loads, rack in zip(case.design.loads.arrays, case.design.racking, strict=True):
        expected = naive.hooks_of(case.house, case.fields[loads.array][1])
        assert len(loads.attachments) == len(rack.attachments) == len(expected)
        for load, hook in zip(loads.attachments, expected.values(), strict=True):
            assert load.zone == hook.zone, load.attachment
            assert load.uplift_lb == pytest.approx(hook.uplift, rel=CLOSE)
            assert load.down_lb == pytest.approx(hook.down, rel=CLOSE)
            assert load.along_lb == pytest.approx(hook.slide, rel=CLOSE)


@EVERY_JOB
def test_the_lag_screws_of_every_attachment(job: Job) -> None:
    case = job()
    for loads in case.design.loads.arrays:
        hooks = naive.hooks_of(case.house, case.fields[loads.array][1]).values()
        for use, hook in zip(loads.lags, hooks, strict=True):
            ratio = naive.lag_ratio(case.house, hook, WITHDRAWAL, SHARE_OF_8_D)
            assert use.ratio == pytest.approx(ratio, rel=CLOSE), use.attachment


@EVERY_JOB
def test_every_rail(job: Job) -> None:
    case = job()
    for loads in case.design.loads.arrays:
        field = case.fields[loads.array][1]
        hooks = naive.hooks_of(case.house, field)
        assert len(loads.rails) == len(field.rails)
        for i, rail in enumerate(loads.rails):
            own = [hooks[i, j] for j in range(len(field.hooks))]
            for check, side in ((rail.up, -1), (rail.down, 1)):
                assert check is not None
                ratio = naive.rail_ratio(case.house, field, own, side)
                assert check.ratio == pytest.approx(ratio, rel=CLOSE), rail.rail


@EVERY_JOB
def test_every_rafter(job: Job) -> None:
    case = job()
    framing = case.design.loads.framing
    assert framing.beyond_supports == ()
    found: dict[tuple[str, int, float], dict[str, float]] = {}
    for use in framing.rafters:
        of_span = found.setdefault((use.plane, use.rafter, use.from_in), dict.fromkeys(CHECKS, 0.0))
        for name in CHECKS:
            of_span[name] = max(of_span[name], use.check.named(name).ratio)
    expected = {}
    for rack in case.design.racking:
        plane, field = case.fields[rack.array]
        hooks = naive.hooks_of(case.house, field)
        for i, low, ratios in naive.rafter_ratios(case.house, field, hooks):
            expected[plane, list(rack.by_rail.values())[i][0].line, low] = ratios
    assert found.keys() == expected.keys()
    for place, ratios in expected.items():
        assert found[place] == pytest.approx(ratios, rel=CLOSE), place


def test_the_jobs_are_the_ones_meant() -> None:
    # every zone that the jobs can show occurs, and the two limits of the method
    seen = {
        job: {load.zone for load in job().design.loads.attachments}
        for job in (tile_gable, cross_gable, snowy_hip)
    }
    assert seen[tile_gable] == {"1", "2e", "2r"}
    assert seen[snowy_hip] == {"1", "2e", "2r"}
    assert seen[cross_gable] == {"1", "2", "3"}
    assert len(tile_gable().design.loads.attachments) == 75
    methods = [loads.method.holds for loads in snowy_hip().design.loads.arrays]
    assert methods == [False, True, True]
    # by hand: module top 9.3625 in above the rafter, lowest pan 1.9196 in, so h2 = 7.443 in,
    # 1.5 in more with the foot at its highest; edges
    # of the tile gable at 20 in (eave) and 221 - 199.9 in (ridge) on the slope of 5 in 12, which is
    # 18.46 in in plan, over 2 h2 = 17.89 in
    (method,) = [loads.method for loads in tile_gable().design.loads.arrays]
    assert method.holds
    assert method.clearance_in == pytest.approx(20 * 12 / 13)
    assert method.height_above_roof_in == pytest.approx(8.943, abs=0.0005)
