"""Calculations of strings, branches and sources: voltages, lengths, currents, their devices."""

from __future__ import annotations

from collections.abc import Iterator

from planset.design.design import Design
from planset.design.electrical.device_limits import device_limits
from planset.design.electrical.string_range import StringRange, string_ranges
from planset.design.electrical.system import BranchCircuit, Device, StringCircuit
from planset.sheets.electrical_calculations_rows import (
    NONE,
    Block,
    Code,
    Line,
    amperes,
    volts,
)
from planset.sheets.tag_lists import listed_tags

_NO_CODE = "DATA SHEET"


def source_blocks(design: Design, code: Code) -> tuple[Block, ...]:
    """Blocks from the strings to the devices of the sources.

    Args:
        design: The design.
        code: The edition and the findings.
    """
    ranges = string_ranges(design.inputs, design.electrical)
    return (
        Block("MAXIMUM DC VOLTAGE", tuple(_voltages(design, code, ranges))),
        Block("MODULES IN A STRING", tuple(_lengths(code, ranges))),
        Block("OPERATING VOLTAGE", tuple(_operating(design, code, ranges))),
        Block("MAXIMUM CIRCUIT CURRENT", tuple(_currents(design, code))),
        Block("OVERCURRENT DEVICES", tuple(_devices(design, code))),
    )


def _alike(strings: tuple[StringCircuit, ...]) -> list[tuple[str, StringCircuit]]:
    """Strings of equal numbers as one, with the ids of all of them."""
    groups: dict[tuple[object, ...], list[StringCircuit]] = {}
    for string in strings:
        count = 0 if string.converter else len(string.modules)
        key = (
            *(string.inverter, string.module, count, string.converter),
            *(string.cold_voc_v, string.maximum_current_a, string.fuse_a, string.backfeed_a),
        )
        groups.setdefault(key, []).append(string)
    return [(listed_tags([s.id for s in group]), group[0]) for group in groups.values()]


def _voltages(design: Design, code: Code, ranges: tuple[StringRange, ...]) -> Iterator[Line]:
    limits = {name: (limit, by) for name, limit, by in design.electrical.voltage_limits}
    for name, (limit_v, by) in limits.items():
        lowest = "LOWEST OF ALL LIMITS"
        cited = code.cite("voltage_limit")
        yield Line(f"LIMIT AT {name}", lowest, by.upper(), f"{limit_v:,.0f} V", "", cited)
    lowest_c = design.inputs.job.site.lowest_ambient
    for ids, string in _alike(design.electrical.strings):
        limit_v, _ = limits[string.inverter]
        limit = f"<= {limit_v:,.0f} V"
        outcome = code.found("string-voltage", (string.cold_voc_v, limit_v))
        if string.converter:
            yield _of_converters(design, string, ids, limit, code, outcome)
            continue
        module = design.inputs.modules[string.module]
        count, b = len(string.modules), module.voc_percent_per_c
        yield Line(
            f"{ids}, BY COEFFICIENT",
            "n Voc (1 + b (Tmin - 25) / 100)",
            f"{count} x {module.voc_v:g} x (1 + ({b:g}) x ({lowest_c:.1f} - 25) / 100)",
            volts(string.cold_voc_v),
            limit,
            code.cite("voltage_by_coefficient"),
            outcome,
        )
        found = next(one for one in ranges if string.id in one.strings)
        if string.table_voc_v is not None and found.table_factor is not None:
            yield Line(
                f"{ids}, BY TABLE",
                "n Voc F",
                f"{count} x {module.voc_v:g} x {found.table_factor:.2f}",
                volts(string.table_voc_v),
                limit,
                code.cite("voltage_by_table"),
            )
    for branch in design.electrical.branches:
        yield _at_unit(design, branch, limits[branch.id], lowest_c, code)


