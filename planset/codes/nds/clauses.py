"""Where the editions of the NDS state what rules cite; numbers are the same since 2015."""

from collections.abc import Mapping

from planset.citation import CodeEdition

_SINCE_2015 = (2015, 2018, 2024)


def nds_clauses(clause: str) -> Mapping[CodeEdition, str]:
    """A clause of chapters 2 to 12 by edition.

    The values are those of the 2018 edition, in all of them: lag screws and sawn lumber did not
    change between these editions [from memory].

    Args:
        clause: Its number since 2015, such as "12.2.1" or "Table 12.5.1E".

    Returns:
        Clause by edition; both chapters on connections had a number one lower in 2012.

    Source: NDS 2018, 12.2.1; numbers of the editions 2012 and 2024 [from memory].
    """
    of_2012 = clause
    for since_2015, before in (("11.", "10."), ("12.", "11.")):
        if since_2015 in clause:
            of_2012 = clause.replace(since_2015, before)
    found = {CodeEdition("NDS", year): clause for year in _SINCE_2015}
    return {CodeEdition("NDS", 2012): of_2012, **found}
