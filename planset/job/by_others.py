"""Parts of a job that another designer answers for."""


def by_others_as_none(value: object) -> object:
    """Let the words `by_others` stand for a part that this job does not design.

    Raises:
        ValueError: No value at all; leaving a part out is never taken for that.
    """
    if value == "by_others":
        return None
    if value is None or isinstance(value, str):
        msg = "neither by_others nor a group of fields; write by_others, or the fields below"
        raise ValueError(msg)
    return value
