"""Imports point one way: from a room to itself or to a lower one, and outside only where agreed."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import planset

PACKAGE = Path(planset.__path__[0])

ROOMS = (
    "__init__",
    "second_process",
    "units",
    "errors",
    "finding",
    "citation",
    "source",
    "codes",
    "catalog",
    "roof",
    "job",
    "drawing",
    "design",
    "rules",
    "sheets",
    "review",
    "formats",
    "output",
    "resources",
    "watch",
    "pipeline",
    "report",
    "jurisdiction_report",
    "catalog_report",
    "cli",
    "__main__",
)  # low to high

OUTSIDE = {
    "source": {"ruamel"},
    "codes": {"numpy"},
    "catalog": {"pydantic"},
    "roof": {"shapely"},
    "job": {"pydantic"},
    "drawing": {"shapely", "numpy"},
    "design": {"shapely", "numpy", "highspy"},
    "review": {"shapely", "numpy"},
    "formats": {"ezdxf", "reportlab", "pikepdf", "fontpkg_arimo"},
    "report": {"typer"},
    "jurisdiction_report": {"typer"},
    "catalog_report": {"typer"},
    "cli": {"typer"},
}


def imported(tree: ast.Module) -> Iterator[tuple[int, str]]:
    """Line and dotted name of every import, wherever it stands; "." for a relative one."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            if node.level:
                yield node.lineno, "."
            elif node.module == "planset":  # the names may be rooms
                yield from ((node.lineno, f"planset.{alias.name}") for alias in node.names)
            else:
                yield node.lineno, node.module or ""


def complaint(room: str, name: str) -> str:
    """What is wrong with a room importing a name, "" when nothing is."""
    top, _, rest = name.partition(".")
    if not top:
        return "relative import"
    if top == "planset":
        target = rest.partition(".")[0]
        target = target if target in ROOMS else "__init__"
        return "points up" if ROOMS.index(target) > ROOMS.index(room) else ""
    if top in sys.stdlib_module_names or top in OUTSIDE.get(room, ()):
        return ""
    return "outside package"


def offences(package: Path) -> list[str]:
    found = []
    for path in sorted(package.rglob("*.py")):
        place = path.relative_to(package)
        room = place.with_suffix("").parts[0]
        if room not in ROOMS:
            found.append(f"{place}: no such room")
            continue
        for line, name in imported(ast.parse(path.read_text(encoding="utf-8"))):
            if wrong := complaint(room, name):
                found.append(f"{place}:{line}: {name}: {wrong}")
    return found


def test_every_import_points_down() -> None:
    assert offences(PACKAGE) == []


def test_every_room_is_there() -> None:
    rooms = {path.stem for path in PACKAGE.iterdir() if path.suffix == ".py" or path.is_dir()}
    assert set(ROOMS) <= rooms


@pytest.mark.parametrize(
    ("file", "code", "offence"),
    [
        ("units.py", "import planset.cli", "planset.cli: points up"),
        ("units.py", "from planset.cli import main", "planset.cli: points up"),
        ("units.py", "from planset import cli", "planset.cli: points up"),
        ("drawing/text.py", "from planset.design import wind", "planset.design: points up"),
        (
            "rules/fire/ridge.py",
            "from planset.sheets.set import a",
            "planset.sheets.set: points up",
        ),
        ("job/load.py", "def f():\n    import planset.rules", "planset.rules: points up"),
        (
            "job/load.py",
            "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from planset.review import a",
            "planset.review: points up",
        ),
        ("job/load.py", "from . import roof", ".: relative import"),
        ("job/load.py", "from ..units import inches", ".: relative import"),
        ("sheets/cover.py", "import ezdxf", "ezdxf: outside package"),
        ("sheets/cover.py", "import reportlab.pdfgen.canvas", "canvas: outside package"),
        (
            "rules/run.py",
            "class A:\n    def f(self):\n        import numpy as np",
            "numpy: outside",
        ),
        ("pipeline.py", "from typer import echo", "typer: outside package"),
        ("helpers.py", "", "no such room"),
        ("helpers/more.py", "", "no such room"),
    ],
)
def test_an_offender_is_caught(file: str, code: str, offence: str, tmp_path: Path) -> None:
    path = tmp_path / file
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(code, encoding="utf-8")
    (found,) = offences(tmp_path)
    assert found.startswith(file)
    assert offence in found


@pytest.mark.parametrize(
    ("file", "code"),
    [
        ("cli.py", "from planset import __version__"),
        ("cli.py", "import typer\nfrom planset.units import a"),
        ("formats/dxf_write.py", "import math\nfrom ezdxf.enums import InsertUnits"),
        ("design/wind.py", "from planset.roof.solid import Roof\nimport numpy.linalg"),
        ("__init__.py", "import importlib.metadata"),
    ],
)
def test_a_good_import_is_let_pass(file: str, code: str, tmp_path: Path) -> None:
    path = tmp_path / file
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(code, encoding="utf-8")
    assert offences(tmp_path) == []
