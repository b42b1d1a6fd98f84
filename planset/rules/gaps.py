"""How far two things on a roof plane stand apart, alike in every layout rule."""

import math

from planset.drawing.geometry import Box


def gap_in(a: Box, b: Box) -> float:
    """Return the distance between two boxes on the surface, negative where they overlap [in]."""
    across = max(b.x0 - a.x1, a.x0 - b.x1)
    up = max(b.y0 - a.y1, a.y0 - b.y1)
    if across > 0 and up > 0:
        return math.hypot(across, up)
    return max(across, up)
