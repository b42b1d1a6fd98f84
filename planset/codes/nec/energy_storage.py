"""Numbers for energy storage systems by NEC article 706, as far as an array meets them."""

from planset.codes.nec import _tables

COVERED_KWH = 1.0
"""Energy over which a permanent energy storage system falls under the article [kWh].

Source: NEC 2023, 706.1.
"""

DISCONNECT_FT = 10.0
"""Distance in sight within which it has its disconnect, or that locks open from afar [ft].

Source: NEC 2020 and 2023, 706.15; NEC 2017, 706.7 [from memory].
"""

DWELLING_LIMIT_V = 100.0
"""Highest voltage between conductors in a dwelling where live parts can be reached in service [V].

Source: NEC 2020 and 2023, 706.20(B); NEC 2017, 706.30(A) [from memory].
"""

ENCLOSED_LIMIT_V = 600.0
"""The same where live parts cannot be reached in routine service [V].

Source: NEC 2020 and 2023, 706.20(B), exception; NEC 2017, 706.30(A), exception [from memory].
"""


def outdoor_means(edition: int) -> str:
    """What a dwelling with energy storage has outdoors, in the words for a finding.

    Args:
        edition: Year of the NEC.

    Raises:
        ValueError: The edition asks for none, or is not covered.

    Source: NEC 2020, 706.15(A) [from memory; a trade webinar on 2023 tells that it asked for a
    disconnect outside]; NEC 2023, 706.15(B).
    """
    return _tables.of_edition("edition_values", "storage_outdoor_means", edition)
