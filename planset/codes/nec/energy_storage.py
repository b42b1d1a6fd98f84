"""Numbers for energy storage systems by NEC article 706, as far as an array meets them."""

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

Source: NEC 2017, 2020 and 2023, 706.20(B) [from memory].
"""
