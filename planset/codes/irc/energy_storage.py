"""Where energy storage may stand in and at a dwelling, and how much of it."""

from __future__ import annotations

from types import MappingProxyType

CLAUSES = MappingProxyType({2021: "R328", 2024: "R330"})
"""Section by edition; its parts keep their numbers below it.

Source: IRC 2021, R328.1, and IRC 2024, R330.1 [from memory].
"""

LISTING, SPACING, LOCATIONS, ENERGY = ".2", ".3.1", ".4", ".5"
DETECTION, IMPACT, VENTILATION = ".7", ".8", ".9"
"""Parts: listing to UL 9540; 3 ft between units; where they may stand; energy ratings; smoke
alarms; vehicle impact; exhaust of what charging gives off.

Source: IRC 2021, R328.2 to R328.9 [from memory].
"""

SEPARATION = "R302.6"
"""What parts an attached garage from the dwelling.

Source: IRC 2021, R302.6 [from memory].
"""

LEAST_APART_IN = 36.0
"""Between units, unless large-scale fire tests of the listing allow less.

Source: IRC 2021, R328.3.1 [from memory].
"""

LEAST_TO_OPENINGS_IN = 36.0
"""From storage outdoors or on an exterior wall to doors and windows into the dwelling.

Source: IRC 2021, R328.4, item 3 [from memory].
"""

MOST_OF_UNIT_KWH = 20.0
"""Energy of one unit.

Source: IRC 2021, R328.5 [from memory].
"""

MOST_OF_PLACE_KWH = MappingProxyType(
    {"attached_garage": 80.0, "detached_garage": 80.0, "outdoors": 80.0, "utility_room": 40.0}
)
"""Energy of all units in a kind of place; living and sleeping rooms are none of them.

Source: IRC 2021, R328.5, items 1 to 4 [from memory].
"""
