"""Families of materials with the figures to start from: cutting speed for grooving, specific force, share of the feed.

Groups are those of ISO 513, P M K N S H, and one of our own for plastics, which ISO 513 counts under N. All figures are
starting values: the insert's own data sheet comes first, and the plan says so wherever it uses one.
"""

from typing import Literal

from extractor.values import dataclass
from planner.cutting import METRE_PER_FOOT

Group = Literal["P", "M", "K", "N", "S", "H", "plastics"]
FEET_PER_METRE = 1 / METRE_PER_FOOT
FEET_STEP = 5.0
"""Speeds in ft/min are told in such steps."""
SOURCES = {
    "grooving": "catalogue of grooving inserts of 2016, coated carbide; another holder's of 2021 agrees",
    "vdi": "groups of VDI 3323 as printed in tool catalogues of 2017 and 2022",
    "vdi 2017": "VDI 3323 in a catalogue of 2017; that of 2022 has a third less, so this is the careful figure",
    "turning": "starting values for turning; in grooving the lower part of them, from memory",
    "memory": "common practice, from memory",
}
"""Where a figure comes from; each row names its three."""


@dataclass(frozen=True, kw_only=True)
class Family:
    """Materials that are cut alike.

    `slow`, `speed`, `fast`: least, usual and greatest surface speed of a groove in m/min. `kc11` in N/mm2 with its
    exponent `mc`. `feed`: share of an insert's usual feed in steel. `by`: sources of speed, force and feed.
    """

    key: str
    group: Group
    slow: float
    speed: float
    fast: float
    kc11: float
    mc: float
    feed: float = 1.0
    by: tuple[str, str, str] = ("grooving", "vdi", "grooving")


FAMILIES = {
    family.key: family
    for family in (
        Family(key="low carbon steel", group="P", slow=80, speed=120, fast=200, kc11=1500, mc=0.22),
        Family(key="free cutting steel", group="P", slow=80, speed=140, fast=200, kc11=1500, mc=0.22),
        Family(key="medium carbon steel", group="P", slow=80, speed=120, fast=200, kc11=1675, mc=0.24),
        Family(key="high carbon steel", group="P", slow=80, speed=100, fast=180, kc11=1900, mc=0.24),
        Family(key="low alloy steel", group="P", slow=70, speed=100, fast=180, kc11=1775, mc=0.24),
        Family(key="tool steel", group="P", slow=60, speed=80, fast=150, kc11=2450, mc=0.23),
        # ISO 513 has M for austenitic structure, duplex included; most catalogues count the others to P.
        Family(key="martensitic stainless steel", group="P", slow=60, speed=90, fast=150, kc11=1875, mc=0.21, feed=0.8),
        Family(key="austenitic stainless steel", group="M", slow=60, speed=90, fast=150, kc11=2150, mc=0.20, feed=0.8),
        Family(key="duplex stainless steel", group="M", slow=60, speed=70, fast=120, kc11=2150, mc=0.20, feed=0.8),
        Family(key="grey cast iron", group="K", slow=70, speed=100, fast=200, kc11=1350, mc=0.28, feed=1.2),
        Family(key="nodular cast iron", group="K", slow=70, speed=90, fast=180, kc11=1350, mc=0.28, feed=1.2),
        Family(key="malleable cast iron", group="K", slow=70, speed=90, fast=180, kc11=1420, mc=0.30, feed=1.2),
        Family(key="wrought aluminium", group="N", slow=200, speed=250, fast=500, kc11=800, mc=0.25, feed=1.2),
        Family(key="cast aluminium", group="N", slow=150, speed=220, fast=500, kc11=750, mc=0.25, feed=1.2),
        Family(key="brass", group="N", slow=100, speed=180, fast=300, kc11=700, mc=0.27),
        Family(key="bronze or copper", group="N", slow=80, speed=130, fast=250, kc11=700, mc=0.27),
        Family(
            key="titanium", group="S", slow=20, speed=40, fast=70, kc11=2110, mc=0.22, feed=0.8,
            by=("turning", "vdi 2017", "memory"),
        ),
        Family(
            key="nickel or cobalt alloy", group="S", slow=15, speed=25, fast=61, kc11=3300, mc=0.24, feed=0.7,
            by=("turning", "vdi", "memory"),
        ),
        Family(
            key="heat-resistant iron alloy", group="S", slow=20, speed=40, fast=101, kc11=3100, mc=0.24, feed=0.7,
            by=("turning", "vdi", "memory"),
        ),
        # VDI 3323 prints no exponent for hardened metal: that of quenched steel is taken.
        Family(
            key="hardened steel or iron", group="H", slow=20, speed=40, fast=80, kc11=4700, mc=0.24, feed=0.5,
            by=("memory", "vdi", "memory"),
        ),
        Family(
            key="plastics", group="plastics", slow=80, speed=200, fast=500, kc11=200, mc=0.25, feed=1.2,
            by=("memory", "memory", "memory"),
        ),
    )
}  # fmt: skip
DEFAULT_NAME = "C45 steel"
DEFAULT = FAMILIES["medium carbon steel"]


def surface_speed(metres: float, inch: bool) -> float:
    """A speed in m/min as it is, or in ft/min rounded to 5.

    >>> surface_speed(120.0, True)
    395.0
    """
    return FEET_STEP * round(metres * FEET_PER_METRE / FEET_STEP) if inch else float(metres)
