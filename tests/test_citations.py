"""Every published value in planset/codes names its source: document, edition, clause."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import planset.codes

CODES = Path(planset.codes.__path__[0])
MODULES = sorted(path for path in CODES.rglob("*.py") if not path.name.startswith("_"))
TABLES = sorted(CODES.rglob("*.csv"))

EDITION = r"(?:7-\d\d|(?:19|20)\d\d)"
CLAUSE = r"(?:(?:Table|Figure|Equation|Section)s? [A-Z]?\d|\b[A-Z]?\d+\.\d+)"
CITATION = re.compile(rf"Source: [A-Z]\S*(?: \S+)*? {EDITION}(?:,| and) .*{CLAUSE}.*\.")


def cites(text: str) -> bool:
    """Tell whether a paragraph of the text is a full citation."""
    return any(
        CITATION.fullmatch(" ".join(paragraph.split()))
        for paragraph in re.split(r"\n\s*\n", text)
        if paragraph.strip().startswith("Source: ")
    )


def text_of(statement: ast.stmt | None) -> str:
    """The string a constant is documented with: the statement that follows it."""
    match statement:
        case ast.Expr(value=ast.Constant(value=str(text))):
            return text
        case _:
            return ""


def public_statements(module: ast.Module) -> Iterator[tuple[str, str]]:
    """Name and documentation of each public function, class and constant of a module."""
    for statement, following in zip(module.body, [*module.body[1:], None], strict=True):
        match statement:
            case ast.FunctionDef(name=name) | ast.ClassDef(name=name):
                text = ast.get_docstring(statement) or ""
            case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)):
                text = text_of(following)
            case _:
                continue
        if not name.startswith("_"):
            yield name, text


def uncited(source: str) -> list[str]:
    return [name for name, text in public_statements(ast.parse(source)) if not cites(text)]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(CODES)))
def test_every_public_statement_cites(path: Path) -> None:
    assert uncited(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("path", TABLES, ids=lambda path: str(path.relative_to(CODES)))
def test_every_table_cites_in_its_first_line(path: Path) -> None:
    first = path.read_text(encoding="utf-8").splitlines()[0]
    assert first.startswith("# ")
    assert cites(first.removeprefix("# "))


def test_the_check_reads_real_statements() -> None:
    wind = (CODES / "asce7_16" / "wind.py").read_text(encoding="utf-8")
    names = {name for name, _ in public_statements(ast.parse(wind))}
    assert {"TERRAIN", "exposure_coefficient", "velocity_pressure_psf"} <= names
    assert len(MODULES) >= 11
    assert len(TABLES) >= 8


@pytest.mark.parametrize(
    "source",
    [
        "def f(): pass",
        'def f():\n    """Text without a source."""',
        'def f():\n    """Text.\n\n    Source: common practice.\n    """',
        'def f():\n    """Text.\n\n    Source: ASCE 7, Table 26.6-1.\n    """',  # no edition
        'def f():\n    """Text.\n\n    Source: NEC 2020.\n    """',  # no clause
        'def f():\n    """Text.\n\n    Source: NEC 2020, the voltage rule.\n    """',
        'def f():\n    """Text.\n\n    Source: NEC 2020, 690.7\n    """',  # no full stop
        'def f():\n    """Text. Source: NEC 2020, 690.7."""',  # not a line of its own
        'class f:\n    """Numbers of a rule."""',
        "f = 0.85",
        "f: float = 0.85",
        'f = 0.85\n"""A factor."""',
    ],
)
def test_a_statement_without_a_full_citation_is_found(source: str) -> None:
    assert uncited(source) == ["f"]


@pytest.mark.parametrize(
    "source",
    [
        'def f():\n    """Text.\n\n    Source: ASCE 7-16, Equation 26.10-1.\n    """',
        'def f():\n    """Text.\n\n    Source: IRC 2021, R324.6.2.\n    """',
        'def f():\n    """Text.\n\n    Source: NEC 2017 and 2020,\n    Table 690.7(A).\n    """',
        'f = 0.85\n"""A factor.\n\nSource: NDS 2018, Table 2.3.2 [from memory].\n"""',
        "_f = 0.85",
        "def _f(): pass",
        "import math",
    ],
)
def test_a_full_citation_is_accepted(source: str) -> None:
    assert uncited(source) == []
