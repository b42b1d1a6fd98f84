"""A dowel in single shear whose members do not touch: the yield equations with a gap."""

import math
from dataclasses import dataclass
from types import MappingProxyType

from planset.codes import _check
from planset.codes.nds.lag_lateral import (
    YieldModes,
    bending_yield_psi,
    dowel_bearing_psi,
    reduction_terms,
)
from planset.codes.nds.lag_screws import lag_dimensions


@dataclass(frozen=True, slots=True)
class InShear:
    """What the yield equations of a dowel take.

    Attributes:
        dowel_in: Diameter in the equations, the root Dr of a lag screw [in].
        main_length_in: Bearing length lm in the main member [in].
        side_length_in: Bearing length ls in the side member [in].
        main_bearing_psi: Fem [psi].
        side_bearing_psi: Fes [psi].
        yield_psi: Fyb [psi].
        gap_in: Gap g between the members [in].
        reductions: Rd of modes I, of mode II, and of modes III and IV (no unit).

    Source: AWC Technical Report 12, Table 1-1 [from memory]; NDS 2018, 12.3.1.
    """

    dowel_in: float
    main_length_in: float
    side_length_in: float
    main_bearing_psi: float
    side_bearing_psi: float
    yield_psi: float
    gap_in: float
    reductions: tuple[float, float, float]


def gapped_yield_modes(taken: InShear) -> YieldModes:
    """Reference lateral values of the six modes with a gap between the members.

    Returns:
        Z of the six modes; without a gap those of the NDS.

    Raises:
        ValueError: A length or strength is not above zero, or the gap negative.

    Source: AWC Technical Report 12, Table 1-1 [from memory]; without a gap NDS 2018, 12.3.1, which
    it reproduces.
    """
    for value in (taken.dowel_in, taken.main_length_in, taken.side_length_in):
        _check.above_zero(value, "dowel or bearing length, in,")
    for value in (taken.main_bearing_psi, taken.side_bearing_psi, taken.yield_psi):
        _check.above_zero(value, "bearing or yield strength, psi,")
    _check.not_negative(taken.gap_in, "gap between members, in,")
    main = taken.main_bearing_psi * taken.dowel_in  # lb per inch of dowel
    side = taken.side_bearing_psi * taken.dowel_in
    hinge = taken.yield_psi * taken.dowel_in**3 / 6.0  # lb in, the same in both members
    main_length, side_length = taken.main_length_in, taken.side_length_in
    halves = {  # per mode and member: what yields along its bearing, or a hinge
        "main": (1.0 / (4.0 * main), main_length / 2.0, main * main_length**2 / 4.0),
        "side": (1.0 / (4.0 * side), side_length / 2.0, side * side_length**2 / 4.0),
        "main hinge": (1.0 / (2.0 * main), 0.0, hinge),
        "side hinge": (1.0 / (2.0 * side), 0.0, hinge),
    }
    rd_1, rd_2, rd_3 = taken.reductions

    def yielding(one: str, other: str) -> float:
        a, b, c = (sum(pair) for pair in zip(halves[one], halves[other], strict=True))
        b += taken.gap_in
        return (math.sqrt(b * b + 4.0 * a * c) - b) / (2.0 * a)

    return YieldModes(
        MappingProxyType(
            {
                "Im": main * main_length / rd_1,
                "Is": side * side_length / rd_1,
                "II": yielding("main", "side") / rd_2,
                "IIIm": yielding("main", "side hinge") / rd_3,
                "IIIs": yielding("main hinge", "side") / rd_3,
                "IV": yielding("main hinge", "side hinge") / rd_3,
            }
        )
    )


def lag_in_shear(
    specific_gravity: float,
    diameter_in: float,
    plate_in: float,
    plate_bearing_psi: float,
    gap_in: float,
    grain_angle_deg: float = 0.0,
) -> InShear:
    """What the equations take of a lag screw through a steel plate that a gap keeps off the wood.

    The screw is taken 8 D deep; `nds.lag_lateral.penetration_factor` reduces what is less.

    Args:
        specific_gravity: G of the main member (no unit).
        diameter_in: Nominal diameter D [in].
        plate_in: Thickness of the steel side plate [in].
        plate_bearing_psi: Fes of the plate [psi].
        gap_in: What lies between plate and main member, which is taken not to hold [in].
        grain_angle_deg: Angle between load and grain, 0 down a rafter's slope [deg].

    Raises:
        ValueError: An argument is outside its range.

    Source: NDS 2018, 12.3.1 and Table 12.3.1A.
    """
    root = lag_dimensions(diameter_in).root_in
    return InShear(
        root,
        8.0 * diameter_in,
        plate_in,
        dowel_bearing_psi(specific_gravity, diameter_in, grain_angle_deg),
        plate_bearing_psi,
        bending_yield_psi(diameter_in),
        gap_in,
        reduction_terms(root, grain_angle_deg),
    )
