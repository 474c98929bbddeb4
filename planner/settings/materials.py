"""Families of materials with the figures to start from, as `materials.toml` has them, and surface speeds in inch."""

from collections.abc import Sequence
from typing import Literal

from extractor.shipped import shipped
from extractor.values import dataclass
from planner.cutting import METRE_PER_FOOT

Group = Literal["P", "M", "K", "N", "S", "H", "plastics"]
FEET_PER_METRE = 1 / METRE_PER_FOOT
FEET_STEP = 5.0
"""Speeds in ft/min are told in such steps."""


@dataclass(frozen=True, kw_only=True)
class Family:
    """Materials that are cut alike.

    `kind`: what a plain word may mean, as "steel". `slow`, `speed`, `fast`: least, usual and greatest surface speed of
    a groove in m/min. `kc11` in N/mm2 with its exponent `mc`. `feed`: share of an insert's usual feed in steel. `by`:
    sources of speed, force and feed. `names`: materials parted by a bar, the names of one by blanks.
    """

    key: str
    kind: str
    group: Group
    slow: float
    speed: float
    fast: float
    kc11: float
    mc: float
    feed: float = 1.0
    by: Sequence[str] = ("grooving", "vdi", "grooving")
    names: str = ""

    @property
    def materials(self) -> list[tuple[str, ...]]:
        """The names of each material that has a row."""
        return [tuple(row.split()) for row in self.names.split("|") if row.strip()]


MATERIALS = shipped("planner.settings", "materials")
SOURCES: dict[str, str] = MATERIALS["sources"]
"""Where a figure comes from; each family names its three."""
FAMILIES = {key: Family(key=key, **row) for key, row in MATERIALS["families"].items()}
DEFAULT_NAME = "C45 steel"
DEFAULT = FAMILIES["medium carbon steel"]


def surface_speed(metres: float, inch: bool) -> float:
    """A speed in m/min as it is, or in ft/min rounded to 5.

    >>> surface_speed(120.0, True)
    395.0
    """
    return FEET_STEP * round(metres * FEET_PER_METRE / FEET_STEP) if inch else float(metres)
