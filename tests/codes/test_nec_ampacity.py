"""Ampacity tables and factors of the NEC.

Sources: copies of the 2022 California Electrical Code (NEC 2020) and of NEC 2023, chapter 3 and
article 690. "recomputed" was worked out apart from this program with the printed formula.
"""

import math
from collections.abc import Callable

import pytest

from planset.codes.nec import ampacity, ampacity_factors, conductors, terminals

SIZES = ["14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"]


@pytest.mark.parametrize(
    ("material", "rating_c", "printed"),
    [
        # NEC 2020 and 2023 Table 310.16, whole columns to 4/0
        ("copper", 60, "15 20 30 40 55 70 85 95 110 125 145 165 195"),
        ("copper", 75, "20 25 35 50 65 85 100 115 130 150 175 200 230"),
        ("copper", 90, "25 30 40 55 75 95 115 130 145 170 195 225 260"),
        ("aluminum", 60, "- 15 25 35 40 55 65 75 85 100 115 130 150"),
        ("aluminum", 75, "- 20 30 40 50 65 75 90 100 120 135 155 180"),
        ("aluminum", 90, "- 25 35 45 55 75 85 100 115 135 150 175 205"),
    ],
)
def test_ampacity_as_printed(material: str, rating_c: float, printed: str) -> None:
    for size, text in zip(SIZES, printed.split(), strict=True):
        if text == "-":
            with pytest.raises(ValueError, match="expected one of 12"):
                ampacity.ampacity_a(size, material, rating_c)
        else:
            assert ampacity.ampacity_a(size, material, rating_c) == float(text)


@pytest.mark.parametrize(
    ("size", "copper", "aluminum"),
    [
        # Table 310.16 at 60, 75 and 90 C over 4/0, from memory
        ("250", (215, 255, 290), (170, 205, 230)),
        ("300", (240, 285, 320), (195, 230, 260)),
        ("350", (260, 310, 350), (210, 250, 280)),
        ("400", (280, 335, 380), (225, 270, 305)),
        ("500", (320, 380, 430), (260, 310, 350)),
    ],
)
def test_ampacity_of_large_conductors(
    size: str, copper: tuple[float, ...], aluminum: tuple[float, ...]
) -> None:
    for material, row in (("copper", copper), ("aluminum", aluminum)):
        found = [ampacity.ampacity_a(size, material, rating) for rating in (60, 75, 90)]
        assert found == list(row)


@pytest.mark.parametrize(
    ("size", "at_75_c", "at_90_c"),
    [
        # NEC 2023 Table 310.17, copper
        ("14", 30, 35),
        ("12", 35, 40),
        ("10", 50, 55),
        ("8", 70, 80),
        ("6", 95, 105),
        ("4", 125, 140),
        ("2", 170, 190),
        ("1/0", 230, 260),
        ("2/0", 265, 300),
        ("3/0", 310, 350),
        ("4/0", 360, 405),
    ],
)
def test_free_air_ampacity(size: str, at_75_c: float, at_90_c: float) -> None:
    assert ampacity.free_air_ampacity_a(size, "copper", 75) == at_75_c
    assert ampacity.free_air_ampacity_a(size, "copper", 90) == at_90_c
    assert at_90_c > ampacity.ampacity_a(size, "copper", 90)


@pytest.mark.parametrize(
    ("rating_c", "printed"),
    [
        # NEC 2020 Table 690.31(A)(b) = NEC 2023 Table 690.31(A)(3)(1), 18 AWG first
        (105, "15 19 29 36 46 64 81 109 129 143 168 193 229 263 301"),
        (125, "16 20 31 39 50 69 87 118 139 154 181 208 247 284 325"),
    ],
)
def test_high_temperature_ampacity(rating_c: float, printed: str) -> None:
    for size, text in zip(["18", "16", *SIZES], printed.split(), strict=True):
        for edition in (2020, 2023):
            value = ampacity.high_temperature_ampacity_a(size, rating_c, edition)
            assert value == float(text)


def test_high_temperature_ampacity_is_new_in_2020() -> None:
    with pytest.raises(ValueError, match="expected one of 2020, 2023"):
        ampacity.high_temperature_ampacity_a("10", 105, 2017)


@pytest.mark.parametrize(
    "ampacity_of",
    [
        *(
            lambda size, material=material, rating=rating: ampacity.ampacity_a(
                size, material, rating
            )
            for material in ("copper", "aluminum")
            for rating in (60, 75, 90)
        ),
    ],
)
def test_ampacity_rises_with_size(ampacity_of: Callable[[str], float]) -> None:
    large = [*SIZES[1:], "250", "300", "350", "400", "500"]
    values = [ampacity_of(size) for size in large]
    assert values == sorted(set(values))


