"""How many modules may stand in a string, and how many must."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.nec import voltage
from planset.codes.nec.string_length import largest_string, smallest_string
from planset.design.electrical.module_voltage import ModuleVoltage, module_voltage
from planset.design.electrical.system import ElectricalDesign

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class StringRange:
    """Least and greatest length of strings of one module on one inverter.

    Attributes:
        inverter: Id of the inverter.
        module: Catalog name of the module.
        strings: Ids of the strings.
        each: Voltages of one module.
        table_factor: Factor of Table 690.7(A), None where the table ends (no unit).
        limit_v: Lowest limit on the dc side [V].
        limited_by: What sets it.
        most: Most modules by the maker's coefficient.
        most_by_table: The same by the code's table, None where it ends.
        tracking_high_v: Upper end of the tracking range [V].
        most_tracking: Most modules within it; more are safe, but the inverter clips.
        least_v: Voltage the inverter needs: the larger of lower end and start voltage [V].
        fewest: Fewest modules that reach it with hot cells.
    """

    inverter: str
    module: str
    strings: tuple[str, ...]
    each: ModuleVoltage
    table_factor: float | None
    limit_v: float
    limited_by: str
    most: int
    most_by_table: int | None
    tracking_high_v: float
    most_tracking: int
    least_v: float
    fewest: int


def string_ranges(inputs: Inputs, electrical: ElectricalDesign) -> tuple[StringRange, ...]:
    """A range for every module on every inverter; strings of converters have none.

    Source: NEC 690.7; the least length by the inverter's data sheet.
    """
    together: dict[tuple[str, str], list[str]] = {}
    for string in electrical.strings:
        if not string.converter:
            together.setdefault((string.inverter, string.module), []).append(string.id)
    return tuple(
        _range(inputs, electrical, inverter, module, tuple(strings))
        for (inverter, module), strings in together.items()
    )


def _range(
    inputs: Inputs,
    electrical: ElectricalDesign,
    inverter_id: str,
    module: str,
    strings: tuple[str, ...],
) -> StringRange:
    placed = next(one for one in inputs.job.electrical.inverters if one.id == inverter_id)
    inverter = inputs.inverters[placed.model]
    limits = {name: (limit, by) for name, limit, by in electrical.voltage_limits}
    limit_v, limited_by = limits[inverter_id]
    site = inputs.job.site
    each = module_voltage(inputs.modules[module], site)
    least_v = max(inverter.mppt_low_v, inverter.start_v)
    table_v = each.table_voc_v
    return StringRange(
        inverter=inverter_id,
        module=module,
        strings=strings,
        each=each,
        table_factor=None if table_v is None else voltage.table_factor(site.lowest_ambient),
        limit_v=limit_v,
        limited_by=limited_by,
        most=largest_string(limit_v, each.cold_voc_v),
        most_by_table=None if table_v is None else largest_string(limit_v, table_v),
        tracking_high_v=inverter.mppt_high_v,
        most_tracking=largest_string(inverter.mppt_high_v, each.cold_vmp_v),
        least_v=least_v,
        fewest=smallest_string(least_v, each.hot_vmp_v),
    )
