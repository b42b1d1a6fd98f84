"""A smaller main breaker that makes room for sources on a busbar, by NEC articles 220 and 705."""

from dataclasses import dataclass

from planset.codes import _check
from planset.codes.nec import busbar, overcurrent


@dataclass(frozen=True, slots=True)
class DeratedMain:
    """A smaller main breaker that makes room for sources.

    Attributes:
        limit_a: What the 120 % rule leaves for the main, at most the bus [A].
        rating_a: Largest standard rating within it [A].
        load_a: Calculated load of the service, by article 220 [A].

    Source: NEC 2017, 705.12(B)(2)(3)(b); NEC 2020, 705.12(B)(3)(2); NEC 2023, 705.12(B)(2);
    load: NEC 2017, 2020 and 2023, 220.87 or part III or IV of article 220.
    """

    limit_a: float
    rating_a: float
    load_a: float

    @property
    def holds(self) -> bool:
        """Whether the smaller main still carries the calculated load."""
        return _check.at_most(self.load_a, self.rating_a)


def derated_main(busbar_a: float, source_a: float, load_a: float) -> DeratedMain:
    """Largest main breaker the 120 % rule allows with given sources.

    Args:
        busbar_a: Rating of the busbar [A].
        source_a: Sum of the sources' continuous output currents [A].
        load_a: Load of the service by article 220; without one there is no derate [A].

    Returns:
        Limit, rating and load.

    Raises:
        ValueError: A value is out of range, or no standard main is small enough.

    Source: NEC 2017, 705.12(B)(2)(3)(b); NEC 2020, 705.12(B)(3)(2); NEC 2023, 705.12(B)(2);
    load: NEC 2017, 2020 and 2023, 220.87 or part III or IV of article 220.
    """
    _check.above_zero(load_a, "calculated load, A,")
    room_a = busbar.busbar_limit_a(busbar_a) - busbar.busbar_demand_a(0.0, source_a)
    limit_a = min(room_a, busbar_a)
    return DeratedMain(limit_a, overcurrent.largest_standard_rating_a(limit_a), load_a)
