"""Tilted panels on low slopes, ASCE 7-16 29.4.3, in outline.

(GCrn)nom by a public transcription of ASCE 7-16 Figure 29.4-7; the rest by hand from the printed
formulas.
"""

import pytest

from planset.codes.asce7 import tilted_panels
from planset.codes.asce7.standard import load_standard


@pytest.mark.parametrize(
    ("zone", "tilt_deg", "area", "coefficient"),
    [
        # end points, both tilts
        ("1", 5, 1, 1.5),
        ("1", 15, 500, 0.56),
        ("2", 0, 5000, 0.15),
        ("3", 35, 1, 3.5),
        ("3", 20, 9000, 0.50),  # constant beyond the last point
        ("3", 20, 0.5, 3.5),  # and before the first
        ("2", 10, 1, 2.45),  # half way between 5 and 15 degrees
        ("1", 5, 500**0.5, (1.5 + 0.35) / 2),  # half way in the logarithm
        ("1", 5, (500 * 5000) ** 0.5, (0.35 + 0.10) / 2),
    ],
)
def test_nominal_coefficient(zone: str, tilt_deg: float, area: float, coefficient: float) -> None:
    found = tilted_panels.nominal_coefficient(zone, tilt_deg, area)
    assert found == pytest.approx(coefficient)


@pytest.mark.parametrize(
    ("height_ft", "longest_ft", "shortest_ft", "area"),
    [
        (20, 100, 50, 1000 * 30 / 17.889**2),  # 0.4 sqrt(20 x 100)
        (16, 400, 50, 1000 * 30 / 16**2),  # h
        (40, 400, 20, 1000 * 30 / 20**2),  # the shortest side
        (10, 40, 30, 1000 * 30 / 15**2),  # not under 15 ft
    ],
)
def test_normalized_area(
    height_ft: float, longest_ft: float, shortest_ft: float, area: float
) -> None:
    found = tilted_panels.normalized_area(30, height_ft, longest_ft, shortest_ft)
    assert found == pytest.approx(area, rel=1e-4)


@pytest.mark.parametrize(
    ("parapet_ft", "height_ft", "chord_ft", "edge", "factor"),
    [
        (0, 20, 3, 1.0, 0.9 * 0.8),  # the lower limit of gamma_c
        (2, 20, 6, 1.5, 1.0 * 0.96 * 1.5),
        (10, 20, 6, 1.0, 1.2 * 0.96),  # the upper limit of gamma_p
    ],
)
def test_net_coefficient(
    parapet_ft: float, height_ft: float, chord_ft: float, edge: float, factor: float
) -> None:
    found = tilted_panels.net_coefficient(2.0, parapet_ft, height_ft, chord_ft, edge)
    assert found == pytest.approx(2.0 * factor)


@pytest.mark.parametrize(
    ("values", "missed"),
    [
        ((6.7, 35, 2, 4), ()),  # at the limits
        ((6.8, 35, 2, 4), ("panel chord",)),
        (
            (6.0, 36, 2.1, 4.1),
            ("tilt to roof", "height of the low edge", "height of the high edge"),
        ),
    ],
)
def test_method_limits(values: tuple[float, float, float, float], missed: tuple[str, ...]) -> None:
    assert tilted_panels.method_limits(*values) == missed


@pytest.mark.parametrize(("zone", "tilt_deg", "area"), [("4", 5, 1), ("1", 36, 1), ("1", 5, 0)])
def test_nominal_coefficient_refuses(zone: str, tilt_deg: float, area: float) -> None:
    with pytest.raises(ValueError, match="expected"):
        tilted_panels.nominal_coefficient(zone, tilt_deg, area)


@pytest.mark.parametrize("year", [2016, 2022])
def test_kd_is_in_the_pressure_once(year: int) -> None:
    velocity = load_standard(year).velocity_pressure(20, "C", 1.0, 0, 115)
    bare = 0.00256 * velocity.kz * 115**2  # by hand, without Kd
    assert tilted_panels.pressure_psf(velocity, 1.44) == pytest.approx(bare * 0.85 * 1.44)
