"""Overcurrent protection of parallel strings by NEC 690.9 and 690.8(D)."""

from planset.codes import _check
from planset.codes.nec import circuit_current, overcurrent

ONE_END_FT = 10.0
"""Length up to which conductors of other dc circuits may be protected at one end only [ft].

Source: NEC 2020, 690.9(A)(2) and 690.9(A)(3); NEC 2017 and 2023, 690.9(A) [from memory].
"""


def backfeed_a(strings: int, isc_a: float, other_sources_a: float = 0.0) -> float:
    """Current that everything else can drive into one faulted string of an input.

    Args:
        strings: Strings in parallel on the input.
        isc_a: Rated short-circuit current of a string [A].
        other_sources_a: What a battery, or an inverter backward, can add [A].

    Returns:
        (N - 1) 1.25 Isc and the other sources [A].

    Raises:
        ValueError: Fewer than one string, or a current out of range.

    Source: NEC 2017, 690.9(A); NEC 2020 and 2023, 690.9(A)(1).
    """
    _check.above_zero(strings, "number of strings in parallel")
    _check.not_negative(other_sources_a, "current of other sources, A,")
    return (strings - 1) * circuit_current.string_maximum_a(isc_a) + other_sources_a


def device_required(
    strings: int, isc_a: float, module_fuse_a: float, other_sources_a: float = 0.0
) -> bool:
    """Tell whether each string needs an overcurrent device of its own.

    The rule has a second condition: the conductors carry the maximum circuit current.

    Args:
        strings: Strings in parallel on the input.
        isc_a: Rated short-circuit current of a string [A].
        module_fuse_a: Maximum series fuse of the module [A].
        other_sources_a: What a battery, or an inverter backward, can add [A].

    Returns:
        True when the others drive more than the module may be fused at.

    Raises:
        ValueError: As `backfeed_a`, or a module fuse not above zero.

    Source: NEC 2017, 690.9(A); NEC 2020 and 2023, 690.9(A)(1).
    """
    _check.above_zero(module_fuse_a, "maximum series fuse of the module, A,")
    return not _check.at_most(backfeed_a(strings, isc_a, other_sources_a), module_fuse_a)


def smallest_string_fuse_a(isc_a: float) -> float:
    """Smallest standard fuse for a string.

    Args:
        isc_a: Rated short-circuit current of a string [A].

    Returns:
        First standard fuse rating from 1.5625 Isc on [A]; over the module's maximum series fuse
        the string cannot be fused.

    Raises:
        ValueError: Current not above zero, or too large for the table.

    Source: NEC 2017, 2020 and 2023, 690.9(B) and 240.6(A).
    """
    least = overcurrent.continuous_minimum_a(circuit_current.string_maximum_a(isc_a))
    return overcurrent.next_standard_rating_a(least, fuse=True)


def shared_device_ampacity_a(device_a: float, other_strings_isc_a: float) -> float:
    """Least ampacity of each string's conductors where one device protects several strings.

    Args:
        device_a: Rating of the shared device [A].
        other_strings_isc_a: Sum of the short-circuit currents of the other strings [A].

    Returns:
        Device rating and 1.25 times that sum [A].

    Raises:
        ValueError: A current is out of range.

    Source: NEC 2017 [from memory], 2020 and 2023, 690.8(D).
    """
    _check.above_zero(device_a, "rating of the shared device, A,")
    _check.not_negative(other_strings_isc_a, "short-circuit current of the other strings, A,")
    return device_a + 1.25 * other_strings_isc_a
