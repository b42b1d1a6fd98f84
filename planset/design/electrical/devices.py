"""Overcurrent devices that sources feed through."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.nec import overcurrent
from planset.design.electrical.sources import Source
from planset.design.electrical.system import Device
from planset.job.electrical.service import SubpanelBreaker, SupplySideTap

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class Devices:
    """The devices on the way from the sources to the service.

    Attributes:
        of_sources: Source id to its breaker in the combiner; empty without one.
        combiner_main: Main breaker of the combiner, None for lugs or no combiner.
        fuse: Fuse of the disconnect, None where it is not fused.
        breaker: Back-fed breaker at the point of connection, None at a supply-side tap.
        feeder: Breaker of the subpanel's feeder in the service panel, None without one.
    """

    of_sources: dict[str, Device]
    combiner_main: Device | None
    fuse: Device | None
    breaker: Device | None
    feeder: Device | None

    @property
    def all(self) -> tuple[Device, ...]:
        """Every device, nearest to the sources first."""
        later = (self.combiner_main, self.fuse, self.breaker, self.feeder)
        return (*self.of_sources.values(), *(device for device in later if device))


def size_device(
    tag: str, current_a: float, stated_a: float | None, *, fuse: bool = False
) -> Device:
    """A device for a continuous current: the rating stated, or the smallest standard one.

    Beyond the largest standard rating it is rated by the current alone.

    Source: NEC 705.30 and 690.9(B), 240.6(A).
    """
    minimum_a = overcurrent.continuous_minimum_a(current_a)
    try:
        standard_a = overcurrent.next_standard_rating_a(minimum_a, fuse=fuse)
    except ValueError:
        standard_a = None
    rating_a = stated_a or standard_a or minimum_a
    return Device(tag, current_a, minimum_a, standard_a, rating_a, stated_a is not None)


def source_devices(inputs: Inputs, sources: tuple[Source, ...]) -> Devices:
    """The devices of a job; breakers are tagged CB1, CB2 ... from the sources on."""
    electrical = inputs.job.electrical
    combiner, connection = electrical.combiner, electrical.interconnection
    total_a = math.fsum(source.circuit_a for source in sources)
    tags = (f"CB{number}" for number in range(1, len(sources) + 3))
    of_sources = {}
    if combiner is not None:
        of_sources = {s.id: size_device(next(tags), s.circuit_a, s.breaker_a) for s in sources}
    main = fuse = breaker = feeder = None
    if combiner is not None and combiner.main is not None:
        main = size_device(f"{combiner.id}-MAIN", total_a, combiner.main)
    if electrical.disconnect.fused:
        fuse = size_device("DISC1", total_a, electrical.disconnect.fuse, fuse=True)
    if not isinstance(connection, SupplySideTap):
        breaker = size_device(next(tags), total_a, connection.breaker)
    if isinstance(connection, SubpanelBreaker):
        feeder = size_device(next(tags), total_a, connection.feeder_breaker)
    return Devices(of_sources, main, fuse, breaker, feeder)
