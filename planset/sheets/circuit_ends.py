"""Where circuits of the array end, in words."""

from planset.design.design import Design
from planset.design.electrical.system import BranchCircuit


def breaker_words(design: Design, branch: BranchCircuit) -> str:
    """The panel and breaker of a branch, as "ACC, CB1, 20 A"."""
    breaker = design.electrical.topology.breaker_beyond(branch.id)
    where = f"{breaker.panel}, {breaker.tag}, " if breaker is not None else ""
    return f"{where}{branch.breaker_a:g} A"
