"""As many modules as fit on a plane, and proof that no grid holds more.

All modules of an array lie on one grid of rows and columns, since that is what a job can state
and a crew can string lines to; cells where a module does not fit are left out. First the region
is found in which the lower left corner of a module may lie (`positions`). Laid over itself by
whole pitches, it is as many layers deep at a point as the grid through that point has modules;
the depth changes only where edges cross, so counting there proves how many fit (`offsets`).
The grid taken is the fullest with a corner in whole sixteenths of an inch (`search`), slid to
the middle of its room (`grids`), or, when fewer are wanted, a tidy part of it (`choose`).
Areas that depend on the number of modules are brought to rest with it in `rounds`.
"""

from planset.design.packing.pack import Packing, pack
from planset.design.packing.rounds import Settled, pack_until_stable

__all__ = ["Packing", "Settled", "pack", "pack_until_stable"]
