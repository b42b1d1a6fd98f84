"""The frame of a DXF file: header, layers, linetypes, text and dimension styles, saving."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from ezdxf import options  # type: ignore[attr-defined]  # public, though not in __all__
from ezdxf.document import Drawing
from ezdxf.filemanagement import new

from planset.drawing.dimension import (
    ARROW_LENGTH,
    EXTENSION_GAP,
    EXTENSION_OVERRUN,
    NEXT_OFFSET,
    OVERRUN,
    TEXT_GAP,
    TEXT_HEIGHT,
    TICK_REACH,
)
from planset.drawing.layers import INHERITED, LAYERS, LINETYPES, Layer
from planset.drawing.text import NOTE_HEIGHT
from planset.errors import PlansetError

APPID = "PLANSET"
TEXT_STYLE = "ARIAL"
UNPLOTTED = "G-ANNO-NPLT"

BYLAYER_COLOR = 256
BYLAYER_WEIGHT = -1
BLACK_OR_WHITE = 7
GRAY = 8

# Parts of a dimension by DIMSTYLE name, in heights of its figure, as `drawing.dimension` draws
# them: what a CAD program draws anew after an edit looks like the rest.
DIMENSION_SIZES = {
    "dimtxt": 1.0,
    "dimtsz": TICK_REACH * math.sqrt(0.5) / TEXT_HEIGHT,  # a tick's reach across, to each side
    "dimdle": OVERRUN / TEXT_HEIGHT,  # dimension line beyond the ticks
    "dimasz": ARROW_LENGTH / TEXT_HEIGHT,
    "dimexo": EXTENSION_GAP / TEXT_HEIGHT,  # gap at the object
    "dimexe": EXTENSION_OVERRUN / TEXT_HEIGHT,  # extension line beyond the dimension line
    "dimgap": TEXT_GAP / TEXT_HEIGHT,
    "dimdli": NEXT_OFFSET / TEXT_HEIGHT,
    "dimcen": 1 / 16 / TEXT_HEIGHT,
}
DIMENSION_CHOICES: dict[str, Any] = {
    "dimlunit": 4,  # architectural
    "dimdec": 4,  # sixteenths
    "dimfrac": 2,  # fractions in line
    "dimzin": 3,  # 40'-0" keeps its inches, 8 1/2" has no feet
    "dimdsep": 46,  # a decimal point, should a reader ignore the above
    "dimtad": 1,  # figure above the line
    "dimtih": 0,  # and parallel to it, inside
    "dimtoh": 0,  # and outside the extension lines
    "dimtofl": 1,
    "dimlfac": 1.0,
    "dimrnd": 0.0,
    "dimclrd": BYLAYER_COLOR,
    "dimclre": BYLAYER_COLOR,
    "dimclrt": BYLAYER_COLOR,
    "dimlwd": BYLAYER_WEIGHT,
    "dimlwe": BYLAYER_WEIGHT,
    "dimtxsty": TEXT_STYLE,
}


class DxfDocument:
    """A DXF file in the making, and which layers and dimension styles it turned out to need.

    Attributes:
        doc: The file as ezdxf holds it.
    """

    def __init__(self) -> None:
        self.doc: Drawing = new("R2013", setup=False, units=1)  # 1: inches
        self.doc.appids.new(APPID)
        self.doc.styles.new(TEXT_STYLE, dxfattribs={"font": "arial.ttf"})
        self._layers: set[str] = {UNPLOTTED}
        self._dimension_styles: Counter[tuple[float, float]] = Counter()

    def layer(self, name: str) -> str:
        """The layer's name, noted as used."""
        self._layers.add(name)
        return name

    def dimension_style(self, scale: float, text_height: float) -> str:
        """Name of the dimension style for a scale and a height of figures, made when new.

        Args:
            scale: Model inches per inch of the dimension's sizes.
            text_height: Height of the figures before scaling [in].
        """
        self._dimension_styles[scale, text_height] += 1
        name = _dimension_style_name(scale, text_height)
        if name not in self.doc.dimstyles:
            self.doc.dimstyles.new(name, dxfattribs=_dimension_variables(scale, text_height))
        return name

    def finish(self) -> None:
        """Define what was used: layers with their linetypes, and the header."""
        used = [LAYERS[name] for name in sorted(self._layers - {INHERITED})]
        for linetype in sorted({layer.linetype for layer in used}):
            if LINETYPES[linetype]:
                self._define_linetype(linetype)
        for layer in used:
            self._define_layer(layer)
        self._define_header()

    def save(self, path: Path) -> None:
        """Write the file; the same document gives the same bytes under any hash seed.

        Raises:
            PlansetError: The file would not be a sound DXF.
        """
        found = self.doc.audit()
        if found.errors or found.fixes:
            listed = "; ".join(entry.message for entry in [*found.errors, *found.fixes])
            msg = f"{path.name}: the drawing would not be sound DXF ({listed}); please report this"
            raise PlansetError(msg)
        for name in sorted(self.doc.entitydb.dxf_types_in_use()):
            self.doc.classes.add_class(name)  # else their order hangs on the hash seed
        self.doc.saveas(path)

    def _define_linetype(self, name: str) -> None:
        lengths = LINETYPES[name]
        signed = [-part if place % 2 else part for place, part in enumerate(lengths)]
        self.doc.linetypes.add(name, pattern=[sum(lengths), *signed], description=name.lower())

    def _define_layer(self, layer: Layer) -> None:
        made = self.doc.layers.add(
            layer.name,
            color=GRAY if layer.gray else BLACK_OR_WHITE,
            linetype=layer.linetype,
            lineweight=round(layer.pen_mm * 100),
            plot=layer.plotted,
        )
        if layer.gray:
            level = round(layer.gray * 255)
            made.rgb = (level, level, level)
        made.description = layer.purpose

    def _define_header(self) -> None:
        header = self.doc.header
        header["$MEASUREMENT"] = 0  # inches
        header["$LUNITS"] = 4  # architectural
        header["$LUPREC"] = 4  # sixteenths
        header["$PSLTSCALE"] = 1  # dashes in paper inches
        header["$LTSCALE"] = 1.0
        header["$LWDISPLAY"] = 1
        header["$TEXTSTYLE"] = TEXT_STYLE
        header["$TEXTSIZE"] = NOTE_HEIGHT
        # Some readers know one set of dimension variables only: the one most used.
        usual = min(
            self._dimension_styles.items(), key=lambda item: (-item[1], item[0]), default=None
        )
        scale, height = usual[0] if usual else (1.0, TEXT_HEIGHT)
        variables = _dimension_variables(scale, height)
        self.doc.dimstyles.get("Standard").update_dxf_attribs(variables)
        for name, value in variables.items():
            header[f"${name.upper()}"] = value
        header["$DIMSTYLE"] = _dimension_style_name(scale, height) if usual else "Standard"


@contextmanager
def fixed_metadata() -> Iterator[None]:
    """While inside, ezdxf writes fixed dates and ids instead of the time and random ones."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _dimension_style_name(scale: float, text_height: float) -> str:
    usual = f"PLANSET-{scale:g}"
    return usual if text_height == TEXT_HEIGHT else f"{usual}-{text_height:g}"


def _dimension_variables(scale: float, text_height: float) -> dict[str, Any]:
    sizes = {name: size * text_height for name, size in DIMENSION_SIZES.items()}
    return {"dimscale": scale, **sizes, **DIMENSION_CHOICES}
