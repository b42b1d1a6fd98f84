"""The mounting systems of the catalog, and one that a firm writes itself."""

from pathlib import Path

import pytest

from planset.catalog.library import PACKAGE_DATA, find, names
from planset.catalog.mounting import MountingSystem
from planset.design.design import build_design
from planset.job.load import read_job
from planset.source import read_yaml

NOWHERE = Path("nowhere")
EXAMPLE = Path(__file__).parents[2] / "examples" / "tile-gable" / "job.yaml"
SYSTEMS = {name: find(MountingSystem, name, NOWHERE) for name in names(MountingSystem, NOWHERE)}
OPTIONS = {
    "clamps": lambda system: system.clamps,
    "feet": lambda system: system.foot,
    "a foot on a splice": lambda system: system.foot and system.foot.splice_piece,
    "couplings": lambda system: system.coupling,
    "trim": lambda system: system.trim,
    "splices": lambda system: system.rail.splice,
    "splices over attachments": lambda system: (
        system.rail.splice and system.rail.splice.on_attachment
    ),
    "expansion gaps": lambda system: system.rail.splice and system.rail.splice.expansion_after,
    "a span table": lambda system: system.rail.span_table,
    "modules of its listing": lambda system: system.modules and system.modules.listed,
    "frames by depth": lambda system: system.modules,
    "a bonding limit": lambda system: system.bonding.most_modules,
    "splices that bond": lambda system: system.bonding.splices_bond,
    "a fire class": lambda system: system.fire,
    "a seat that moves": lambda system: system.attachment.adjustment,
    "rails up the slope": lambda system: not system.across,
}


def test_every_kind_of_attachment_has_a_system() -> None:
    kinds = {system.attachment.kind for system in SYSTEMS.values()}
    assert kinds == {"hook", "standoff", "flashed_foot", "seam_clamp"}
    assert len(SYSTEMS) >= 4


@pytest.mark.parametrize("option", OPTIONS)
def test_some_systems_have_an_option_and_some_do_not(option: str) -> None:
    has = {bool(OPTIONS[option](system)) for system in SYSTEMS.values()}
    assert has == {True, False}


def test_no_two_systems_have_the_same_options() -> None:
    sets = [tuple(bool(has(system)) for has in OPTIONS.values()) for system in SYSTEMS.values()]
    assert len(set(sets)) == len(sets)


def test_a_system_of_the_firm_needs_a_file_alone(tmp_path: Path) -> None:
    own = tmp_path / "catalog" / "mounting" / "own-hook.yaml"
    own.parent.mkdir(parents=True)
    packaged = (PACKAGE_DATA / "mounting" / "heron-tile.yaml").read_text(encoding="utf-8")
    start, end = packaged.index("trim:\n"), packaged.index("bonding:\n")
    text = packaged[:start] + packaged[end:]
    own.write_text(text.replace("Heron tile rail", "Own rail"), encoding="utf-8")
    job = tmp_path / "job.yaml"
    stated = EXAMPLE.read_text(encoding="utf-8").replace("heron-tile", "own-hook")
    job.write_text(stated, encoding="utf-8")
    (mount,) = build_design(read_job(job)).mounts
    assert mount.array.system.model == "Own rail"
    assert mount.array.system.trim is None
    assert len(mount.racking.attachments) == 75


def test_outer_feet_keep_off_the_rail_end() -> None:
    stated = read_yaml(PACKAGE_DATA / "mounting" / "heron-tile.yaml").data
    stated["foot"]["from_rail_end"] = "1-1/4 in"  # rails run 1 in past the modules
    with pytest.raises(ValueError, match="foot.from_rail_end is more than rail.past_module"):
        MountingSystem.model_validate(stated)


@pytest.mark.parametrize(
    ("name", "plate", "lags"),
    [
        # the arm reaches 5-1/2 in from a plate of 6 in, whose screws are 3-1/2 in apart
        ("heron-tile", 8.5, (6.75, 10.25)),
        ("bittern-post", 0.0, (-1.75, 1.75)),
        ("plover-shingle", 0.0, (-1.75, 1.75)),
    ],
)
def test_where_plate_and_screws_are_from_the_mark(
    name: str, plate: float, lags: tuple[float, ...]
) -> None:
    attachment = SYSTEMS[name].attachment
    assert attachment.plate_up == pytest.approx(plate)
    assert attachment.lags_up == pytest.approx(lags)
