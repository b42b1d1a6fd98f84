"""Maximum circuit currents of photovoltaic systems by NEC articles 690 and 705."""

import math
from collections.abc import Sequence

from planset.codes import _check
from planset.codes.nec import _tables, overcurrent


def string_maximum_a(isc_a: float) -> float:
    """Maximum current of a string of modules.

    Args:
        isc_a: Rated short-circuit current, summed where modules are in parallel; of a bifacial
            module the bifacial rating [A].

    Returns:
        1.25 Isc [A].

    Raises:
        ValueError: Current not above zero.

    Source: NEC 2020, 690.8(A)(1)(a); NEC 2017 and 2023, 690.8(A)(1) [from memory].
    """
    _check.above_zero(isc_a, "short-circuit current, A,")
    return 1.25 * isc_a


def combined_maximum_a(maximum_currents_a: Sequence[float]) -> float:
    """Maximum current where circuits come together: strings in parallel, converters, inverters.

    Args:
        maximum_currents_a: Maximum current of each circuit, not increased again [A].

    Returns:
        Their sum [A].

    Raises:
        ValueError: No circuit, or a current not above zero.

    Source: NEC 2020, 690.8(A)(1)(b) and 690.8(A)(1)(d); NEC 2023, 690.8(A)(1) and 705.28(A);
    NEC 2017, 690.8(A)(2) and 690.8(A)(5) [from memory].
    """
    if not maximum_currents_a:
        msg = "there is no circuit to add; expected at least one maximum current"
        raise ValueError(msg)
    for current in maximum_currents_a:
        _check.above_zero(current, "maximum circuit current, A,")
    return math.fsum(maximum_currents_a)


def converter_output_maximum_a(rated_a: float) -> float:
    """Maximum current of a string of dc-to-dc converters, the rated current with no increase.

    Args:
        rated_a: Continuous output current rating of one converter [A].

    Returns:
        The rated current [A].

    Raises:
        ValueError: Current not above zero.

    Source: NEC 2020, 690.8(A)(1)(c); NEC 2023, 690.8(A)(1); NEC 2017, 690.8(A)(5) [from memory].
    """
    _check.above_zero(rated_a, "converter output current, A,")
    return rated_a


def converter_input_maximum_a(
    computed_a: float, rated_input_a: float, device_a: float, ampacity_a: float, edition: int
) -> float:
    """Maximum current at the input of an inverter or converter whose circuit is protected.

    Args:
        computed_a: Maximum current of the circuit by its modules [A].
        rated_input_a: Rated input current of the equipment [A].
        device_a: Rating of the overcurrent device in the circuit [A].
        ampacity_a: Ampacity of the conductors [A].
        edition: Year of the NEC.

    Returns:
        The lesser of both currents where the device protects the conductors and the edition
        has the permission, else the computed one [A].

    Raises:
        ValueError: A current is not above zero, or the edition is not covered.

    Source: NEC 2020 and 2023, 690.8(A)(2).
    """
    _check.above_zero(computed_a, "maximum circuit current, A,")
    _check.above_zero(rated_input_a, "rated input current, A,")
    _check.above_zero(device_a, "rating of the overcurrent device, A,")
    _check.above_zero(ampacity_a, "ampacity of the conductors, A,")
    if edition not in _tables.EDITIONS:
        known = ", ".join(str(year) for year in _tables.EDITIONS)
        msg = f"NEC edition is {edition}; expected one of {known}"
        raise ValueError(msg)
    permitted = edition in _tables.by_topic("clauses")["converter_input_current"]
    if permitted and _check.at_most(device_a, ampacity_a):
        return min(computed_a, rated_input_a)
    return computed_a


def inverter_output_maximum_a(rated_a: float) -> float:
    """Maximum current of an inverter output circuit, the rated current with no increase.

    Args:
        rated_a: Continuous output current rating at the service voltage [A].

    Returns:
        The rated current [A].

    Raises:
        ValueError: Current not above zero.

    Source: NEC 2020, 690.8(A)(1)(e); NEC 2023, 705.28(A); NEC 2017, 690.8(A)(3) [from memory].
    """
    _check.above_zero(rated_a, "inverter output current, A,")
    return rated_a


