"""What the tests ask of a PDF file read back."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pages import DRAWING, NOTES_PAGE
from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

from planset.drawing.geometry import Point
from planset.formats.pdf_write import write_pdf

MM = 72 / 25.4  # points
PEN: dict[str, Any] = {"w": 1.0, "G": 0.0, "g": 0.0, "d": [], "J": 0, "j": 0, "clip": None}


@dataclass
class Mark:
    """One path as painted: its points in order, control points included, and the pen."""

    operator: str
    points: list[Point]
    closed: bool
    pen: dict[str, Any]

    @property
    def width(self) -> float:
        return max(x for x, _ in self.points) - min(x for x, _ in self.points)


def marks(page: PageObject, reader: PdfReader) -> list[Mark]:
    """All painted paths of a page with the state they are painted in."""
    painted: list[Mark] = []
    pens = [dict(PEN)]
    path: list[tuple[str, list[float]]] = []
    for operands, raw in ContentStream(page.get_contents(), reader).operations:
        operator = raw.decode()
        if operator == "q":
            pens.append(dict(pens[-1]))
        elif operator == "Q":
            pens.pop()
        elif operator == "d":
            pens[-1]["d"] = [float(n) for n in operands[0]]
        elif operator == "cm":
            assert [float(n) for n in operands] == [1, 0, 0, 1, 0, 0]
        elif operator in PEN:
            pens[-1][operator] = float(operands[0])
        elif operator in ("m", "l", "c", "re", "h", "W", "W*"):
            path.append((operator, [float(n) for n in operands]))
        elif operator in ("S", "f", "f*", "n") and path:
            mark = finished(path, operator, dict(pens[-1]))
            if any(step.startswith("W") for step, _ in path):
                pens[-1]["clip"] = mark.points
            else:
                painted.append(mark)
            path = []
    assert len(pens) == 1
    return painted


def finished(path: list[tuple[str, list[float]]], operator: str, pen: dict[str, Any]) -> Mark:
    points: list[Point] = []
    for step, numbers in path:
        if step == "re":
            x, y, wide, high = numbers
            points.extend([(x, y), (x + wide, y + high)])
        else:
            points.extend(zip(numbers[::2], numbers[1::2], strict=True))
    return Mark(operator[0], points, any(step == "h" for step, _ in path), pen)


def texts(page: PageObject) -> dict[str, tuple[float, list[float]]]:
    """Per line of text its size in points and its matrix."""
    found: dict[str, tuple[float, list[float]]] = {}

    def visit(text: str, cm: list[float], tm: list[float], font: Any, size: float) -> None:
        if text.strip():
            assert cm == [1, 0, 0, 1, 0, 0]
            found[text.strip()] = (size, tm)

    page.extract_text(visitor_text=visit)
    return found


def written(tmp_path: Path, *paper: Any) -> list[Mark]:
    page = dataclasses.replace(NOTES_PAGE, paper=paper)
    file = tmp_path / "one.pdf"
    write_pdf(dataclasses.replace(DRAWING, pages=(page,)), file)
    reader = PdfReader(file)
    return marks(reader.pages[0], reader)
