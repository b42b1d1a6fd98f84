"""The small set of `pages`, written once as DXF and as PDF."""

from __future__ import annotations

from pathlib import Path

import pytest
from ezdxf.document import Drawing
from ezdxf.filemanagement import readfile
from pages import DRAWING
from pypdf import PdfReader

from planset.formats.dxf_write import write_dxf
from planset.formats.pdf_write import write_pdf


@pytest.fixture(scope="session")
def dxf_path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("dxf") / "set.dxf"
    write_dxf(DRAWING, file)
    return file


@pytest.fixture(scope="session")
def doc(dxf_path: Path) -> Drawing:
    return readfile(dxf_path)


@pytest.fixture(scope="session")
def pdf_path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("pdf") / "set.pdf"
    write_pdf(DRAWING, file)
    return file


@pytest.fixture(scope="session")
def reader(pdf_path: Path) -> PdfReader:
    return PdfReader(pdf_path)
