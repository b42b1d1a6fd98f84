"""One mounted array with all that was placed and measured for it."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.buildup import BuildUp
from planset.design.fastening import Fastening
from planset.design.holding import ModuleHolding
from planset.design.layout import PlacedArray
from planset.design.post_courses import PostFit
from planset.design.racking import Racking
from planset.design.rail_pieces import RailPieces
from planset.design.tile_courses import TileFit


@dataclass(frozen=True, slots=True)
class Mounted:
    """One mounted array.

    Attributes:
        array: The array.
        racking: Its rails and attachments.
        build_up: Heights at its attachments.
        fastening: Lag screws under them, None for clamps on seams.
        tile_fit: How its hooks meet the tile, None with other attachments.
        post_fit: How its posts stand among courses of tile, None with others or where those were
            not surveyed.
        holding: What holds its modules on the rails.
        rails: The pieces its rails are made of.
    """

    array: PlacedArray
    racking: Racking
    build_up: BuildUp
    fastening: Fastening | None
    tile_fit: TileFit | None
    post_fit: PostFit | None
    holding: ModuleHolding
    rails: RailPieces

    @property
    def id(self) -> str:
        """Id of the array."""
        return self.array.id

    @property
    def clear_space_in(self) -> float:
        """Between the lowest pan of the roof and the underside of the modules [in]."""
        return max(self.build_up.height_above_roof_in - self.array.product.depth, 0.0)
