"""Voltages of one module at the temperatures of the site."""

from __future__ import annotations

from dataclasses import dataclass

from planset.catalog.module import Module
from planset.codes.nec import cell_temperature, voltage
from planset.job.site import Site

FLUSH_ROOF_RISE_C = cell_temperature.FIXED_RISE_C["flush"]


@dataclass(frozen=True, slots=True)
class ModuleVoltage:
    """Voltages of one module.

    Attributes:
        cold_voc_v: Open-circuit voltage at the lowest ambient, by the maker's coefficient [V].
        table_voc_v: The same by the code's table for crystalline silicon, None where it ends [V].
        hot_vmp_v: Operating voltage at the hot cell temperature [V].
        cold_vmp_v: Operating voltage at the lowest ambient [V].
        hot_cell_c: The hot cell temperature [deg C].
    """

    cold_voc_v: float
    table_voc_v: float | None
    hot_vmp_v: float
    cold_vmp_v: float
    hot_cell_c: float


def module_voltage(module: Module, site: Site) -> ModuleVoltage:
    """Voltages of a module on a site (NEC 690.7; cells flush to a roof)."""
    hot_cell_c = cell_temperature.cell_temperature_by_rise_c(site.high_ambient, FLUSH_ROOF_RISE_C)
    at_power = module.vmp_v, module.power_percent_per_c
    return ModuleVoltage(
        voltage.open_circuit_voltage(module.voc_v, module.voc_percent_per_c, site.lowest_ambient),
        _by_table(module.voc_v, site.lowest_ambient),
        voltage.maximum_power_voltage(*at_power, hot_cell_c),
        voltage.maximum_power_voltage(*at_power, site.lowest_ambient),
        hot_cell_c,
    )


def _by_table(voc_v: float, lowest_ambient_c: float) -> float | None:
    try:
        return voc_v * voltage.table_factor(lowest_ambient_c)
    except ValueError:
        return None
