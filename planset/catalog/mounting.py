"""Mounting systems: rails, attachments, what holds the modules, and the capacities documented."""

from typing import Annotated, Literal, Self

from pydantic import model_validator

from planset.catalog.attachment import Attachment
from planset.catalog.fields import StrictModel, Text, between
from planset.catalog.module_holding import (
    Bonding,
    Clamps,
    Coupling,
    FireRating,
    Foot,
    ModuleFrames,
    Trim,
)
from planset.catalog.rail import RailProfile


class MountingSystem(StrictModel):
    """Rails and attachments of one listing; the dead load includes modules, psf.

    Whatever a system has no part for is left out. Couplings carry the module edges from rail to
    rail, so that with them a module may rest on a single rail.
    """

    kind: Literal["mounting_system"]
    maker: Text
    model: Text
    family: Literal["rails_up_the_slope", "rails_across_the_slope"]
    dead_load_psf: Annotated[float, between(0.1, 50, "psf")]
    document: Text
    rail: RailProfile
    attachment: Attachment
    clamps: Clamps | None = None
    foot: Foot | None = None
    coupling: Coupling | None = None
    trim: Trim | None = None
    modules: ModuleFrames | None = None
    bonding: Bonding
    fire: FireRating | None = None

    @model_validator(mode="after")
    def _check_family(self) -> Self:
        if self.across and (self.foot or self.coupling):
            msg = (
                "feet and couplings carry long edges over rails up the slope, yet family is "
                "rails_across_the_slope; remove foot and coupling, or correct family"
            )
            raise ValueError(msg)
        if self.foot and self.clamps:
            msg = "both foot and clamps hold the modules; keep the one that the system has"
            raise ValueError(msg)
        if self.across and not self.clamps:
            msg = "clamps is missing, which hold modules on rails across the slope; add it"
            raise ValueError(msg)
        if self.foot and self.foot.lowest > self.foot.highest:
            msg = "foot.lowest is more than foot.highest; exchange them"
            raise ValueError(msg)
        if self.foot and self.foot.from_rail_end > self.rail.past_module:
            msg = (
                "foot.from_rail_end is more than rail.past_module, so that the outer feet would "
                "stand too near the rail's end; correct one of them"
            )
            raise ValueError(msg)
        return self

    @property
    def across(self) -> bool:
        """Whether rails run across the slope, along the eave."""
        return self.family == "rails_across_the_slope"

    @property
    def adjustment_in(self) -> float:
        """How far the modules may be raised or lowered over one attachment, inches."""
        foot = self.foot.highest - self.foot.lowest if self.foot else 0.0
        return foot + self.attachment.adjustment
