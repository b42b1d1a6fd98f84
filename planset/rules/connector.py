"""What a connector is asked in one direction, beside what its maker allows."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from planset.catalog.attachment import Capacity
from planset.design.attachment_loads import AttachmentLoad
from planset.design.layout import PlacedArray
from planset.finding import Finding, Outcome
from planset.rules.documented import cited, doubt, judged_by_maker, maker_line
from planset.rules.lines import array_line
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def judged(
    rule: Rule,
    design: Design,
    citation: str,
    words: str,
    demand: Callable[[AttachmentLoad], float],
    capacity: Callable[[PlacedArray], Capacity],
) -> Iterator[Finding]:
    """Yield a finding for the worst attachment of every wind zone of every array.

    Args:
        rule: The rule.
        design: The design.
        citation: What is cited where no load is computed.
        words: The direction, such as "uplift".
        demand: Of an attachment's loads the one in that direction [lb].
        capacity: Of an array's system what its connector allows there.
    """
    if missing := not_computed(rule, design, citation):
        yield missing
        return
    for array, loads in zip(design.mounted, design.loads.arrays, strict=True):
        for load in loads.worst_by_zone(demand):
            yield _judged(rule, design, array, load, words, demand(load), capacity(array))


def _judged(
    rule: Rule,
    design: Design,
    array: PlacedArray,
    load: AttachmentLoad,
    words: str,
    demand_lb: float,
    stated: Capacity,
) -> Finding:
    outcome, ratio = judged_by_maker(stated, demand_lb, stated.capacity)
    fact = (
        f"{load.attachment} in zone {load.zone} takes {demand_lb:.0f} lb {words}; the "
        f"{array.system.attachment.name} holds {stated.capacity:.0f} lb {stated.basis}"
        f"{doubt(stated)}"
    )
    change = "set attachments or rails closer, or choose a stronger connector"
    if outcome is Outcome.OPEN:
        change = "give the maker's allowable (ASD) value with its document and page"
    return rule.found(
        outcome,
        cited(stated),
        sentence(outcome, fact, change),
        measured=ratio,
        limit=1.0,
        demand=demand_lb,
        capacity=stated.capacity,
        use_unit="lb",
        objects=(array.id, load.attachment),
        line=array_line(design, array.id, *maker_line(outcome)),
    )
