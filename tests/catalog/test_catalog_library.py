"""Finding and reading catalog entries."""

from pathlib import Path

import pytest

from planset.catalog.fields import StrictModel
from planset.catalog.inverter import Inverter
from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.library import FOLDERS, PACKAGE_DATA, UnknownEntryError, find, names
from planset.catalog.module import Module
from planset.catalog.mounting import MountingSystem
from planset.errors import JobErrors
from planset.units import parse_weight_lb

PACKAGED = [(kind, name) for kind in FOLDERS for name in names(kind, Path("nowhere"))]


def own_entry(folder: Path, kind: type[StrictModel], name: str, *edits: tuple[str, str]) -> Path:
    """Copy a packaged entry into a firm's own catalog, edited."""
    text = (PACKAGE_DATA / FOLDERS[kind] / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in edits:
        assert text.count(old) == 1
        text = text.replace(old, new)
    path = folder / "catalog" / FOLDERS[kind] / f"{name}.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    return path


def problems(
    folder: Path, kind: type[StrictModel], name: str, *edits: tuple[str, str]
) -> list[str]:
    path = own_entry(folder, kind, name, *edits)
    with pytest.raises(JobErrors) as caught:
        find(kind, name, folder)
    return [str(problem).removeprefix(f"{path.parent}/") for problem in caught.value.problems]


def test_every_folder_of_the_package_data_has_a_kind() -> None:
    assert {path.name for path in PACKAGE_DATA.iterdir()} == set(FOLDERS.values())
    assert len(PACKAGED) >= len(FOLDERS)


@pytest.mark.parametrize(("kind", "name"), PACKAGED)
def test_packaged_entries_are_valid(kind: type[StrictModel], name: str) -> None:
    assert isinstance(find(kind, name, Path("nowhere")), kind)


def test_values_of_a_module() -> None:
    module = find(Module, "tr-402", Path("nowhere"))
    assert (module.width, module.height, module.depth) == (67.8, 44.6, 1.4)
    assert module.voc_percent_per_c == -0.27


def test_values_of_a_jurisdiction() -> None:
    jurisdiction = find(Jurisdiction, "port-larkin", Path("nowhere"))
    assert jurisdiction.minimums.wind_speed.value == 110
    assert jurisdiction.access.pathway_on_overhang.value is False
    assert jurisdiction.access.pathway_on_overhang.source == "Fire bulletin 7"
    assert jurisdiction.sheet.size == "11x17"


def test_a_firms_own_entry_stands_before_the_packaged_one(tmp_path: Path) -> None:
    own_entry(tmp_path, Inverter, "oe-76", ("inputs: 2", "inputs: 3"))
    assert find(Inverter, "oe-76", tmp_path).inputs == 3
    assert find(Inverter, "oe-76", Path("nowhere")).inputs == 2


def test_names_are_those_of_both_folders(tmp_path: Path) -> None:
    own_entry(tmp_path, Inverter, "oe-76").rename(tmp_path / "catalog/inverters/aa-1.yaml")
    assert names(Inverter, tmp_path)[0] == "aa-1"
    assert set(names(Inverter, tmp_path)) == {"aa-1", *names(Inverter, Path("nowhere"))}


@pytest.mark.parametrize(
    "name", ["tr-999", "../modules/tr-402", "./tr-402", "tr-402.yaml", "TR-402", "", "*", "a\0b"]
)
def test_only_known_names_are_found(name: str) -> None:
    with pytest.raises(UnknownEntryError, match="known: .*tr-402"):
        find(Module, name, Path("nowhere"))


def test_an_absolute_path_is_not_a_name() -> None:
    with pytest.raises(UnknownEntryError):
        find(Module, str(PACKAGE_DATA / "modules" / "tr-402"), Path("nowhere"))


def test_capacity_without_document_and_page_is_left_to_a_rule(tmp_path: Path) -> None:
    own_entry(
        tmp_path,
        MountingSystem,
        "heron-tile",
        (
            "  uplift:\n    capacity: 540 lb\n    basis: ASD\n"
            "    document: Heron capacity letter BW-E-014\n    page: 3\n",
            "  uplift: {capacity: 540 lb, basis: ASD}\n",
        ),
    )
    uplift = find(MountingSystem, "heron-tile", tmp_path).attachment.uplift
    assert (uplift.capacity, uplift.document, uplift.page) == (540, None, None)


def test_weights_and_forces_may_be_metric(tmp_path: Path) -> None:
    own_entry(tmp_path, Module, "tr-402", ("weight: 48.5 lb", "weight: 22 kg"))
    assert find(Module, "tr-402", tmp_path).weight == parse_weight_lb("22 kg")


@pytest.mark.parametrize(
    ("kind", "name", "edit", "problem"),
    [
        (Module, "tr-402", ("kind: module", "kind: string_inverter"),
         "tr-402.yaml:2: kind: not a kind of the folder modules (got string_inverter); "
         "write module if it is one, or move the file to the folder of its kind"),
        (Module, "tr-402", ("voc_percent_per_c: -0.27", "voc_percent_per_c: 0.27"),
         "tr-402.yaml:15: voc_percent_per_c: outside -1 to -0.01 % per C (got 0.27); "
         "check the value, its sign and its unit"),
        (Module, "tr-402", ("width: 67.8 in", "width: 1722"),
         "tr-402.yaml:6: width: outside 6 to 120 in (got 1722); check the value and its unit"),
        (Module, "tr-402", ("height: 44.6 in", "height: 113.4 mm"),
         "tr-402.yaml:7: height: outside 6 to 120 in (got 113.4 mm); "
         "check the value and its unit"),
        (Module, "tr-402", ("depth: 1.4 in", "depth: 35"),
         "tr-402.yaml:8: depth: outside 0.1 to 4 in (got 35); check the value and its unit"),
        (Module, "tr-402", ("width: 67.8 in", "width: 40 in"),
         "tr-402.yaml:2: width is the long edge, yet height is longer; exchange width and height"),
        (Module, "tr-402", ("vmp_v: 31.1", "vmp_v: 38"),
         "tr-402.yaml:2: vmp_v and imp_a must lie below voc_v and isc_a; "
         "check them on the data sheet"),
        (Module, "tr-402", ("power_w: 402", "power_w: 0"),
         "tr-402.yaml:10: power_w: not more than 0 (got 0); check the value and its sign"),
        (Module, "tr-402", ("weight: 48.5 lb", "weight: 48.5"),
         "tr-402.yaml:9: weight: not a weight with its unit (got 48.5); "
         "write it as 48.5 lb or 22 kg"),
        (Inverter, "oe-76", ("mppt_low_v: 120", "mppt_low_v: 520"),
         "oe-76.yaml:2: mppt_low_v, mppt_high_v and max_dc_v must rise in this order; "
         "check them on the data sheet"),
        (Inverter, "oe-76", ("inputs: 2", "inputs: 2.0"),
         "oe-76.yaml:14: inputs: not a whole number (got 2.0); "
         "write a whole number, without quotes or unit"),
        (MountingSystem, "heron-tile", ("diameter: 5/16 in", "diameter: 0.3 in"),
         "heron-tile.yaml:57: attachment.lags.diameter: not a lag screw diameter (got 0.3 in); "
         "expected one of 0.25, 0.3125, 0.375, 0.4375, 0.5 in"),
        (MountingSystem, "heron-tile", ("suits: [curved_tile]", "suits: [grass]"),
         "heron-tile.yaml:43: attachment.suits.1: not an accepted value (got grass); "
         "write one of: curved_tile, flat_tile, asphalt_shingle, standing_seam, membrane"),
        (MountingSystem, "heron-tile", ("  uplift:\n    capacity: 540 lb\n    basis: ASD\n",
                                        "  uplift:\n    capacity: 540 lb\n"),
         "heron-tile.yaml:61: attachment.uplift.basis: missing; "
         "add `basis:` with one of: ASD, LRFD"),
        (MountingSystem, "heron-tile", ("    moment_lb_ft: 520\n", ""),
         "heron-tile.yaml:15: rail.section.moment_lb_ft: missing; "
         "add `moment_lb_ft:` with its value"),
        (MountingSystem, "heron-tile", ("modulus_psi: 10.1e6", "modulus_psi: 10.1"),
         "heron-tile.yaml:17: rail.section.modulus_psi: outside 1e+06 to 3e+07 psi (got 10.1); "
         "check the value and its unit"),
        (MountingSystem, "heron-tile", ("inertia_in4: 0.46", "inertia_in4: 0"),
         "heron-tile.yaml:16: rail.section.inertia_in4: not more than 0 in4 (got 0); "
         "check the value and its sign"),
        (MountingSystem, "heron-tile", ("moment_lb_ft: 520\n    basis: ASD",
                                        "moment_lb_ft: 520\n    basis: ultimate"),
         "heron-tile.yaml:19: rail.section.basis: not an accepted value (got ultimate); "
         "write one of: ASD, LRFD"),
        (MountingSystem, "heron-tile", ("cantilever_share: 0.33", "cantilever_share: 33"),
         "heron-tile.yaml:23: rail.cantilever_share: outside 0 to 1 (got 33); check the value"),
        (MountingSystem, "heron-tile", ("deflection_ratio: 180", "deflection_ratio: 0.00556"),
         "heron-tile.yaml:22: rail.deflection_ratio: outside 60 to 1000 (got 0.00556); "
         "check the value"),
        (MountingSystem, "heron-tile", ("loads_edition: 2016", "loads_edition: 7-16"),
         "heron-tile.yaml:25: rail.span_table.loads_edition: not a whole number (got 7-16); "
         "write a whole number, without quotes or unit"),
        (MountingSystem, "heron-tile", ('issued: "2026-03-02"', 'issued: "2026-13-02"'),
         "heron-tile.yaml:29: rail.span_table.issued: not a date (got 2026-13-02); "
         'write year, month and day in quotes, as "2026-11-25"'),
        (MountingSystem, "heron-tile", (", span: 60 in, cantilever: 20 in", ", cantilever: 20 in"),
         "heron-tile.yaml:31: rail.span_table.rows.1.span: missing; add `span:` with its value"),
        (MountingSystem, "heron-tile", ("plate_steel: a36", "plate_steel: A36"),
         "heron-tile.yaml:47: attachment.plate_steel: not an accepted value (got A36); "
         "write one of: a36, a653-grade-33"),
        (Jurisdiction, "port-larkin", ("value: 110 mph, source: Town code 15.04.040, ",
                                       "value: 110 mph, "),
         "port-larkin.yaml:14: minimums.wind_speed.source: missing; "
         "add `source:` with its value"),
        (Jurisdiction, "port-larkin", ('03-12", modeled_on: "Home', '02-30", modeled_on: "Home'),
         "port-larkin.yaml:18: access.pathway_on_overhang.date: not a date (got 2024-02-30); "
         'write year, month and day in quotes, as "2026-11-25"'),
        (Jurisdiction, "port-larkin", ("{value: 60", "{value: 60, x: 1"),
         "port-larkin.yaml:19: access.street_angle.x: unknown field; "
         "remove it, or use one of: source, date, modeled_on, value"),
        (Jurisdiction, "port-larkin", ("size: 11x17", "size: A3"),
         "port-larkin.yaml:20: sheet.size: not an accepted value (got A3); "
         "write one of: 11x17, 12x18, 18x24, 22x34, 24x36"),
    ],
)  # fmt: skip
def test_what_is_refused(
    tmp_path: Path, kind: type[StrictModel], name: str, edit: tuple[str, str], problem: str
) -> None:
    assert problems(tmp_path, kind, name, edit) == [problem]


def test_all_problems_of_an_entry_are_told_together(tmp_path: Path) -> None:
    found = problems(
        tmp_path, Module, "tr-402", ("depth: 1.4 in", "depth: thin"), ("isc_a: 13.52", "isc_a: -1")
    )
    assert [line.split(":")[1] for line in found] == ["8", "12"]


def test_a_rail_and_its_span_table() -> None:
    rail = find(MountingSystem, "heron-tile", Path("nowhere")).rail
    assert (rail.section.inertia_in4, rail.section.modulus_psi) == (0.46, 10.1e6)
    assert (rail.section.moment_lb_ft, rail.section.basis, rail.section.page) == (520, "ASD", 5)
    assert (rail.deflection_ratio, rail.cantilever_share) == (180, 0.33)
    assert rail.span_table is not None
    assert rail.span_table.edition_name == "ASCE 7-16"
    first = rail.span_table.rows[0]
    assert (first.zone, first.exposure, first.wind_speed) == ("1", "B", 120)
    assert (first.roof_height, first.span, first.cantilever) == (360, 60, 20)


def test_a_rail_without_a_span_table_is_a_beam_alone(tmp_path: Path) -> None:
    path = PACKAGE_DATA / "mounting" / "heron-tile.yaml"
    text = path.read_text(encoding="utf-8")
    table = text[text.index("  span_table:") : text.index("attachment:")]
    own_entry(tmp_path, MountingSystem, "heron-tile", (table, ""))
    assert find(MountingSystem, "heron-tile", tmp_path).rail.span_table is None


def test_three_directions_of_a_hook_are_documented_apart() -> None:
    hook = find(MountingSystem, "heron-tile", Path("nowhere")).attachment
    stated = (hook.uplift, hook.downward, hook.along_slope)
    assert [(one.capacity, one.basis, one.page) for one in stated] == [
        (540, "ASD", 3), (610, "ASD", 3), (330, "ASD", 4),
    ]  # fmt: skip


def test_a_screening_list_is_one_that_is_published(tmp_path: Path) -> None:
    line = 'review:\n  screening: {value: ours, source: Memo 4, date: "2024-01-01"}\nsheet:'
    (told,) = problems(tmp_path, Jurisdiction, "port-larkin", ("sheet:", line))
    assert "review.screening.value: not " in told
    assert "california, oregon, simplified" in told


def test_no_least_pressure_may_be_stated(tmp_path: Path) -> None:
    line = '  panel_pressure: {value: 0 psf, source: Memo 3, date: "2024-01-01"}\naccess:\n'
    own_entry(tmp_path, Jurisdiction, "port-larkin", ("access:\n", line))
    least = find(Jurisdiction, "port-larkin", tmp_path).minimums.panel_pressure
    assert least is not None
    assert least.value == 0
