"""The zone maps of ASCE 7-16 for the tests of the geometry, ranked by the figure's coefficients."""

from dataclasses import replace

from planset.codes.asce7.standard import load_standard
from planset.codes.asce7.zone_maps import ZoneMap
from planset.design.wind_shape import Family
from planset.design.wind_zones import by_severity


def _ranked(roof: str, slope_deg: float, height_over_width: float | None = None) -> ZoneMap:
    figure = load_standard(2016).roof_figure(roof, slope_deg, height_over_width)
    return replace(figure.zone_map, zones=by_severity(figure))


GABLE = _ranked("gable", 20)
MAPS = {
    Family.GABLE: GABLE,
    Family.HIP: _ranked("hip", 20, 0.8),
    Family.MONOSLOPE: _ranked("monoslope", 8),
    Family.FLAT: _ranked("gable", 5),
}


def the_first(families: tuple[Family, ...], _slope_deg: float) -> Family:
    """Choose the first family, whatever its coefficients."""
    return families[0]
