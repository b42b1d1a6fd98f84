"""Documents of others that go in with the set."""

from planset.catalog.fields import StrictModel, Text


class DataSheetFile(StrictModel):
    """A data sheet, certificate or letter that follows the sheets of the set.

    `title` stands in the sheet index and the bookmarks; `file` is a PDF file by its path from the
    job's folder.
    """

    title: Text
    file: Text
