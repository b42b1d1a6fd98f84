"""Whether the words of a listing name a piece of equipment."""

import re

_WITH = re.compile(r"\bwith\b", re.IGNORECASE)


def names(words: str, model: str) -> bool:
    """Tell whether words name a model, which stands in them as a whole: OE-7.6 not in OE-7.6T."""
    whole = rf"(?<![\w.-]){re.escape(model)}(?![\w-]|\.\w)"
    return re.search(whole, words, re.IGNORECASE) is not None


def names_others(words: str) -> bool:
    """Tell whether a listing says what it holds `with`, so that what it leaves out is not meant."""
    return _WITH.search(words) is not None
