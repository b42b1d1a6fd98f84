"""Lag screws in withdrawal from side grain by NDS 2018, allowable stress design."""

import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

import numpy as np

from planset.codes import _check, _table

LOAD_DURATION = MappingProxyType(
    {"permanent": 0.9, "ten_year": 1.0, "snow": 1.15, "roof_live": 1.25, "wind": 1.6}
)
"""Load duration factor CD by the shortest load of the combination (no unit).

Source: NDS 2018, Table 2.3.2 [from memory].
"""

LAG_TENSILE_PSI = 60_000.0
"""Least tensile strength of a low-carbon lag screw, ASTM A307 Grade A [psi].

Source: ASTM A307 2014, Table 2 [from memory].
"""

TENSION_SAFETY = 2.0
"""Safety factor Omega on the tensile strength of a bolt (no unit).

Source: AISC 360 2016, Section J3.6 [from memory].
"""


@dataclass(frozen=True, slots=True)
class LagDimensions:
    """Dimensions of a standard hex lag screw.

    Attributes:
        diameter_in: Nominal diameter D [in].
        root_in: Root diameter Dr of the thread [in].
        tip_in: Length E of the tapered tip, which holds nothing [in].
        head_across_flats_in: Width of the hex head, the wrench size [in].

    Source: NDS 2018, Appendix L Table L2; tips [from memory].
    """

    diameter_in: float
    root_in: float
    tip_in: float
    head_across_flats_in: float


@cache
def _lags() -> tuple[LagDimensions, ...]:
    return tuple(
        LagDimensions(**{column: float(text) for column, text in row.items()})
        for row in _table.rows(Path(__file__).with_name("lag_screws.csv"))
    )


def lag_dimensions(diameter_in: float) -> LagDimensions:
    """Dimensions of the standard lag screw of a nominal diameter.

    Args:
        diameter_in: Nominal diameter D, 1/4 to 1/2 by sixteenths [in].

    Returns:
        The table's line.

    Raises:
        ValueError: No such diameter in the table.

    Source: NDS 2018, Appendix L Table L2; tips [from memory].
    """
    for lag in _lags():
        if math.isclose(lag.diameter_in, diameter_in, abs_tol=1e-6):
            return lag
    known = ", ".join(f"{lag.diameter_in:g}" for lag in _lags())
    msg = f"lag screw diameter is {diameter_in:g} in; expected one of {known} in"
    raise ValueError(msg)


def withdrawal_lb_per_in(specific_gravity: float, diameter_in: float) -> float:
    """Reference withdrawal design value W = 1800 G^1.5 D^0.75, screw in side grain.

    Args:
        specific_gravity: G of the wood, 0.31 to 0.73 (no unit).
        diameter_in: Unthreaded shank diameter D, 1/4 to 1-1/4 [in].

    Returns:
        W per inch of thread in the main member [lb/in]; Table 12.2A prints it in whole pounds.

    Raises:
        ValueError: An argument is outside the table that goes with the equation.

    Source: NDS 2018, Equation 12.2-1.
    """
    _check.within(specific_gravity, 0.31, 0.73, "specific gravity")
    _check.within(diameter_in, 0.25, 1.25, "lag screw diameter, in,")
    return float(1800.0 * specific_gravity**1.5 * diameter_in**0.75)


def adjusted_withdrawal_lb(
    w_lb_per_in: float,
    penetration_in: float,
    load_duration: float = 1.0,
    wet_service: float = 1.0,
    temperature: float = 1.0,
    end_grain: float = 1.0,
) -> float:
    """Adjusted withdrawal design value W' pt of one screw, W pt CD CM Ct Ceg.

    Args:
        w_lb_per_in: Reference withdrawal value W [lb/in].
        penetration_in: Thread in the main member without the tip, pt [in].
        load_duration: CD, 0.9 to 1.6 for a connection (no unit).
        wet_service: CM, 1.0 only where the wood stays at 19 % moisture or less (no unit).
        temperature: Ct, 1.0 only where the wood stays at 100 F or less (no unit).
        end_grain: Ceg, 1.0 in side grain, 0.75 in end grain (no unit).

    Returns:
        Allowable withdrawal load [lb].

    Raises:
        ValueError: A value is negative or a factor outside its range.

    Source: NDS 2018, Table 11.3.1 [from memory].
    """
    _check.above_zero(w_lb_per_in, "withdrawal value W, lb/in,")
    _check.not_negative(penetration_in, "thread penetration, in,")
    _check.within(load_duration, 0.9, 1.6, "load duration factor CD")
    _check.within(wet_service, 0.0, 1.0, "wet service factor CM")
    _check.within(temperature, 0.0, 1.0, "temperature factor Ct")
    _check.within(end_grain, 0.0, 1.0, "end grain factor Ceg")
    return w_lb_per_in * penetration_in * load_duration * wet_service * temperature * end_grain


