"""The shop: machine, material and tools as the shop file gives them, already in the drawing's units.

Values only; `planner.shopfile` reads the TOML text. Every length is in `units`.
"""

from dataclasses import dataclass
from typing import Literal

from extractor.part import Units


@dataclass(frozen=True)
class Machine:
    """The lathe: control dialect, spindle limit, room at the chuck, and how near it starts to the work.

    `clearance`: radial distance above the largest diameter nearby at which a cycle starts.
    `tolerance`: greatest error of a groove's place, width or depth where the drawing gives none.
    `home_x` (diameter), `home_z`: where the tool goes to change and at the end.
    """

    dialect: str
    max_rpm: int
    jaw_gap: float
    stick_out: float
    clearance: float
    tolerance: float
    home_x: float
    home_z: float
    coolant: bool = True


@dataclass(frozen=True)
class Material:
    """What is cut: `cutting_speed` in m/min or ft/min, `specific_cutting_force` kc1.1 in N/mm2."""

    name: str
    cutting_speed: float
    specific_cutting_force: float


@dataclass(frozen=True)
class Tool:
    """A grooving insert in its turret station; ISO 13399 symbols: CW width, RE corner radius, CDX max_depth."""

    station: int
    offset: int
    width: float
    corner_radius: float
    max_depth: float
    reference: Literal["near", "far"]
    feed: float
    peck: float
    retract: float

    @property
    def name(self) -> str:
        """The tool word's usual spelling, station then offset.

        >>> Tool(3, 3, 3.0, 0.2, 12.0, "far", 0.08, 1.0, 0.5).name
        'T0303'
        """
        return f"T{self.station:02d}{self.offset:02d}"


@dataclass(frozen=True)
class Shop:
    """One lathe set up for one material."""

    units: Units
    machine: Machine
    material: Material
    tools: tuple[Tool, ...]
