"""What `planset catalog` prints."""

from pathlib import Path

import pytest

from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.library import FOLDERS, PACKAGE_DATA
from planset.catalog_report import RATINGS
from planset.cli import main


@pytest.fixture(autouse=True)
def no_color(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")


def run(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int | str | None, str, str]:
    with pytest.raises(SystemExit) as ended:
        main(["catalog", *map(str, words)])
    said = capsys.readouterr()
    return ended.value.code, said.out, said.err


def own_entry(folder: Path, name: str, text: str) -> Path:
    path = folder / "catalog" / f"{name}.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(text, "utf-8")
    return folder / "job.yaml"


def test_every_kind_of_equipment_has_ratings() -> None:
    assert {*RATINGS} == {*FOLDERS} - {Jurisdiction}


def test_everything_is_listed_by_kind(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys)
    assert code == 0
    for kind in RATINGS:
        assert f"{FOLDERS[kind]}\n" in out
        for path in (PACKAGE_DATA / FOLDERS[kind]).glob("*.yaml"):
            assert f"\n  {path.stem} " in out


def test_one_kind(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "inverters")
    assert "oe-76   Orrery Works OE-7.6     7600 W, 240 V, 31.67 A, 2 inputs to 600 V dc\n" in out
    assert "hk-58   Hearthkeep HK-5.8       5800 W" in out
    assert "battery, backup" in out
    assert "tr-402" not in out


@pytest.mark.parametrize("what", ["oe-76", "inverters/oe-76"])
def test_one_entry_whole(capsys: pytest.CaptureFixture[str], what: str) -> None:
    _, out, _ = run(capsys, what)
    path = PACKAGE_DATA / "inverters" / "oe-76.yaml"
    assert out == f"{path}\n{path.read_text('utf-8')}"


def test_what_is_not_there(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys, "modules/oe-76")
    assert (code, err) == (
        2,
        "no kind and no entry is called modules/oe-76; `planset catalog` lists them\n",
    )


def test_own_entries_are_listed_and_drafts_said_to_be_none(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    text = (PACKAGE_DATA / "modules" / "tr-402.yaml").read_text("utf-8")
    job = own_entry(tmp_path, "modules/ours", text.replace("TR-402\n", "OURS\n"))
    (tmp_path / "catalog" / "modules" / "draft.yaml").write_text("kind: module\nmodel: D\n")
    _, out, _ = run(capsys, "modules", "--job", job)
    assert "ours    Tarn and Rowe OURS (own)  402 W" in out
    assert "draft   -                         cannot be used yet: " in out
    code, _, err = run(capsys, "draft", "--job", job)
    assert code == 2
    assert "maker: missing" in err


def test_a_name_of_two_kinds(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    text = (PACKAGE_DATA / "shutdown" / "rs-1.yaml").read_text("utf-8")
    job = own_entry(tmp_path, "shutdown/oe-76", text)
    code, _, err = run(capsys, "oe-76", "--job", job)
    assert code == 2
    assert "write one of: inverters/oe-76, shutdown/oe-76" in err


def test_a_draft_is_written_and_none_is_overwritten(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from planset.catalog import open_table  # noqa: PLC0415 - only here

    monkeypatch.setattr(open_table, "table_folder", lambda: tmp_path)
    monkeypatch.setattr(open_table, "draft", lambda kind, name, folder: f"# {kind} {name}\n")
    out = tmp_path / "fi-5.yaml"
    assert run(capsys, "import-inverter", "FI-5", "-o", out)[0] == 0
    assert out.read_text("utf-8") == "# inverters FI-5\n"
    code, _, err = run(capsys, "import-module", "FL", "-o", out)
    assert (code, err) == (3, f"{out} is there already; name another file\n")
