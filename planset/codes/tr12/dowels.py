"""A dowel in single shear whose members do not touch: the yield equations with a gap."""

import math
from types import MappingProxyType

from planset.codes import _check
from planset.codes.nds.lag_lateral import (
    YieldModes,
    bending_yield_psi,
    dowel_bearing_psi,
    reduction_terms,
)
from planset.codes.nds.lag_screws import lag_dimensions


def gapped_yield_modes(
    dowel_in: float,
    main_length_in: float,
    side_length_in: float,
    main_bearing_psi: float,
    side_bearing_psi: float,
    yield_psi: float,
    gap_in: float,
    reductions: tuple[float, float, float],
) -> YieldModes:
    """Reference lateral values of the six modes with a gap between the members.

    Args:
        dowel_in: Diameter in the equations, the root Dr of a lag screw [in].
        main_length_in: Bearing length lm in the main member [in].
        side_length_in: Bearing length ls in the side member [in].
        main_bearing_psi: Fem [psi].
        side_bearing_psi: Fes [psi].
        yield_psi: Fyb [psi].
        gap_in: Gap g between the members [in].
        reductions: Rd of modes I, of mode II, and of modes III and IV (no unit).

    Returns:
        Z of the six modes; without a gap those of the NDS.

    Raises:
        ValueError: A length or strength is not above zero, or the gap negative.

    Source: AWC Technical Report 12, Table 1-1 [from memory]; without a gap NDS 2018, 12.3.1, which
    it reproduces.
    """
    for value in (dowel_in, main_length_in, side_length_in):
        _check.above_zero(value, "dowel or bearing length, in,")
    for value in (main_bearing_psi, side_bearing_psi, yield_psi):
        _check.above_zero(value, "bearing or yield strength, psi,")
    _check.not_negative(gap_in, "gap between members, in,")
    main, side = main_bearing_psi * dowel_in, side_bearing_psi * dowel_in  # lb per inch of dowel
    hinge = yield_psi * dowel_in**3 / 6.0  # lb in, the same in both members
    halves = {  # per mode and member: what yields along its bearing, or a hinge
        "main": (1.0 / (4.0 * main), main_length_in / 2.0, main * main_length_in**2 / 4.0),
        "side": (1.0 / (4.0 * side), side_length_in / 2.0, side * side_length_in**2 / 4.0),
        "main hinge": (1.0 / (2.0 * main), 0.0, hinge),
        "side hinge": (1.0 / (2.0 * side), 0.0, hinge),
    }
    rd_1, rd_2, rd_3 = reductions

    def yielding(one: str, other: str) -> float:
        a, b, c = (sum(pair) for pair in zip(halves[one], halves[other], strict=True))
        b += gap_in
        return (math.sqrt(b * b + 4.0 * a * c) - b) / (2.0 * a)

    return YieldModes(
        MappingProxyType(
            {
                "Im": main * main_length_in / rd_1,
                "Is": side * side_length_in / rd_1,
                "II": yielding("main", "side") / rd_2,
                "IIIm": yielding("main", "side hinge") / rd_3,
                "IIIs": yielding("main hinge", "side") / rd_3,
                "IV": yielding("main hinge", "side hinge") / rd_3,
            }
        )
    )


def gapped_reference_lateral(
    specific_gravity: float,
    diameter_in: float,
    plate_in: float,
    plate_bearing_psi: float,
    gap_in: float,
    grain_angle_deg: float = 0.0,
) -> YieldModes:
    """Reference lateral value Z of a lag screw through a steel plate that a gap keeps off the wood.

    The screw is taken 8 D deep; `nds.lag_lateral.penetration_factor` reduces what is less.

    Args:
        specific_gravity: G of the main member (no unit).
        diameter_in: Nominal diameter D [in].
        plate_in: Thickness of the steel side plate [in].
        plate_bearing_psi: Fes of the plate [psi].
        gap_in: What lies between plate and main member, which is taken not to hold [in].
        grain_angle_deg: Angle between load and grain, 0 down a rafter's slope [deg].

    Returns:
        Z of the six modes.

    Raises:
        ValueError: An argument is outside its range.

    Source: AWC Technical Report 12, Table 1-1 [from memory]; NDS 2018, 12.3.1 and Table 12.3.1A.
    """
    root = lag_dimensions(diameter_in).root_in
    return gapped_yield_modes(
        root,
        8.0 * diameter_in,
        plate_in,
        dowel_bearing_psi(specific_gravity, diameter_in, grain_angle_deg),
        plate_bearing_psi,
        bending_yield_psi(diameter_in),
        gap_in,
        reduction_terms(root, grain_angle_deg),
    )
