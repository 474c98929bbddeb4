"""The cautions of the trade that stand on every sheet (common practice, no source), and what to do about a refusal."""

import re
from collections.abc import Sequence

from extractor.finding import key_of
from rillwright.codes import REGISTER
from rillwright.jobsheet.view import FindingRow
from rillwright.records.record import Record

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
    "Chips are sharp and hot: clear them only when the spindle has stopped.",
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


def remedy(stop: str, accept: str = "") -> str:
    """What to do about a stop of a code; `accept` is what --accept takes where the user may answer for it.

    >>> remedy("units-conflict")
    'Give --units mm or --units in.'
    >>> "--accept off-outline@3,4," in remedy("off-outline", "off-outline@3,4")
    True
    """
    code = REGISTER.get(stop)
    words = code.remedy if code else "Put it right in the drawing or the shop file, then make it again."
    if accept:
        words += f" If you are sure and answer for it, make it again with --accept {accept}, and it is a caution."
    return words


MORE = {"Join", "Take", "Leave", "Add", "Send", "Say"}
TO_DO = frozenset(code.remedy.split()[0] for code in REGISTER.values()) | MORE
"""Words with which a sentence says what to do: those of the register, and some more that messages use."""

CLAUSES = re.compile(r"[;:] |, or |\. ")


def says_cure(message: str) -> bool:
    """True if a message itself says what to do, in a clause of its own.

    >>> says_cure("The outline does not close; join its lines there."), says_cure("Groove 1 is too narrow.")
    (True, False)
    """
    return any(clause.split(" ")[0].capitalize() in TO_DO for clause in CLAUSES.split(message)[1:] if clause)


def cure(stops: Sequence[FindingRow], accept: str = "") -> str:
    """What to do about stops of one code, where neither their sentences nor their choices say it already."""
    words = remedy(stops[0].code, accept)
    told = all(one.choices or says_cure(one.message) for one in stops)
    return words.removeprefix(remedy(stops[0].code)).strip() if told else words


def answered_by(record: Record) -> dict[str, str]:
    """By code what --accept takes for the stops of the drawing's reader over a part that it did recognise.

    That is the code alone where it stands for one stop, or for all of them together, else the key of each.
    """
    keys: dict[str, dict[str, None]] = {}
    for one in record.part.findings if record.part.length else ():
        if one.stops and one.code in REGISTER and REGISTER[one.code].acceptable:
            keys.setdefault(one.code, {})[key_of(one.code, one.at, one.groove)] = None
    return {code: code if len(each) == 1 or REGISTER[code].together else ",".join(each) for code, each in keys.items()}
