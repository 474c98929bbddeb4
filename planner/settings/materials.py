"""Built-in starting values for common materials: cutting speed for grooving, specific cutting force.

kc1.1 and mc: groups of VDI 3323 as printed in a tool catalogue (rake, wear and narrow grooves move them by 20 to
30 %). Cutting speeds: common practice for coated carbide inserts in grooving, no source; about 70 % of turning.
All are starting values: the insert's own data sheet comes first, and the plan says so wherever it uses one.
"""

import re
from dataclasses import dataclass

FEET_PER_METRE = 1 / 0.3048


@dataclass(frozen=True)
class Starting:
    """One row of the table: words that name the material, m/min, kc1.1 in N/mm2, mc."""

    words: tuple[str, ...]
    cutting_speed: float
    kc11: float
    mc: float


TABLE = (
    Starting(("42crmo4", "4140", "1.7225"), 100.0, 1775.0, 0.24),
    Starting(("16mncr5", "case hardening steel"), 110.0, 1775.0, 0.24),
    Starting(("c45", "1045", "c60", "st60", "1.0503"), 120.0, 1675.0, 0.24),
    Starting(("stainless", "304", "316", "1.4301", "1.4404", "austenitic"), 90.0, 2150.0, 0.20),
    Starting(("titanium", "ti6al4v"), 40.0, 2110.0, 0.22),
    Starting(("cast iron", "gjl", "grey iron", "gray iron"), 90.0, 1150.0, 0.20),
    Starting(("aluminium", "aluminum", "almgsi", "6061", "6082", "7075"), 250.0, 800.0, 0.25),
    Starting(("brass", "cuzn", "bronze"), 180.0, 700.0, 0.27),
    Starting(("11smn30", "free cutting", "1.0715", "12l14"), 140.0, 1500.0, 0.22),
    Starting(("plastic", "pom", "nylon", "peek", "ptfe"), 200.0, 200.0, 0.25),
    Starting(("steel", "stahl", "s235", "s355", "1018", "1020"), 120.0, 1500.0, 0.22),
)
DEFAULT = TABLE[2]


def starting_values(name: str) -> Starting | None:
    """The row whose word stands in the material's name; the first that does, special steels before plain ones.

    >>> starting_values("Stainless steel 1.4301").cutting_speed
    90.0
    >>> starting_values("unobtainium") is None
    True
    """
    low = name.lower()
    return next((row for row in TABLE if any(_stands_in(word, low) for word in row.words)), None)


def _stands_in(word: str, name: str) -> bool:
    """True if the word stands free in the name, so that "304" isn't found in "13045"."""
    return re.search(rf"(?<![a-z0-9.]){re.escape(word)}(?![0-9])", name) is not None


def surface_speed(row: Starting, inch: bool) -> float:
    """The row's speed in m/min, or in ft/min rounded to 5.

    >>> surface_speed(DEFAULT, True)
    395.0
    """
    return 5.0 * round(row.cutting_speed * FEET_PER_METRE / 5) if inch else row.cutting_speed
