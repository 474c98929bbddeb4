"""Fifty faults of whole programs, on parts made for them: each an edit of the text, or another control named.

`metal` is True where the bar of samples shows the harm by itself: the part is off or a rapid meets metal. The others
say in `why` what is wrong with them. Kinds are those of turning, boring, threading and variables, and of what stands
round the grooves, from the trade (common practice, no source).
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from support.wholes.houses import HOUSES
from support.wholes.pieces import Piece

PLUG = Piece("plug", 44.0, 52.0, ((0.0, 34.0), (-22.0, 40.0)), ((-6.0, -9.0, 30.0), (-30.0, -38.0, 36.0)))
BUSH = Piece("bush", 52.0, 40.0, ((0.0, 36.0), (-18.0, 48.0)), ((-24.0, -28.5, 44.0),), 20.0, ((-8.0, -10.0, 22.4),))
STUD = Piece("stud", 34.0, 56.0, ((0.0, 20.0), (-20.0, 30.0)), ((-17.0, -20.0, 16.0), (-28.0, -31.0, 26.0)), pitch=1.5)

Edit = Callable[[str], str]


@dataclass(frozen=True)
class Fault:
    """One fault: the house and the piece it is made in, the edit, and what is wrong with it."""

    name: str
    house: str
    piece: Piece
    edit: Edit
    why: str
    metal: bool = True
    dialect: str = ""
    stock: bool = False

    @property
    def text(self) -> str:
        """The spoilt program."""
        right = HOUSES[self.house](self.piece)
        spoilt = self.edit(right)
        assert spoilt != right or self.dialect, self.name
        return spoilt


def sub(old: str, new: str, count: int = 1, after: str = "") -> Edit:
    """An edit: the first places (0: all) of a pattern changed, of those after another pattern where one is named."""

    def edit(text: str) -> str:
        start = re.search(after, text, re.M).end() if after else 0
        return text[:start] + re.sub(old, new, text[start:], count=count, flags=re.M)

    return edit


def both(*edits: Edit) -> Edit:
    """Several edits, one after another."""

    def edit(text: str) -> str:
        for one in edits:
            text = one(text)
        return text

    return edit


def groove_first(text: str) -> str:
    """The grooving tool's section put before the turning."""
    begin, end = text.index("(GROOVE"), text.index("(PART OFF)")
    turning = text.index("(ROUGH TURN)")
    return text[:turning] + text[begin:end] + text[turning:begin] + text[end:]


