"""The letter by which a truss designer or an engineer lets trusses carry the arrays."""

from typing import Annotated, Literal

from pydantic import AfterValidator

from planset.catalog.fields import Date, OneOrMore, Pressure, StrictModel, Text, between

LetterLoad = Literal["array_weight", "snow", "wind"]

LOAD_WORDS = {"array_weight": "the arrays' weight", "snow": "snow", "wind": "wind"}


def _once_each(value: tuple[LetterLoad, ...]) -> tuple[LetterLoad, ...]:
    if len(set(value)) < len(value):
        msg = "a load listed twice; list each once"
        raise ValueError(msg)
    return value


class TrussLetter(StrictModel):
    """What the letter says, from the letter itself.

    `document` is its title or number, `signer` who answers for it, with the license. `added_load`
    in psf is the weight of modules, rails and attachments that it lets stand on the trusses, on
    the slope. `covers` are the loads it has judged with the arrays in place. `stagger` tells
    whether it asks for attachments staggered from truss to truss.
    """

    document: Text
    date: Date
    signer: Text
    added_load: Annotated[Pressure, between(0.5, 50, "psf")]
    covers: Annotated[OneOrMore[LetterLoad], AfterValidator(_once_each)]
    stagger: Literal["required", "not_required"]

    @property
    def covered(self) -> str:
        """The loads it covers, in words."""
        return ", ".join(LOAD_WORDS[load] for load in self.covers)

    @property
    def cited(self) -> str:
        """The letter as it is cited."""
        return f"{self.document}, {self.date.isoformat()}, {self.signer}"
