"""The catalog as lines for the terminal: entries by kind, or one of them whole."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

from typer import style

from planset.catalog.battery import Battery
from planset.catalog.converter import Converter
from planset.catalog.fields import StrictModel
from planset.catalog.inverter import Inverter
from planset.catalog.library import FOLDERS, UnknownEntryError, find_with_source, names
from planset.catalog.microinverter import Microinverter
from planset.catalog.module import Module
from planset.catalog.mounting import MountingSystem
from planset.catalog.shutdown import HazardControl, ShutdownDevice
from planset.errors import JobErrors

RATINGS: Mapping[type[StrictModel], Callable[[Any], str]] = MappingProxyType(
    {
        Module: lambda e: f"{e.power_w:g} W, Voc {e.voc_v:g} V, Isc {e.isc_a:g} A",
        Inverter: lambda e: (
            f"{e.ac_power_w:g} W, {e.ac_voltage_v:g} V, {e.ac_current_a:g} A, "
            f"{e.inputs} inputs to {e.max_dc_v:g} V dc{_of_hybrid(e)}"
        ),
        Microinverter: lambda e: (
            f"{e.ac_power_w:g} W, {e.ac_voltage_v:g} V, {e.ac_current_a:g} A, "
            f"{e.max_per_branch} on a branch of {e.branch_device_a:g} A"
        ),
        Converter: lambda e: (
            f"modules to {e.max_module_w:g} W and {e.max_input_v:g} V, {e.output_a:g} A, "
            f"{e.fewest_per_string} to {e.most_per_string} in a string"
        ),
        Battery: lambda e: f"{e.energy_kwh:g} kWh, {e.power_w:g} W, to {e.max_v:g} V dc",
        ShutdownDevice: lambda e: (
            f"{e.modules_per_device} module per device, {e.max_input_v:g} V, {e.max_current_a:g} A"
        ),
        HazardControl: lambda e: e.listing,
        MountingSystem: lambda e: f"{e.attachment.name} on {', '.join(e.attachment.suits)}",
    }
)
"""Kind of equipment to its main ratings in words."""


def _of_hybrid(inverter: Inverter) -> str:
    backup = ", backup" if inverter.backup else ""
    return f", battery{backup}" if inverter.battery else ""


def catalog_lines(what: str | None, folder: Path) -> Iterator[str]:
    """Yield the equipment of every kind, of one kind, or one entry whole.

    Args:
        what: None, a kind as "inverters", an entry as "inverters/oe-76", or its name alone.
        folder: A folder whose `catalog` is looked into, too.

    Raises:
        UnknownEntryError: No kind and no entry is called so.
        JobErrors: The entry asked for cannot be used.
    """
    kinds = {FOLDERS[kind]: kind for kind in RATINGS}
    if what is None:
        for kind in kinds.values():
            yield from _kind_lines(kind, folder)
            yield ""
        yield "Jurisdictions: planset jurisdiction"
    elif what in kinds:
        yield from _kind_lines(kinds[what], folder)
    else:
        yield from _entry_lines(*_entry_of(what, folder), folder)


def _kind_lines(kind: type[StrictModel], folder: Path) -> Iterator[str]:
    yield style(FOLDERS[kind], bold=True)
    known = names(kind, folder)
    rows = [(name, *_product(kind, name, folder)) for name in known]
    widths = [max(len(row[column]) for row in rows) for column in (0, 1)]
    for name, product, ratings in rows:
        yield f"  {name.ljust(widths[0])}  {product.ljust(widths[1])}  {ratings}".rstrip()


def _product(kind: type[StrictModel], name: str, folder: Path) -> tuple[str, str]:
    """Maker with model, and ratings, of an entry; of a draft, how much of it is wanting."""
    try:
        entry, document = find_with_source(kind, name, folder)
    except JobErrors as errors:
        return "-", f"cannot be used yet: {len(errors.problems)} problems"
    own = " (own)" if Path(document.file).is_relative_to(folder / "catalog") else ""
    return f"{getattr(entry, 'maker')} {getattr(entry, 'model')}{own}", RATINGS[kind](entry)  # noqa: B009


def _entry_of(what: str, folder: Path) -> tuple[type[StrictModel], str]:
    """Return kind and name of an entry that is asked for by folder and name, or by name."""
    in_folder, _, name = what.rpartition("/")
    found = [
        kind
        for kind, place in FOLDERS.items()
        if in_folder in ("", place) and name in names(kind, folder)
    ]
    if len(found) == 1:
        return found[0], name
    if found:
        both = ", ".join(f"{FOLDERS[kind]}/{name}" for kind in found)
        msg = f"several entries are called {name}; write one of: {both}"
        raise UnknownEntryError(msg)
    msg = f"no kind and no entry is called {what}; `planset catalog` lists them"
    raise UnknownEntryError(msg)


def _entry_lines(kind: type[StrictModel], name: str, folder: Path) -> Iterator[str]:
    """Yield the file of an entry and what stands in it, once it can be used."""
    _, document = find_with_source(kind, name, folder)
    yield style(document.file, bold=True)
    yield from Path(document.file).read_text(encoding="utf-8").splitlines()
