"""All rules, in the order in which a reviewer reads them."""

from planset.rules.electrical import (
    busbar,
    conductors,
    input_current,
    inverter_breaker,
    module_series_fuse,
    rapid_shutdown,
    shutdown_device,
    string_minimum_voltage,
    string_voltage,
)
from planset.rules.fire import (
    escape_openings,
    pathway_per_plane,
    pathways_on_building,
    ridge_setback,
    street_side_pathway,
)
from planset.rules.layout import modules_on_plane, obstruction_clearance, rails_under_modules
from planset.rules.rule import Rule
from planset.rules.structure import (
    connector_uplift,
    downward_load,
    framing,
    lag_embedment,
    lag_withdrawal,
    rail_span,
    side_room,
    tile_course,
    wind_method,
    wind_speed,
)

RULES: tuple[Rule, ...] = (
    pathways_on_building.RULE,
    street_side_pathway.RULE,
    pathway_per_plane.RULE,
    ridge_setback.RULE,
    escape_openings.RULE,
    wind_speed.RULE,
    wind_method.RULE,
    lag_embedment.RULE,
    lag_withdrawal.RULE,
    connector_uplift.RULE,
    side_room.RULE,
    downward_load.RULE,
    rail_span.RULE,
    framing.RULE,
    tile_course.RULE,
    modules_on_plane.RULE,
    obstruction_clearance.RULE,
    rails_under_modules.RULE,
    string_voltage.RULE,
    string_minimum_voltage.RULE,
    input_current.RULE,
    module_series_fuse.RULE,
    inverter_breaker.RULE,
    busbar.RULE,
    conductors.RULE,
    rapid_shutdown.RULE,
    shutdown_device.RULE,
)
