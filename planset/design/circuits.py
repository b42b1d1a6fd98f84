"""Electrical design: voltages and currents of every circuit, and the load on the bus."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.nec import busbar, circuit_current, overcurrent, voltage
from planset.design.layout import PlacedArray

if TYPE_CHECKING:
    from planset.job.load import Inputs

_DWELLINGS = ("one_family_dwelling", "two_family_dwelling", "townhouse")
FLUSH_ROOF_RISE_C = 35.0  # cell over ambient, flush to a roof (common practice, no source)


@dataclass(frozen=True, slots=True)
class StringCircuit:
    """One series string of modules.

    Attributes:
        id: Id in the job.
        input: Inverter input it feeds, counted from 1.
        modules: Tags of its modules in order.
        model: Model of the modules.
        cold_voc_v: Open-circuit voltage at the lowest ambient, by the maker's coefficient [V].
        table_voc_v: The same by the code's table for crystalline silicon, None where it ends [V].
        hot_vmp_v: Operating voltage at the hot cell temperature [V].
        hot_cell_c: That cell temperature [deg C].
        maximum_current_a: 1.25 times short-circuit current [A].
    """

    id: str
    input: int
    modules: tuple[str, ...]
    model: str
    cold_voc_v: float
    table_voc_v: float | None
    hot_vmp_v: float
    hot_cell_c: float
    maximum_current_a: float


@dataclass(frozen=True, slots=True)
class InverterOutput:
    """The inverter's output circuit.

    Attributes:
        rated_a: Rated continuous output current [A].
        minimum_breaker_a: 1.25 times that [A].
        standard_breaker_a: The next standard rating, None beyond the largest [A].
        breaker_a: The breaker the job names [A].
    """

    rated_a: float
    minimum_breaker_a: float
    standard_breaker_a: float | None
    breaker_a: float


@dataclass(frozen=True, slots=True)
class BusLoad:
    """Load-side connection on the service bus.

    Attributes:
        bus_a: Rating of the bus [A].
        main_a: Rating of the device that protects it [A].
        demand_a: Main plus 1.25 times inverter output [A].
        demand_by_breaker_a: Main plus the inverter breaker, as some offices count it [A].
        limit_a: 1.2 times the bus [A].
        opposite_end: Whether the inverter breaker stands at the far end from the main.
    """

    bus_a: float
    main_a: float
    demand_a: float
    demand_by_breaker_a: float
    limit_a: float
    opposite_end: bool


@dataclass(frozen=True, slots=True)
class Circuits:
    """The whole electrical design.

    Attributes:
        strings: Strings in the order of the job.
        voltage_limit_v: Lowest of building limit, inverter, module and device ratings [V].
        voltage_limited_by: Which of these governs, all of them when several do.
        mppt_low_v: Least voltage at which the inverter works and starts [V].
        output: Inverter output.
        bus: Service bus.
        dc_kw: Sum of module power [kW].
        ac_kw: Inverter output [kW].
    """

    strings: tuple[StringCircuit, ...]
    voltage_limit_v: float
    voltage_limited_by: str
    mppt_low_v: float
    output: InverterOutput
    bus: BusLoad
    dc_kw: float
    ac_kw: float


def build_circuits(inputs: Inputs, arrays: tuple[PlacedArray, ...]) -> Circuits:
    """Compute every circuit of the job (NEC 690.7, 690.8, 705)."""
    electrical, inverter = inputs.job.electrical, inputs.inverter
    limit, limited_by = _voltage_limit(inputs)
    rated = circuit_current.inverter_output_maximum_a(inverter.ac_current_a)
    minimum = overcurrent.continuous_minimum_a(rated)
    breaker = electrical.interconnection.breaker
    service = electrical.service
    return Circuits(
        strings=_strings(inputs, arrays),
        voltage_limit_v=limit,
        voltage_limited_by=limited_by,
        mppt_low_v=max(inverter.mppt_low_v, inverter.start_v),
        output=InverterOutput(rated, minimum, _standard_breaker_a(minimum), breaker),
        bus=BusLoad(
            service.bus,
            service.main,
            busbar.busbar_demand_a(service.main, rated),
            service.main + breaker,
            busbar.busbar_limit_a(service.bus),
            electrical.interconnection.position == "opposite_main",
        ),
        dc_kw=sum(array.product.power_w * len(array.modules) for array in arrays) / 1000,
        ac_kw=inverter.ac_power_w / 1000,
    )


def _voltage_limit(inputs: Inputs) -> tuple[float, str]:
    if inputs.job.building.use in _DWELLINGS:
        limits = [(voltage.DWELLING_LIMIT_V, "a dwelling by 690.7")]
    else:
        limits = [(voltage.OTHER_BUILDING_LIMIT_V, "a building by 690.7")]
    limits.append((inputs.inverter.max_dc_v, f"inverter {inputs.inverter.model}"))
    limits += [(item.max_system_v, f"module {item.model}") for item in inputs.modules.values()]
    if inputs.shutdown is not None:
        limits.append((inputs.shutdown.max_system_v, f"device {inputs.shutdown.model}"))
    lowest = min(limit for limit, _ in limits)
    governing = dict.fromkeys(name for limit, name in limits if limit == lowest)
    return lowest, " and ".join(governing)


def _standard_breaker_a(minimum_a: float) -> float | None:
    largest = overcurrent.standard_ratings_a()[-1]
    return overcurrent.next_standard_rating_a(minimum_a) if minimum_a <= largest else None


def _strings(inputs: Inputs, arrays: tuple[PlacedArray, ...]) -> tuple[StringCircuit, ...]:
    site = inputs.job.site
    waiting = {array.id: [module.id for module in array.modules] for array in arrays}
    products = {array.id: array.product for array in arrays}
    hot_cell_c = site.high_ambient + FLUSH_ROOF_RISE_C
    factor = _table_factor(site.lowest_ambient)
    strings = []
    for item in inputs.job.electrical.strings:
        module, tags = products[item.array], waiting[item.array]
        taken, waiting[item.array] = tags[: item.modules], tags[item.modules :]
        count = len(taken)
        cold = voltage.open_circuit_voltage(
            module.voc_v, module.voc_percent_per_c, site.lowest_ambient
        )
        hot = voltage.maximum_power_voltage(module.vmp_v, module.power_percent_per_c, hot_cell_c)
        strings.append(
            StringCircuit(
                item.id,
                item.input,
                tuple(taken),
                module.model,
                count * cold,
                None if factor is None else count * module.voc_v * factor,
                count * hot,
                hot_cell_c,
                circuit_current.string_maximum_a(module.isc_a),
            )
        )
    return tuple(strings)


def _table_factor(lowest_ambient_c: float) -> float | None:
    """Factor of Table 690.7(A), None below the temperature where it ends."""
    try:
        return voltage.table_factor(lowest_ambient_c)
    except ValueError:
        return None
