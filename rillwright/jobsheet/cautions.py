"""The cautions of the trade that stand on every sheet (common practice, no source), and what to do about a refusal."""

from collections.abc import Mapping
from typing import Any

FIRST = "The machine's manual, your shop's rules and a qualified setter come before anything on this sheet."

PROVE_OUT = (
    "Read the whole program against the drawing before it goes into the machine.",
    "Run it on the control's graphics, if it has them.",
    "Check work offset, tool offset and the edge of the insert that Z is set to.",
    "Check clamping, stick-out and that nothing turns into the turret, the tailstock or the guard.",
    "Dry run in the air first, with the work offset shifted toward +Z, well clear of the part.",
    "Then single block, rapid override low, one hand on feed hold.",
    "Guards and door shut whenever the spindle turns; never reach in, never gauge a turning part.",
    "Stop when anything differs from this sheet, and find out why before going on.",
    "Measure the first piece, every row of the inspection list, before the second is cut.",
    "Chips are sharp and hot: clear them only when the spindle stands.",
    "No gloves, rag or loose sleeve near a turning part; eyes protected.",
    "Speeds and feeds are starting values; watch chip, sound and insert, and trim them at the machine.",
)

BY_HAND = (
    "What was recognised here is for finding the fault, not for cutting from.",
    "Hold a program of your own against the drawing with the command compare, and prove it out as any other.",
)
"""On the sheet of a refused drawing, where there is no program to be proved out."""

ABOVE_PROGRAM = (
    "Dry run above the part, single block, rapid low, guards shut. Checked in simulation only: "
    "machine, offsets and clamping are for you to check."
)


AGAIN = "then make it again."
REMEDIES = {
    "units-unknown": "Make it again with --units mm or --units in.",
    "units-conflict": "Make it again with --units mm or --units in.",
    "sheet-scale": "Make it again with --scale R, R being how many times its true size the view is drawn.",
    "several-parts": "Make it again with --at X,Y, a point on the view that is meant.",
    "front-impossible": "Make it again with the --front that the view has: right and left, or top and bottom.",
    "outline-open": f"Close the outline in the drawing where the ring is, {AGAIN}",
    "no-turned-part": f"Draw the outline closed and its centre line with it, {AGAIN}",
    "no-grooves": "If there should be one, look whether its lines lie on a layer that is frozen or doesn't plot.",
    "drawing-unreadable": f"Save it anew as a DXF from the CAD system, {AGAIN}",
    "three-d-only": f"Have the CAD system draw a 2D view of the part, {AGAIN}",
    "groove-too-narrow": f"Put an insert of the width named into the shop file, {AGAIN}",
    "groove-too-deep": f"Put an insert of the reach named into the shop file, {AGAIN}",
    "corner-too-sharp": f"Put an insert with a smaller corner radius into the shop file, {AGAIN}",
    "no-tool": f"Put a tool for such grooves into the shop file, {AGAIN}",
    "jaws": f"Clamp it further out, put the new stick_out into the shop file, {AGAIN}",
    "power": f"Lower feed or cutting speed in the shop file, {AGAIN}",
    "dialect-cannot-say": "Make it again in another dialect that your control reads: --dialect NAME.",
    "internal-fault": "Keep the drawing and this record for whoever looks after the tool; program this part by hand.",
    "verification-failed": "Keep the drawing and this record for whoever looks after the tool; program it by hand.",
}
"""What to do by a finding's code, where its sentence does not say it all."""


def remedy(finding: Mapping[str, Any], acceptable: bool = False) -> str:
    """What to do about a stop; `acceptable` where the user may answer for it, the part being known.

    >>> remedy({"code": "units-unknown"})
    'Make it again with --units mm or --units in.'
    >>> "--accept dimension-contradicts" in remedy({"code": "dimension-contradicts"}, acceptable=True)
    True
    """
    code = str(finding.get("code") or "")
    words = REMEDIES.get(code, f"Put it right in the drawing or the shop file, {AGAIN}")
    if acceptable and not code.startswith(("units", "sheet-scale")):
        words += f" If you are sure and answer for it, make it again with --accept {code}, and it is a caution."
    return words


def acceptable_codes(record: Mapping[str, Any]) -> frozenset[str]:
    """Codes of the stops that the drawing's reader raised over a part it did recognise."""
    part = record.get("part") or {}
    if not part.get("length"):
        return frozenset()
    return frozenset(str(f["code"]) for f in part.get("findings") or [] if f["level"] == "stop")
