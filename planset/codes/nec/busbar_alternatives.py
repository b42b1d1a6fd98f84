"""The ways to connect at a busbar on the load side, side by side, by NEC article 705.

Each way is a comparison with its own clause; a connection needs one that holds.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planset.codes import _check
from planset.codes.nec import busbar, clauses


@dataclass(frozen=True, slots=True)
class Bus:
    """A busbar with its supply and its sources.

    Attributes:
        rating_a: Rating of the busbar, not of the main breaker [A].
        main_a: Rating of the overcurrent device that protects it [A].
        source_a: Sum of the continuous output currents of the sources on it; the setting where
            a power control system limits them [A].
        feed: "end" where the main feeds one end, "center" where it feeds between both.
        at_opposite_end: Whether the sources connect at the end opposite the main; on a center-fed
            bus, at one of its ends and not at both.
        dwelling: Whether it stands in a dwelling.
        devices_a: Ratings of all overcurrent devices on it, of loads and sources, without the
            main [A]; None where they are not known.

    Source: NEC 2017, 705.12(B)(2)(3); NEC 2020, 705.12(B)(3); NEC 2023, 705.12(B).
    """

    rating_a: float
    main_a: float
    source_a: float
    feed: str
    at_opposite_end: bool
    dwelling: bool
    devices_a: tuple[float, ...] | None = None

    def __post_init__(self) -> None:
        _check.above_zero(self.rating_a, "busbar rating, A,")
        _check.above_zero(self.main_a, "main overcurrent device, A,")
        _check.not_negative(self.source_a, "source output current, A,")
        if self.feed not in ("end", "center"):
            msg = f"feed of the busbar is {self.feed!r}; expected end or center"
            raise ValueError(msg)


@dataclass(frozen=True, slots=True)
class Alternative:
    """One way a connection may comply.

    Attributes:
        topic: Name of the way, as in `clauses`.
        clause: Its clause in the edition.
        demand_a: What counts against the limit [A].
        limit_a: The limit [A].

    Source: NEC 2017, 705.12(B)(2)(3); NEC 2020, 705.12(B)(3); NEC 2023, 705.12(B).
    """

    topic: str
    clause: str
    demand_a: float
    limit_a: float

    @property
    def holds(self) -> bool:
        """Whether the limit is kept."""
        return _check.at_most(self.demand_a, self.limit_a)


def any_position(bus: Bus, edition: int) -> Alternative:
    """The way that needs no condition: main and 125 % of the sources within the rating.

    Args:
        bus: The busbar.
        edition: Year of the NEC.

    Returns:
        The comparison.

    Raises:
        ValueError: Edition not covered.

    Source: NEC 2017, 705.12(B)(2)(3)(a); NEC 2020, 705.12(B)(3)(1); NEC 2023, 705.12(B)(1).
    """
    demand_a = busbar.busbar_demand_a(bus.main_a, bus.source_a)
    return _alternative("busbar_any_position", edition, demand_a, bus.rating_a)


def opposite_ends(bus: Bus, edition: int) -> Alternative:
    """The 120 % rule: one source at the end opposite the main; a warning label beside it.

    Args:
        bus: The busbar.
        edition: Year of the NEC.

    Returns:
        The comparison.

    Raises:
        ValueError: Fed at its center, the sources not at the opposite end, edition not covered.

    Source: NEC 2017, 705.12(B)(2)(3)(b); NEC 2020, 705.12(B)(3)(2); NEC 2023, 705.12(B)(2).
    """
    if bus.feed != "end" or not bus.at_opposite_end:
        msg = "the sources are not opposite the main; expected a bus fed at its other end"
        raise ValueError(msg)
    demand_a = busbar.busbar_demand_a(bus.main_a, bus.source_a)
    limit_a = busbar.busbar_limit_a(bus.rating_a)
    return _alternative("busbar_opposite_ends", edition, demand_a, limit_a)


def sum_of_breakers(bus: Bus, edition: int) -> Alternative:
    """All devices but the main within the rating, of loads and sources; a warning label.

    That the main itself protects the bus is asked apart.

    Args:
        bus: The busbar, with its devices.
        edition: Year of the NEC.

    Returns:
        The comparison.

    Raises:
        ValueError: Devices not known, or edition not covered.

    Source: NEC 2017, 705.12(B)(2)(3)(c); NEC 2020, 705.12(B)(3)(3); NEC 2023, 705.12(B)(3).
    """
    if not bus.devices_a:
        msg = "the overcurrent devices on the bus are not known; expected all of their ratings"
        raise ValueError(msg)
    for rating_a in bus.devices_a:
        _check.above_zero(rating_a, "rating of an overcurrent device, A,")
    return _alternative("busbar_sum_of_breakers", edition, math.fsum(bus.devices_a), bus.rating_a)


def center_fed(bus: Bus, edition: int) -> Alternative:
    """The 120 % rule for a center-fed panel of a dwelling, connected at one end only.

    Args:
        bus: The busbar.
        edition: Year of the NEC.

    Returns:
        The comparison.

    Raises:
        ValueError: Not center-fed, not a dwelling, not at one end only, edition not covered.

    Source: NEC 2017, 705.12(B)(2)(3)(d) [from memory]; NEC 2020, 705.12(B)(3)(4); NEC 2023,
    705.12(B)(4).
    """
    if bus.feed != "center" or not bus.at_opposite_end or not bus.dwelling:
        msg = "the bus does not suit; expected a center-fed one of a dwelling, used at one end"
        raise ValueError(msg)
    demand_a = busbar.busbar_demand_a(bus.main_a, bus.source_a)
    limit_a = busbar.busbar_limit_a(bus.rating_a)
    return _alternative("busbar_center_fed", edition, demand_a, limit_a)


def alternatives(bus: Bus, edition: int) -> tuple[Alternative, ...]:
    """Every way whose conditions a bus meets, whether its limit is kept or not.

    An engineered study and the rule for feed-through conductors are no comparison of numbers and
    are left to the designer.

    Args:
        bus: The busbar.
        edition: Year of the NEC.

    Returns:
        The comparisons, the one without condition first.

    Raises:
        ValueError: Edition not covered.

    Source: NEC 2017, 705.12(B)(2)(3); NEC 2020, 705.12(B)(3); NEC 2023, 705.12(B).
    """
    found = [any_position(bus, edition)]
    if bus.feed == "end" and bus.at_opposite_end:
        found.append(opposite_ends(bus, edition))
    if bus.devices_a:
        found.append(sum_of_breakers(bus, edition))
    if bus.feed == "center" and bus.at_opposite_end and bus.dwelling:
        found.append(center_fed(bus, edition))
    return tuple(found)


def by_device_rating(bus: Bus, source_devices_a: Sequence[float], edition: int) -> Alternative:
    """The 120 % rule as many authorities read it: by the source's breaker, not its current.

    Args:
        bus: The busbar.
        source_devices_a: Ratings of the sources' devices on it [A].
        edition: Year of the NEC.

    Returns:
        The comparison; where it differs from that of the text, both belong on the sheet.

    Raises:
        ValueError: A rating is not above zero, or the edition is not covered.

    Source: NEC 2017, 705.12(B)(2)(3)(b), NEC 2020, 705.12(B)(3)(2), NEC 2023, 705.12(B)(2);
    the breaker's rating is an interpretation.
    """
    for rating_a in source_devices_a:
        _check.above_zero(rating_a, "rating of a source's device, A,")
    demand_a = bus.main_a + math.fsum(source_devices_a)
    limit_a = busbar.busbar_limit_a(bus.rating_a)
    return _alternative("busbar_opposite_ends", edition, demand_a, limit_a)


def largest_source_device_a(busbar_a: float, main_a: float) -> float:
    """Largest back-fed breaker by that reading.

    Args:
        busbar_a: Rating of the busbar [A].
        main_a: Rating of the overcurrent device that protects it [A].

    Returns:
        1.2 B - M, which need not be a standard rating; 0 or less: none [A].

    Raises:
        ValueError: A rating is not above zero.

    Source: NEC 2017, 705.12(B)(2)(3)(b), NEC 2020, 705.12(B)(3)(2), NEC 2023, 705.12(B)(2);
    the breaker's rating is an interpretation.
    """
    _check.above_zero(main_a, "main overcurrent device, A,")
    return busbar.busbar_limit_a(busbar_a) - main_a


def _alternative(topic: str, edition: int, demand_a: float, limit_a: float) -> Alternative:
    return Alternative(topic, clauses.clause(topic, edition), demand_a, limit_a)
