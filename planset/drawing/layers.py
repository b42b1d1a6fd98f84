"""Layers, pens and linetypes of every sheet.

Names follow the layer rule of the US National CAD Standard (discipline-major-minor); widths are
those of its pen table. Where the standard lists no such layer the name is built by the rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

# Pen widths in mm (US National CAD Standard pen table, widths from memory).
FINE = 0.13
LIGHT = 0.18
THIN = 0.25
MEDIUM = 0.35
WIDE = 0.50
EXTRA_WIDE = 0.70

BLACK = 0.0
GRAY = 0.45
LIGHT_GRAY = 0.65

# Dash lengths in plotted inches, drawn and skipped in turn; empty means an unbroken line.
LINETYPES: MappingProxyType[str, tuple[float, ...]] = MappingProxyType(
    {
        "CONTINUOUS": (),
        "HIDDEN": (0.125, 0.0625),
        "DASHED": (0.25, 0.125),
        "DASHDOT": (0.1875, 0.0625, 0.02, 0.0625),
        "CENTER": (0.75, 0.0625, 0.125, 0.0625),
        "PHANTOM": (0.75, 0.0625, 0.125, 0.0625, 0.125, 0.0625),
    }
)

INHERITED = "0"  # inside a block: takes the layer, and so the pen, of the insertion
UNPLOTTED = "G-ANNO-NPLT"
OWN_LAYERS = "0"  # of an insertion whose block names the layer of all it draws: freezing one
# layer then hides what is on it and nothing else


Rgb = tuple[int, int, int]

# Labels and placards. The codes name colors and give no values: these are near to the safety red
# and yellow of ANSI Z535.1 (from memory), and differ in lightness enough for a print in black.
_LABELS: tuple[tuple[str, Rgb | None, bool, str], ...] = (
    ("E-LABL-BLCK", None, False, "labels at full size: edges, black letters, pictures"),
    ("E-LABL-WHTE", (255, 255, 255), False, "labels at full size: white letters"),
    ("E-LABL-REDB", (190, 15, 30), True, "labels at full size: red background"),
    ("E-LABL-YELB", (255, 215, 0), True, "labels at full size: yellow background"),
)


@dataclass(frozen=True, slots=True)
class Layer:
    """How everything on a layer is drawn.

    Attributes:
        name: Layer name, discipline-major-minor.
        pen_mm: Line width when plotted [mm].
        linetype: A key of `LINETYPES`.
        gray: 0 black to 1 white, when plotted.
        plotted: False for construction data that never prints.
        purpose: What is on it, printed in the DXF as the layer's description.
        rgb: Red, green and blue of a color that the code fixes for a label, 0 to 255 each; None
            for a layer that is black or gray.
        backs_text: Whether what it fills is a background that words are meant to stand on.
    """

    name: str
    pen_mm: float
    linetype: str
    gray: float
    plotted: bool
    purpose: str
    rgb: Rgb | None = None
    backs_text: bool = False

    @property
    def color(self) -> Rgb:
        """Its color when plotted, 0 to 255 for each of red, green and blue."""
        level = round(self.gray * 255)
        return self.rgb or (level, level, level)


_PLOTTED: tuple[tuple[str, float, str, float, str], ...] = (
    ("G-ANNO-TTLB", EXTRA_WIDE, "CONTINUOUS", BLACK, "sheet border"),
    ("G-ANNO-TTLB-LINE", LIGHT, "CONTINUOUS", BLACK, "title block rules"),
    ("G-ANNO-TTLB-TEXT", THIN, "CONTINUOUS", BLACK, "title block text"),
    ("G-ANNO-TEXT", THIN, "CONTINUOUS", BLACK, "notes, and words of tables"),
    ("G-ANNO-TITL", WIDE, "CONTINUOUS", BLACK, "view titles"),
    ("G-ANNO-MTCH", WIDE, "PHANTOM", BLACK, "match lines"),
    ("G-ANNO-TABL", LIGHT, "CONTINUOUS", BLACK, "rules of tables and schedules"),
    ("G-ANNO-SYMB", THIN, "CONTINUOUS", BLACK, "north arrow, graphic scale, bubbles"),
    ("G-ANNO-REVC", WIDE, "CONTINUOUS", BLACK, "revision clouds"),
    ("G-ANNO-REVS", THIN, "CONTINUOUS", BLACK, "revision deltas"),
    ("C-PROP-LINE", WIDE, "PHANTOM", BLACK, "property lines"),
    ("C-PROP-SBCK", LIGHT, "CENTER", BLACK, "required setbacks from property lines"),
    ("C-BLDG-OTLN", MEDIUM, "CONTINUOUS", BLACK, "outer walls of buildings and structures"),
    ("C-BLDG-OVHD", LIGHT, "HIDDEN", BLACK, "roof edges above walls"),
    ("C-ROAD-EDGE", THIN, "CONTINUOUS", BLACK, "edges of street pavement"),
    ("C-DRIV-EDGE", LIGHT, "CONTINUOUS", BLACK, "driveways"),
    ("C-NGAS-EQPM", MEDIUM, "CONTINUOUS", BLACK, "gas meters"),
    ("C-ANNO-DIMS", LIGHT, "CONTINUOUS", BLACK, "dimensions on site plans"),
    ("C-ANNO-TEXT", THIN, "CONTINUOUS", BLACK, "labels on site plans"),
    ("C-ANNO-NOTE", LIGHT, "CONTINUOUS", BLACK, "leaders on site plans"),
    ("A-ROOF-OTLN", WIDE, "CONTINUOUS", BLACK, "eaves and rakes"),
    ("A-ROOF-RIDG", MEDIUM, "CONTINUOUS", BLACK, "ridges and hips"),
    ("A-ROOF-VLLY", MEDIUM, "CONTINUOUS", BLACK, "valleys"),
    ("A-ROOF-WALL", MEDIUM, "CONTINUOUS", BLACK, "walls that rise from the roof"),
    ("A-ROOF-PRPT", THIN, "CONTINUOUS", BLACK, "inner faces of parapets"),
    ("A-ROOF-PATT", FINE, "CONTINUOUS", BLACK, "roof covering texture"),
    ("A-ROOF-LEVL", THIN, "CONTINUOUS", BLACK, "slope arrows"),
    ("A-ROOF-OBST", MEDIUM, "CONTINUOUS", BLACK, "roof obstructions"),
    ("A-ROOF-OBST-CLER", LIGHT, "HIDDEN", BLACK, "clearances around obstructions"),
    ("A-WALL-BELO", THIN, "HIDDEN", GRAY, "walls below the roof"),
    ("A-WALL-FIRE", THIN, "PHANTOM", BLACK, "fire walls between units"),
    ("A-WALL-OPNG", THIN, "CONTINUOUS", BLACK, "openings in walls"),
    ("A-ANNO-DIMS", LIGHT, "CONTINUOUS", BLACK, "dimensions on plans"),
    ("A-ANNO-TEXT", THIN, "CONTINUOUS", BLACK, "labels on plans"),
    ("A-ANNO-NOTE", LIGHT, "CONTINUOUS", BLACK, "leaders on plans"),
    ("S-ROOF-FRAM", LIGHT, "DASHED", GRAY, "rafters"),
    ("S-ROOF-SUPT", LIGHT, "CENTER", GRAY, "what rafters bear on: plates, purlins, ridges"),
    ("S-ROOF-ZONE", LIGHT, "DASHDOT", BLACK, "wind zones"),
    ("S-ROOF-ZONE-EDGE", THIN, "CONTINUOUS", BLACK, "modules near exposed edges of an array"),
    ("S-ROOF-ZONE-PATT", FINE, "CONTINUOUS", BLACK, "wind zone hatch"),
    ("S-ROOF-ANCH", LIGHT, "CONTINUOUS", BLACK, "roof attachments"),
    ("S-ROOF-SPLC", THIN, "CONTINUOUS", BLACK, "rail splices"),
    ("S-ROOF-HOLD", LIGHT, "CONTINUOUS", BLACK, "feet, clamps and couplings that hold modules"),
    ("S-ROOF-TRIM", LIGHT, "CONTINUOUS", BLACK, "trim along front edges of arrays"),
    ("S-ROOF-SEAM", LIGHT, "CENTER", GRAY, "standing seams that attachments clamp to"),
    (
        "S-ROOF-PANL",
        FINE,
        "CONTINUOUS",
        LIGHT_GRAY,
        "modules, faint under what is fixed to or below them",
    ),
    ("S-ROOF-STRG", LIGHT, "PHANTOM", BLACK, "strings stretched to line up rails, and diagonals"),
    ("S-DETL-MCUT", WIDE, "CONTINUOUS", BLACK, "detail: material cut"),
    ("S-DETL-OTLN", MEDIUM, "CONTINUOUS", BLACK, "detail: outline"),
    ("S-DETL-MBND", LIGHT, "CONTINUOUS", BLACK, "detail: material beyond"),
    ("S-DETL-HIDN", LIGHT, "HIDDEN", BLACK, "detail: hidden edges"),
    ("S-DETL-PATT", FINE, "CONTINUOUS", GRAY, "detail: material texture"),
    ("S-ANNO-DIMS", LIGHT, "CONTINUOUS", BLACK, "dimensions of structure"),
    ("S-ANNO-TEXT", THIN, "CONTINUOUS", BLACK, "labels on details"),
    ("S-ANNO-NOTE", LIGHT, "CONTINUOUS", BLACK, "leaders on details"),
    ("F-ROOF-ACCS", LIGHT, "DASHED", BLACK, "fire access pathways and setbacks"),
    ("F-ROOF-ACCS-PATT", FINE, "CONTINUOUS", BLACK, "fire access hatch"),
    ("F-SITE-ACCS", THIN, "DASHED", BLACK, "walk of the fire service on the ground"),
    ("F-SITE-ACCS-PONT", LIGHT, "CONTINUOUS", BLACK, "points where a roof is climbed"),
    ("F-ANNO-TEXT", THIN, "CONTINUOUS", BLACK, "fire access labels"),
    ("E-SOLR-PANL", MEDIUM, "CONTINUOUS", BLACK, "modules"),
    ("E-SOLR-PANL-REFR", LIGHT, "CONTINUOUS", BLACK, "modules, light where other work matters"),
    ("E-SOLR-PANL-E", LIGHT, "CONTINUOUS", GRAY, "arrays that are there already"),
    ("E-SOLR-RAIL", LIGHT, "CONTINUOUS", BLACK, "rails"),
    ("E-SOLR-IDEN", THIN, "CONTINUOUS", BLACK, "module tags"),
    ("E-SOLR-CIRC", THIN, "CONTINUOUS", BLACK, "strings and branches from module to module"),
    ("E-SOLR-HOME", WIDE, "HIDDEN", BLACK, "array conductors to junction boxes"),
    ("E-SOLR-DEVC", THIN, "CONTINUOUS", BLACK, "devices under modules"),
    ("E-SOLR-CLIP", LIGHT, "CONTINUOUS", BLACK, "wire clips"),
    ("E-POWR-EQPM", MEDIUM, "CONTINUOUS", BLACK, "electrical equipment"),
    ("E-POWR-CNDT", WIDE, "CONTINUOUS", BLACK, "raceways on the roof"),
    ("E-POWR-CLER", LIGHT, "DASHDOT", BLACK, "working spaces"),
    ("E-POWR-GRND", THIN, "CONTINUOUS", BLACK, "grounding lugs"),
    ("E-ELEV-WALL", THIN, "CONTINUOUS", BLACK, "walls in elevation and in plan"),
    ("E-ELEV-GRAD", WIDE, "CONTINUOUS", BLACK, "grade"),
    ("E-DIAG-ONEL", MEDIUM, "CONTINUOUS", BLACK, "single-line conductors"),
    ("E-DIAG-BUSS", WIDE, "CONTINUOUS", BLACK, "busbars"),
    ("E-DIAG-SYMB", THIN, "CONTINUOUS", BLACK, "single-line symbols"),
    ("E-DIAG-GRND", THIN, "HIDDEN", BLACK, "equipment grounding conductors"),
    ("E-DIAG-CTRL", MEDIUM, "DASHED", BLACK, "control wiring"),
    ("E-DIAG-BNDY", LIGHT, "CENTER", BLACK, "rapid shutdown boundaries of arrays"),
    ("E-DIAG-ENCL", LIGHT, "CONTINUOUS", BLACK, "outlines of locations and enclosures"),
    ("E-ANNO-TEXT", THIN, "CONTINUOUS", BLACK, "labels on diagrams"),
    ("E-ANNO-NOTE", LIGHT, "CONTINUOUS", BLACK, "leaders on diagrams"),
    ("E-ANNO-DIMS", LIGHT, "CONTINUOUS", BLACK, "dimensions of electrical work"),
)
"""Name, pen, linetype, gray and purpose of every layer that is plotted in black or gray."""


def _layers() -> dict[str, Layer]:
    made = {
        name: Layer(name, pen, linetype, gray, plotted=True, purpose=purpose)
        for name, pen, linetype, gray, purpose in _PLOTTED
    }
    made |= {
        name: Layer(name, THIN, "CONTINUOUS", BLACK, True, purpose, rgb, backs)
        for name, rgb, backs, purpose in _LABELS
    }
    purpose = "construction data, ids and viewport frames, not plotted"
    made[UNPLOTTED] = Layer(UNPLOTTED, FINE, "CONTINUOUS", BLACK, False, purpose)
    return made


LAYERS: MappingProxyType[str, Layer] = MappingProxyType(_layers())


def contrast(first: Layer, second: Layer) -> float:
    """How much two layers differ in lightness when plotted: 1 not at all, 21 black on white.

    Source: WCAG 2.1, definitions of contrast ratio and relative luminance.
    """
    dark, light = sorted((_luminance(first.color), _luminance(second.color)))
    return (light + 0.05) / (dark + 0.05)


def _luminance(color: Rgb) -> float:
    red, green, blue = (
        level / 12.92 if level <= 0.03928 else ((level + 0.055) / 1.055) ** 2.4
        for level in (value / 255 for value in color)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
