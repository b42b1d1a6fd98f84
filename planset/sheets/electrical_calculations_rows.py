"""Lines of electrical calculations: formula, numbers, result, limit, clause, outcome."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial

from planset.codes.nec import clauses
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Column, Table
from planset.finding import Finding, worst
from planset.sheets.findings_table import result_word
from planset.sheets.note_table import note_table

NONE = "-"
_CLAUSE = "CLAUSE"
_COLUMNS = (
    ("VALUE", 0.155, "left"),
    ("FORMULA", 0.19, "left"),
    ("NUMBERS", 0.275, "left"),
    ("RESULT", 0.095, "left"),
    ("LIMIT", 0.095, "left"),
    (_CLAUSE, 0.12, "left"),
    ("OUTCOME", 0.07, "center"),
)


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a calculation, in words as printed.

    Attributes:
        value: What is computed.
        formula: Formula in symbols.
        numbers: The formula with its numbers.
        result: Result with its unit.
        limit: What it is held against, "" for nothing.
        clause: Clause of the edition in force, or another document.
        outcome: What the rule found that compares the two, "" for none.
    """

    value: str
    formula: str
    numbers: str
    result: str
    limit: str = ""
    clause: str = ""
    outcome: str = ""

    @property
    def cells(self) -> tuple[str, ...]:
        """Its cells; what is empty is a dash."""
        listed = (
            *(self.value, self.formula, self.numbers, self.result),
            *(self.limit, self.clause, self.outcome),
        )
        return tuple(words or NONE for words in listed)


@dataclass(frozen=True, slots=True)
class Block:
    """Lines under a heading of their own; one without lines is left out."""

    title: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Code:
    """Clauses of the edition in force, and what the rules found.

    Attributes:
        edition: Year of the NEC.
        findings: What the rules found.
    """

    edition: int
    findings: tuple[Finding, ...]

    def cite(self, topic: str) -> str:
        """The clause of a topic, or that the edition has none that is known here."""
        if self.edition not in clauses.editions(topic):
            return "NONE KNOWN"
        return clauses.clause(topic, self.edition)

    def found(
        self, rule: str, pair: tuple[float, float] | None = None, objects: Iterable[str] = ()
    ) -> str:
        """The gravest outcome of a rule for a pair of numbers, or for objects; "" without one.

        Args:
            rule: Id of the rule without its subject.
            pair: Value and limit as they are compared; None for a rule without numbers.
            objects: Ids of all design objects concerned; none where the numbers alone tell.
        """
        named = set(objects)
        fitting = [
            finding
            for finding in self.findings
            if finding.rule == f"electrical.{rule}"
            and named <= set(finding.objects)
            and (pair is None or _same(finding, pair))
        ]
        return result_word(worst(fitting)) if fitting else ""


def _same(finding: Finding, pair: tuple[float, float]) -> bool:
    if finding.measured is None or finding.limit is None:
        return False
    return math.isclose(finding.measured, pair[0]) and math.isclose(finding.limit, pair[1])


def tables(blocks: Iterable[Block], document: str) -> list[TableAt]:
    """A table for each block, its columns those of all others.

    Args:
        blocks: The blocks.
        document: The code and edition that the clauses are of.
    """
    return [partial(_table, block, document) for block in blocks if block.lines]


def _table(block: Block, document: str, at: Point, width: float) -> Table:
    columns = tuple(
        Column(document if title == _CLAUSE else title, share * width, align)
        for title, share, align in _COLUMNS
    )
    return note_table(block.title, columns, [line.cells for line in block.lines], at)


def amperes(value: float) -> str:
    """A current as printed: to 0.01 A, a rating in whole amperes without decimals."""
    return f"{_figure(value)} A"


def volts(value: float) -> str:
    """A voltage as printed, to 0.1 V."""
    return f"{value:.1f} V"


def percent(value: float) -> str:
    """A share as printed, to 0.01 %."""
    return f"{value:.2f} %"


def times(values: Sequence[float], unit: str) -> str:
    """A sum of equal or different numbers: "2 x 20 A", "20 A + 30 A"."""
    if len(set(values)) == 1 and len(values) > 1:
        return f"{len(values)} x {_figure(values[0])} {unit}"
    return " + ".join(f"{_figure(value)} {unit}" for value in values)


def _figure(value: float) -> str:
    return f"{value:,.0f}" if value == round(value) else f"{value:.2f}"
