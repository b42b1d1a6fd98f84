"""Snow on planes and on modules over them, by hand; factors as in ASCE 7-16 and 7-22, chapter 7.

"Spacing tables": a published attachment-spacing document takes Ct 1.2 on modules. "Reference": the
synthetic case of 6:12, pg 25, worked apart from this program.
"""

import math
from dataclasses import replace
from typing import Any

import pytest
from houses import house, roof_of_house

from planset.codes.asce7.standard import load_standard
from planset.design.design import build_design
from planset.design.snow import PlaneSnow, plane_snow
from planset.job.by_plane import EVERY_PLANE
from planset.job.load import Inputs
from planset.job.site import Snow

CLEAR = Snow(roof_exposure="partially", thermal="heated", slides_clear=True)
KEPT = Snow(roof_exposure="partially", thermal="heated", slides_clear=False)


def snowy(ground_psf: float, snow: Snow, **changes: Any) -> Inputs:
    places = {name.replace("__", "."): value for name, value in changes.items()}
    spaced = {"arrays.A1.mounting.attachment_spacing": 48.0}
    return house({"site.ground_snow": ground_psf, "site.snow": snow, **spaced, **places})


def on_front(inputs: Inputs, year: int = 2016) -> PlaneSnow:
    found = plane_snow(inputs, load_standard(year), roof_of_house(inputs).plane("front"))
    assert found is not None
    return found


def test_the_reference_case() -> None:
    # pf 0.7 x 1.0 x 1.2 x 25 = 21.0, slippery Cs (70 - 26.57) / 55 = .7897, ps 16.58; Ct 1.0 gives
    # .668 and 11.69, which is not for modules
    found = on_front(snowy(25.0, CLEAR))
    assert found.panels.thermal == 1.2
    assert found.panels.flat_psf == pytest.approx(21.0)
    assert found.panels.slope_factor == pytest.approx(0.7897, abs=0.00005)
    assert found.panels.load_psf == found.panels.sloped_psf == pytest.approx(16.58, abs=0.005)
    # the roof below is rough and warm: Cs 1.0 up to 30 degrees
    assert (found.roof.thermal, found.roof.slope_factor) == (1.0, 1.0)
    assert found.roof.load_psf == pytest.approx(17.5)


def test_snow_that_cannot_slide_off_stays() -> None:
    kept = on_front(snowy(25.0, KEPT))
    assert kept.panels.slope_factor == 1.0  # the other curve, to 45 degrees at Ct 1.2
    assert kept.panels.load_psf == pytest.approx(21.0)


def test_the_drift_beside_the_ridge_lies_on_modules_as_on_the_roof() -> None:
    # W 15 ft, which 7.6.1 takes for 20; hd 0.43 x 20^(1/3) x 35^(1/4) - 1.5 = 1.339 ft, density
    # 17.25 pcf, S 2: 1.339 x 17.25 / sqrt 2 = 16.33 psf on top of 21.0 on modules, 17.5 on the roof
    found = on_front(snowy(25.0, KEPT))
    drift = (0.43 * 20 ** (1 / 3) * 35**0.25 - 1.5) * (0.13 * 25 + 14) / math.sqrt(2)
    assert drift == pytest.approx(16.33, abs=0.01)
    assert found.unbalanced is not None
    assert found.unbalanced.surcharge_psf == pytest.approx(drift)
    assert found.on_panels_psf == pytest.approx(21.0 + drift)
    assert found.on_roof_psf == pytest.approx(17.5 + drift)
    # snow that slides from modules still drifts over their slope as over the roof's
    clear = on_front(snowy(25.0, CLEAR))
    assert clear.on_panels_psf == pytest.approx(17.5 + drift)


def test_simple_rafters_of_a_narrow_roof_take_the_ground_snow() -> None:
    # 7.6.1: up to 20 ft with simply supported rafters the leeward slope takes Is pg
    narrow = {"framing__supports": {EVERY_PLANE: (0.0, 180.0)}}
    found = on_front(snowy(25.0, KEPT, **narrow))
    assert found.on_panels_psf == found.on_roof_psf == 25
    wide = on_front(snowy(25.0, KEPT, roof__depth=500.0, **narrow))
    assert wide.unbalanced is not None
    assert wide.unbalanced.surcharge_psf > 0


def test_the_minimum_of_low_slopes_takes_no_drift_with_it() -> None:
    # 1:12, 4.76 degrees: pm = 20 psf over 0.7 x 15 = 10.5; the drift lies on 10.5
    found = on_front(snowy(15.0, KEPT, roof__pitch=1 / 12))
    assert found.roof.minimum_governs
    assert found.roof.load_psf == 15
    drift = (0.43 * 20 ** (1 / 3) * 25**0.25 - 1.5) * (0.13 * 15 + 14) / math.sqrt(12)
    assert found.on_roof_psf == pytest.approx(max(15, 10.5 + drift))


def test_snow_of_22_holds_its_importance_in_the_map() -> None:
    snow = KEPT.model_copy(update={"winter_wind": 0.35})
    inputs = snowy(40.0, snow, building__risk_category="IV")
    assert on_front(inputs).importance == 1.2
    new = on_front(inputs, 2022)
    assert new.importance == 1.0
    assert new.panels.flat_psf == pytest.approx(0.7 * 1.2 * 40)


def test_a_drift_that_cannot_be_computed_is_told() -> None:
    found = on_front(snowy(40.0, KEPT), 2022)
    assert "winter_wind" in found.unbalanced_open
    assert found.unbalanced is None
    assert found.on_panels_psf == found.panels.load_psf


def test_without_snow_on_the_ground_there_is_none() -> None:
    inputs = house()
    assert plane_snow(inputs, load_standard(2016), roof_of_house(inputs).plane("front")) is None
    assert build_design(inputs).loads.snow == {}


def test_snow_reaches_attachments_on_the_projection() -> None:
    # 34.16 psf x 8 sq ft x cos on the middle hook; D + S at once down and along the slope
    inputs = snowy(25.0, KEPT)
    design = build_design(replace(inputs))
    load = next(one for one in design.loads.attachments if one.area_sqft == 8)
    psf = design.loads.snow["front"].on_panels_psf
    slope = math.atan(0.5)
    assert load.loads.snow_lb == pytest.approx(psf * 8 * math.cos(slope))
    vertical = 3 * 8 + psf * 8 * math.cos(slope)
    assert load.along_lb == pytest.approx(vertical * math.sin(slope) * 1.25)
    assert load.combined.along.combination.text == "D + S"


def test_the_slope_is_counted_once() -> None:
    # per sq ft of slope: D cos + S cos^2 and D sin + S cos sin (reference, 9)
    design = build_design(snowy(25.0, KEPT))
    load = next(one for one in design.loads.attachments if one.area_sqft == 8)
    psf = design.loads.snow["front"].on_panels_psf
    cos, sin = math.cos(math.atan(0.5)), math.sin(math.atan(0.5))
    (combined,) = (one for one in load.combined.loads if one.combination.text == "D + S")
    assert combined.normal_lb / 8 == pytest.approx(3 * cos + psf * cos**2)
    assert combined.along_lb / 8 == pytest.approx(3 * sin + psf * cos * sin)
