"""Electrical sizes by the plainest arithmetic, apart from planset: typed tables and loops.

Tables typed from the books: NEC 310.16 (copper), 310.15(B)(1) at 90 C, 310.15(C)(1), 240.6(A),
250.122 and 250.66 (copper), 310.17 (copper, 90 C), 690.7(A) from 0 C down, and of chapter 9
Tables 4 (EMT), 5 (THWN-2), 8 (stranded copper) and 9 (copper in steel).
"""

from __future__ import annotations

SIZES = ["14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"]
AMPACITY = {
    60: [15, 20, 30, 40, 55, 70, 85, 95, 110, 125, 145, 165, 195],
    75: [20, 25, 35, 50, 65, 85, 100, 115, 130, 150, 175, 200, 230],
    90: [25, 30, 40, 55, 75, 95, 115, 130, 145, 170, 195, 225, 260],
}
HEAT = [(30, 1.0), (35, 0.96), (40, 0.91), (45, 0.87), (50, 0.82), (55, 0.76), (60, 0.71)]
HEAT += [(65, 0.65), (70, 0.58), (75, 0.50), (80, 0.41), (85, 0.29)]
COMPANY = [(3, 1.0), (6, 0.8), (9, 0.7), (20, 0.5), (30, 0.45), (40, 0.40)]
RATINGS = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250]
SMALL = {"14": 15, "12": 20, "10": 30}
GROUNDING = [(15, "14"), (20, "12"), (60, "10"), (100, "8"), (200, "6"), (300, "4")]
THWN = [0.0097, 0.0133, 0.0211, 0.0366, 0.0507, 0.0824, 0.0973, 0.1158, 0.1562, 0.1855, 0.2223]
EMT = {"1/2": 0.304, "3/4": 0.533, "1": 0.864, "1 1/4": 1.496, "1 1/2": 2.036, "2": 3.356}
FILL = {1: 0.53, 2: 0.31}
FREE_AIR = {"14": 35, "12": 40, "10": 55, "8": 80, "6": 105}
COLD = [(0, 1.10), (-5, 1.12), (-10, 1.14), (-15, 1.16), (-20, 1.18), (-25, 1.20)]
DC_OHM = {"12": 1.98, "10": 1.24, "8": 0.778, "6": 0.491}
AC_OHM = {"12": 2.0, "10": 1.2, "8": 0.78, "6": 0.49, "3": 0.25}
ELECTRODE = {("1/0", "Al"): "8", ("4/0", "Al"): "4", ("500", "Cu"): "1/0"}


def heat_factor(celsius: float) -> float:
    return next(factor for top, factor in HEAT if celsius <= top)


def company_factor(conductors: int) -> float:
    return next(factor for most, factor in COMPANY if conductors <= most)


def device(current_a: float) -> int:
    return next(rating for rating in RATINGS if rating >= 1.25 * current_a - 1e-9)


def protected_by(size: str, amperes: float) -> int:
    """The largest device a conductor of so many amperes may stand behind."""
    above = next(rating for rating in RATINGS if rating >= amperes - 1e-9)
    return min(above, SMALL.get(size, above))


def carried(size: str, celsius: float, conductors: int) -> float:
    place = SIZES.index(size)
    return AMPACITY[90][place] * heat_factor(celsius) * company_factor(conductors)


def smallest(
    current_a: float,
    celsius: float,
    conductors: int,
    behind_a: float = 0,
    terminals: int = 75,
    least: str = "14",
) -> str:
    """The smallest copper conductor for a continuous current."""
    for size in SIZES[SIZES.index(least) :]:
        at_terminal = AMPACITY[terminals][SIZES.index(size)]
        hot = carried(size, celsius, conductors)
        enough = at_terminal >= 1.25 * current_a - 1e-9 and hot >= current_a - 1e-9
        if enough and protected_by(size, min(at_terminal, hot)) >= behind_a:
            return size
    raise AssertionError(current_a)


def grounding(behind_a: float) -> str:
    return next(size for rating, size in GROUNDING if behind_a <= rating)


def raceway(*conductors: str) -> str:
    """The smallest EMT for THWN-2 conductors, grounding ones among them."""
    area = sum(THWN[SIZES.index(size)] for size in conductors)
    share = FILL.get(len(conductors), 0.40)
    return next(size for size, inside in EMT.items() if area <= share * inside + 1e-9)


def at_terminals(size: str, celsius: int) -> int:
    return AMPACITY[celsius][SIZES.index(size)]


def in_free_air(size: str, celsius: float, conductors: int) -> float:
    return FREE_AIR[size] * heat_factor(celsius) * company_factor(conductors)


def cold_factor(celsius: float) -> float:
    """Table 690.7(A), the colder line between two."""
    return next(factor for bottom, factor in COLD if celsius >= bottom)


def electrode(kind: str, service: str, metal: str) -> str:
    """Table 250.66 for copper to an electrode; rods and concrete never ask for more."""
    by_table = ELECTRODE[service, metal]
    most = {"rod": "6", "concrete": "4"}.get(kind)
    if most is None or SIZES.index(by_table) <= SIZES.index(most):
        return by_table
    return most
