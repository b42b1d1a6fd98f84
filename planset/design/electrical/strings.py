"""Series strings of modules, with converters or without."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from planset.codes.nec import circuit_current, string_fuses, voltage
from planset.design.electrical.allotment import Allotment
from planset.design.electrical.module_voltage import module_voltage
from planset.design.electrical.system import StringCircuit

if TYPE_CHECKING:
    from planset.catalog.converter import Converter
    from planset.catalog.inverter import Inverter
    from planset.catalog.module import Module
    from planset.job.electrical.sources import PlacedInverter, StringOfModules
    from planset.job.load import Inputs
    from planset.job.site import Site


class _Values(NamedTuple):
    """Voltages and currents of a string, as `StringCircuit` names them."""

    cold_voc_v: float
    table_voc_v: float | None
    hot_vmp_v: float
    cold_vmp_v: float
    operating_v: float
    operating_a: float
    maximum_current_a: float


def placed_inverter(inputs: Inputs, item: StringOfModules) -> PlacedInverter:
    """The inverter that a string feeds; the only one where the string names none."""
    inverters = inputs.job.electrical.inverters
    return next(one for one in inverters if item.inverter in (None, one.id))


def string_circuits(inputs: Inputs, allotment: Allotment) -> tuple[StringCircuit, ...]:
    """Every string of the job (NEC 690.7, 690.8 and 690.9)."""
    made = [_string(inputs, item, allotment) for item in inputs.job.electrical.strings]
    by_input = defaultdict(list)
    for string in made:
        by_input[string.inverter, string.input].append(string)
    return tuple(_fused(inputs, s, by_input[s.inverter, s.input]) for s in made)


def _string(inputs: Inputs, item: StringOfModules, allotment: Allotment) -> StringCircuit:
    placed, module = placed_inverter(inputs, item), allotment.product(item.array)
    tags = tuple(placed.id for placed in allotment.take(item.array, item.modules))
    site, count = inputs.job.site, len(tags)
    if inputs.converter is None:
        values = _of_modules(site, module, count)
    else:
        inverter = inputs.inverters[placed.model]
        values = _of_converters(inputs.converter, inverter, module, count)
    return StringCircuit(
        id=item.id,
        inverter=placed.id,
        input=item.input,
        modules=tags,
        module=allotment.name(item.array),
        converter=inputs.converter is not None,
        cold_voc_v=values.cold_voc_v,
        table_voc_v=values.table_voc_v,
        hot_vmp_v=values.hot_vmp_v,
        cold_vmp_v=values.cold_vmp_v,
        hot_cell_c=module_voltage(module, site).hot_cell_c,
        operating_v=values.operating_v,
        operating_a=values.operating_a,
        maximum_current_a=values.maximum_current_a,
        power_w=count * module.power_w,
        fuse_needed=False,
        fuse_a=item.fuse,
        backfeed_a=0.0,
        junction_box=item.junction_box or placed.junction_box,
    )


def _of_modules(site: Site, module: Module, count: int) -> _Values:
    """A string of modules alone."""
    each = module_voltage(module, site)
    return _Values(
        cold_voc_v=count * each.cold_voc_v,
        table_voc_v=None if each.table_voc_v is None else count * each.table_voc_v,
        hot_vmp_v=count * each.hot_vmp_v,
        cold_vmp_v=count * each.cold_vmp_v,
        operating_v=count * module.vmp_v,
        operating_a=module.imp_a,
        maximum_current_a=circuit_current.string_maximum_a(module.sizing_isc_a),
    )


def _of_converters(converter: Converter, inverter: Inverter, module: Module, count: int) -> _Values:
    """A string of converters, which the inverter holds at its fixed voltage.

    An inverter without one is taken to run at the low end of its range, where the current is
    highest.
    """
    fixed_v = inverter.fixed_dc_v or inverter.mppt_low_v
    units = max(math.ceil(count / converter.modules), 1)
    return _Values(
        cold_voc_v=voltage.converter_string_maximum_v(
            [converter.output_v] * units, converter.string_max_v
        ),
        table_voc_v=None,
        hot_vmp_v=fixed_v,
        cold_vmp_v=fixed_v,
        operating_v=fixed_v,
        operating_a=count * module.power_w / fixed_v,
        maximum_current_a=circuit_current.converter_output_maximum_a(converter.output_a),
    )


def _fused(inputs: Inputs, string: StringCircuit, sharing: list[StringCircuit]) -> StringCircuit:
    """A string with what the others on its input can drive into it.

    Converters have no maximum fuse in their data sheets here, so that their listing is left to
    say whether strings of them are fused.
    """
    placed = next(p for p in inputs.job.electrical.inverters if p.id == string.inverter)
    others_a = math.fsum(other.maximum_current_a for other in sharing if other is not string)
    others_a += inputs.inverters[placed.model].backfeed_a
    if string.converter:
        return replace(string, backfeed_a=others_a)
    module = inputs.modules[string.module]
    isc_a = module.sizing_isc_a
    needed = string_fuses.device_required(1, isc_a, module.series_fuse_a, others_a)
    fuse_a = string.fuse_a
    if needed and fuse_a is None:
        fuse_a = string_fuses.smallest_string_fuse_a(isc_a)
    return replace(string, backfeed_a=others_a, fuse_needed=needed, fuse_a=fuse_a)
