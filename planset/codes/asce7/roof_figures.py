"""External pressure coefficients GCp of roofs: which figure holds, and what its curves say."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from planset.citation import CodeEdition
from planset.codes import _check, _table
from planset.codes.asce7.zone_maps import ZoneMap, read_zone_maps

_DOWNWARD = "downward"
_HEIGHT_OVER_WIDTH = "h/B"


@dataclass(frozen=True, slots=True)
class Curve:
    """GCp against effective wind area: constant, linear in log(area), constant.

    Attributes:
        area1_sqft: Where the sloping part begins [sq ft].
        gcp1: GCp up to there, unitless.
        area2_sqft: Where it ends [sq ft].
        gcp2: GCp from there on, unitless.

    Source: ASCE 7-16 and 7-22, Figures 30.3-2 and 30.3-5.
    """

    area1_sqft: float
    gcp1: float
    area2_sqft: float
    gcp2: float

    def at(self, area_sqft: float) -> float:
        """GCp at an effective wind area [sq ft], never extrapolated."""
        plotted = min(max(area_sqft, self.area1_sqft), self.area2_sqft)
        share = math.log(plotted / self.area1_sqft) / math.log(self.area2_sqft / self.area1_sqft)
        return self.gcp1 + (self.gcp2 - self.gcp1) * share


@dataclass(frozen=True, slots=True)
class RoofFigure:
    """The figure that holds for one roof, or two between which its GCp lies.

    Attributes:
        number: Its number, such as "30.3-2B", or of both, such as "30.3-2E and 30.3-2F".
        roof: "gable", "hip" or "monoslope".
        slope_deg: Roof slope [degrees].
        zone_map: Which part of the roof has which zone.
        provisional: Why the engineer must confirm it, "" when there is no need.
        curves: Zone, or "downward", to curves and their weights, which add up to 1.

    Source: ASCE 7-16 and 7-22, Figures 30.3-2 and 30.3-5.
    """

    number: str
    roof: str
    slope_deg: float
    zone_map: ZoneMap
    provisional: str
    curves: Mapping[str, tuple[tuple[float, Curve], ...]]

    @property
    def zones(self) -> tuple[str, ...]:
        """Zone names in order of precedence."""
        return self.zone_map.zones

    def gcp_uplift(self, zone: str, area_sqft: float) -> float:
        """GCp away from the roof, negative, unitless.

        Args:
            zone: One of `zones`.
            area_sqft: Effective wind area [sq ft].

        Raises:
            ValueError: Zone unknown, or area not above zero.
        """
        if zone not in self.zones:
            msg = f"roof zone is {zone!r}; expected one of {', '.join(self.zones)} on this roof"
            raise ValueError(msg)
        return self._gcp(zone, area_sqft)

    def gcp_downward(self, area_sqft: float) -> float:
        """GCp toward the roof, positive, unitless, the same in all zones.

        Args:
            area_sqft: Effective wind area [sq ft].

        Raises:
            ValueError: Area not above zero.
        """
        return self._gcp(_DOWNWARD, area_sqft)

    def worst(self, zones: Iterable[str], area_sqft: float) -> tuple[str, float]:
        """The zone with the largest suction, and its GCp; of equal ones the last of `zones`.

        Args:
            zones: Zones that an area touches, at least one.
            area_sqft: Effective wind area [sq ft].

        Raises:
            ValueError: No zone, a zone unknown, or area not above zero.
        """
        suction, rank = max(
            (-self.gcp_uplift(zone, area_sqft), self.zones.index(zone)) for zone in zones
        )
        return self.zones[rank], -suction

    def _gcp(self, zone: str, area_sqft: float) -> float:
        _check.above_zero(area_sqft, "effective wind area, sq ft,")
        return sum(weight * curve.at(area_sqft) for weight, curve in self.curves[zone])


@dataclass(frozen=True, slots=True)
class RoofFigures:
    """All figures of an edition, as its tables give them.

    Attributes:
        edition: The edition.
        ranges: Lines of `roof_figures.csv`.
        curves: Lines of `gcp.csv`.
        zone_maps: Figure to zone plan.

    Source: ASCE 7-16 and 7-22, 30.3.2.
    """

    edition: CodeEdition
    ranges: tuple[Mapping[str, str], ...]
    curves: tuple[Mapping[str, str], ...]
    zone_maps: Mapping[str, ZoneMap]

    def figure(self, roof: str, slope_deg: float, height_over_width: float | None) -> RoofFigure:
        """The figure of a roof.

        Args:
            roof: "gable", "hip" or "monoslope".
            slope_deg: Roof slope [degrees].
            height_over_width: Mean roof height over the least horizontal dimension, unitless;
                may be None where no figure of the roof differs in it.

        Raises:
            ValueError: Roof unknown, slope outside its figures, or the ratio needed and missing.
        """
        held = self._held(roof, slope_deg)
        weights = _weights(held, slope_deg, height_over_width)
        used = [(weight, row) for weight, row in zip(weights, held, strict=True) if weight > 0]
        numbers = [row["figure"] for _, row in used]
        return RoofFigure(
            number=" and ".join(numbers),
            roof=roof,
            slope_deg=slope_deg,
            zone_map=self.zone_maps[numbers[0]],
            provisional=held[0]["provisional"],
            curves=self._blend({row["figure"]: weight for weight, row in used}, slope_deg),
        )

    def _held(self, roof: str, slope_deg: float) -> list[Mapping[str, str]]:
        own = [row for row in self.ranges if roof in row["roofs"].split()]
        if not own:
            msg = f"roof is {roof!r}; expected gable, hip or monoslope"
            raise ValueError(msg)
        held = [row for row in own if slope_deg >= 0 and _covers(row, slope_deg)]
        if not held:
            last = own[-1]
            msg = (
                f"roof slope is {slope_deg:g} degrees; expected 0 to {last['slope_to_deg']} on a "
                f"{roof} roof by {self.edition}; this is beyond Figure {last['figure']}: "
                "ask the engineer of record"
            )
            raise ValueError(msg)
        return held

    def _blend(
        self, weights: Mapping[str, float], slope_deg: float
    ) -> Mapping[str, tuple[tuple[float, Curve], ...]]:
        blend: dict[str, tuple[tuple[float, Curve], ...]] = {}
        for row in self.curves:
            if (weight := weights.get(row["figure"])) is not None:
                part = (weight, _curve(row, slope_deg))
                for zone in row["zones"].split():
                    blend[zone] = (*blend.get(zone, ()), part)
        return MappingProxyType(blend)


def read_roof_figures(edition: CodeEdition, folder: Path) -> RoofFigures:
    """Read the figures of an edition.

    Args:
        edition: The edition.
        folder: Where its tables lie.

    Source: ASCE 7-16 and 7-22, 30.3.2.
    """
    return RoofFigures(
        edition,
        tuple(_table.rows(folder / "roof_figures.csv")),
        tuple(_table.rows(folder / "gcp.csv")),
        read_zone_maps(folder / "zone_maps.csv"),
    )


def _covers(row: Mapping[str, str], slope_deg: float) -> bool:
    over = float(row["slope_over_deg"] or -math.inf)
    return over < slope_deg <= float(row["slope_to_deg"])


def _weights(
    held: list[Mapping[str, str]], slope_deg: float, height_over_width: float | None
) -> list[float]:
    if len(held) == 1:
        return [1.0]
    first, second = (float(row["at"]) for row in held)
    value: float | None = slope_deg
    if held[0]["differ_in"] == _HEIGHT_OVER_WIDTH:
        value = height_over_width
    if value is None:
        msg = "h/B is missing; expected mean roof height over least width for this hip roof"
        raise ValueError(msg)
    _check.above_zero(value, f"{held[0]['differ_in']} of the roof")
    share = min(max((value - first) / (second - first), 0.0), 1.0)
    return [1.0 - share, share]


def _curve(row: Mapping[str, str], slope_deg: float) -> Curve:
    return Curve(
        float(row["area1_sqft"]),
        float(row["gcp1"]) + float(row["gcp1_per_deg"] or 0) * slope_deg,
        float(row["area2_sqft"]),
        float(row["gcp2"]) + float(row["gcp2_per_deg"] or 0) * slope_deg,
    )
