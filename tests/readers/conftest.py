"""The example with every sheet drawn once, with a DXF file for each, for all programs to read."""

from __future__ import annotations

from pathlib import Path

import pytest

from planset.design.design import Design
from planset.drawing.page import DrawingSet
from planset.pipeline import Drawn, draw
from tests.example_job import with_every_sheet


@pytest.fixture(scope="session")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> Drawn:
    folder = tmp_path_factory.mktemp("set")
    return draw(with_every_sheet(folder), folder / "out", preliminary=True, dxf_per_sheet=True)


@pytest.fixture(scope="session")
def folder(drawn: Drawn) -> Path:
    assert drawn.written is not None
    return drawn.written.paths[0].parent


@pytest.fixture(scope="session")
def drawing(drawn: Drawn) -> DrawingSet:
    assert drawn.checked.drawing is not None
    return drawn.checked.drawing


@pytest.fixture(scope="session")
def design(drawn: Drawn) -> Design:
    return drawn.checked.design
