"""The electrical system of a job."""

from typing import Literal

from planset.catalog.fields import CatalogName, Few, Several, StrictModel
from planset.job.electrical.control import ShutdownContact
from planset.job.electrical.service import (
    Combiner,
    Disconnect,
    Interconnection,
    MainDerate,
    ProductionMeter,
    Service,
    UtilityRules,
)
from planset.job.electrical.sources import (
    BackupPanel,
    Branch,
    JunctionBox,
    PlacedInverter,
    PullBox,
    Storage,
    StringOfModules,
)
from planset.job.electrical.wall import EquipmentWall
from planset.job.electrical.wiring import WireClips, Wiring


class Electrical(StrictModel):
    """The electrical system.

    Strings feed inverters; branches are microinverters. The shutdown method is a module-level
    `shutdown` device, a listed `hazard_control` system, or what the listing of converters or
    microinverters gives; without any none is stated, which a rule then judges. `shutdown_contact`
    tells how what the fire service operates stops the array of a hybrid inverter, which would go on
    by itself without the grid.
    """

    inverters: Few[PlacedInverter] = ()
    strings: Several[StringOfModules] = ()
    converter: CatalogName | None = None
    branches: Several[Branch] = ()
    junction_boxes: Few[JunctionBox]
    pull_boxes: Few[PullBox] = ()
    storage: Storage | None = None
    backup: BackupPanel | None = None
    shutdown: CatalogName | None = None
    hazard_control: CatalogName | None = None
    initiator: Literal["pv_disconnect", "service_disconnect", "switch"] | None = None
    shutdown_contact: ShutdownContact | None = None
    combiner: Combiner | None = None
    disconnect: Disconnect
    production_meter: ProductionMeter | None = None
    interconnection: Interconnection
    main_derate: MainDerate | None = None
    service: Service
    utility_rules: UtilityRules
    wiring: Wiring
    wire_clips: WireClips
    walls: Few[EquipmentWall] = ()
