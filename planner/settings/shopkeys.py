"""Which keys a shop file knows, what each may hold, and its default where it is not given.

One row a key. A new one needs a field of the same name in `planner.shop` and its phrase in `planner.settings.meanings`.
Lengths and speeds are converted to the drawing's units; a default is a round figure in each system, never converted.
"""

from typing import Literal

from extractor.part import Units
from extractor.values import dataclass

Kind = Literal["length", "speed", "number", "whole", "flag", "text", "choice"]
Value = str | int | float | bool | None


@dataclass(frozen=True)
class ShopKey:
    """A key: what kind of value, its limits (for lengths and speeds in mm and m/min), its default in mm and in inch.

    `needed`: there is no sensible default.
    """

    name: str
    kind: Kind
    mm: Value = None
    inch: Value = None
    low: float = 0.0
    high: float = 100_000.0
    needed: bool = False
    choices: tuple[str, ...] = ()

    def default(self, units: Units) -> Value:
        """The value used where the key is not given."""
        return self.mm if units == "mm" or self.inch is None else self.inch


# Greater lengths are slips of the point: no lathe of a small shop takes 10 m.
LONGEST_KEY = 10_000.0


def _length(name: str, mm: float | None = None, inch: float | None = None, **limits: float) -> ShopKey:
    """A length with its defaults; up to 10 m unless said otherwise."""
    return ShopKey(name, "length", mm, inch, low=limits.get("low", 0.0), high=limits.get("high", LONGEST_KEY))


MACHINE = (
    ShopKey("dialect", "text", "two-block"),
    ShopKey("form", "choice", choices=("cycle", "plunges")),
    ShopKey("whole_numbers", "choice", choices=("increments", "units")),
    ShopKey("prefer", "choice", "time", choices=("time", "blocks", "tools")),
    ShopKey("retreat", "choice", "place", choices=("place", "reference")),
    ShopKey("work_offset", "whole", 0, low=0, high=6),
    ShopKey("block_numbers", "choice", choices=("none", "operation", "all")),
    ShopKey("optional_stops", "flag", False),
    ShopKey("remarks", "flag", False),
    ShopKey("numbers", "choice", choices=("fixed", "name", "count")),
    ShopKey("number_first", "whole", 1, low=1, high=9999),
    ShopKey("number_last", "whole", 9999, low=1, high=9999),
    _length("grip_diameter", 0.0, 0.0),
    _length("grip_length", 0.0, 0.0),
    ShopKey("max_rpm", "whole", 3000, low=10, high=100_000),
    _length("jaw_gap", 3.0, 0.125),
    _length("stick_out"),
    _length("clearance", 1.0, 0.05, low=0.1, high=50.0),
    _length("tolerance", 0.02, 0.001, low=0.001, high=0.5),
    _length("home_x", 200.0, 8.0, low=1.0),
    _length("home_z", 100.0, 4.0, low=1.0),
    ShopKey("coolant", "flag", True),
    _length("sharp_corner", 0.2, 0.008, high=5.0),
    _length("rapid_rate", 10_000.0, 400.0, low=100.0, high=200_000.0),
    ShopKey("tool_change", "number", 3.0, high=3600.0),
    ShopKey("power", "number", 0.0, high=1000.0),
    _length("tailstock", 0.0, 0.0),
    ShopKey("batch", "whole", 0, low=0, high=10_000_000),
    ShopKey("handling", "number", 0.0, high=86_400.0),
    _length("cycle_retract", 0.5, 0.02, high=50.0),
)
MATERIAL = (
    ShopKey("name", "text"),
    ShopKey("cutting_speed", "speed", low=1.0, high=3000.0),
    ShopKey("specific_cutting_force", "number", low=10.0, high=20_000.0),
    ShopKey("force_exponent", "number", low=0.0, high=0.9),
)
TOOL = (
    ShopKey("station", "whole", low=1, high=99, needed=True),
    ShopKey("offset", "whole", low=1, high=99),
    ShopKey("width", "length", low=0.05, high=100.0, needed=True),
    _length("corner_radius", high=50.0),
    _length("max_depth", low=0.05, high=1000.0),
    ShopKey("reference", "choice", "far", choices=("near", "far")),
    ShopKey("feed", "length", 0.08, 0.003, low=0.001, high=2.0),
    _length("peck", 1.0, 0.04, high=1000.0),
    _length("retract", high=50.0),
    ShopKey("where", "choice", "outside", choices=("outside", "inside", "face")),
    ShopKey("edge", "choice", "square", choices=("square", "vee", "round")),
    ShopKey("angle", "number", 0.0, high=179.0),
    ShopKey("cutting_speed", "speed", low=1.0, high=3000.0),
    _length("finish", 0.0, 0.0, high=2.0),
    _length("side_depth", 0.0, 0.0, high=100.0),
    ShopKey("dwell", "number", 0.0, high=20.0),
    ShopKey("last_feed", "number", 1.0, low=0.1, high=1.0),
    _length("holder_near", high=500.0),
    _length("holder_far", high=500.0),
    _length("min_bore", 0.0, 0.0),
    _length("face_min", 0.0, 0.0),
    _length("face_max", 0.0, 0.0),
    _length("overhang", 0.0, 0.0, high=1000.0),
    _length("blade_height", 0.0, 0.0, high=200.0),
    ShopKey("edge_life", "number", 0.0, high=10_000.0),
    ShopKey("spindle", "choice", choices=("cw", "ccw")),
)
TABLES: dict[str, tuple[ShopKey, ...]] = {"machine": MACHINE, "material": MATERIAL, "tools": TOOL}
