"""What holds an attachment: its lag screws in the job's own framing, and its connector."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.attachment import OnRafter
from planset.codes.asce7.load_combinations import CombinedLoad
from planset.codes.nds import lag_combined, lag_lateral, lag_screws, species
from planset.codes.tr12.dowels import InShear, gapped_yield_modes, lag_in_shear
from planset.design.attachment_loads import AttachmentLoad
from planset.design.layout import PlacedArray
from planset.design.lumber import TEMPERATURE_FACTOR, values_at_hand
from planset.job.covering import AsphaltShingle

if TYPE_CHECKING:
    from planset.job.load import Inputs

DRY_FACTOR = 1.0  # CM for wood at 19 % moisture or less in service: assumption
_SPACING_DIAMETERS = 4.0  # lag to lag along the grain (NDS 2018, Table 12.5.1E [from memory])
_DURATION = {"dead": "permanent", "snow": "snow", "roof live": "roof_live", "wind": "wind"}


@dataclass(frozen=True, slots=True)
class Fastening:
    """The lag screws of one attachment in the job's own framing.

    Attributes:
        array: Id of the array.
        count: Lag screws per attachment.
        covered_in: What the screw passes before the rafter: plate, underlayment, deck [in].
        gap_in: What lies between plate and rafter, counted as a gap across the screw [in].
        penetration_in: Thread in the rafter, without the tip and what comes out below [in].
        minimum_in: Least penetration, tip not counted [in].
        gravity: Specific gravity of the rafter's wood, unitless.
        withdrawal_lb_per_in: Reference withdrawal value W [lb/in].
        root_tension_lb: What the steel of one screw holds at the root of its thread [lb].
        lateral_lb: Reference lateral value Z of one screw along the rafter [lb].
        yield_mode: The mode that governs it.
        shear: What the yield equations take.
        penetration_factor: Share of it that a shallow screw keeps, unitless.
        temperature: Ct, unitless.
        pilot_in: The lead hole the maker asks for [in].
        pilot_range_in: Range of lead holes for this wood and screw [in].
        edge_distance_in: Least distance from the rafter's edge [in].
        side_room_in: How far a screw may stand off the rafter's centerline [in].
        spacing_in: Screw to screw along the rafter, None with one screw [in].
        minimum_spacing_in: Least such spacing [in].
        bearing_lb: What the rafter holds under the plate, 0 where its values are not known [lb].
        bearing_psi: Fc_perp of the rafter, 0 likewise [psi].
        bearing_in: Width and length of the plate on the rafter, whose product bears [in].
    """

    array: str
    count: int
    covered_in: float
    gap_in: float
    penetration_in: float
    minimum_in: float
    gravity: float
    withdrawal_lb_per_in: float
    root_tension_lb: float
    lateral_lb: float
    yield_mode: str
    shear: InShear
    penetration_factor: float
    temperature: float
    pilot_in: float
    pilot_range_in: tuple[float, float]
    edge_distance_in: float
    side_room_in: float
    spacing_in: float | None
    minimum_spacing_in: float
    bearing_lb: float
    bearing_psi: float
    bearing_in: tuple[float, float]

    def withdrawal_capacity_lb(self, load_duration: float) -> float:
        """Allowable pull on all screws together, by their thread or by the steel at its root [lb].

        Args:
            load_duration: CD, unitless.
        """
        thread = lag_screws.adjusted_withdrawal_lb(
            self.withdrawal_lb_per_in,
            max(self.penetration_in, 0.0),
            load_duration,
            DRY_FACTOR,
            self.temperature,
        )
        return self.count * min(thread, self.root_tension_lb)

    def lateral_capacity_lb(self, load_duration: float) -> float:
        """Allowable lateral load along the rafter of all screws together [lb].

        Args:
            load_duration: CD, unitless.
        """
        return self.count * lag_lateral.adjusted_lateral_lb(
            self.lateral_lb,
            load_duration,
            DRY_FACTOR,
            self.temperature,
            self.penetration_factor,
        )

    @property
    def lag_capacity_lb(self) -> float:
        """Allowable withdrawal under wind [lb]."""
        return self.withdrawal_capacity_lb(lag_screws.LOAD_DURATION["wind"])


@dataclass(frozen=True, slots=True)
class LagUse:
    """Lag screws of one attachment under pull and shear together.

    Attributes:
        attachment: Id of the attachment.
        zone: Its wind zone.
        combination: Text of the load combination that governs.
        uplift_lb: Pull in it, 0 where the attachment is pressed [lb].
        along_lb: Force down the slope in it [lb].
        withdrawal_lb: Allowable withdrawal at its load duration [lb].
        lateral_lb: Allowable lateral load at its load duration [lb].
        ratio: Resultant over what is allowed in its direction, None without any capacity.
    """

    attachment: str
    zone: str
    combination: str
    uplift_lb: float
    along_lb: float
    withdrawal_lb: float
    lateral_lb: float
    ratio: float | None


def fastening(inputs: Inputs, array: PlacedArray) -> Fastening | None:
    """Lag screws of an array's attachments, NDS 2018 chapter 12; None for clamps on seams."""
    attachment = array.system.attachment
    if attachment.kind == "seam_clamp":
        return None
    lags, framing = attachment.lags, inputs.framing
    gap = _under_plate_in(inputs, attachment)
    covered = attachment.plate_thickness + gap
    penetration = _thread_in_rafter_in(lags.length, lags.diameter, covered, framing.member_depth_in)
    gravity = species.specific_gravity(framing.wood)
    shear = lag_in_shear(
        gravity,
        lags.diameter,
        attachment.plate_thickness,
        lag_lateral.SIDE_PLATE_BEARING_PSI[attachment.plate_steel],
        gap,
    )
    lateral = gapped_yield_modes(shear)
    edge = lag_screws.edge_distance_in(lags.diameter)
    values = values_at_hand(framing)  # the framing rules say where there are none
    bearing_psi = values.fc_perp_psi if values else 0.0
    width = min(attachment.plate_width, framing.member_width_in)
    return Fastening(
        array=array.id,
        count=lags.count,
        covered_in=covered,
        gap_in=gap,
        penetration_in=penetration,
        minimum_in=lag_screws.minimum_penetration_in(lags.diameter),
        gravity=gravity,
        withdrawal_lb_per_in=lag_screws.withdrawal_lb_per_in(gravity, lags.diameter),
        root_tension_lb=lag_screws.root_tension_lb(lags.diameter),
        lateral_lb=lateral.lateral_lb,
        yield_mode=lateral.governing,
        shear=shear,
        penetration_factor=lag_lateral.penetration_factor(max(penetration, 0.0), lags.diameter),
        temperature=TEMPERATURE_FACTOR,
        pilot_in=lags.pilot,
        pilot_range_in=lag_screws.pilot_hole_range_in(gravity, lags.diameter),
        edge_distance_in=edge,
        side_room_in=framing.member_width_in / 2 - edge,
        spacing_in=lags.spacing if lags.count > 1 else None,
        minimum_spacing_in=_SPACING_DIAMETERS * lags.diameter,
        bearing_lb=bearing_psi * TEMPERATURE_FACTOR * width * attachment.plate_length,
        bearing_psi=bearing_psi,
        bearing_in=(width, attachment.plate_length),
    )


