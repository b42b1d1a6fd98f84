"""Drafts of catalog entries from an open table of modules and inverters.

The general-purpose library pvlib carries the table. It ends in 2019 and has no listings, so a draft
leaves open what only a label or a listing tells: such a field has no value, and reading the entry
tells of each of them until it is filled in.
"""

import csv
import difflib
import importlib.util
import json
from collections.abc import Callable, Mapping
from pathlib import Path

from planset.errors import MachineError, PlansetError

Row = Mapping[str, str]
Field = tuple[str, str | None, str]
"""Name, value as YAML or None to be filled in, remark."""

LIBRARY = "library 2019"
"""What marks a value of the table, in drafts and, as the document, on sheets."""

_FILES = {
    "modules": "sam-library-cec-modules-2019-03-05.csv",
    "inverters": "sam-library-cec-inverters-2019-03-05.csv",
}
_ROWS_OF_HEADINGS = 2  # below the names of the columns: units, then internal names
_SILICON = (-0.5, -0.2)  # % per C; 98 of 100 rows lie in -0.45 to -0.25 (electrical study, 12)
_BY_LABEL = "fill in: the label"
_BY_LISTING = "fill in: the listing"
_BY_SHEET = "fill in: the data sheet"


class NotInTableError(PlansetError):
    """The open table has no row of the name asked for."""


def table_folder() -> Path:
    """Return the folder of the open table, without importing the library it comes with.

    Raises:
        MachineError: The library is not installed.
    """
    found = importlib.util.find_spec("pvlib")
    if found is None or not found.submodule_search_locations:
        msg = "the open table comes with pvlib, which is not installed; pip install planset[tables]"
        raise MachineError(msg)
    return Path(found.submodule_search_locations[0]) / "data"


def draft(kind: str, name: str, folder: Path) -> str:
    """Return the draft of a catalog entry as YAML.

    Args:
        kind: "modules" or "inverters".
        name: Name of the row; spaces, case and punctuation do not matter.
        folder: Folder of the table.

    Raises:
        NotInTableError: No row has the name; close ones are told.
        MachineError: The table is not there.
    """
    row = _row(folder / _FILES[kind], name)
    fields = _DRAFTS[kind](row)
    width = max(len(_assigned(field)) for field in fields) + 2
    lines = [f"{_assigned(field).ljust(width)}# {field[2]}" for field in fields]
    head = (
        f"# A draft from an open table that ends in 2019. Values marked {LIBRARY} are the table's:",
        "# hold them against the data sheet, and fill in what has no value from label and listing.",
    )
    return "\n".join((*head, *lines)) + "\n"


def _assigned(field: Field) -> str:
    name, value, _ = field
    return f"{name}:" if value is None else f"{name}: {value}"


def _row(table: Path, name: str) -> Row:
    if not table.is_file():
        msg = f"no table {table}; another release of pvlib may have it, as 0.16"
        raise MachineError(msg)
    with table.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))[_ROWS_OF_HEADINGS:]
    by_name = {_plain(row["Name"]): row for row in rows}
    if _plain(name) not in by_name:
        close = difflib.get_close_matches(_plain(name), by_name, n=5, cutoff=0.5)
        known = (
            "; close to it: " + ", ".join(by_name[one]["Name"] for one in close) if close else ""
        )
        msg = f"no row {name} in the open table{known}"
        raise NotInTableError(msg)
    return by_name[_plain(name)]


def _plain(name: str) -> str:
    return "".join(sign for sign in name.casefold() if sign.isalnum())


def _common(kind: str, row: Row) -> list[Field]:
    return [
        ("kind", kind, "of catalog entry"),
        ("maker", None, f"{_BY_LABEL}; the table has it within the name"),
        ("model", json.dumps(row["Name"], ensure_ascii=False), f"{LIBRARY}; as on the label"),
        (
            "document",
            f'"{LIBRARY}, open table"',
            "printed; the data sheet once it was held against",
        ),
    ]


def _module(row: Row) -> list[Field]:
    """The fields of a module; the coefficient of voltage is turned from V to % per degree."""
    sides = sorted(filter(None, (_number(row["Length"]), _number(row["Width"]))), reverse=True)
    long_edge, short_edge = sides if len(sides) == 2 else (None, None)  # noqa: PLR2004
    beta, voc = _number(row["beta_oc"]), _number(row["V_oc_ref"])
    percent = 100 * beta / voc if beta and voc else None
    if percent is not None and not _SILICON[0] <= percent <= _SILICON[1]:
        percent = None
    fields = [
        *_common("module", row),
        _of_table("width", long_edge, " m"),
        _of_table("height", short_edge, " m"),
        ("depth", None, _BY_SHEET),
        ("weight", None, _BY_SHEET),
        _of_table("power_w", _number(row["STC"])),
        _of_table("voc_v", voc),
        _of_table("isc_a", _number(row["I_sc_ref"])),
        _of_table("vmp_v", _number(row["V_mp_ref"])),
        _of_table("imp_a", _number(row["I_mp_ref"])),
        _of_table("voc_percent_per_c", percent),
        _of_table("power_percent_per_c", _number(row["gamma_r"])),
        ("series_fuse_a", None, f"{_BY_LABEL}, maximum series fuse"),
        ("max_system_v", None, f"{_BY_LABEL}, maximum system voltage"),
        ("fire_type", None, _BY_LABEL),
        ("listing", None, _BY_LABEL),
    ]
    if row["Bifacial"].strip() == "1":
        fields.append(("bifacial_isc_a", None, f"{_BY_LABEL}; circuits are sized by it"))
    return fields


def _inverter(row: Row) -> list[Field]:
    """The fields of an inverter; the table's Vdcmax limits its simulation and is not taken."""
    open_fields = {
        "ac_current_a": f"{_BY_LABEL}, continuous output current",
        "max_dc_v": f"{_BY_LISTING}, maximum dc voltage; the table's own limit is of a simulation",
        "start_v": _BY_SHEET,
        "inputs": _BY_SHEET,
        "max_input_isc_a": f"{_BY_SHEET}, greatest short-circuit current of one input",
        "backfeed_a": f"{_BY_SHEET}, current back into its inputs in a fault; 0 where it says so",
        "neutral": f"{_BY_SHEET}: true or false",
        "terminals_c": f"{_BY_LABEL}: 60, 75 or 90",
        "dc_disconnect": f"{_BY_SHEET}: integral or none",
        "ground_fault": f"{_BY_LISTING}: integral or none",
        "arc_fault": f"{_BY_LISTING}: integral or none",
        "listing": _BY_LABEL,
    }
    return [
        *_common("string_inverter", row),
        _of_table("ac_power_w", _number(row["Paco"])),
        _of_table("ac_voltage_v", _number(row["Vac"])),
        _of_table("mppt_low_v", _number(row["Mppt_low"])),
        _of_table("mppt_high_v", _number(row["Mppt_high"])),
        *((name, None, remark) for name, remark in open_fields.items()),
    ]


_DRAFTS: Mapping[str, Callable[[Row], list[Field]]] = {"modules": _module, "inverters": _inverter}


def _of_table(name: str, value: float | None, unit: str = "") -> Field:
    if value is None:
        return name, None, _BY_SHEET
    return name, f"{value:.6g}{unit}", LIBRARY


def _number(text: str) -> float | None:
    """Return a number of the table; None where it has none, or a zero in its place."""
    try:
        return float(text) or None
    except ValueError:
        return None
