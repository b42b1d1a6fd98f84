"""What the code asks ahead of the service disconnect, and at the grounding electrode."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.nec import ampacity, clauses, supply_side
from planset.codes.nec.feeder import feeder_minimum_a
from planset.codes.nec.grounding_electrode import grounding_electrode_size
from planset.codes.nec.supply_side import ServiceSources
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.system import ElectricalDesign
from planset.design.electrical.topology import Kind, Segment
from planset.job.electrical.service import SupplySideTap

if TYPE_CHECKING:
    from planset.job.load import Inputs


_NAMES = {
    "water_pipe": "water pipe",
    "rod": "ground rod",
    "concrete_encased": "concrete-encased electrode",
}
_CAPPED_BY = {"rod": "250.66(A)", "concrete_encased": "250.66(B)", "water_pipe": ""}


@dataclass(frozen=True, slots=True)
class SupplySide:
    """A connection ahead of the service disconnect.

    Attributes:
        sources: The sources on the service as the edition counts them; None where the ampacity of
            the service conductors is not known.
        disconnect_a: Rating of the disconnect of the connection [A].
        least_disconnect_a: The smallest the code takes [A].
        conductors: Segments between the connection and that disconnect.
        least_size: Their smallest size by material, AWG.
        distance_ft: Length of conductor to the overcurrent device [ft].
        longest_ft: Greatest such length, None where the edition fixes none [ft].
    """

    sources: ServiceSources | None
    disconnect_a: float
    least_disconnect_a: float
    conductors: tuple[Segment, ...]
    least_size: dict[str, str]
    distance_ft: float
    longest_ft: float | None


@dataclass(frozen=True, slots=True)
class Feeder:
    """A feeder with sources at its far end.

    Attributes:
        segment: The segment.
        source_a: Sum of the sources' continuous outputs [A].
        least_a: Least ampacity [A].
        ampacity_a: The lesser of both ampacities [A].
    """

    segment: Segment
    source_a: float
    least_a: float
    ampacity_a: float


@dataclass(frozen=True, slots=True)
class Electrode:
    """The conductor to a grounding electrode of the service.

    Attributes:
        kind: Electrode in words.
        size: Size found.
        material: "copper" or "aluminum".
        least: Smallest size the code takes today.
        table: What the table asks for, before an electrode of that kind caps it.
        capped_by: Clause that caps it, "" where the table's size stands.
        supply: Size and material of the service conductors.
    """

    kind: str
    size: str
    material: str
    least: str
    table: str
    capped_by: str
    supply: str

    @property
    def reason(self) -> str:
        """How the least size comes about, in words."""
        words = f"Table 250.66: {wire_size(self.table)} {self.material} for {self.supply}"
        if not self.capped_by:
            return words
        return f"{words}; {self.capped_by} caps it at {wire_size(self.least)}"


def supply_side_of(inputs: Inputs, electrical: ElectricalDesign, edition: int) -> SupplySide | None:
    """The connection ahead of the service disconnect.

    None where it is on the load side, or under an edition whose rules for it are not known here.

    Source: NEC 2023, 705.11; NEC 2020, 705.11; NEC 2017, 705.12(A); 230.79(D).
    """
    job = inputs.job.electrical
    known = edition in clauses.editions("supply_sources")
    if not known or not isinstance(job.interconnection, SupplySideTap):
        return None
    switches = {item.tag for item in electrical.topology.of_kind(Kind.FUSED_DISCONNECT)}
    taps = {item.tag for item in electrical.topology.of_kind(Kind.TAP)}
    fuses = [device.rating_a for device in electrical.devices if device.tag in switches]
    place = "other" if inputs.job.building.use == "other" else "dwelling"
    return SupplySide(
        sources=_sources(inputs, electrical, fuses, edition),
        disconnect_a=job.disconnect.rating,
        least_disconnect_a=supply_side.disconnect_minimum_a(max(fuses)),
        conductors=tuple(s for s in electrical.topology.segments if s.end in taps and s.conductors),
        least_size=dict(supply_side.SMALLEST_CONDUCTOR),
        distance_ft=job.interconnection.distance / 12.0,
        longest_ft=supply_side.longest_tap_ft(place, edition),
    )


def _sources(
    inputs: Inputs, electrical: ElectricalDesign, fuses: list[float], edition: int
) -> ServiceSources | None:
    """The sources on the service, those there already too."""
    service = inputs.job.electrical.service
    conductors_a = service_conductors_a(inputs)
    if conductors_a is None:
        return None
    return supply_side.service_sources(
        (*fuses, *(source.breaker for source in service.existing_sources)),
        (electrical.source_a, *(source.current for source in service.existing_sources)),
        service.main,
        conductors_a,
        edition,
    )


def service_conductors_a(inputs: Inputs) -> float | None:
    """Ampacity of the service conductors in the column of the weakest terminal [A].

    None for a size that the table here does not reach.

    Source: NEC 2020 and 2023, Table 310.16; NEC 2017, Table 310.15(B)(16); 110.14(C).
    """
    electrical = inputs.job.electrical
    supply, terminal_c = electrical.service.conductors, min(75.0, electrical.wiring.terminals)
    try:
        return ampacity.ampacity_a(supply.size, supply.material, terminal_c)
    except ValueError:
        return None


def feeders_of(electrical: ElectricalDesign) -> tuple[Feeder, ...]:
    """Every sized feeder.

    Source: NEC 2023, 705.12(A)(1); NEC 2020, 705.12(B)(1); NEC 2017, 705.12(B)(2)(1).
    """
    source_a = electrical.source_a
    return tuple(
        Feeder(
            segment,
            source_a,
            feeder_minimum_a(source_a),
            min(run.check.terminal_ampacity_a, run.check.adjusted.ampacity_a),
        )
        for segment in electrical.topology.segments_of("feeder")
        if (run := segment.conductors) is not None
    )


def electrodes_of(inputs: Inputs) -> tuple[Electrode, ...]:
    """The conductor found at every electrode, and the smallest there may be.

    Raises:
        ValueError: No such size, material or electrode.

    Source: NEC 2017, 2020 and 2023, Table 250.66; 250.66(A) and (B).
    """
    service = inputs.job.electrical.service
    supply = service.conductors
    found = []
    for given in (service.electrode, *service.supplemental_electrodes):
        least, table = (
            grounding_electrode_size(supply.size, supply.material, given.material, kind)
            for kind in (given.kind, "water_pipe")
        )
        found.append(
            Electrode(
                _NAMES[given.kind],
                given.size,
                given.material,
                least,
                table,
                _CAPPED_BY[given.kind] if least != table else "",
                f"{wire_size(supply.size)} {supply.material} service conductors",
            )
        )
    return tuple(found)