@cache
def _threads() -> tuple[list[float], list[float]]:
    """Lengths L and their threads T."""
    rows = _table.rows(Path(__file__).with_name("lag_lengths.csv"))
    return [float(row["length_in"]) for row in rows], [float(row["thread_in"]) for row in rows]


def thread_length_in(length_in: float) -> float:
    """Thread length T of a standard lag screw, tip included, the same for every diameter.

    Args:
        length_in: Nominal length L under the head, 1-1/2 to 12 [in].

    Returns:
        T of the table; between its lines a straight line, which is L/2 + 1/2 up to 9 in [in].

    Raises:
        ValueError: Length outside 1-1/2 to 12 in.

    Source: NDS 2018, Appendix L Table L2 [from memory]; between the lines an interpretation,
    never above the least thread of ASME B18.2.1-2012, 3.5 [from memory].
    """
    lengths, threads = _threads()
    _check.within(length_in, lengths[0], lengths[-1], "lag screw length, in,")
    return float(np.interp(length_in, lengths, threads))


def thread_penetration_in(length_in: float, diameter_in: float, covered_in: float) -> float:
    """Thread that holds in the main member, pt = min(T, L - covered) - E.

    The screw is taken to stay within the member: a point that comes out below holds less.

    Args:
        length_in: Nominal length L under the head [in].
        diameter_in: Nominal diameter D [in].
        covered_in: All that lies between head and member: flashing, base, covering, deck [in].

    Returns:
        Effective thread penetration, never below 0 [in].

    Raises:
        ValueError: No such screw in the table, or the covered length is negative.

    Source: NDS 2018, 12.2.1 and Appendix L Table L2; tips [from memory].
    """
    _check.not_negative(covered_in, "thickness between head and member, in,")
    thread_in_wood_in = min(thread_length_in(length_in), length_in - covered_in)
    return max(thread_in_wood_in - lag_dimensions(diameter_in).tip_in, 0.0)


def root_tension_lb(diameter_in: float, tensile_psi: float = LAG_TENSILE_PSI) -> float:
    """Allowable tension of the shank at the root of the thread, ASD: Fu / Omega x pi Dr^2 / 4.

    Withdrawal may not exceed it; CD and the wood's other factors do not apply to steel.

    Args:
        diameter_in: Nominal diameter D [in].
        tensile_psi: Tensile strength Fu of the screw's steel [psi].

    Returns:
        Allowable tension of one screw [lb].

    Raises:
        ValueError: No such diameter in the table, or strength not above zero.

    Source: NDS 2018, 12.2.1.3 and 11.2.3; the allowable stress by AISC 360 [from memory].
    """
    _check.above_zero(tensile_psi, "tensile strength of the lag screw, psi,")
    root_area_in2 = math.pi * lag_dimensions(diameter_in).root_in ** 2 / 4.0
    return tensile_psi / TENSION_SAFETY * root_area_in2


def minimum_penetration_in(diameter_in: float) -> float:
    """Least penetration into the main member, tip not included.

    Args:
        diameter_in: Nominal diameter D [in].

    Returns:
        4 D [in].

    Raises:
        ValueError: Diameter not above zero.

    Source: NDS 2018, 12.1.4.6.
    """
    _check.above_zero(diameter_in, "lag screw diameter, in,")
    return 4.0 * diameter_in


def pilot_hole_range_in(specific_gravity: float, diameter_in: float) -> tuple[float, float]:
    """Least and greatest lead hole for the threaded part.

    Args:
        specific_gravity: G of the wood (no unit).
        diameter_in: Shank diameter D [in].

    Returns:
        65 to 85 % of D over G 0.6, 60 to 75 % over 0.5, 40 to 70 % at 0.5 and under [in].

    Raises:
        ValueError: A value is not above zero.

    Source: NDS 2018, 12.1.4.2 [from memory].
    """
    _check.above_zero(specific_gravity, "specific gravity")
    _check.above_zero(diameter_in, "lag screw diameter, in,")
    if specific_gravity > 0.6:
        return 0.65 * diameter_in, 0.85 * diameter_in
    if specific_gravity > 0.5:
        return 0.60 * diameter_in, 0.75 * diameter_in
    return 0.40 * diameter_in, 0.70 * diameter_in


def edge_distance_in(diameter_in: float) -> float:
    """Least distance from the screw's center to the edge of the member, withdrawal only.

    Args:
        diameter_in: Nominal diameter D [in].

    Returns:
        1.5 D [in].

    Raises:
        ValueError: Diameter not above zero.

    Source: NDS 2018, Table 12.5.1E [from memory].
    """
    _check.above_zero(diameter_in, "lag screw diameter, in,")
    return 1.5 * diameter_in
