"""The shop: machine, material and tools as the shop file gives them, already in the drawing's units.

Values only; `planner.settings.shopfile` reads the TOML text. Every length is in `units`. A default of 0 or None below
means "not given": what depends on it is then not checked, or worked out with the figure named beside it.
"""

from dataclasses import field
from functools import cached_property
from typing import Literal

from extractor.part import Units
from extractor.side import SIDES, Side, Where
from extractor.values import dataclass
from planner.increment import Increments

Reference = Literal["near", "far"]
Edge = Literal["square", "vee", "round"]
WholeNumbers = Literal["increments", "units"]
Prefer = Literal["time", "blocks", "tools"]
Sense = Literal["cw", "ccw"]
Retreat = Literal["place", "reference"]
# Deepest sideways cut as a share of the width where none is given (tool catalogues: 0.75 to 0.8).
SIDE_SHARE = 0.75
# Included angle of a vee whose angle nobody told, degrees (the usual one of grooving and threading inserts).
USUAL_ANGLE = 60.0


@dataclass(frozen=True, kw_only=True)
class Machine:
    """The lathe: control dialect, spindle limit, room at the chuck, and how near it starts to the work.

    A field is the key of that name under [machine], as `settings/keys.toml` explains it. `home_x` is a diameter;
    `clearance` and `cycle_retract` are radial, and so is `rapid_rate` on X. None: nobody said, and the dialect's own
    way is taken, or what depends on it is not checked.
    """

    dialect: str
    max_rpm: int
    jaw_gap: float
    stick_out: float | None
    clearance: float
    tolerance: float
    home_x: float
    home_z: float
    coolant: bool = True
    sharp_corner: float = 0.0
    rapid_rate: float = 0.0
    tool_change: float = 3.0
    power: float = 0.0
    tailstock: float = 0.0
    batch: int = 0
    handling: float = 0.0
    cycle_retract: float = 0.0
    form: Literal["cycle", "plunges"] | None = None
    whole_numbers: WholeNumbers | None = None
    prefer: Prefer = "time"
    retreat: Retreat = "place"
    work_offset: int = 0
    grip_diameter: float = 0.0
    grip_length: float = 0.0
    block_numbers: Literal["none", "operation", "all"] | None = None
    optional_stops: bool = False
    remarks: bool = False
    numbers: Literal["fixed", "name", "count"] | None = None
    number_first: int = 1
    number_last: int = 9999


@dataclass(frozen=True)
class Material:
    """What is cut: `cutting_speed` in m/min or ft/min, kc1.1 in N/mm2 and its exponent mc (no unit).

    `group`: that of ISO 513, "plastics", or "" where the name is not known. `fastest`: the greatest surface speed at
    which such materials are grooved, 0 where that is not known.
    """

    name: str
    cutting_speed: float
    specific_cutting_force: float
    force_exponent: float = 0.25
    group: str = ""
    fastest: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Told:
    """What the shop file itself says of the material, None for what it leaves open; units as in `Material`."""

    name: str | None = None
    cutting_speed: float | None = None
    specific_cutting_force: float | None = None
    force_exponent: float | None = None

    @property
    def enough(self) -> bool:
        """True if no figure of a table is needed: speed and force are both given."""
        return self.cutting_speed is not None and self.specific_cutting_force is not None


@dataclass(frozen=True, kw_only=True)
class Tool:
    """A grooving insert in its turret station; ISO 13399 symbols: CW width, RE corner radius, CDX max_depth.

    A field is the key of that name under [[tools]], as `settings/keys.toml` explains it. Of a face tool "near" is the
    outer edge and "far" the inner one. `angle` is the included one. `holder_near`, `holder_far`: how far the holder's
    body reaches beyond the insert, above the reach; None unknown. `last_feed` holds in the last width of a plunge
    deeper than three widths. `spindle`: the sense in which the work turns for it, by the hand of the tool and the side
    of the turret; None for the usual one, clockwise as the control's manual has it (M03).
    """

    station: int
    offset: int
    width: float
    corner_radius: float
    max_depth: float
    reference: Reference
    feed: float
    peck: float
    retract: float
    where: Where = "outside"
    edge: Edge = "square"
    angle: float = 0.0
    cutting_speed: float = 0.0
    finish: float = 0.0
    side_depth: float = 0.0
    dwell: float = 0.0
    last_feed: float = 1.0
    holder_near: float | None = None
    holder_far: float | None = None
    min_bore: float = 0.0
    face_min: float = 0.0
    face_max: float = 0.0
    overhang: float = 0.0
    blade_height: float = 0.0
    edge_life: float = 0.0
    spindle: Sense | None = None

    @property
    def side(self) -> Side:
        """The side that it cuts."""
        return SIDES[self.where]

    @cached_property
    def name(self) -> str:
        """The tool word's usual spelling, station then offset.

        >>> cuts = dict(width=3.0, corner_radius=0.2, max_depth=12.0, reference="far", feed=0.08, peck=1.0, retract=0.5)
        >>> Tool(station=3, offset=3, **cuts).name
        'T0303'
        """
        return f"T{self.station:02d}{self.offset:02d}"


ANY_FEED = 0.1
"""The feed of an insert that stands in no shop file: nothing is cut with it."""


def shaped(
    *, where: Where, width: float, corner_radius: float, max_depth: float, edge: Edge = "square", angle: float = 0.0
) -> Tool:
    """An insert of this shape that no shop file gives, to ask what it would make; its station and feed mean nothing."""
    return Tool(
        station=1,
        offset=1,
        width=width,
        corner_radius=corner_radius,
        max_depth=max_depth,
        reference="far",
        feed=ANY_FEED,
        peck=0.0,
        retract=0.0,
        where=where,
        edge=edge,
        angle=angle,
    )


@dataclass(frozen=True)
class Shop:
    """One lathe set up for one material.

    `built_in` names what the shop file did not give and the built-in figures stand in for: "tools", "material".
    `unsaid` names what was filled in, so that a program isn't refused for it, or the plan says so: "max_rpm",
    "cycle_retract", "material" (its name), "T0303 max_depth". `grid`: the steps that the control takes for X and Z,
    None for the usual ones. `told`: what the file says of the material, None for a
    shop whose material is settled (`planner.settings.settled`).
    """

    units: Units
    machine: Machine
    material: Material
    tools: tuple[Tool, ...]
    built_in: frozenset[str] = field(default_factory=frozenset)
    unsaid: frozenset[str] = field(default_factory=frozenset)
    told: Told | None = None
    grid: Increments | None = None

    @property
    def increments(self) -> Increments:
        """The steps in which a program for this shop's control is planned."""
        return self.grid or Increments.of(self.units)