def _of_converters(
    design: Design, string: StringCircuit, ids: str, limit: str, code: Code, outcome: str
) -> Line:
    converter = design.inputs.converter
    assert converter is not None, "the string stands on converters"
    if converter.string_max_v is not None:
        formula, numbers = "LISTING OF THE CONVERTERS", converter.listing.upper()
    else:
        formula, numbers = "SUM OF RATED OUTPUTS", f"{converter.output_v:g} V EACH"
    cited = code.cite("converter_voltage")
    return Line(ids, formula, numbers, volts(string.cold_voc_v), limit, cited, outcome)


def _at_unit(
    design: Design, branch: BranchCircuit, limit: tuple[float, str], lowest_c: float, code: Code
) -> Line:
    module, (limit_v, _) = design.inputs.modules[branch.module], limit
    b = module.voc_percent_per_c
    return Line(
        f"{branch.id}, AT ONE UNIT",
        "Voc (1 + b (Tmin - 25) / 100)",
        f"{module.voc_v:g} x (1 + ({b:g}) x ({lowest_c:.1f} - 25) / 100)",
        volts(branch.cold_voc_v),
        f"<= {limit_v:,.0f} V",
        code.cite("voltage_by_coefficient"),
        code.found("microinverter-input", (branch.cold_voc_v, limit_v)),
    )


def _lengths(code: Code, ranges: tuple[StringRange, ...]) -> Iterator[Line]:
    for one in ranges:
        name = f"{one.inverter}, {one.module.upper()}"
        cited = code.cite("voltage_limit")
        yield Line(
            f"{name}: MOST, BY COEFFICIENT",
            "floor(V LIMIT / Voc AT Tmin)",
            f"floor({one.limit_v:g} / {one.each.cold_voc_v:.2f})",
            f"{one.most} MODULES",
            "",
            cited,
        )
        if one.most_by_table is not None:
            yield Line(
                f"{name}: MOST, BY TABLE",
                "floor(V LIMIT / (Voc F))",
                f"floor({one.limit_v:g} / {one.each.table_voc_v:.2f})",
                f"{one.most_by_table} MODULES",
                "",
                cited,
            )
        yield Line(
            f"{name}: MOST WITHOUT CLIPPING",
            "floor(V TRACKING, HIGH / Vmp AT Tmin)",
            f"floor({one.tracking_high_v:g} / {one.each.cold_vmp_v:.2f})",
            f"{one.most_tracking} MODULES",
            "",
            _NO_CODE,
        )
        yield Line(
            f"{name}: FEWEST",
            "ceil(V LEAST / Vmp AT Tcell)",
            f"ceil({one.least_v:g} / {one.each.hot_vmp_v:.2f})",
            f"{one.fewest} MODULES",
            "",
            _NO_CODE,
        )


def _operating(design: Design, code: Code, ranges: tuple[StringRange, ...]) -> Iterator[Line]:
    site = design.inputs.job.site
    for ids, string in _alike(design.electrical.strings):
        if string.converter:
            fixed = volts(string.operating_v)
            yield Line(ids, "HELD BY THE INVERTER", NONE, fixed, "", _NO_CODE)
            continue
        module = design.inputs.modules[string.module]
        found = next(one for one in ranges if string.id in one.strings)
        count, g = len(string.modules), module.power_percent_per_c
        for words, temperature_c, result_v, limit, outcome in (
            (
                f"HOT, CELLS AT {string.hot_cell_c:.0f} C (AMBIENT {site.high_ambient:.0f} C)",
                string.hot_cell_c,
                string.hot_vmp_v,
                f">= {found.least_v:g} V",
                code.found("string-minimum-voltage", (string.hot_vmp_v, found.least_v)),
            ),
            ("COLD", site.lowest_ambient, string.cold_vmp_v, "", ""),
        ):
            yield Line(
                f"{ids}, {words}",
                "n Vmp (1 + g (T - 25) / 100)",
                f"{count} x {module.vmp_v:g} x (1 + ({g:g}) x ({temperature_c:.1f} - 25) / 100)",
                volts(result_v),
                limit,
                _NO_CODE,
                outcome,
            )


