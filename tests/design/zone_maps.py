"""Zone maps for the tests of the geometry, in the layouts of ASCE 7-16 [from memory]."""

from planset.design.wind_shape import Family
from planset.design.wind_zones import Corner, Strip, ZoneMap

GABLE = ZoneMap(
    ("1", "2e", "2n", "2r", "3e", "3r"),
    "1",
    "a",
    (Strip("eave", "2e", 0, 1), Strip("rake", "2n", 0, 1), Strip("ridge", "2r", 0, 1)),
    (Corner(("eave", "rake"), "3e", 1, 1), Corner(("ridge", "rake"), "3r", 1, 1)),
)
HIP = ZoneMap(
    ("1", "2r", "2e", "3"),
    "1",
    "a",
    (Strip("eave", "2e", 0, 1), Strip("ridge", "2r", 0, 1), Strip("hip", "2r", 0, 1)),
    (Corner(("eave", "eave"), "3", 1, 1),),
)
MONOSLOPE = ZoneMap(
    ("1", "2", "2'", "3", "3'"),
    "1",
    "a",
    (Strip("eave", "2", 0, 2), Strip("rake", "2'", 0, 2), Strip("high edge", "2'", 0, 2)),
    (Corner(("eave", "rake"), "3", 2, 2), Corner(("high edge", "rake"), "3'", 4, 4, 2)),
)
FLAT = ZoneMap(
    ("1'", "1", "2", "3"),
    "1'",
    "h",
    (Strip("outer", "2", 0, 0.6), Strip("outer", "1", 0.6, 1.2)),
    (Corner(("outer", "outer"), "3", 0.6, 0.6, 0.2),),
)
MAPS = {
    Family.GABLE: GABLE,
    Family.HIP: HIP,
    Family.MONOSLOPE: MONOSLOPE,
    Family.FLAT: FLAT,
}


def the_first(families: tuple[Family, ...], _slope_deg: float) -> Family:
    """Choose the first family, whatever its coefficients."""
    return families[0]
