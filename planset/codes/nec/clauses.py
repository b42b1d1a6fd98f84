"""Where each edition of the NEC has its rules for photovoltaic systems."""

from planset.codes.nec import _tables


def topics() -> tuple[str, ...]:
    """Names of the rules whose clauses are known.

    Source: NEC 2017, 2020, 2023 and 2026, articles 110 to 706, for example 690.8(B).
    """
    return tuple(_tables.by_topic("clauses"))


def editions(topic: str) -> tuple[int, ...]:
    """Years of the editions that have a rule, rising.

    Args:
        topic: A name from `topics`.

    Returns:
        Years; an edition that lacks the rule, or whose clause is not known, is left out.

    Raises:
        ValueError: No such topic.

    Source: NEC 2017, 2020, 2023 and 2026, articles 110 to 706, for example 690.8(B).
    """
    known = _tables.by_topic("clauses")
    if topic not in known:
        msg = f"topic is {topic!r}; expected one of {', '.join(known)}"
        raise ValueError(msg)
    return tuple(known[topic])


def clause(topic: str, edition: int) -> str:
    """The clause of a rule in an edition.

    Args:
        topic: A name from `topics`, such as "busbar_opposite_ends".
        edition: Year of the NEC.

    Returns:
        Clause as it is cited, such as "705.12(B)(3)(2)".

    Raises:
        ValueError: No such topic, or the edition has none.

    Source: NEC 2017, 2020, 2023 and 2026, articles 110 to 706, for example 690.8(B).
    """
    return _tables.of_edition("clauses", topic, edition)


def from_memory(topic: str, edition: int) -> bool:
    """Tell whether a clause is remembered and was not seen in a copy of the edition.

    Args:
        topic: A name from `topics`.
        edition: Year of the NEC.

    Returns:
        True when the clause, or its number, is from memory.

    Raises:
        ValueError: No such topic, or the edition has none.

    Source: NEC 2017, 2020, 2023 and 2026, articles 110 to 706, for example 690.8(B).
    """
    clause(topic, edition)
    return edition in _tables.remembered("clauses")[topic]
