"""Demand and capacity as S-601 lists them; every figure is one of a finding."""

from __future__ import annotations

from planset.design.attachment_loads import AttachmentLoad
from planset.design.design import Design
from planset.design.framing_loads import RafterUse
from planset.finding import Finding
from planset.sheets.findings_table import result_word

DIRECTIONS = {
    "UPLIFT": ("structure.connector-uplift", "structure.lag-withdrawal"),
    "DOWN": ("structure.connector-downward", "structure.plate-bearing"),
    "ALONG": ("structure.connector-along-slope",),
}
"""By direction of the force the rules that hold it against a capacity."""

_ON_ATTACHMENTS = {rule for rules in DIRECTIONS.values() for rule in rules}
_DIGITS = {"in": 3, "lb-ft": 0, "lb": 0, "psi": 0}


def zone_rows(design: Design, findings: tuple[Finding, ...], array: str) -> list[tuple[str, ...]]:
    """Of every wind zone of an array: worst attachment, demand and least capacity, ratio.

    Three cells for each direction, after the zone.
    """
    loads = {load.attachment: load for load in design.loads.attachments if load.array == array}
    zones = sorted({load.zone for load in loads.values()})
    rows = []
    for zone in zones:
        cells = [zone]
        for rules in DIRECTIONS.values():
            found = [
                (load, finding)
                for finding in findings
                if finding.rule in rules
                for load in (_load(loads, finding),)
                if load is not None and load.zone == zone
            ]
            cells += _cells(found)
        rows.append(tuple(cells))
    return rows


def governing(loads: list[AttachmentLoad]) -> list[str]:
    """The load combinations that govern a direction anywhere, in the order of DIRECTIONS."""
    chosen = (
        [load.pulled_by for load in loads],
        [load.pressed_by for load in loads],
        [load.combined.along for load in loads],
    )
    return [" OR ".join(dict.fromkeys(one.combination.text for one in way)) for way in chosen]


def other_rows(design: Design, findings: tuple[Finding, ...]) -> list[tuple[str, ...]]:
    """Rails and rafters: check, where, under which loads, demand, capacity, ratio, result."""
    return [
        _row(design, finding)
        for finding in findings
        if finding.demand is not None and finding.rule not in _ON_ATTACHMENTS
    ]


def worst_rafter(design: Design, plane: str, check: str) -> RafterUse:
    """The span that comes nearest to what a plane's rafters allow in one check."""
    uses = [use for use in design.loads.framing.rafters if use.plane == plane]
    return max(uses, key=lambda use: use.check.named(check).ratio)


def figure(value: float | None, unit: str) -> str:
    """A demand or a capacity as it is printed."""
    return "-" if value is None else f"{value:.{_DIGITS.get(unit, 2)}f}"


def _cells(found: list[tuple[AttachmentLoad, Finding]]) -> list[str]:
    """The finding of the least capacity beside its demand; dashes where there is none."""
    if not found:
        return ["-", "-", "-"]
    load, finding = max(found, key=lambda pair: _share(pair[1]))
    demand, capacity = figure(finding.demand, "lb"), figure(finding.capacity, "lb")
    ratio = "OPEN" if finding.measured is None else f"{finding.measured:.2f}"
    return [load.attachment, f"{demand}/{capacity}", ratio]


def _share(finding: Finding) -> float:
    if finding.demand is None or not finding.capacity:
        return float("inf")
    return finding.demand / finding.capacity


def _load(loads: dict[str, AttachmentLoad], finding: Finding) -> AttachmentLoad | None:
    return next((loads[name] for name in finding.objects if name in loads), None)


def _short(case: str) -> str:
    """A case of a rafter's loads in the words of the table."""
    return case.upper().replace("LR", "Lr").replace("ARRAY IN PLACE", "ARRAY")


def _row(design: Design, finding: Finding) -> tuple[str, ...]:
    name, under = finding.title.partition(",")[0].upper(), "UP OR DOWN"
    where = ": ".join(finding.objects)
    if finding.rule == "structure.framing":
        plane, check = finding.objects
        worst = worst_rafter(design, plane, check)
        name, under = f"RAFTER, {check.upper()}", _short(worst.case)
        where = f"{plane.upper()} {worst.rafter}"
    unit = finding.use_unit.upper()
    return (
        name,
        where,
        under,
        f"{figure(finding.demand, finding.use_unit)} {unit}",
        f"{figure(finding.capacity, finding.use_unit)} {unit}",
        "OPEN" if finding.measured is None else f"{finding.measured:.2f}",
        result_word(finding.outcome),
    )
