"""Module-level dc-to-dc converters in strings of a fixed voltage."""

from typing import Literal, Self

from pydantic import model_validator

from planset.catalog.fields import Count, Rating, StrictModel, Text
from planset.catalog.module import Leads


class Converter(StrictModel):
    """A converter as its data sheet and listing give it.

    `current_basis` tells what of a module `max_input_isc_a` is compared with: "isc", as most sheets
    do, or "maximum", 1.25 times that. `output_v` is the most that one gives, `output_a` its rated
    continuous output; `string_max_v` the maximum voltage of a string by
    the listing, None where the listing gives no method; `safe_v` what one leaves on the string
    after shutdown; `shutdown` its listing for rapid shutdown, which names after `with` the
    inverters that it holds for, None without one; `leads` are those of its output, as delivered.
    """

    kind: Literal["converter"]
    maker: Text
    model: Text
    document: Text
    modules: Count
    max_input_v: Rating
    max_input_isc_a: Rating
    current_basis: Literal["isc", "maximum"]
    max_module_w: Rating
    output_v: Rating
    output_a: Rating
    string_max_v: Rating | None = None
    fewest_per_string: Count
    most_per_string: Count
    max_string_w: Rating
    safe_v: Rating
    shutdown: Text | None = None
    leads: Leads | None = None
    listing: Text

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.fewest_per_string > self.most_per_string:
            msg = "fewest_per_string is more than most_per_string; exchange them"
            raise ValueError(msg)
        return self
