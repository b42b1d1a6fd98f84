"""Who and what the plan set is for."""

from planset.catalog.fields import Date, StrictModel, Text


class Project(StrictModel):
    """The project as the title block and the cover name it."""

    name: Text
    number: Text
    address: Text
    parcel: Text
    owner: Text
    owner_phone: Text
    scope: Text
    issued: Date
    revision: Text
    drawn_by: Text
    checked_by: Text


class Contractor(StrictModel):
    """Who installs."""

    name: Text
    license: Text
    address: Text
    phone: Text
