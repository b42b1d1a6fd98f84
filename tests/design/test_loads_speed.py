"""All loads of a thousand modules on fifteen hundred attachments, of rails and of rafters."""

import time

from houses import house, placed_arrays, roof_of_house

from planset.design.beam import solve
from planset.design.buildup import build_up
from planset.design.fastening import fastening
from planset.design.holding import module_holding
from planset.design.loads import loads_of
from planset.design.mounted import Mounted
from planset.design.place_racking import place_racking
from planset.design.rail_pieces import rail_pieces
from planset.job.by_plane import EVERY_PLANE
from planset.job.site import Snow

MOST_S = 2.0  # of the processor; some 0.5 s on an idle machine


def test_a_thousand_modules_under_wind_and_snow() -> None:
    changes = {
        "roof.ridge_length": 2400.0,
        "roof.depth": 1500.0,
        "framing.supports": {EVERY_PLANE: (0.0, 150.0, 300.0, 450.0, 600.0, 750.0)},
        "site.ground_snow": 30.0,
        "site.snow": Snow(roof_exposure="partially", thermal="heated", slides_clear=False),
    }
    for array in ("A1", "A2"):
        changes[f"arrays.{array}.rows"] = 20
        changes[f"arrays.{array}.columns"] = 25
        changes[f"arrays.{array}.mounting.attachment_spacing"] = 72.0
    inputs = house(changes, "gable-40x30-both")
    roof, arrays = roof_of_house(inputs), placed_arrays(inputs)
    racks = place_racking(inputs, roof, arrays)
    mounted = tuple(
        Mounted(
            array,
            rack,
            build_up(inputs, array),
            fastening(inputs, array),
            None,
            None,
            holding,
            rail_pieces(array, rack, holding),
        )
        for array, rack in zip(arrays, racks, strict=True)
        for holding in [module_holding(array, rack)]
    )
    solve.cache_clear()
    started = time.process_time()
    loads = loads_of(inputs, roof, arrays, mounted)
    taken_s = time.process_time() - started
    assert not loads.reason
    assert sum(len(array.modules) for array in arrays) == 1000
    assert len(loads.attachments) >= 1500
    assert len(loads.framing.rafters) >= 2 * 75 * 4
    assert taken_s < MOST_S
