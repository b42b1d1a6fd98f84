"""The data sheets of the examples say what the catalog says of the same products."""

import re
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from planset.source import read_yaml

ROOT = Path(__file__).parents[1]
SHEETS = ROOT / "examples" / "cross-gable" / "data-sheets"
CATALOG = ROOT / "planset" / "catalog" / "data"

# The words of a sheet, and the fields of the catalog that stand after them, in this order.
SAID = {
    "modules/tr-402": {
        "Rated power at standard test conditions": ("power_w",),
        "Open-circuit voltage Voc": ("voc_v",),
        "Short-circuit current Isc": ("isc_a",),
        "Voltage at rated power Vmp": ("vmp_v",),
        "Current at rated power Imp": ("imp_a",),
        "Temperature coefficient of Voc": ("voc_percent_per_c",),
        "Temperature coefficient of power": ("power_percent_per_c",),
        "Largest series fuse": ("series_fuse_a",),
        "Maximum system voltage": ("max_system_v",),
        "Size": ("width", "height", "depth"),
        "Weight": ("weight",),
        "Leads": ("leads.positive", "leads.negative"),
    },
    "converters/dl-450": {
        "Modules": ("modules", "max_module_w"),
        "Maximum input voltage": ("max_input_v",),
        "Maximum input short-circuit current": ("max_input_isc_a",),
        "Maximum output voltage": ("output_v",),
        "Continuous output current": ("output_a",),
        "Maximum voltage of a string": ("string_max_v",),
        "Converters in a string": ("fewest_per_string", "most_per_string"),
        "Maximum power of a string": ("max_string_w",),
        "Output after shutdown": ("safe_v",),
        "Leads of the output": ("leads.positive", "leads.negative"),
    },
    "inverters/dl-76": {
        "Rated AC power": ("ac_power_w",),
        "AC voltage, current": ("ac_voltage_v", "ac_current_a"),
        "Maximum DC voltage": ("max_dc_v",),
        "Fixed DC voltage": ("fixed_dc_v",),
        "Inputs": ("inputs",),
        "Maximum short-circuit current of an input": ("max_input_isc_a",),
        "Terminals": ("terminals_c",),
    },
    "mounting/bittern-post": {
        "Moment the rail takes (allowable stress)": ("rail.section.moment_lb_ft",),
        "Dead load with modules": ("dead_load_psf",),
    },
}


def _entry(product: str) -> Any:
    return read_yaml(CATALOG / f"{product}.yaml").data


def _numbers(words: str) -> list[float]:
    return [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?", words)]


def _field(entry: Any, path: str) -> float:
    for step in path.split("."):
        entry = entry[step]
    return entry if isinstance(entry, int | float) else _numbers(entry)[0]


@pytest.mark.parametrize("product", SAID)
def test_a_sheet_and_the_catalog_agree(product: str) -> None:
    entry = _entry(product)
    text = PdfReader(SHEETS / f"{Path(product).name}.pdf").pages[0].extract_text()
    lines = [line.strip() for line in text.splitlines()]
    for words, fields in SAID[product].items():
        after = lines[lines.index(words) + 1]
        assert _numbers(after) == [_field(entry, path) for path in fields], words


def test_every_sheet_is_compared() -> None:
    assert {f"{Path(product).name}.pdf" for product in SAID} == {f.name for f in SHEETS.iterdir()}


def test_the_fewest_converters_of_a_string_reach_the_voltage_of_the_inverter() -> None:
    converter = _entry("converters/dl-450")
    inverter = _entry("inverters/dl-76")
    fewest = converter["fewest_per_string"]
    assert fewest * converter["output_v"] >= inverter["fixed_dc_v"]  # 6 x 70 V = 420 V
    assert (fewest - 1) * converter["output_v"] < inverter["fixed_dc_v"]
