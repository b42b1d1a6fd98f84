"""Drafts of entries from the open table that pvlib carries; the rows here are invented.

The table's columns and units are those of pvlib 0.16.1, as the heading lines of its files give
them.
"""

import importlib.util
from pathlib import Path

import pytest

from planset.catalog.inverter import Inverter
from planset.catalog.library import find
from planset.catalog.module import Module
from planset.catalog.open_table import NotInTableError, draft, table_folder
from planset.errors import JobErrors, MachineError

MODULES = """\
Name,Technology,Bifacial,STC,Length,Width,I_sc_ref,V_oc_ref,I_mp_ref,V_mp_ref,beta_oc,gamma_r
Units,,,W,m,m,A,V,A,V,V/K,%/K
[0],tech,bifacial,,,,isc,voc,imp,vmp,beta,gamma
Fen Light FL-300/60,Mono-c-Si,0,300.0,1.65,0.99,9.8,40.0,9.3,32.3,-0.12,-0.39
Fen Light FL-310B,Mono-c-Si,1,310.0,,,9.9,40.0,9.4,33.0,-0.34,-0.39
"""
INVERTERS = """\
Name,Vac,Pso,Paco,Pdco,Vdco,Vdcmax,Idcmax,Mppt_low,Mppt_high
Units,V,W,W,W,V,V,A,V,V
[0],vac,pso,paco,pdco,vdco,vdcmax,idcmax,low,high
Fen Light FI-5 [240V],240,30,5000,5200,380,480,14,100,480
"""
YEAR = "2019-03-05"


@pytest.fixture
def table(tmp_path: Path) -> Path:
    (tmp_path / f"sam-library-cec-modules-{YEAR}.csv").write_text(MODULES, "utf-8")
    (tmp_path / f"sam-library-cec-inverters-{YEAR}.csv").write_text(INVERTERS, "utf-8")
    return tmp_path


def lines(text: str) -> dict[str, str]:
    """Field to what stands behind it, of a draft."""
    pairs = (line.split(":", 1) for line in text.splitlines() if line[0] != "#")
    return {name: " ".join(rest.split()) for name, rest in pairs}


def test_a_module_takes_what_the_table_has(table: Path) -> None:
    made = lines(draft("modules", "fen light fl-300 60", table))
    assert made["model"].startswith('"Fen Light FL-300/60" #')
    assert made["width"] == "1.65 m # library 2019"
    assert made["height"] == "0.99 m # library 2019"
    assert made["voc_v"] == "40 # library 2019"
    # 100 (-0.12 V/K) / 40 V
    assert made["voc_percent_per_c"] == "-0.3 # library 2019"
    assert made["power_percent_per_c"] == "-0.39 # library 2019"


def test_what_the_table_has_not_is_left_open(table: Path) -> None:
    made = lines(draft("modules", "Fen Light FL-310B", table))
    wanting = {name for name, rest in made.items() if rest.startswith("#")}
    assert wanting == {
        "maker", "width", "height", "depth", "weight", "series_fuse_a", "max_system_v", "fire_type",
        "listing", "bifacial_isc_a", "voc_percent_per_c",
    }  # fmt: skip
    # -0.85 %/C is no coefficient of silicon


def test_the_limit_of_the_simulation_is_no_listed_maximum(table: Path) -> None:
    made = lines(draft("inverters", "Fen Light FI-5 240V", table))
    assert made["max_dc_v"].startswith("# fill in: the listing")
    assert made["ac_power_w"] == "5000 # library 2019"
    assert made["mppt_high_v"] == "480 # library 2019"
    assert "ac_current_a" in made


@pytest.mark.parametrize(
    ("kind", "model", "name"),
    [("modules", Module, "Fen Light FL-310B"), ("inverters", Inverter, "Fen Light FI-5 [240V]")],
)
def test_a_draft_is_refused_field_by_field_until_it_is_filled_in(
    table: Path, kind: str, model: type, name: str
) -> None:
    text = draft(kind, name, table)
    entry = table / "catalog" / kind / "draft.yaml"
    entry.parent.mkdir(parents=True)
    entry.write_text(text, "utf-8")
    with pytest.raises(JobErrors) as caught:
        find(model, "draft", table)
    told = {problem.field for problem in caught.value.problems}
    wanting = {field for field, rest in lines(text).items() if rest.startswith("#")}
    assert told == wanting


def test_a_name_not_in_the_table(table: Path) -> None:
    with pytest.raises(NotInTableError, match="close to it: Fen Light FL-310B"):
        draft("modules", "Fen Light FL-310", table)


def test_a_table_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(MachineError, match="no table"):
        draft("modules", "any", tmp_path)


def test_the_real_table_has_the_columns() -> None:
    if importlib.util.find_spec("pvlib") is None:
        pytest.skip("pvlib is not installed; pip install planset[tables]")
    for kind, wanted in (("modules", "voc_v"), ("inverters", "ac_power_w")):
        file = table_folder() / f"sam-library-cec-{kind}-{YEAR}.csv"
        name = file.read_text("utf-8").splitlines()[3].split(",")[0]
        assert lines(draft(kind, name, table_folder()))[wanted].endswith("# library 2019")


def test_without_the_library_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    with pytest.raises(MachineError, match=r"pip install planset\[tables\]"):
        table_folder()