def inverter_current_from_power_a(power_w: float, voltage_v: float, phases: int = 1) -> float:
    """Output current of an inverter whose nameplate gives none; a sheet that uses it says so.

    Args:
        power_w: Continuous rated output [W].
        voltage_v: Nominal voltage between its line conductors [V].
        phases: 1 or 3.

    Returns:
        Power over voltage, over sqrt(3) times it for three phases [A].

    Raises:
        ValueError: Power or voltage not above zero, or another number of phases.

    Source: NEC 2020, 690.8(A)(1)(e); NEC 2023, 705.28(A); NEC 2017, 690.8(A)(3) [from memory];
    that power may stand for the rated current is an interpretation.
    """
    _check.above_zero(power_w, "rated output, W,")
    _check.above_zero(voltage_v, "nominal voltage, V,")
    if phases not in (1, 3):
        msg = f"number of phases is {phases}; expected 1 or 3"
        raise ValueError(msg)
    return power_w / (voltage_v * (math.sqrt(3.0) if phases == 3 else 1.0))


def microinverter_branch_maximum_a(units: int, unit_a: float) -> float:
    """Maximum current of a single-phase branch circuit of microinverters.

    Args:
        units: Number of microinverters.
        unit_a: Continuous output current of one at the service voltage [A].

    Returns:
        Their sum [A].

    Raises:
        ValueError: Fewer than one unit, or a current not above zero.

    Source: NEC 2020, 690.8(A)(1)(e); NEC 2023, 705.28(A); NEC 2017, 690.8(A)(3) [from memory].
    """
    _check.above_zero(units, "number of microinverters")
    return units * inverter_output_maximum_a(unit_a)


def three_phase_branch_maximum_a(units_between: tuple[int, int, int], unit_a: float) -> float:
    """Maximum line current of a three-phase branch whose microinverters each join two lines.

    Args:
        units_between: Microinverters between lines A and B, B and C, C and A.
        unit_a: Continuous output current of one at the voltage between lines [A].

    Returns:
        Current of the line that carries most, at unity power factor [A].

    Raises:
        ValueError: A count negative, no unit at all, or a current not above zero.

    Source: NEC 2020, 690.8(A)(1)(e), and NEC 2023, 705.28(A), for the rated current; that two
    currents 120 degrees apart add as vectors is an interpretation of its sum.
    """
    for units in units_between:
        _check.not_negative(units, "number of microinverters between two lines")
    _check.above_zero(sum(units_between), "number of microinverters")
    _check.above_zero(unit_a, "microinverter output current, A,")
    ab, bc, ca = units_between
    pairs = ((ab, ca), (ab, bc), (bc, ca))
    return unit_a * max(math.sqrt(m * m + m * n + n * n) for m, n in pairs)


def largest_microinverter_branch(device_a: float, unit_a: float) -> int:
    """Most microinverters on one branch circuit; the listing may allow fewer.

    Args:
        device_a: Rating of the branch circuit's overcurrent device [A].
        unit_a: Continuous output current of one unit at the service voltage [A].

    Returns:
        Number of units whose 125 % keeps the rating; 0 where not even one does.

    Raises:
        ValueError: A current is not above zero.

    Source: NEC 2023, 705.30(B); NEC 2017, 705.65 and NEC 2020, 705.30 [both from memory].
    """
    _check.above_zero(device_a, "rating of the overcurrent device, A,")
    _check.above_zero(unit_a, "microinverter output current, A,")
    return math.floor(device_a / overcurrent.continuous_minimum_a(unit_a) * (1.0 + 1e-9))


def converter_string_operating_a(power_w: float, nominal_v: float) -> float:
    """Operating current of a string of dc-to-dc converters at fixed voltage.

    Args:
        power_w: Rated power of the string's modules [W].
        nominal_v: Nominal string voltage [V].

    Returns:
        Power over voltage, for voltage drop and to compare with ratings; the maximum circuit
        current is the converter's rated output current [A].

    Raises:
        ValueError: Power or voltage not above zero.

    Source: NEC 2020, 690.8(A)(1)(c), for the maximum; the operating current is Ohm's law.
    """
    _check.above_zero(power_w, "power of the string, W,")
    _check.above_zero(nominal_v, "nominal string voltage, V,")
    return power_w / nominal_v
