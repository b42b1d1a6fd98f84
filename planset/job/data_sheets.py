"""Documents of others that go in with the set."""

from planset.catalog.fields import CatalogName, Few, StrictModel, Text


class DataSheetFile(StrictModel):
    """A data sheet, certificate or letter that follows the sheets of the set.

    `title` stands in the sheet index and the bookmarks; `file` is a PDF file by its path from the
    job's folder; `of` are the catalog names of the devices it documents, none for a letter.
    """

    title: Text
    file: Text
    of: Few[CatalogName] = ()
