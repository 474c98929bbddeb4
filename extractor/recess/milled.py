"""What is milled or drilled and looks turned, told by the edges that a ring shows and it does not, or the reverse.

Seen from outside, a ring has a line right across at each of its walls, and one in a face is not seen at all. Flats seen
edge-on have no such lines, and a slot across a face is open to the viewer. A hole ends in the point of its drill.
"""

import math
from collections.abc import Sequence

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.geometry.profile import Profile
from extractor.recess import remarks
from extractor.recess.crossings import flats, upright_edges
from extractor.recess.pairing import STRAIGHT
from extractor.recess.shapes import Measured
from extractor.recess.sides import HalfProfile
from extractor.recess.turnings import FaceRecess
from extractor.sheet import Floats
from extractor.values import dataclass
from extractor.viewing.outline import Folded

EDGES = 2
"""So many lines right across within a view say that its edges are drawn: one may be a mark or the end of a thread."""

WRENCH = 0.06
"""Width of flats as a share of the diameter that they are milled into, at least: a wrench must hold there."""

POINT = (math.radians(58.0), math.radians(71.0))
"""Half the angle of a drill's point: 118 degrees (ISO 235, from memory), drawn as 120, up to 140 for hard metal."""


BOTH = 2
"""A point has two sides."""


CROSSED = "Two lines cross from wall to wall, as over a flat, in"
UNLINED = "No line runs across at the walls of"
"""What is told of flats so marked, and of a recess without the edges of a ring."""


@dataclass(frozen=True)
class MayBeFlats:
    """A recess that may be flats: `marked` by what, in words, or no edges of a ring are drawn there.

    `sure`: it is flats unless the sheet sizes it as a ring.
    """

    recess: Measured
    marked: str = ""
    sure: bool = False


def may_be_flats(folded: Folded, sides: Sequence[HalfProfile], row: Sequence[Measured]) -> list[MayBeFlats]:
    """The recesses that flats are marked over, and those without edges; `sides`: the halves seen from outside."""
    crossed = [MayBeFlats(m, CROSSED, sure) for m, sure in flats(folded, row)]
    others = [m for m in row if not any(one.recess is m for one in crossed)]
    return [*crossed, *(MayBeFlats(m) for m in edgeless(folded, sides, others))]


def edgeless(folded: Folded, sides: Sequence[HalfProfile], row: Sequence[Measured]) -> list[Measured]:
    """The straight recesses of a view from outside from whose walls no line runs on inward, as from all others.

    Lines to the axis stand elsewhere at no fewer places than lack them: who draws few may leave out those of a groove.
    Nor is one of flats that is too narrow for a wrench, or whose like stands beside it with lines.
    """
    lines, near = [_within(folded, s) for s in sides], folded.close
    elsewhere = min((_across(rows, near) for rows in lines), default=0)
    if elsewhere < EDGES:
        return []
    every = [_rising(np.concatenate([rows, _hidden(folded, s)])) for rows, s in zip(lines, sides, strict=True)]
    walled = [[_walled(rows, m, near) for rows in every] for m in row]
    lacking = [m for m, w in zip(row, walled, strict=True) if m.shape in STRAIGHT and not any(map(any, w))]
    if not lacking:
        return []
    ringed = [(m, w) for m, w in zip(row, walled, strict=True) if m.shape not in STRAIGHT or any(map(any, w))]
    bare = [m for m in lacking if m.width >= WRENCH * 2 * m.mouth and not any(_alike(m, n, near) for n, _ in ringed)]
    return bare if all(all(map(all, w)) for _, w in ringed) and elsewhere >= max(EDGES, 2 * len(bare)) else []


def _rising(lines: Floats) -> Floats:
    """Lines in the order of their places."""
    return lines[np.argsort(lines[:, 0], kind="stable")]


def _alike(one: Measured, other: Measured, near: float) -> bool:
    """True for recesses of one width, mouth and floor."""
    sizes = zip((one.width, one.mouth, one.floor), (other.width, other.mouth, other.floor), strict=True)
    return all(abs(a - b) <= 2 * near for a, b in sizes)


def _within(folded: Folded, side: HalfProfile) -> Floats:
    """The lines of a half square to the axis, but for those at its ends and at holes: z, inner and outer radius."""
    lines, near = upright_edges(folded, side.sign), folded.close
    (front, _), (back, _) = side.turned.line[0], side.turned.line[-1]
    kept = (lines[:, 0] > min(front, back) + near) & (lines[:, 0] < max(front, back) - near)
    for low, high in side.seen.covered:
        kept &= (lines[:, 0] < low - near) | (lines[:, 0] > high + near)
    return lines[kept]


def _hidden(folded: Folded, side: HalfProfile) -> Floats:
    """The same of hidden lines: a section hides the edges of a ring that lie behind its metal."""
    hidden = folded.hidden.ends[folded.hidden.bulge == 0] * (1, side.sign, 1, side.sign) if folded.hidden else ()
    rows = [(a, *sorted((max(b, 0.0), max(d, 0.0)))) for a, b, c, d in hidden if abs(a - c) <= folded.fine]
    return np.array(rows).reshape(-1, 3)


