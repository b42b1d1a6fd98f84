"""Adjusted design values of sawn lumber in bending, shear and bearing, by NDS 2018."""

import math
from dataclasses import dataclass

from planset.codes import _check
from planset.codes.nds.design_values import DesignValues
from planset.codes.nds.lumber import Section

REPETITIVE = 1.15
"""Repetitive member factor Cr: three or more members, at most 24 in apart, joined by a deck.

Source: NDS 2018, 4.3.9.
"""

GREATEST_SLENDERNESS = 50.0
"""Greatest slenderness ratio RB of a bending member (no unit).

Source: NDS 2018, 3.3.3.7.
"""


@dataclass(frozen=True, slots=True)
class Service:
    """How a member is used, as far as its design values depend on it.

    Attributes:
        load_duration: CD of the combination (no unit).
        wet: Whether the wood is over 19 % moisture in service.
        temperature_f: Greatest sustained temperature of the wood [F].
        incised: Whether the wood was incised for treatment.
        repetitive: Whether Cr applies.
        size: CF (no unit).
        flat_use: Cfu, 1.0 on edge (no unit).

    Source: NDS 2018, Table 4.3.1.
    """

    load_duration: float = 1.0
    wet: bool = False
    temperature_f: float = 70.0
    incised: bool = False
    repetitive: bool = False
    size: float = 1.0
    flat_use: float = 1.0


def temperature_factors(temperature_f: float, *, wet: bool = False) -> tuple[float, float]:
    """Temperature factor Ct of sawn lumber.

    Args:
        temperature_f: Greatest sustained temperature of the wood, to 150 [F].
        wet: Whether the wood is over 19 % moisture in service.

    Returns:
        Ct of E, 1.0 to 100 F and 0.9 above; Ct of Fb, Fv and Fc_perp, 1.0 to 100 F, 0.8, wet 0.7,
        to 125 F, and 0.7, wet 0.5, to 150 F (no unit).

    Raises:
        ValueError: Temperature below -60 or over 150 F.

    Source: NDS 2018, Table 2.3.3 [from memory].
    """
    _check.within(temperature_f, -60.0, 150.0, "temperature of the wood, F,")
    if temperature_f <= 100.0:
        return 1.0, 1.0
    if temperature_f <= 125.0:
        return 0.9, 0.7 if wet else 0.8
    return 0.9, 0.5 if wet else 0.7


def adjusted(values: DesignValues, service: Service) -> DesignValues:
    """Adjusted design values Fb', Fv', Fc_perp', E', Emin', before the stability factor CL.

    Args:
        values: Reference values.
        service: How the member is used.

    Returns:
        Fb CD CM Ct CF Cfu Ci Cr; Fv CD CM Ct Ci; Fc_perp CM Ct Ci, E and Emin CM Ct Ci, which
        the load's duration does not change [psi].

    Raises:
        ValueError: A factor is outside its range.

    Source: NDS 2018, Table 4.3.1; CM of NDS Supplement 2018, Table 4A [from memory].
    """
    _check.within(service.load_duration, 0.9, 2.0, "load duration factor CD")
    _check.within(service.size, 0.4, 1.5, "size factor CF")
    _check.within(service.flat_use, 1.0, 1.2, "flat use factor Cfu")
    ct_stiffness, ct = temperature_factors(service.temperature_f, wet=service.wet)
    cm_bending = 0.85 if service.wet and values.fb_psi * service.size > 1150.0 else 1.0
    cm_shear, cm_bearing, cm_stiffness = (0.97, 0.67, 0.9) if service.wet else (1.0, 1.0, 1.0)
    incised, incised_stiffness = (0.8, 0.95) if service.incised else (1.0, 1.0)
    strength = service.load_duration * ct * incised
    bending = cm_bending * service.size * service.flat_use
    bending *= REPETITIVE if service.repetitive else 1.0
    stiffness = cm_stiffness * ct_stiffness * incised_stiffness
    return DesignValues(
        fb_psi=values.fb_psi * strength * bending,
        fv_psi=values.fv_psi * strength * cm_shear,
        fc_perp_psi=values.fc_perp_psi * cm_bearing * ct,
        e_psi=values.e_psi * stiffness,
        e_min_psi=values.e_min_psi * stiffness,
    )


def effective_length_in(unbraced_in: float, section: Section, *, uniform: bool = False) -> float:
    """Effective length le of a single-span beam whose compression edge is free.

    Args:
        unbraced_in: Length lu between points held against moving aside [in].
        section: The beam's section.
        uniform: Whether the load is uniform; otherwise it may be of any kind.

    Returns:
        2.06 lu below lu/d = 7, 1.63 lu + 3 d from there; a load that is not uniform takes
        1.84 lu over lu/d = 14.3 [in].

    Raises:
        ValueError: Length not above zero.

    Source: NDS 2018, Table 3.3.3 and its footnote 1.
    """
    _check.above_zero(unbraced_in, "unbraced length, in,")
    ratio = unbraced_in / section.width_in
    if ratio < 7.0:
        return 2.06 * unbraced_in
    if ratio > 14.3 and not uniform:
        return 1.84 * unbraced_in
    return 1.63 * unbraced_in + 3.0 * section.width_in


def beam_stability_factor(
    fb_star_psi: float, e_min_psi: float, effective_in: float, section: Section
) -> float:
    """Beam stability factor CL, below 1 where the compression edge is free to buckle aside.

    That edge is the lower one of a sheathed rafter under uplift.

    Args:
        fb_star_psi: Fb* with every factor except CL and Cfu [psi].
        e_min_psi: Emin' [psi].
        effective_in: Effective length le [in].
        section: The beam's section.

    Returns:
        CL; 1.0 for a section no deeper than thick (no unit).

    Raises:
        ValueError: A value is not above zero, or the slenderness ratio over 50.

    Source: NDS 2018, 3.3.3, Equations 3.3-5 and 3.3-6.
    """
    _check.above_zero(fb_star_psi, "bending value Fb*, psi,")
    _check.above_zero(e_min_psi, "modulus of elasticity Emin', psi,")
    _check.above_zero(effective_in, "effective length, in,")
    if section.width_in <= section.thickness_in:
        return 1.0
    slenderness = math.sqrt(effective_in * section.width_in) / section.thickness_in
    _check.within(slenderness, 0.0, GREATEST_SLENDERNESS, "slenderness ratio RB")
    ratio = 1.20 * e_min_psi / slenderness**2 / fb_star_psi
    middle = (1.0 + ratio) / 1.9
    return middle - math.sqrt(middle**2 - ratio / 0.95)


def bearing_area_factor(bearing_in: float, end_distance_in: float) -> float:
    """Bearing area factor Cb of a short bearing away from the end of the member.

    Args:
        bearing_in: Length of the bearing along the grain [in].
        end_distance_in: From the bearing to the end of the member [in].

    Returns:
        (lb + 3/8) / lb for a bearing under 6 in long and 3 in or more from the end, else 1 (no
        unit).

    Raises:
        ValueError: Bearing not above zero or distance negative.

    Source: NDS 2018, Equation 3.10-2 [from memory].
    """
    _check.above_zero(bearing_in, "length of bearing, in,")
    _check.not_negative(end_distance_in, "distance to the end of the member, in,")
    if bearing_in < 6.0 and end_distance_in >= 3.0:
        return (bearing_in + 0.375) / bearing_in
    return 1.0
