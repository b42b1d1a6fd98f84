"""Lag screws loaded across their axis, in single shear with a side plate, by NDS 2018."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from planset.codes import _check
from planset.codes.nds.lag_screws import lag_dimensions

SIDE_PLATE_BEARING_PSI = MappingProxyType({"a653-grade-33": 61_850.0, "a36": 87_000.0})
"""Dowel bearing strength Fes of a steel side plate by its steel [psi].

Source: NDS 2018, Table 12K and Appendix I Table I1, which these values reproduce [from memory].
"""


@dataclass(frozen=True, slots=True)
class YieldModes:
    """Reference lateral design values of one screw, one for each way it can yield.

    Attributes:
        by_mode: Z of modes "Im", "Is", "II", "IIIm", "IIIs" and "IV" [lb].

    Source: NDS 2018, Table 12.3.1A.
    """

    by_mode: Mapping[str, float]

    @property
    def governing(self) -> str:
        """The mode that yields first."""
        return min(self.by_mode, key=lambda mode: self.by_mode[mode])

    @property
    def lateral_lb(self) -> float:
        """Reference lateral design value Z, that of the governing mode [lb]."""
        return self.by_mode[self.governing]


def dowel_bearing_psi(
    specific_gravity: float, diameter_in: float, grain_angle_deg: float = 0.0
) -> float:
    """Dowel bearing strength Fe of wood, by Hankinson between the two directions of the grain.

    Args:
        specific_gravity: G of the wood, 0.31 to 0.73 (no unit).
        diameter_in: Nominal diameter D, 1/4 to 1 [in].
        grain_angle_deg: Angle between load and grain, 0 along it, 90 across [deg].

    Returns:
        11200 G along the grain, 6100 G^1.45 / sqrt(D) across it [psi].

    Raises:
        ValueError: An argument is outside its range.

    Source: NDS 2018, 12.3.4 and Table 12.3.3.
    """
    _check.within(specific_gravity, 0.31, 0.73, "specific gravity")
    _check.within(diameter_in, 0.25, 1.0, "lag screw diameter, in,")
    _check.within(grain_angle_deg, 0.0, 90.0, "angle of load to grain, deg,")
    along = 11_200.0 * specific_gravity
    across = 6_100.0 * math.pow(specific_gravity, 1.45) / math.sqrt(diameter_in)
    angle = math.radians(grain_angle_deg)
    return along * across / (along * math.sin(angle) ** 2 + across * math.cos(angle) ** 2)


def bending_yield_psi(diameter_in: float) -> float:
    """Bending yield strength Fyb of a lag screw without a better value from its maker.

    Args:
        diameter_in: Nominal diameter D [in].

    Returns:
        70,000 at 1/4, 60,000 at 5/16, 45,000 from 3/8 on [psi].

    Raises:
        ValueError: No such diameter in the table of lag screws.

    Source: NDS 2018, Appendix I Table I1 [from memory; these values reproduce Table 12K].
    """
    diameter = lag_dimensions(diameter_in).diameter_in
    return {0.25: 70_000.0, 0.3125: 60_000.0}.get(diameter, 45_000.0)


def reduction_terms(root_in: float, grain_angle_deg: float) -> tuple[float, float, float]:
    """Reduction terms Rd of modes I, of mode II, and of modes III and IV.

    Args:
        root_in: Root diameter Dr [in].
        grain_angle_deg: Angle between load and grain [deg].

    Returns:
        4, 3.6 and 3.2 times K_theta from 1/4 in on; below, three times KD K_theta (no unit).

    Raises:
        ValueError: A value is outside its range.

    Source: NDS 2018, Table 12.3.1B.
    """
    _check.above_zero(root_in, "root diameter, in,")
    _check.within(grain_angle_deg, 0.0, 90.0, "angle of load to grain, deg,")
    k_theta = 1.0 + 0.25 * grain_angle_deg / 90.0
    if root_in >= 0.25:
        return 4.0 * k_theta, 3.6 * k_theta, 3.2 * k_theta
    k_d = max(2.2, 10.0 * root_in + 0.5)
    return (k_d * k_theta,) * 3


def yield_modes(
    dowel_in: float,
    main_length_in: float,
    side_length_in: float,
    main_bearing_psi: float,
    side_bearing_psi: float,
    yield_psi: float,
    reductions: tuple[float, float, float],
) -> YieldModes:
    """The yield equations of a dowel in single shear.

    Args:
        dowel_in: Diameter in the equations, the root Dr of a lag screw [in].
        main_length_in: Bearing length lm in the main member [in].
        side_length_in: Bearing length ls in the side member [in].
        main_bearing_psi: Fem [psi].
        side_bearing_psi: Fes [psi].
        yield_psi: Fyb [psi].
        reductions: Rd of modes I, of mode II, and of modes III and IV (no unit).

    Returns:
        Z of the six modes.

    Raises:
        ValueError: A length or strength is not above zero.

    Source: NDS 2018, Table 12.3.1A, Equations 12.3-1 to 12.3-6.
    """
    for value in (dowel_in, main_length_in, side_length_in):
        _check.above_zero(value, "dowel or bearing length, in,")
    for value in (main_bearing_psi, side_bearing_psi, yield_psi):
        _check.above_zero(value, "bearing or yield strength, psi,")
    rd_1, rd_2, rd_3 = reductions
    re, rt = main_bearing_psi / side_bearing_psi, main_length_in / side_length_in
    k1 = math.sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)
    k1 /= 1 + re
    stiff = 2 * yield_psi * dowel_in**2 / (3 * main_bearing_psi)
    k2 = -1 + math.sqrt(2 * (1 + re) + stiff * (1 + 2 * re) / main_length_in**2)
    k3 = -1 + math.sqrt(2 * (1 + re) / re + stiff * (2 + re) / side_length_in**2)
    main = dowel_in * main_length_in * main_bearing_psi
    side = dowel_in * side_length_in * side_bearing_psi
    side_of_iiis = dowel_in * side_length_in * main_bearing_psi
    return YieldModes(
        MappingProxyType(
            {
                "Im": main / rd_1,
                "Is": side / rd_1,
                "II": k1 * side / rd_2,
                "IIIm": k2 * main / ((1 + 2 * re) * rd_3),
                "IIIs": k3 * side_of_iiis / ((2 + re) * rd_3),
                "IV": dowel_in**2
                / rd_3
                * math.sqrt(2 * main_bearing_psi * yield_psi / (3 * (1 + re))),
            }
        )
    )


def reference_lateral(
    specific_gravity: float,
    diameter_in: float,
    plate_in: float,
    plate_bearing_psi: float,
    grain_angle_deg: float = 0.0,
) -> YieldModes:
    """Reference lateral design value Z of a lag screw through a steel plate, full penetration.

    The screw is taken 8 D deep in the main member; `penetration_factor` reduces what is less.

    Args:
        specific_gravity: G of the main member (no unit).
        diameter_in: Nominal diameter D [in].
        plate_in: Thickness of the steel side plate [in].
        plate_bearing_psi: Fes of the plate, as in `SIDE_PLATE_BEARING_PSI` [psi].
        grain_angle_deg: Angle between load and grain, 0 down a rafter's slope [deg].

    Returns:
        Z of the six modes.

    Raises:
        ValueError: An argument is outside its range.

    Source: NDS 2018, 12.3.1 and Table 12K.
    """
    root = lag_dimensions(diameter_in).root_in
    return yield_modes(
        root,
        8.0 * diameter_in,
        plate_in,
        dowel_bearing_psi(specific_gravity, diameter_in, grain_angle_deg),
        plate_bearing_psi,
        bending_yield_psi(diameter_in),
        reduction_terms(root, grain_angle_deg),
    )


def penetration_factor(penetration_in: float, diameter_in: float) -> float:
    """Share of the lateral value that a shallow screw keeps.

    Args:
        penetration_in: Penetration p into the main member, tip not included [in].
        diameter_in: Nominal diameter D [in].

    Returns:
        1 from 8 D on, p / 8D between 4 D and 8 D; 0 below 4 D, which is not permitted (no unit).

    Raises:
        ValueError: Penetration negative or diameter not above zero.

    Source: NDS 2018, 12.1.4.6 and Table 12K, footnote 3 [number of the footnote from memory].
    """
    _check.not_negative(penetration_in, "penetration, in,")
    _check.above_zero(diameter_in, "lag screw diameter, in,")
    share = penetration_in / (8.0 * diameter_in)
    return min(share, 1.0) if _check.at_most(0.5, share) else 0.0


def adjusted_lateral_lb(
    z_lb: float,
    load_duration: float = 1.0,
    wet_service: float = 1.0,
    temperature: float = 1.0,
    penetration: float = 1.0,
    geometry: float = 1.0,
    group_action: float = 1.0,
    end_grain: float = 1.0,
) -> float:
    """Adjusted lateral design value Z' of one screw, Z CD CM Ct Cg C_delta Ceg.

    Args:
        z_lb: Reference value Z at full penetration [lb].
        load_duration: CD, 0.9 to 1.6 (no unit).
        wet_service: CM (no unit).
        temperature: Ct (no unit).
        penetration: From `penetration_factor` (no unit).
        geometry: C_delta, 0.5 to 1.0, 0 where a distance is below its minimum (no unit).
        group_action: Cg, 1.0 for screws under 1/4 in or one in a row (no unit).
        end_grain: Ceg (no unit).

    Returns:
        Allowable lateral load [lb].

    Raises:
        ValueError: A value is negative or a factor outside its range.

    Source: NDS 2018, Table 11.3.1 [from memory].
    """
    _check.above_zero(z_lb, "lateral value Z, lb,")
    _check.within(load_duration, 0.9, 1.6, "load duration factor CD")
    shares = (wet_service, temperature, penetration, geometry, group_action, end_grain)
    for share in shares:
        _check.within(share, 0.0, 1.0, "adjustment factor of a lateral value")
    return z_lb * load_duration * math.prod(shares)
