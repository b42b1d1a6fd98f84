"""The programs that read our files, and what they say of them."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.readers.ink import DPI, Ink, read_ink

FREECAD_SCRIPT = Path(__file__).with_name("freecad_objects.py")
LIBRECAD_SCRIPT = Path(__file__).with_name("librecad_save.sh")
FREECAD_MARK = "OBJECTS "

_PACKAGES = {
    "freecadcmd": "freecad-python3",
    "librecad": "librecad",
    "ogrinfo": "gdal-bin",
    "pdftoppm": "poppler-utils",
    "rsvg-convert": "librsvg2-bin",
    "xdotool": "xdotool",
    "xvfb-run": "xvfb",
}


def output_of(program: str, *arguments: str | Path, **environment: str) -> str:
    """Everything a program says; it must end well."""
    assert shutil.which(program), f"install {_PACKAGES[program]}"
    ended = subprocess.run(
        [program, *arguments],
        check=True,
        text=True,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        stdin=subprocess.DEVNULL,
        timeout=120,
        env=os.environ | {"QT_QPA_PLATFORM": "offscreen"} | environment,
    )
    return ended.stdout


def pdf_ink(pdf: Path, number: int = 1) -> Ink:
    """One page of a PDF file."""
    picture = pdf.with_name(f"{pdf.stem}-{number}")
    first_and_last = ["-f", str(number), "-l", str(number), "-singlefile"]
    output_of("pdftoppm", "-r", str(DPI), "-gray", "-png", *first_and_last, pdf, picture)
    return read_ink(picture.with_name(f"{picture.name}.png"))


def svg_ink(svg: Path, size: tuple[int, int]) -> Ink:
    """An SVG file, so many pixels wide and high."""
    picture = svg.with_suffix(".png")
    width, height = map(str, size)
    output_of("rsvg-convert", "-w", width, "-h", height, "-b", "white", svg, "-o", picture)
    return read_ink(picture)


def librecad_pdf(dxf: Path, out: Path) -> Path:
    """What LibreCAD plots of a file by itself: its paper, its scale."""
    output_of("librecad", "dxf2pdf", "-m", "-t", out, dxf)
    return out / f"{dxf.stem}.pdf"


def librecad_saved(dxf: Path, folder: Path) -> Path:
    """A copy of a file with a line more, as LibreCAD saves it: it has no command for that."""
    assert shutil.which("xdotool"), f"install {_PACKAGES['xdotool']}"
    copy = Path(shutil.copy(dxf, folder))
    run = ["xvfb-run", "-a", "-s", "-screen 0 1280x900x24", "sh", LIBRECAD_SCRIPT, copy]
    output_of(*map(str, run), QT_QPA_PLATFORM="xcb", HOME=str(folder), XDG_CONFIG_HOME="")
    return copy


def freecad_objects(dxf: Path) -> list[dict[str, Any]]:
    """The objects FreeCAD makes of a file, lengths in mm."""
    told = output_of("freecadcmd", FREECAD_SCRIPT, DXF=str(dxf))
    return json.loads(told.partition(FREECAD_MARK)[2].splitlines()[0])  # type: ignore[no-any-return]


@dataclass(frozen=True)
class Feature:
    """One thing GDAL read.

    Attributes:
        fields: What it says of it, by field.
        geometry: Its shape as well-known text.
    """

    fields: dict[str, str]
    geometry: str


def gdal_features(dxf: Path, *, inline_blocks: bool = False) -> list[Feature]:
    """What GDAL reads of a file; it must not complain of anything in it."""
    options = ["--config", "DXF_INLINE_BLOCKS", "TRUE" if inline_blocks else "FALSE"]
    options += ["--config", "DXF_INCLUDE_RAW_CODE_VALUES", "TRUE"]
    told = output_of("ogrinfo", "-ro", "-al", *options, dxf)
    assert re.findall(r"(?m)^(?:ERROR|Warning).*", told) == []
    return [_feature(part) for part in re.split(r"(?m)^OGRFeature.*\n", told)[1:]]


def _feature(told: str) -> Feature:
    lines = [line.strip() for line in told.splitlines() if line.strip()]
    fields = dict(re.findall(r"(?m)^  (\w+)(?: \(\w+\))? = (.*)$", told))
    shapes = [line for line in lines if re.match(r"[A-Z][A-Z ]+ ?\(", line)]
    return Feature(fields, shapes[0] if shapes else "")


def block_references(features: list[Feature]) -> Counter[str]:
    """How often each block is inserted."""
    return Counter(f.fields["BlockName"] for f in features if "BlockName" in f.fields)