def _across(lines: Floats, near: float) -> int:
    """At how many places along z lines run to the axis."""
    return len(np.unique(np.round(lines[lines[:, 1] <= near, 0] / near)))


def _walled(rising: Floats, m: Measured, near: float) -> tuple[bool, bool]:
    """Whether lines, rising by place, run on inward from a recess at its near wall and at its far one, or its rims."""
    far, there = sorted((m.z_far - m.chamfers[1], m.z_far + m.corners[1]))
    here, rim = sorted((m.z_near - m.corners[0], m.z_near + m.chamfers[0]))
    from_far, to_there, from_here, to_rim = np.searchsorted(
        rising[:, 0], (far - near, np.nextafter(there + near, np.inf), here - near, np.nextafter(rim + near, np.inf))
    )
    least = m.floor - max(m.corners) - near

    def onward(lines: Floats) -> bool:
        """Whether one of some lines goes on below the floor."""
        return bool(((lines[:, 1] < m.floor - near) & (lines[:, 2] >= least)).any())

    return onward(rising[from_here:to_rim]), onward(rising[from_far:to_there])


def told_flats(folded: Folded, sign: int, one: MayBeFlats, *, ring: str = "", asked: bool = False) -> Finding:
    """What is said of a recess that may be flats: a caution, or a stop where it is `asked`; `ring`: why it is none."""
    words = f"{one.marked or UNLINED} the recess {{wide}} wide at {{place}}"
    if asked:
        words += "" if one.marked else ", as lines do elsewhere in the view: two flats look so"
        words += "; use --grooved to treat it as a groove, or accept it as flats, which are left out."
        return remarks.wide(folded, sign, one.recess, Level.STOP, DrawingCode.MILLED_FLATS, words)
    words += f": it was read as a groove, {ring}." if ring else ": it was read as flats, not as a groove."
    return remarks.wide(folded, sign, one.recess, Level.CAUTION, DrawingCode.MILLED_FLATS, words)


def seen_from_outside(folded: Folded, side: HalfProfile) -> bool:
    """True for a half whose edges run to the axis within it, as no half in section shows them."""
    return _across(_within(folded, side), folded.close) >= EDGES


def pointed(f: FaceRecess, profile: Profile, near: float) -> bool:
    """True for a recess in a face whose floor is the point of a drill, both of its sides as steep."""
    middle, half = (f.outer + f.inner) / 2, (f.outer - f.inner) / 2
    tip, feet = (f.z_floor, middle), []
    for p in (p for p in profile if not p.bulge):
        near_tip = [math.dist(end, tip) <= near for end in p.ends]
        feet += [p.ends[near_tip.index(False)]] if len({*near_tip}) == len(p.ends) else []
    leans = [math.atan2(abs(r - middle), abs(z - f.z_floor)) for z, r in feet]
    full = all(abs(abs(r - middle) - half) <= near for _, r in feet)
    return len(feet) == BOTH and full and all(POINT[0] <= lean <= POINT[1] for lean in leans)


def told_slot(folded: Folded, sign: int, f: FaceRecess) -> Finding:
    """The caution for a recess in a face that one half alone shows, and that from outside."""
    spot, place = remarks.placed(folded, sign, (f.z_face, (f.outer + f.inner) / 2))
    words = (
        f"The recess {{:.4g}} wide in the face at {place} is open to the viewer and stands on one side of the axis "
        "only: it was read as a slot or a notch, not as a groove; check whether that is meant."
    )
    return Finding.measured(Level.CAUTION, DrawingCode.ONE_SIDED, words, (f.outer - f.inner,), spot)


def told_shut(folded: Folded, sign: int, m: Measured, *, stops: bool) -> Finding:
    """What is said of a recess in a bore of hidden lines over which its line runs on: a stop where none is open."""
    words = (
        "The hidden line of the bore runs on over the recess {wide} wide at {place}, as it does where a flat lies "
        "behind it: it was not read as a groove"
    )
    if stops:
        words += "; leave the line out there if it is one, or accept it if it is none."
        return remarks.wide(folded, sign, m, Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words)
    return remarks.wide(folded, sign, m, Level.CAUTION, DrawingCode.MOUTH_LINE, f"{words}.")


def told_overrun(folded: Folded, sign: int, m: Measured) -> Finding:
    """The stop for a recess in a bore of hidden lines whose floor runs on past its wall to the end of the bore."""
    words = (
        "The hidden line of the floor of the recess {wide} wide in the bore at {place} runs on past its wall, as the "
        "line of the bore does where a hole stands before the axis: it was not read as a groove; draw the part in "
        "section, or accept it if the bore is as wide as that from its end."
    )
    return remarks.wide(folded, sign, m, Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words)


def told_hole(folded: Folded, sign: int, f: FaceRecess, why: str) -> Finding:
    """A hole beside the axis, which a section or hidden lines show as they show a groove in the face."""
    spot, words = remarks.placed(folded, sign, (f.z_face, (f.outer + f.inner) / 2))
    return Finding.measured(
        Level.CAUTION,
        DrawingCode.CROSS_HOLE,
        f"The recess {{:.4g}} wide in the face at {words} {why}: it was read as a hole beside the axis, not as a "
        "groove.",
        (f.outer - f.inner,),
        spot,
    )