def _thread_in_rafter_in(
    length_in: float, diameter_in: float, covered_in: float, depth_in: float
) -> float:
    """Thread between the rafter's upper and lower side, tip not counted [in]."""
    inside = lag_screws.thread_penetration_in(length_in, diameter_in, covered_in)
    tip = lag_screws.lag_dimensions(diameter_in).tip_in
    below = max(length_in - covered_in - tip - depth_in, 0.0)
    return max(inside - below, 0.0)


def load_duration(shortest_load: str) -> float:
    """CD of a combination by its shortest load, NDS 2018 Table 2.3.2.

    Args:
        shortest_load: "dead", "snow", "roof live" or "wind".
    """
    return lag_screws.LOAD_DURATION[_DURATION[shortest_load]]


def lag_use(load: AttachmentLoad, held: Fastening) -> LagUse:
    """The combination that asks most of an attachment's lag screws, NDS 2018 12.4.1."""
    return max(
        (_use(load, held, *forces) for forces in load.forces()),
        key=lambda use: float("inf") if use.ratio is None else use.ratio,
    )


def _use(
    load: AttachmentLoad, held: Fastening, combined: CombinedLoad, normal_lb: float, along_lb: float
) -> LagUse:
    duration = load_duration(combined.combination.shortest_load)
    withdrawal = held.withdrawal_capacity_lb(duration)
    lateral = held.lateral_capacity_lb(duration)
    uplift, along = max(-normal_lb, 0.0), max(along_lb, 0.0)
    ratio = None
    if withdrawal > 0 and lateral > 0:
        ratio = lag_combined.combined_ratio(uplift, along, withdrawal, lateral)
    text = combined.combination.text
    return LagUse(load.attachment, load.zone, text, uplift, along, withdrawal, lateral, ratio)


def _under_plate_in(inputs: Inputs, attachment: OnRafter) -> float:
    """What lies between the plate and the rafter: the deck, under a foot the shingles too [in]."""
    framing, covering = inputs.framing, inputs.job.roof.covering
    deck = framing.underlayment + framing.sheathing
    if attachment.kind != "flashed_foot":
        return deck
    shingles = covering.thickness if isinstance(covering, AsphaltShingle) else 0.0
    return deck + shingles + attachment.flashing_thickness
