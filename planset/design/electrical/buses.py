"""Buses that sources feed, with every way in which each may comply."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from planset.codes.nec import busbar_alternatives, clauses
from planset.codes.nec.busbar_alternatives import Alternative, Bus
from planset.design.electrical.derate import service_sources_a
from planset.design.electrical.devices import Devices
from planset.design.electrical.sources import Source
from planset.design.electrical.system import BusLoad, Derate
from planset.design.electrical.voltage_limits import DWELLINGS
from planset.job.electrical.service import SubpanelBreaker, SupplySideTap

if TYPE_CHECKING:
    from planset.job.load import Inputs


def bus_loads(
    inputs: Inputs, sources: tuple[Source, ...], devices: Devices, derate: Derate | None
) -> tuple[BusLoad, ...]:
    """Every bus between the sources and the point of connection, nearest to the sources first.

    None under an edition whose rules for buses are not known here. At a supply-side tap the
    service bus is fed by the utility alone as far as these sources go.
    """
    edition = inputs.jurisdiction.codes.electrical.edition
    if edition not in clauses.editions("busbar_any_position"):
        return ()
    source_a = math.fsum(source.current_a for source in sources)
    found = []
    if inputs.job.electrical.combiner is not None:
        found.append(_combiner(inputs, source_a, devices, edition))
    connection = inputs.job.electrical.interconnection
    if isinstance(connection, SubpanelBreaker):
        found.append(_subpanel(inputs, connection, source_a, devices, edition))
    if not isinstance(connection, SupplySideTap):
        found.append(_service(inputs, source_a, devices, derate, edition))
    return tuple(found)


def _combiner(inputs: Inputs, source_a: float, devices: Devices, edition: int) -> BusLoad:
    """The bus of the combiner, fed by its main or by the device beyond it, sources all along it."""
    combiner = inputs.job.electrical.combiner
    assert combiner is not None
    beyond = next((d for d in (devices.fuse, devices.breaker) if d is not None), None)
    main_a = combiner.main or (beyond.rating_a if beyond else combiner.bus)
    breakers = tuple(device.rating_a for device in devices.of_sources.values())
    bus = Bus(combiner.bus, main_a, source_a, "end", False, _dwelling(inputs), breakers)
    protected_by = f"{combiner.id}-MAIN" if combiner.main else (beyond.tag if beyond else "")
    return _load(combiner.id, bus, breakers, edition, protected_by)


def _subpanel(
    inputs: Inputs,
    connection: SubpanelBreaker,
    source_a: float,
    devices: Devices,
    edition: int,
) -> BusLoad:
    """The bus of a subpanel, protected by its main or by the feeder's breaker."""
    main_a = connection.main or connection.feeder_breaker
    opposite = connection.position == "opposite_main"
    bus = Bus(connection.bus, main_a, source_a, "end", opposite, _dwelling(inputs))
    feeder = devices.feeder.tag if devices.feeder else ""
    protected_by = f"{connection.subpanel}-MAIN" if connection.main else feeder
    return _load(connection.subpanel, bus, _connecting(devices), edition, protected_by)


def _service(
    inputs: Inputs, source_a: float, devices: Devices, derate: Derate | None, edition: int
) -> BusLoad:
    """The service bus, with sources that feed it already.

    By the sum of the breakers a feeder counts by the breaker it has there.
    """
    service, connection = inputs.job.electrical.service, inputs.job.electrical.interconnection
    existing = tuple(source.breaker for source in service.existing_sources)
    devices_a = None
    if service.load_breakers is not None:
        here = devices.feeder or devices.breaker
        devices_a = (service.load_breakers, *((here.rating_a,) if here else ()), *existing)
    if isinstance(connection, SubpanelBreaker):
        position = connection.feeder_position
    else:
        assert not isinstance(connection, SupplySideTap)
        position = connection.position
    bus = Bus(
        service.bus,
        derate.new_a if derate else service.main,
        service_sources_a(inputs, source_a),
        service.feed,
        position == "opposite_main",
        _dwelling(inputs),
        devices_a,
    )
    return _load("MSP", bus, (*_connecting(devices), *existing), edition, "MSP-MAIN")


def _connecting(devices: Devices) -> tuple[float, ...]:
    return (devices.breaker.rating_a,) if devices.breaker else ()


def _dwelling(inputs: Inputs) -> bool:
    return inputs.job.building.use in DWELLINGS


def _load(
    tag: str, bus: Bus, source_devices_a: tuple[float, ...], edition: int, protected_by: str
) -> BusLoad:
    found = busbar_alternatives.alternatives(bus, edition)
    holding = (way for way in found if way.holds)
    opposite = bus.feed == "end" and bus.at_opposite_end
    by_device = None
    if opposite and source_devices_a:
        by_device = busbar_alternatives.by_device_rating(bus, source_devices_a, edition)
    return BusLoad(
        tag=tag,
        rating_a=bus.rating_a,
        main_a=bus.main_a,
        source_a=bus.source_a,
        source_devices_a=source_devices_a,
        alternatives=found,
        chosen=next(holding, None) or min(found, key=_excess_a),
        by_device=by_device,
        feed="center" if bus.feed == "center" else "end",
        opposite_end=bus.at_opposite_end,
        protected_by=protected_by,
    )


def _excess_a(way: Alternative) -> float:
    return way.demand_a - way.limit_a
