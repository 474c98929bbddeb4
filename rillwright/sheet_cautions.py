"""The cautions of the trade that stand on every sheet (common practice, no source), and what to do about a refusal."""

from collections.abc import Mapping
from typing import Any

FIRST = "The machine's manual, your shop's rules and a qualified setter come before anything on this sheet."

PROVE_OUT = (
    "Read the whole program against the drawing before it goes into the machine.",
    "Run it on the control's graphics, if it has them.",
    "Check work offset, tool offset and the edge of the insert that Z is set to.",
    "Check clamping, stick-out and that nothing turns into the turret, the tailstock or the guard.",
    "Dry run above the part first, with the work offset raised well clear of it.",
    "Then single block, rapid override low, one hand on feed hold.",
    "Guards and door shut whenever the spindle turns; never reach in, never gauge a turning part.",
    "Stop when anything differs from this sheet, and find out why before going on.",
    "Measure the first piece, every row of the inspection list, before the second is cut.",
    "Chips and edges are sharp and hot: hook and gloves off the turning part, eyes protected.",
)

STARTING_VALUES = "Speeds and feeds are starting values; watch chip, sound and insert, and trim them at the machine."

ABOVE_PROGRAM = (
    "Dry run above the part, single block, rapid low, guards shut. Checked in simulation only: "
    "machine, offsets and clamping are for you to check."
)


def remedy(finding: Mapping[str, Any], accepted: bool = True) -> str:
    """What to do about a stop, beyond what its sentence says already.

    >>> remedy({"code": "units-unknown"})
    'Make it again with --units mm or --units in.'
    """
    code = str(finding.get("code") or "")
    for start, words in REMEDIES:
        if code.startswith(start):
            return words
    return "Put it right in the drawing or the shop file, then make it again."


REMEDIES = (
    ("units", "Make it again with --units mm or --units in."),
    ("scale", "Make it again with --scale R, R being how many times its true size the view is drawn."),
    ("internal", "Send the drawing and the record to whoever looks after this tool; write this program by hand."),
)
"""What to do by the beginning of a finding's code."""
