"""What `planset jurisdiction` prints."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.library import PACKAGE_DATA, find, names
from planset.cli import main
from planset.jurisdiction_report import UNITS

NOWHERE = Path("nowhere")
Run = Callable[..., tuple[object, str, str]]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setenv("COLUMNS", "100")

    def command(*arguments: str | Path) -> tuple[object, str, str]:
        with pytest.raises(SystemExit) as ended:
            main([str(argument) for argument in ("jurisdiction", *arguments)])
        said = capsys.readouterr()
        return ended.value.code, said.out, said.err

    return command


def plain(text: str) -> str:
    return " ".join(text.split())


def test_all_are_listed(run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    code, out, _ = run()
    assert code == 0
    assert [line.split()[0] for line in out.splitlines()] == names(Jurisdiction, tmp_path)
    assert "verdemar      County of Verdemar: CRC 2022, CFC 2022\n" in out


@pytest.mark.parametrize("name", names(Jurisdiction, NOWHERE))
def test_every_value_is_told_with_source_date_and_model(name: str, run: Run) -> None:
    code, out, _ = run(name)
    assert code == 0
    assert max(map(len, out.splitlines())) <= 100
    told = plain(out)
    found = find(Jurisdiction, name, NOWHERE)
    groups = (found.codes, found.minimums, found.access, found.review, found.submission)
    for field, stated in [("size", found.sheet), *(row for group in groups for row in group)]:
        if stated is not None:
            assert f" {field.replace('_', ' ')}: " in told
            assert f"{stated.source}, {stated.date} modeled on: {stated.modeled_on}" in told


def test_what_is_changed_stands_beside_the_model_code(run: Run) -> None:
    told = plain(run("quarry-bend")[1])
    assert "ACCESS TO DWELLINGS, BY IRC 2015 ridge setback: 18 in (IRC 2015: 36 in)" in told
    told = plain(run("fort-calder")[1])
    assert "edge setback: 36 in (IRC 2018: no such rule)" in told
    assert "area limit sprinklered: 33 % (IRC 2018: 66 %)" in told
    assert "ratio base: plane (unless said: roof)" in told
    told = plain(run("sound-harbor")[1])
    assert "judged by: the fire code" in told
    assert "greatest array side: 150 ft (IFC 2018: no such rule)" in told
    assert "sprinklered yes, ratio 33 %, area 1000 sq ft, ridge setback 18 in" in told
    assert "eave slope 2:12" in plain(run("timber-gap")[1])


def test_where_nothing_is_changed_it_says_so(run: Run) -> None:
    told = plain(run("port-larkin")[1])
    assert "BY IRC 2021 Nothing is changed: the rules are those of the code as published." in told


def test_an_unknown_name_lists_the_known(run: Run) -> None:
    code, out, err = run("nowhere")
    assert (code, out) == (2, "")
    assert "no entry nowhere in jurisdictions; known: alder-falls, alta-rosa, cape-marisol," in err


def own_profile(folder: Path, edit: tuple[str, str] = ("", "")) -> None:
    text = (PACKAGE_DATA / "jurisdictions" / "port-larkin.yaml").read_text(encoding="utf-8")
    path = folder / "catalog" / "jurisdictions" / "my-town.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(text.replace("Port Larkin", "My Town").replace(*edit), encoding="utf-8")


def test_a_profile_beside_the_current_folder(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own_profile(tmp_path)
    monkeypatch.chdir(tmp_path)
    assert "my-town       Town of My Town: IRC 2021, IFC 2021\n" in run()[1]
    assert run("my-town")[1].startswith("Town of My Town, Building Safety Division\n")


def test_a_profile_beside_a_job(run: Run, tmp_path: Path) -> None:
    own_profile(tmp_path)
    job = tmp_path / "house.yaml"
    assert "Town of My Town" in run("--job", job)[1]
    assert run("my-town", "--job", job)[0] == 0
    assert run("my-town")[0] == 2


def test_an_edition_without_access_rules(run: Run, tmp_path: Path) -> None:
    own_profile(tmp_path, ("code: IRC, edition: 2021", "code: IRC, edition: 2009"))
    told = plain(run("my-town", "--job", tmp_path / "job.yaml")[1])
    assert "planset has no access rules of IRC 2009 yet." in told


def test_a_broken_profile_tells_its_line(run: Run, tmp_path: Path) -> None:
    own_profile(tmp_path, ("code: IRC,", "code: ABC,"))
    code, _, err = run("my-town", "--job", tmp_path / "job.yaml")
    assert code == 2
    assert "my-town.yaml:6: codes.residential.code: not an accepted value (got ABC); " in err


def numbers(annotation: Any, field: str = "") -> Iterator[str]:
    """Fields below a model that hold a plain number which is no whole one."""
    if annotation is float:
        yield field
    elif isinstance(annotation, type) and issubclass(annotation, BaseModel):
        for name, info in annotation.model_fields.items():
            yield from numbers(info.annotation, field if name == "value" else name)
    for part in get_args(annotation):
        yield from numbers(part, field)


def test_every_number_has_its_unit() -> None:
    inches = {
        "ridge_setback", "ridge_setback_high", "hip_valley_setback", "edge_setback",
        "greatest_array_side", "between_arrays", "width", "height", "height_above_roof",
        "anchor_spacing", "text_height",
    }  # fmt: skip
    assert set(numbers(Jurisdiction)) == inches | set(UNITS)
