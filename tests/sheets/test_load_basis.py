"""S-601 by an engineer's way: its results follow from what it prints, and from nothing else."""

from __future__ import annotations

import math
import re
from functools import cache

import pytest

from tests.sheets.drawn_sets import own_sheet
from tests.sheets.tables import tables_on

MOUNTED = ("tile-gable", "cross-gable", "shingle-hip", "battery-retrofit")
SLOPES = {
    "tile-gable": 22.62,
    "cross-gable": 22.62,
    "shingle-hip": 26.57,
    "battery-retrofit": 26.57,
}
NUMBER = re.compile(r"-?\d[\d,]*\.?\d*")


@cache
def tables(name: str) -> dict[str, list[tuple[str, ...]]]:
    """The rows of S-601 by their table's title, those of a continuation with the rest."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for page in own_sheet(name).pages("S-601"):
        for table in tables_on(page):
            found.setdefault(table.title.removesuffix(", CONT."), []).extend(table.rows)
    return found


def rows(name: str, title: str) -> list[tuple[str, ...]]:
    return [row for words, own in tables(name).items() if words.startswith(title) for row in own]


def cell(name: str, title: str, first: str) -> str:
    """What stands beside a row's first cell."""
    return next(row[1] for row in rows(name, title) if row[0] == first)


def numbers(words: str) -> list[float]:
    return [float(found.replace(",", "")) for found in NUMBER.findall(words)]


def feet_inches(words: str) -> float:
    feet, inches = re.fullmatch(r"(\d+)'-(\d+(?: \d+/\d+)?)\"", words).groups()  # type: ignore[union-attr]
    whole, _, part = inches.partition(" ")
    top, _, bottom = part.partition("/")
    return 12 * int(feet) + int(whole) + (int(top) / int(bottom) if part else 0)