FAULTS = (
    Fault(
        "allowance of the roughing cut into the part",
        "alder",
        PLUG,
        sub("U0.4 W0.1", "U-0.4 W0.1"),
        "roughed below the shape",
    ),
    Fault("last block of the shape misnumbered", "alder", PLUG, sub("Q20", "Q200", 0), "no such block", metal=False),
    Fault("diameter of a step too small", "alder", PLUG, sub("X40. Z-55.5", "X39. Z-55.5"), "tapers into the land"),
    Fault(
        "diameter of a step too large",
        "alder",
        PLUG,
        both(sub("X34. Z-22.", "X35. Z-22."), sub("X34. Z-1.", "X35. Z-1.")),
        "land stands 1 too high",
    ),
    Fault("shoulder too far back", "alder", PLUG, sub("Z-22.", "Z-24.", 0), "next step shortened"),
    Fault("shoulder too near", "alder", PLUG, sub("Z-22.", "Z-20.", 0), "metal left before the shoulder"),
    Fault("finishing left out", "alder", PLUG, sub("G70 P10 Q20\n", ""), "the allowance is left"),
    Fault(
        "finishing along the wrong shape",
        "alder",
        BUSH,
        sub("G70 P10 Q20", "G70 P30 Q40"),
        "goes along the bore from outside",
    ),
    Fault("allowance of the bore with the wrong sign", "alder", BUSH, sub("U-0.3", "U0.3"), "bore 0.3 too large"),
    Fault(
        "bore cycle begun outside the bore", "alder", BUSH, sub("X17. Z2.", "X27. Z2."), "taken for an outside shape"
    ),
    Fault("bore turned too large", "alder", BUSH, sub("N30 G00 X20.", "N30 G00 X20.6"), "bore 0.6 too large"),
    Fault(
        "hole drilled beside the axis",
        "elder",
        BUSH,
        sub("g0x0.z5.", "g0x2.z5."),
        "a drill stands on the axis",
        metal=False,
    ),
    Fault(
        "drill not brought out", "cedar", BUSH, sub(r"(G01 Z-45\.\n)N\d+ G00 Z5\.\n", r"\1"), "leaves through the wall"
    ),
    Fault(
        "bar of the bore lifted the wrong way",
        "dogwood",
        BUSH,
        sub("G00 U-1.", "G00 U1."),
        "rapid into the bore's wall",
    ),
    Fault(
        "bar of the bore not brought out",
        "cedar",
        BUSH,
        sub(r"^N\d+ Z5\.\n", "", after="T0707"),
        "leaves through the wall",
    ),
    Fault(
        "finish begun behind the face",
        "alder",
        PLUG,
        sub("X46. Z2. M08", "X46. Z-2. M08", after="FINISH"),
        "rapid into the front land",
    ),
    Fault("parted in the part", "alder", PLUG, sub("Z-55.$", "Z-45."), "cuts the part in two", metal=False),
    Fault("parted at rapid", "birch", PLUG, sub("G01 X-1. F.05", "G00 X-1."), "rapid through the bar", metal=False),
    Fault(
        "turret indexed after roughing, beside the part",
        "alder",
        PLUG,
        sub(r"^N20 X46\.\nG28 U0\. W0\.", "N20 X46."),
        "tools swing into the part",
        metal=False,
        stock=True,
    ),
    Fault(
        "turret indexed in the bore",
        "dogwood",
        BUSH,
        sub(r"G00 U-1\.5\nZ4\.\nG28 U0 W0", "G00 U-1.5"),
        "the bar is in the bore",
    ),
    Fault(
        "turret indexed with the drill in the hole",
        "birch",
        BUSH,
        sub(r"(G01 Z-45\. F\.1\n)G00 Z5\.\nG00 X200\. Z120\.\n", r"\1"),
        "the drill is in the hole",
        metal=False,
    ),
    Fault("turned into the jaws", "alder", PLUG, sub(r"Z-55\.5", "Z-75.5", 0), "jaws begin at 72", metal=False),
    Fault(
        "rapid into the jaws",
        "dogwood",
        PLUG,
        sub(r"^Z-55\.", "Z-95.", after="PART OFF"),
        "jaws begin at 72",
        metal=False,
    ),
    Fault("thread far too deep", "birch", STUD, sub(r"^X18\.16\n", "X8.16\n"), "five deep"),
    Fault("lead of the thread a tenth", "birch", STUD, sub(r"F1\.5", "F.15"), "deeper than its lead", metal=False),
    Fault("thread on into the shoulder", "birch", STUD, sub(r"Z-18\.5", "Z-28.5"), "cuts the next step"),
    Fault(
        "thread under constant surface speed",
        "alder",
        STUD,
        sub("G97 S700", "G96 S120", after="THREAD"),
        "the lead wanders",
        metal=False,
    ),
    Fault("thread begun below its crest", "birch", STUD, sub(r"X24\. Z6\.", "X14. Z6."), "comes back through the part"),
    Fault("thread begun behind the face", "elder", STUD, sub(r"^z6\.", "z-6.", 0), "rapid into the land"),
    Fault("thread passed at rapid", "cedar", STUD, sub("G33 Z-18.5 F1.5", "G00 Z-18.5", 0), "rapid along the land"),
    Fault("faced into the part", "alder", PLUG, sub(r"^Z0\.\n", "Z-1.\n"), "the front land 1 shorter"),
    Fault("another zero for the grooves", "cedar", PLUG, sub("T0303", "G55 T0303"), "two zeros", metal=False),
    Fault(
        "zero first said for the grooves",
        "cedar",
        PLUG,
        both(sub(r"^N\d+ G54\n", ""), sub("T0303", "G54 T0303")),
        "said after cuts",
        metal=False,
    ),
    Fault(
        "old zero setting off by a digit",
        "birch",
        PLUG,
        sub(r"^G00 X200\. Z120\.\nT0100", "G50 X20. Z120.\nT0100"),
        "comes back to X200",
        metal=False,
    ),
    Fault(
        "clamp of the grooves off by a hundred",
        "alder",
        PLUG,
        sub("G50 S2000", "G50 S20", after="GROOVE 3"),
        "creeps",
        metal=False,
    ),
    Fault(
        "surface speed given as revolutions",
        "alder",
        STUD,
        sub("G96 S120", "G97 S120", after="GROOVE 3"),
        "7 m/min",
        metal=False,
    ),
    Fault(
        "surface speed of the grooves tenfold",
        "dogwood",
        PLUG,
        sub("G96 S115", "G96 S1150"),
        "burns the insert",
        metal=False,
    ),
    Fault(
        "program stop at the floor",
        "cedar",
        PLUG,
        sub(r"G04 X0\.2", "M00"),
        "the insert stands in the groove",
        metal=False,
    ),
    Fault(
        "head remark names another width",
        "alder",
        PLUG,
        sub(r"^G21 G99", "(T0303 GROOVING INSERT 4.0 WIDE)\nG21 G99"),
        "which insert is it",
        metal=False,
    ),
    Fault(
        "cycle of another control",
        "alder",
        PLUG,
        sub("$^", ""),
        "P and Q where I and K are read",
        metal=False,
        dialect="one-block",
    ),
    Fault(
        "boxes read as absolute places",
        "birch",
        PLUG,
        sub("$^", ""),
        "G90 is no cycle there",
        metal=False,
        dialect="plunge",
    ),
    Fault(
        "last peck of the loop not held",
        "dogwood",
        PLUG,
        both(sub(r"^IF \[#150 LT #131\] THEN #150=#131\n", ""), sub("#150-2\\.", "#150-2.3")),
        "goes below the floor",
    ),
    Fault(
        "plunges of the loop too far apart", "dogwood", PLUG, sub(r"#130=#130-2\.5", "#130=#130-3.6"), "ribs are left"
    ),
    Fault("variable never given", "dogwood", PLUG, sub(r"^#131=30\.\n", ""), "a floor of nothing", metal=False),
    Fault("loop without its step", "dogwood", PLUG, sub(r"^#150=#150-2\.\n", ""), "never ends", metal=False),
    Fault(
        "way to a block that isn't there", "dogwood", BUSH, sub("GOTO 100", "GOTO 110"), "no such block", metal=False
    ),
    Fault("facing allowance into the shoulders", "elder", PLUG, sub(r"w\.1f", "w-.6f"), "shoulders 0.6 too deep"),
    Fault("feed per minute left in force", "elder", BUSH, sub(r"^g99\n", ""), "0.08 a minute", metal=False),
    Fault(
        "taper of a box the wrong way",
        "birch",
        PLUG,
        sub(r"^X34\.6 Z-21\.9", "X34.6 Z-21.9 R-2."),
        "cuts a cone into the land",
    ),
    Fault("grooves before the turning", "alder", PLUG, groove_first, "plunges into the bar at rapid", stock=True),
)