@pytest.mark.parametrize("rating_c", [60, 75, 90, 105, 125])
def test_every_ambient_factor_is_the_equation_at_the_top_of_its_line(rating_c: float) -> None:
    # 310.15(B)(1): sqrt((Tc - Ta') / (Tc - 30)) to two places; recomputed for every line
    tops = [*range(10, 121, 5)]
    lines = [top for top in tops if top < rating_c and (top >= 30 or rating_c <= 90)]
    for top in lines:
        exact = math.sqrt((rating_c - top) / (rating_c - 30))
        assert ampacity_factors.ambient_factor(top, rating_c) == pytest.approx(exact, abs=0.0051)
    with pytest.raises(ValueError, match=f"expected at most {lines[-1]} C"):
        ampacity_factors.ambient_factor(lines[-1] + 0.1, rating_c)


@pytest.mark.parametrize(
    ("ambient_c", "rating_c", "factor"),
    [
        # NEC 2023 Table 310.15(B)(1)(1)
        (8, 90, 1.15),
        (26, 75, 1.00),
        (30, 90, 1.00),
        (30.2, 90, 0.96),  # between two lines: the hotter
        (38, 90, 0.91),
        (38.2, 90, 0.91),  # line 36 to 40
        (40.3, 90, 0.87),  # line 41 to 45
        (47, 90, 0.82),
        (69, 90, 0.58),
        (71, 90, 0.50),
        (47, 75, 0.75),
        (50, 60, 0.58),
        (60, 90, 0.71),  # not 0.77, which is of the table for 40 C
        (38, 105, 0.93),
        (71, 125, 0.73),
        (10, 105, 1.00),  # those columns begin at 30 C
    ],
)
def test_ambient_factor(ambient_c: float, rating_c: float, factor: float) -> None:
    assert ampacity_factors.ambient_factor(ambient_c, rating_c) == factor


def test_equation_in_place_of_the_table() -> None:
    # 90 C conductor at 47 C: 0.8466 by equation, 0.82 by table; recomputed
    assert ampacity_factors.ambient_factor_by_equation(47, 90) == pytest.approx(0.8466, abs=5e-5)
    assert ampacity_factors.ambient_factor(47, 90) == 0.82
    with pytest.raises(ValueError, match="expected"):
        ampacity_factors.ambient_factor_by_equation(90, 90)


@pytest.mark.parametrize(
    ("least", "most", "factor"),
    [
        # NEC 2020 and 2023 Table 310.15(C)(1)
        (1, 3, 1.00),
        (4, 6, 0.80),
        (7, 9, 0.70),
        (10, 20, 0.50),
        (21, 30, 0.45),
        (31, 40, 0.40),
        (41, 99, 0.35),
    ],
)
def test_bundling_factor(least: int, most: int, factor: float) -> None:
    assert ampacity_factors.bundling_factor(least) == factor
    assert ampacity_factors.bundling_factor(most) == factor
    assert ampacity_factors.bundling_factor(most, 24.0) == 1.0  # up to 24 in long
    assert ampacity_factors.bundling_factor(most, 24.1) == factor


def test_conductors_that_count() -> None:
    # 310.15(E) and (F) of NEC 2023: no grounding conductor, no neutral with unbalance only
    assert dict(ampacity_factors.CURRENT_CARRYING) == {
        "dc": 2,
        "single_phase": 2,
        "three_phase": 3,
    }


@pytest.mark.parametrize(
    ("gap_in", "insulation", "adders"),
    [
        # 310.15(B)(2) of 2020 and 2023, 310.15(B)(3)(c) of 2017 (from memory)
        (0.5, "THWN-2", (33, 33, 33)),
        (0.74, "THWN-2", (33, 33, 33)),
        (0.75, "THWN-2", (33, 33, 0)),
        (0.80, "THWN-2", (33, 33, 0)),  # the editions differ
        (0.875, "THWN-2", (0, 0, 0)),
        (1.0, "THWN-2", (0, 0, 0)),
        (0.5, "XHHW-2", (0, 0, 0)),  # exempt
        (0.5, "XHHW", (33, 33, 33)),  # not
    ],
)
def test_rooftop_adder(gap_in: float, insulation: str, adders: tuple[float, ...]) -> None:
    found = [
        ampacity_factors.rooftop_adder_c(gap_in, insulation, edition)
        for edition in (2017, 2020, 2023)
    ]
    assert found == list(adders)