def _currents(design: Design, code: Code) -> Iterator[Line]:
    inputs, electrical = design.inputs, design.electrical
    for ids, string in _alike(electrical.strings):
        result = amperes(string.maximum_current_a)
        if string.converter:
            cited = code.cite("converter_current")
            yield Line(ids, "RATED OUTPUT OF A CONVERTER", NONE, result, "", cited)
        else:
            isc_a = inputs.modules[string.module].sizing_isc_a
            cited = code.cite("string_current")
            yield Line(ids, "1.25 Isc", f"1.25 x {isc_a:g}", result, "", cited)
    for branch in electrical.branches:
        yield Line(
            branch.id,
            "RATED OUTPUT OF ALL UNITS",
            f"{branch.units} UNITS OF {branch.unit_a:g} A",
            amperes(branch.maximum_current_a),
            "",
            code.cite("inverter_output_current"),
        )
    for placed in inputs.job.electrical.inverters:
        rated_a = inputs.inverters[placed.model].ac_current_a
        cited = code.cite("inverter_output_current")
        yield Line(placed.id, "RATED OUTPUT", NONE, amperes(rated_a), "", cited)
    yield Line(
        "ALL NEW SOURCES",
        "SUM OF OUTPUTS",
        NONE,
        amperes(electrical.source_a),
        "",
        code.cite("inverter_output_current"),
    )


def _devices(design: Design, code: Code) -> Iterator[Line]:
    for ids, string in _alike(design.electrical.strings):
        if not string.converter:
            yield _fuse(design, ids, string, code)
    for branch in design.electrical.branches:
        yield Line(
            f"{branch.id}, UNITS BEHIND {branch.breaker_a:g} A",
            "LISTING, AND 1.25 I <= BREAKER",
            f"BREAKER {'OF THE JOB' if branch.breaker_stated else 'NEXT STANDARD'}",
            f"{branch.units} UNITS",
            f"<= {branch.most_units} UNITS",
            code.cite("ac_overcurrent_rating"),
            code.found("branch-units", (branch.units, branch.most_units)),
        )
    for device in design.electrical.devices:
        yield _device(device, code)
    for one in device_limits(design):
        rating_a = one.device.rating_a
        yield Line(
            f"{one.device.tag}, LARGEST FOR {one.inverter}",
            "DATA SHEET",
            one.document.upper(),
            amperes(rating_a),
            f"<= {amperes(one.limit_a)}",
            code.cite("instructions"),
            code.found("output-device", (rating_a, one.limit_a), (one.device.tag,)),
        )


def _fuse(design: Design, ids: str, string: StringCircuit, code: Code) -> Line:
    """A string's fuse, or that the others cannot overload it without one."""
    series_a = design.inputs.modules[string.module].series_fuse_a
    if string.fuse_a is None:
        return Line(
            f"{ids}, NO FUSE",
            "CURRENT OF OTHERS ON ITS INPUT <= MODULE'S FUSE",
            NONE,
            amperes(string.backfeed_a),
            f"<= {amperes(series_a)}",
            code.cite("dc_overcurrent_required"),
            code.found("string-fuse", (string.backfeed_a, series_a)),
        )
    return Line(
        f"{ids}, FUSE",
        "1.25 I <= FUSE <= MODULE'S FUSE",
        f"1.25 x {string.maximum_current_a:.2f} A",
        amperes(string.fuse_a),
        f"<= {amperes(series_a)}",
        code.cite("dc_overcurrent_rating"),
        code.found("string-fuse", (string.fuse_a, series_a)),
    )


def _device(device: Device, code: Code) -> Line:
    standard = "NONE" if device.standard_a is None else f"{device.standard_a:g} A"
    whose = "OF THE JOB" if device.stated else "NEXT STANDARD"
    return Line(
        f"{device.tag}, {whose}",
        "1.25 I; NEXT STANDARD",
        f"1.25 x {device.current_a:.2f} = {device.minimum_a:.2f} A; STANDARD {standard}",
        amperes(device.rating_a),
        f">= {device.minimum_a:.2f} A",
        code.cite("ac_overcurrent_rating"),
        code.found("source-device", (device.rating_a, device.minimum_a), (device.tag,)),
    )
