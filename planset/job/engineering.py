"""Choices that are the engineer's, where the codes leave one or a safe value stands otherwise."""

from typing import Annotated, Literal

from planset.catalog.fields import StrictModel, Text, between


class Engineering(StrictModel):
    """What the engineer of record decided, and who that is; every choice is printed.

    `edge_factor` is `every_attachment` for 1.5 everywhere, `exposed_panels` for the geometric test
    of ASCE 7, 29.4.4. `point_load_share` is the part of an attachment's load that its own rafter
    takes, the rest going to its neighbors through the deck.
    """

    by: Text
    edge_factor: Literal["every_attachment", "exposed_panels"] = "every_attachment"
    point_load_share: Annotated[float, between(0.3, 1)] = 1.0