@pytest.mark.parametrize(
    ("circuit_a", "size", "marked_c", "rating_c"),
    [
        # 110.14(C)(1)
        (40, "8", None, 60),
        (100, "1", None, 60),
        (100, "1/0", None, 75),
        (101, "1", None, 75),
        (40, "8", 75, 75),
        (200, "2/0", 60, 60),  # a marking governs
    ],
)
def test_terminal_rating(
    circuit_a: float, size: str, marked_c: float | None, rating_c: float
) -> None:
    assert terminals.terminal_rating_c(circuit_a, size, marked_c) == rating_c


@pytest.mark.parametrize(
    ("insulation", "dry_c", "wet_c"),
    [
        # table of conductor constructions, from memory
        ("THWN-2", 90, 90),
        ("THWN", 75, 75),
        ("XHHW", 90, 75),
        ("XHHW-2", 90, 90),
        ("USE-2", 90, 90),
        ("RHW-2", 90, 90),
        ("PV wire", 90, 90),
    ],
)
def test_insulation_ratings(insulation: str, dry_c: float, wet_c: float) -> None:
    assert conductors.insulation_rating_c(insulation, wet=False) == dry_c
    assert conductors.insulation_rating_c(insulation, wet=True) == wet_c
    assert insulation in conductors.insulations()


def test_thhn_is_not_for_wet_places() -> None:
    assert conductors.insulation_rating_c("THHN", wet=False) == 90
    with pytest.raises(ValueError, match="expected a type rated wet"):
        conductors.insulation_rating_c("THHN", wet=True)


@pytest.mark.parametrize(
    ("rating_a", "copper", "aluminum"),
    [
        # NEC 2020 and 2023 Table 310.12(A)
        (100, "4", "2"),
        (110, "3", "1"),
        (125, "2", "1/0"),
        (150, "1", "2/0"),
        (175, "1/0", "3/0"),
        (200, "2/0", "4/0"),
        (225, "3/0", "250"),
        (250, "4/0", "300"),
        (300, "250", "350"),
        (400, "400", "600"),
    ],
)
def test_dwelling_service(rating_a: float, copper: str, aluminum: str) -> None:
    assert ampacity.dwelling_service_size(rating_a, "copper") == copper
    assert ampacity.dwelling_service_size(rating_a, "aluminum") == aluminum
    # a rating just over a line takes the next one
    if rating_a < 400:
        assert ampacity.dwelling_service_size(rating_a + 0.5, "copper") != copper
    # the rule behind the table: 83 % of the rating at 75 C, to the ampere
    for size, material in ((copper, "copper"), (aluminum, "aluminum")):
        if size != "600":
            assert ampacity.ampacity_a(size, material, 75) >= 0.83 * rating_a - 0.5


def test_sizes_rise() -> None:
    areas = [conductors.area_cmil(size) for size in conductors.sizes()]
    assert areas == sorted(set(areas))
    # AWG: area = 5 mil squared times 92^((36 - n) / 19.5), published definition of the gauge
    for size in conductors.sizes()[:15]:
        gauge = 1 - int(size.split("/")[0]) if "/" in size else int(size)
        exact = 25.0 * 92.0 ** ((36 - gauge) / 19.5)
        assert conductors.area_cmil(size) == pytest.approx(exact, rel=0.003)
    for size in conductors.sizes()[15:]:  # kcmil by name
        assert conductors.area_cmil(size) == 1000 * float(size)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: ampacity.ampacity_a("10", "gold", 75), "expected one of copper_60"),
        (lambda: ampacity.ampacity_a("11", "copper", 75), "expected one of 14"),
        (lambda: ampacity.free_air_ampacity_a("10", "aluminum", 75), "expected one of copper_75"),
        (lambda: ampacity_factors.ambient_factor(30, 80), "expected 60, 75, 90, 105 or 125"),
        (lambda: ampacity_factors.bundling_factor(0), "expected a number above 0"),
        (lambda: ampacity_factors.bundling_factor(4, 0.0), "expected a number above 0"),
        (lambda: ampacity_factors.rooftop_adder_c(-1, "THWN-2", 2020), "expected 0 or more"),
        (lambda: ampacity_factors.rooftop_adder_c(1, "THWN-2", 2014), "expected one of 2017"),
        (lambda: terminals.terminal_rating_c(40, "8", 80), "expected 60, 75 or 90"),
        (lambda: conductors.area_cmil("5"), "expected one of 18"),
        (lambda: conductors.smallest_size_of_area(3e6), "expected at most 2000 kcmil"),
        (lambda: conductors.insulation_rating_c("TW", wet=True), "expected one of THHN"),
        (lambda: ampacity.dwelling_service_size(401, "copper"), "expected at most 400 A"),
        (lambda: ampacity.dwelling_service_size(100, "gold"), "expected one of copper"),
    ],
)
def test_refusals(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()
