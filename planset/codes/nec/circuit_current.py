"""Maximum circuit currents of photovoltaic systems by NEC articles 690 and 705."""

from planset.codes import _check


def string_maximum_a(isc_a: float) -> float:
    """Maximum current of a string of modules.

    Args:
        isc_a: Rated short-circuit current; of a bifacial module the bifacial rating [A].

    Returns:
        1.25 Isc [A].

    Raises:
        ValueError: Current not above zero.

    Source: NEC 2020, 690.8(A)(1)(a); NEC 2017 and 2023, 690.8(A)(1) [from memory].
    """
    _check.above_zero(isc_a, "short-circuit current, A,")
    return 1.25 * isc_a


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
