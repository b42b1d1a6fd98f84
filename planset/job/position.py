"""A place on a roof plane."""

from planset.catalog.fields import Distance, StrictModel


class Position(StrictModel):
    """Inches from the left rake, as one faces the plane, and from the eave up the slope."""

    along: Distance
    up: Distance