def rafters(name: str, check: str) -> list[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Rows of loads beside rows of demand and capacity, rafter by rafter."""
    results = {
        (row[1].replace("- ", "-"), row[0]): row
        for row in rows(name, "RAILS AND RAFTERS")
        if row[0].startswith("RAFTER")
    }
    return [
        (row, results[row[0].rpartition(",")[0], f"RAFTER, {check}"])
        for row in rows(name, "LOADS AND ALLOWED")
        if row[0].endswith(check)
    ]


def spread_and_points(
    loads: str,
) -> tuple[float, list[tuple[float, float, float]], list[tuple[float, float]]]:
    """Uniform load [lb/in], loads on parts [in, in, lb/in], forces [in, lb] of one span."""
    uniform, spread, points = 0.0, [], []
    for part in loads.split(", "):
        found = numbers(part)
        if part.startswith("w "):
            uniform = found[0] / 12
        elif " TO " in part:
            spread.append((found[1], found[2], found[0] / 12))
        else:
            points.append((found[1], found[0]))
    return uniform, spread, points


def moments(span: float, loads: str) -> list[float]:
    """Moments of a simple beam along its span [lb in]."""
    uniform, spread, points = spread_and_points(loads)
    steps = 200
    forces = points + [
        (a + (k + 0.5) * (b - a) / steps, w * (b - a) / steps)
        for a, b, w in spread
        for k in range(steps)
    ]
    left = uniform * span / 2 + sum(p * (span - a) / span for a, p in forces)
    return [
        left * x - uniform * x * x / 2 - sum(p * max(x - a, 0) for a, p in forces)
        for x in (span * k / 400 for k in range(401))
    ]


@pytest.mark.parametrize("name", MOUNTED)
def test_bending_of_rafters(name: str) -> None:
    # a simple beam on the projection, NDS 2018 3.3: M / S
    modulus = numbers(cell(name, "RAFTERS, IN PLAN", "SECTION"))[2]
    found = rafters(name, "BENDING")
    assert found
    for loads, result in found:
        low, high = (feet_inches(words) for words in loads[1].split(" TO "))
        along = moments(high - low, loads[2])
        lifted = "CL" in loads[3]
        stress = (-min(along) if lifted else max(along)) / modulus
        assert stress == pytest.approx(numbers(result[3])[0], rel=0.01, abs=1)


@pytest.mark.parametrize("name", MOUNTED)
def test_allowed_stresses_of_rafters(name: str) -> None:
    # NDS 2018 Table 4.3.1: the product of the factors; CL of 3.3.3 from le, E and the section
    b, d, *_ = numbers(cell(name, "RAFTERS, IN PLAN", "SECTION"))
    e_min = numbers(cell(name, "RAFTERS, IN PLAN", "E, Emin, PSI"))[1] * 0.9
    for check in ("BENDING", "SHEAR", "BEARING"):
        for loads, result in rafters(name, check):
            factors = numbers(loads[3].partition(", ")[0])
            assert math.prod(factors) == pytest.approx(numbers(result[4])[0], abs=0.6)
            if "CL" in loads[3]:
                star = math.prod(factors[:-1])
                slender = numbers(loads[3].partition("le ")[2])[0] * d / b**2
                ratio = 1.2 * e_min / slender / star
                middle = (1 + ratio) / 1.9
                assert factors[-1] == pytest.approx(
                    middle - math.sqrt(middle**2 - ratio / 0.95), abs=0.001
                )


def test_shear_and_bearing_of_a_rafter_on_two_equal_spans() -> None:
    # any handbook: 0.625 w L beside the middle support and 1.25 w L on it; d off for shear
    (loads, result), (bears, bearing) = (rafters("tile-gable", c)[0] for c in ("SHEAR", "BEARING"))
    b, d, *_ = numbers(cell("tile-gable", "RAFTERS, IN PLAN", "SECTION"))
    w, span = numbers(loads[2])[0] / 12, 93
    assert 1.5 * w * (0.625 * span - d) / (b * d) == pytest.approx(numbers(result[3])[0], abs=1)
    sides = numbers(bears[3].partition("ON ")[2])
    assert 1.25 * w * span / math.prod(sides) == pytest.approx(numbers(bearing[3])[0], abs=1)


@pytest.mark.parametrize("name", MOUNTED)
def test_uplift_of_attachments(name: str) -> None:
    # ASCE 7 2.4.1: 0.6 D + 0.6 W normal to the roof, times the factor of the rail
    cos = math.cos(math.radians(SLOPES[name]))
    for array in (one for one in ("A1", "A2", "A3") if rows(name, f"PRESSURES ON ARRAY {one}")):
        dead = numbers(cell(name, "SITE CRITERIA", f"ARRAY {array}, LEAST / GREATEST DEAD"))[0]
        results = {row[0]: row for row in rows(name, f"ATTACHMENTS OF ARRAY {array}")}
        for zone, _, at, area, *figures in rows(name, f"PRESSURES ON ARRAY {array}")[1:]:
            pressure, factor = numbers(figures[3])[0], float(figures[6])
            pull = -0.6 * (pressure + dead * cos) * float(area) * factor
            assert results[zone][1] == at
            assert pull == pytest.approx(numbers(results[zone][2])[0], abs=0.6)


@pytest.mark.parametrize("name", MOUNTED)
def test_capacities_of_lag_screws_and_plate(name: str) -> None:
    # NDS 2018 12.2.1 and AWC TR12 mode IV with a gap, by the constants of the row
    listed = {row[0]: row for row in rows(name, "CAPACITIES OF AN ATTACHMENT")}
    pulled, along, plate = (
        listed[n] for n in ("(2) LAGS, UPLIFT", "(2) LAGS, ALONG", "PLATE ON RAFTER")
    )
    count, w, _, thread, cd, ct = numbers(pulled[2].partition(": ")[2])
    assert count * w * thread * cd * ct == pytest.approx(float(pulled[1]), abs=1)
    product, _, yielding = along[2].partition(": ")[2].partition("; ")
    count, z, cd, ct, _, share = numbers(product)
    assert count * z * cd * ct * share == pytest.approx(float(along[1]), abs=1)
    root, _, _, gap, fyb, fem, fes, *rd = numbers(yielding)
    a, c = (1 / fem + 1 / fes) / (2 * root), fyb * root**3 / 3
    assert "MODE IV" in yielding
    assert (math.sqrt(gap**2 + 4 * a * c) - gap) / (2 * a) / rd[-1] == pytest.approx(z, rel=0.003)
    psi, ct, *sides = numbers(plate[2].partition(": ")[2].replace("1 1/2", "1.5"))
    assert psi * ct * math.prod(sides) == pytest.approx(float(plate[1]))


@pytest.mark.parametrize("name", MOUNTED)
def test_moments_of_rails(name: str) -> None:
    # w L2 / 8 of the worse direction on the longest span; running through may ask for more
    listed = {row[0]: row for row in rows(name, "RAIL OF")}
    found = [row for row in rows(name, "RAILS AND RAFTERS") if row[0] == "RAIL IN BENDING"]
    assert found
    for row in found:
        _, loads, spans = listed[row[1]]
        w, span = max(numbers(loads)), numbers(spans)[0]
        assert numbers(row[3])[0] >= w / 12 * span**2 / 8 / 12 - 0.6
        assert numbers(row[4])[0] == numbers(listed["MOMENT ALLOWED"][1])[0]


@pytest.mark.parametrize("name", ["shingle-hip", "battery-retrofit"])
def test_unbalanced_snow(name: str) -> None:
    # ASCE 7-22 7.6.1 and Equation 7.6-1
    ground = numbers(cell(name, "SITE CRITERIA", "GROUND SNOW"))[0]
    drift = re.findall(
        r"(lu|W2|hd|GAMMA|S) ([\d.]+)", cell(name, "UNBALANCED SNOW", "FRONT, DRIFT")
    )
    lu, w2, hd, gamma, s = (float(value) for _, value in drift)
    assert gamma == pytest.approx(0.13 * ground + 14, abs=0.05)
    assert hd == pytest.approx(
        1.5 * math.sqrt(ground**0.74 * lu**0.70 * w2**1.7 / gamma), rel=0.002
    )
    loads = numbers(cell(name, "UNBALANCED SNOW", "FRONT, UNBALANCED"))
    assert loads[2] == pytest.approx(hd * gamma / math.sqrt(s), abs=0.06)
    on = next(row for row in rows(name, "SNOW, PSF") if row[0] == "FRONT, BARE ROOF")
    assert loads[1] + loads[2] == pytest.approx(float(on[5]), abs=0.11)


@pytest.mark.parametrize("name", MOUNTED)
def test_growth_of_gravity_load(name: str) -> None:
    # IEBC 2018 503.3: more than 5 %, by exception 1
    for row in rows(name, "GRAVITY LOAD WITHOUT")[1:]:
        before, after = numbers(row[1])
        assert 100 * (after / before - 1) == pytest.approx(numbers(row[4])[0], abs=0.1)
    check = next(row for row in rows(name, "OTHER STRUCTURAL") if row[0].startswith("GRAVITY"))
    assert check[1].endswith("503.3, Exception 1")
    assert (check[2], check[4]) == ("<= 5 %", "PASS")
    assert numbers(check[3])[0] > 5


@pytest.mark.parametrize("name", MOUNTED)
def test_the_method_holds_where_its_limits_are_kept(name: str) -> None:
    for row in rows(name, "PANELS PARALLEL")[1:]:
        height, clear, least, gap, chord = (float(figure) for figure in row[1:6])
        assert least == pytest.approx(2 * height, abs=0.011)
        kept = height <= 10 and clear >= least and gap >= 0.25 and chord <= 80.4
        assert row[6] == ("HOLDS" if kept else "NOT MET")


def test_the_pressure_on_a_module_of_others() -> None:
    # ASCE 7-22 Figure 30.3-2A: log of the area between 10 and 500 sq ft, zone 2 -2.3 to -1.4
    q = numbers(cell("flat-commercial", "SITE CRITERIA", "VELOCITY PRESSURE qh"))[0] * 0.85
    title = next(title for title in tables("flat-commercial") if "BY OTHERS" in title)
    area = numbers(title)[-1]
    row = next(row for row in tables("flat-commercial")[title] if row[0].startswith("2,"))
    expected = -2.3 + 0.9 * math.log10(area / 10) / math.log10(50)
    assert float(row[1]) == pytest.approx(expected, abs=0.002)
    assert float(row[2]) == pytest.approx(q * expected, abs=0.1)
