"""Modules and functions stay small enough to be read at a glance."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import planset

PACKAGE = Path(planset.__path__[0])
MODULE_LIMIT = 400
FUNCTION_LIMIT = 60

Documented = ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef


def lines_without_docstrings(node: ast.AST, first: int, last: int) -> int:
    """Lines from first to last, less those of every docstring within."""
    count = last - first + 1
    for inner in ast.walk(node):
        if isinstance(inner, Documented) and ast.get_docstring(inner) is not None:
            text = inner.body[0]
            count -= (text.end_lineno or text.lineno) - text.lineno + 1
    return count


def sizes(source: str) -> Iterator[tuple[str, int, int]]:
    """Name, size and limit of a module, named "", and of each of its functions."""
    tree = ast.parse(source)
    yield "", lines_without_docstrings(tree, 1, source.count("\n")), MODULE_LIMIT
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            first = min([node.lineno, *(mark.lineno for mark in node.decorator_list)])
            last = node.end_lineno or node.lineno
            yield node.name, lines_without_docstrings(node, first, last), FUNCTION_LIMIT


def too_long(source: str) -> list[str]:
    return [f"{name}: {size} lines" for name, size, limit in sizes(source) if size > limit]


MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_module(path: Path) -> None:
    assert too_long(path.read_text(encoding="utf-8")) == []


def function(lines: int, docstring: int = 0, head: str = "def f():") -> str:
    """A function of so many lines beside its docstring."""
    text = ['    """Line.', *["    Line."] * (docstring - 2), '    """'] if docstring else []
    above = head.count("\n") + 1
    return "\n".join([head, *text, *["    a = 1"] * (lines - above)]) + "\n"


@pytest.mark.parametrize(
    ("source", "found"),
    [
        (function(60), []),
        (function(61), ["f: 61 lines"]),
        (function(60, docstring=20), []),
        (function(61, docstring=20), ["f: 61 lines"]),
        (function(61, head="async def f():"), ["f: 61 lines"]),
        (function(61, head="@mark\n@mark\ndef f():"), ["f: 61 lines"]),
        ("class A:\n" + "".join(f"    {line}\n" for line in function(61).splitlines()),
         ["f: 61 lines"]),
        ("a = 1\n" * 400, []),
        ("a = 1\n" * 401, [": 401 lines"]),
        ('"""Line.\nLine.\n"""\n' + "a = 1\n" * 400, []),
        ('"""Line.\nLine.\n"""\n' + "a = 1\n" * 401, [": 401 lines"]),
        (function(50, docstring=30) * 8, []),
        (function(51, docstring=30) * 8, [": 408 lines"]),
        ('a = """\n' + "line\n" * 400 + '"""\n', [": 402 lines"]),
    ],
)  # fmt: skip
def test_what_is_too_long_is_caught(source: str, found: list[str]) -> None:
    assert too_long(source) == found
