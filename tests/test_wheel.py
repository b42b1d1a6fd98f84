"""The installed program draws on its own: symbols and title blocks come out of the wheel."""

from __future__ import annotations

import os
import shutil
import subprocess
import venv
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from zipfile import ZipFile

import pytest

from tests.example_job import EXAMPLE

ROOT = Path(__file__).parents[1]


def told_by(command: Sequence[str | Path], folder: Path) -> str:
    """What a command says when run in a folder, with nothing that leads back to the checkout."""
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    ended = subprocess.run(
        command,
        cwd=folder,
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    assert ended.returncode == 0, ended.stdout
    return ended.stdout


@dataclass(frozen=True)
class Installed:
    """A fresh environment that has planset and what it needs, and a folder to work in."""

    wheel: Path
    binaries: Path
    folder: Path

    def run(self, name: str, *arguments: str | Path) -> str:
        return told_by([self.binaries / name, *arguments], self.folder)


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Installed:
    folder = tmp_path_factory.mktemp("elsewhere")
    environment = folder / "environment"
    venv.create(environment, with_pip=True)
    binaries = environment / ("Scripts" if os.name == "nt" else "bin")
    pip: list[str | Path] = [binaries / "pip", "--disable-pip-version-check", "--no-input"]
    told_by([*pip, "wheel", "--no-deps", "--wheel-dir", folder, ROOT], folder)
    (wheel,) = folder.glob("*.whl")
    told_by([*pip, "install", "--no-compile", wheel], folder)  # Python compiles what is used
    shutil.copy(EXAMPLE, folder / "house.yaml")
    return Installed(wheel, binaries, folder)


def test_the_drawings_are_inside(installed: Installed) -> None:
    with ZipFile(installed.wheel) as wheel:
        names = set(wheel.namelist())
    for kind in ("symbols", "titleblocks"):
        expected = {f"planset/_{kind}/{path.name}" for path in (ROOT / kind).glob("*.dxf")}
        assert expected
        assert expected <= names
    assert {name.partition("/")[0].partition("-")[0] for name in names} == {"planset"}


def test_it_draws_with_what_came_along(installed: Installed) -> None:
    code = (
        "from planset.resources import drawings_folder as f\n"
        "print(f('symbols'), f('titleblocks'), sep='\\n')"
    )
    for place in installed.run("python", "-c", code).splitlines():
        assert Path(place).is_relative_to(installed.folder / "environment")
        assert Path(place).is_dir()
    installed.run("planset", "new", "begun")
    assert "Written" in installed.run("planset", "draw", "begun/job.yaml", "-o", "begun/out")
    told = installed.run("planset", "draw", "house.yaml", "-o", "out")
    for name in ("planset.pdf", "planset.dxf", "materials.csv", "checks.json", "manifest.json"):
        assert (installed.folder / "out" / name).stat().st_size > 0
        assert f"  {Path('out') / name}\n" in told
