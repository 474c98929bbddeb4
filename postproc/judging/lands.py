"""The lands that a program turns and bores itself, held against the drawn ones: metal left on them, or taken from them.

Only stretches that a point has gone along are checked, short of their ends by what a nose radius may leave there. A
drawing's limits on a diameter that is no groove are not read, so the general tolerance of the fine class stands in:
within it the difference is reported, beyond it the program can't agree.
"""

from bisect import bisect_left
from collections.abc import Iterator

from extractor.part import Part
from extractor.side import INSIDE, OUTSIDE, Side
from planner.increment import Increments
from postproc.codes import ProgramCode
from postproc.cutting.metal import UNCUT, CutProfile, Metal
from postproc.cutting.stock import part_pieces
from postproc.cutting.turned import Turned
from postproc.reading.notebook import Notebook
from postproc.reading.rescale import MM_PER_INCH

# ISO 2768-1 class f: deviation of a size over 3 to 6, 30, 120, 400, 1000, 2000 mm.
FINE_UP_TO = (6.0, 30.0, 120.0, 400.0, 1000.0)
FINE = (0.05, 0.1, 0.15, 0.2, 0.3, 0.5)
# So much of each end of a land is left out: a nose radius stands there (common practice, no source).
ENDS = 0.8


def general(across: int, increments: Increments) -> int:
    """The general tolerance of a diameter in counts, by ISO 2768-1 class f.

    >>> general(30_000, Increments.of("mm")), general(30_001, Increments.of("mm"))
    (100, 150)
    """
    scale = 1.0 if increments.units == "mm" else MM_PER_INCH
    size = increments.length(abs(across)) * scale
    return increments.count(FINE[bisect_left(FINE_UP_TO, size)] / scale)


def land_findings(part: Part, turned: Turned, increments: Increments, touch: int, notebook: Notebook) -> None:
    """Note each land that the points leave different from the drawing, once a land and side."""
    for side in (OUTSIDE, INSIDE) if part.bore else (OUTSIDE,):
        inside, profile = side.hollow, turned.profile(side.hollow)
        for near, far, across in _lands(part, side, increments):
            worst = max(_differences(profile, near, far, across, inside), key=lambda d: abs(d[0]), default=None)
            if worst is not None and abs(worst[0]) > touch:
                _tell(worst, across, inside, increments, notebook)


def unturned_finding(part: Part, metal: Metal, increments: Increments, notebook: Notebook) -> None:
    """Note once where a bar still stands highest over the drawn lands: nothing in the program has turned it there."""
    over, across, z = 0, 0, 0
    for near, far, wanted in _lands(part, OUTSIDE, increments):
        stands = metal.profile().within(far, near)
        for k in range(len(stands)):
            if stands.line[k] == UNCUT and int(stands.end[k]) - wanted > over:
                over, across, z = int(stands.end[k]) - wanted, wanted, int(stands.u[k + 1])
    if over > general(across, increments):
        told = notebook.length
        message = (
            f"The outside is left at X{told(across + over)} at Z{told(z)}, where {told(across)} is drawn, and nothing "
            "in this program turns it: see that it is turned before or after."
        )
        notebook.caution(ProgramCode.LAND_LEFT, None, message)


def _tell(worst: tuple[int, int, int], across: int, inside: bool, increments: Increments, notebook: Notebook) -> None:
    """The finding about one land."""
    difference, line, z = worst
    left = (difference > 0) is not inside
    what = "bore" if inside else "land"
    message = (
        f"The {what} at Z{notebook.length(z)} is turned to X{notebook.length(across + difference)} and drawn as "
        f"{notebook.length(across)}: {notebook.length(abs(difference))} {'left on' if left else 'too much off'} the "
        "diameter"
    )
    if abs(difference) <= general(across, increments):
        notebook.caution(ProgramCode.LAND_DIFFERS, line, f"{message}; see that the drawing allows it.")
    elif left:
        notebook.stop(ProgramCode.LAND_LEFT, line, f"{message}; correct X, or finish it.")
    else:
        notebook.stop(ProgramCode.LAND_CUT, line, f"{message}; correct X, or finish it.")


def _lands(part: Part, side: Side, increments: Increments) -> Iterator[tuple[int, int, int]]:
    """The cylinders of a side with its grooves filled, their ends left out: near z, far z, diameter."""
    ends = increments.count(ENDS if increments.units == "mm" else ENDS / MM_PER_INCH)
    for far, height, near, other in part_pieces(part, increments, side):
        if height == other and far >= increments.count(-part.length) and near - far > 2 * ends:
            yield near - ends, far + ends, side.sign * height


def _differences(profile: CutProfile, near: int, far: int, across: int, inside: bool) -> Iterator[tuple[int, int, int]]:
    """How far off the diameter is at the ends of each cut piece in a stretch, with its line and place."""
    part = profile.within(far, near)
    sign = -1 if inside else 1
    for k in range(len(part)):
        if part.line[k] != UNCUT:
            for height, z in ((part.start[k], part.u[k]), (part.end[k], part.u[k + 1])):
                yield sign * int(height) - across, int(part.line[k]), int(z)
