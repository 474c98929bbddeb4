"""From a laid view to what was recognised on it: outside, bore, end faces, and what is odd.

Everything here is in drawn lengths with z counted along the view; `reading` moves it to the front face and to scale.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Code, Finding, Point, place_words
from extractor.geometry.profile import Profile, points
from extractor.geometry.stretches import Stretch, stretches
from extractor.part import ProfilePoints
from extractor.recess import remarks
from extractor.recess.both_faces import PairedFaces, pair_faces, unlike_all
from extractor.recess.crossings import centre_lines, has_its_own_axis, straight_over
from extractor.recess.filled import filled
from extractor.recess.ghosts import Seen, ghost
from extractor.recess.hatched_metal import hatched_over, ring_in_groove
from extractor.recess.hollows import bore_read
from extractor.recess.lands import from_within
from extractor.recess.milled import (
    MayBeFlats,
    may_be_flats,
    pointed,
    seen_from_outside,
    told_hole,
    told_overrun,
    told_shut,
    told_slot,
)
from extractor.recess.pairing import Paired, exactness, pair, told_apart
from extractor.recess.shapes import Measured
from extractor.recess.sides import HalfProfile, hidden_added, in_section, pierced, read_side
from extractor.recess.slips import slips, without_slips
from extractor.recess.threads import helical
from extractor.recess.turnings import FaceRecess, TurnedProfile
from extractor.recess.walls import in_two, parted
from extractor.sheet import Floats
from extractor.values import dataclass
from extractor.viewing.outline import PEN_MOST, SIGNS, Folded
from extractor.viewing.remainder import left_open

ROW = 2
"""So many recesses on one side alone make a row of grooves on one half of them, rather than a keyway."""

RACK = 3
"""So many alike at one pitch on one side of a marked axis are a rack or a comb (common practice, no source)."""

UNLIKE = 0.02
"""Share of the view by which the ends of its two halves may lie apart; farther, they are not those of one part."""

LIKE_SHARE = 5e-4
"""Share of the view by which like grooves of two halves may lie apart, where lines are drawn closer than that."""


@dataclass(frozen=True)
class Found:
    """What one view shows: outside profile and bore as (z, radius), recesses, findings.

    `across` is the greatest diameter as drawn, `off` how far the middle of both halves lies above the axis, `side` the
    half that the profile was taken from (1 above, -1 below), `main` that half's profile with its recesses. `dashed` is
    true if only hidden lines show the bore, or without one the recesses in the faces; `halves` are those drawn, `alone`
    the recesses that one of two shows alone, `spared` the stretches of z (low, high) in which recesses were told to be
    no grooves: teeth, holes and what is milled, `unlike` those in which the halves show unlike lands. `milled`
    are the recesses that may be flats.
    """

    outline: ProfilePoints
    main: TurnedProfile
    bore: ProfilePoints | None
    across: float
    off: float
    outside: tuple[Measured, ...]
    inside: tuple[Measured, ...]
    faces: tuple[FaceRecess, ...]
    alone: tuple[Measured, ...]
    side: int
    findings: tuple[Finding, ...]
    dashed: bool = False
    halves: tuple[Seen, ...] = ()
    spared: tuple[tuple[float, float], ...] = ()
    unlike: tuple[Stretch, ...] = ()
    milled: tuple[MayBeFlats, ...] = ()


def recognise(folded: Folded) -> Found | None:
    """What a laid view shows, None where no half closes."""
    sides = _closed(folded)
    if not sides:
        return None
    cut = any(s.half.bore for s in sides)
    plain = [s.faces for s in sides]  # before hidden lines add theirs
    sectioned = [in_section(folded, s) for s in sides]
    sides = [pierced(folded, s) if hollow else s for s, hollow in zip(sides, sectioned, strict=True)]
    sides, bolted = _without_holes(folded, hidden_added(folded, sides))
    paired = _paired(sides, folded)
    odd = ghost(folded, [s.seen for s in sides])
    outer = [s for s, cut_open in zip(sides, sectioned, strict=True) if not cut_open]
    milled = may_be_flats(folded, outer if odd is None else [], paired.both)
    paired = replace(paired, both=tuple(m for m in paired.both if not any(one.recess is m for one in milled)))
    left = [*(one.recess for one in milled), *(m for m in paired.both if abs(m.depth) <= folded.pen), *paired.single]
    faces = _paired_faces(folded, sides, plain, sectioned)
    ends, unlike = _apart(sides, folded)
    main, apart = _plainest(sides, unlike)
    bored, hollows = bore_read(folded, sides, _exact(sides, folded))
    hollow = bored.inside if bored else ()
    outside, inside = (without_slips(row, folded.pen) for row in (paired.both, hollow))
    bore = from_within(points(_without_dips(folded, bored, inside))) if bored else None
    return Found(
        outline=main.seen.outline,
        main=main.turned,
        bore=bore,
        across=sides[0].reach + sides[-1].reach,
        off=(sides[0].reach - sides[-1].reach) / 2,
        outside=outside,
        inside=inside,
        faces=without_slips(faces.rings, folded.pen),
        alone=paired.single,
        side=main.sign,
        findings=(
            *_findings(folded, sides, paired),
            *filter(None, (odd, *bolted)),
            *_unlike(folded, sides, ends, apart, hollows),
            *_unlike_faces(folded, sides, faces, sectioned),
            *_in_two(folded, main, bore),
            *hatched_over(folded, [s.sign for s in sides if not s.half.material.put_in], (*outside, *inside)),
            *(remarks.slip(folded, main.sign, *d) for d in slips((*paired.both, *hollow, *faces.rings), folded.pen)),
        ),
        dashed=not cut if bored else bool(faces.rings) and not any(plain),
        halves=tuple(s.seen for s in sides),
        unlike=tuple(unlike),
        spared=(*main.seen.covered, *((m.z_far, m.z_near) for m in left)),
        milled=tuple(milled),
    )


def _without_dips(folded: Folded, side: HalfProfile, grooves: Sequence[Measured]) -> Profile:
    """The line of a half's bore straight on over dips that are no grooves."""
    return straight_over(side.bore, [m for m in side.inside if m not in grooves], folded.close)


def _plainest(sides: Sequence[HalfProfile], unlike: Sequence[Stretch]) -> tuple[HalfProfile, Stretch | None]:
    """The half with the fewest recesses, of two the one with more metal; and where they show unlike lands."""
    apart = max(unlike, key=lambda s: s.area, default=None)
    main = min(sides, key=lambda s: (len(s.turned.measured), apart is not None and s is not _higher(sides, apart)))
    return main, apart


def with_grooves(found: Found, more: Sequence[Measured]) -> Found:
    """The same with more grooves in the outside."""
    return replace(found, outside=tuple(sorted((*found.outside, *more), key=lambda m: -m.z_near))) if more else found


def _closed(folded: Folded) -> list[HalfProfile]:
    """The halves of a laid view, none where one of them does not close."""
    signs = SIGNS[folded.view.halves]
    sides = [s for s in (read_side(folded, sign) for sign in signs) if s]
    if len({s.half.squared > 0 for s in sides}) > 1:  # the other half says which walls are meant
        sides = [s for s in (read_side(folded, sign, as_drawn=True) for sign in signs) if s]
    return sides if len(sides) == len(signs) else []


def _in_two(folded: Folded, main: HalfProfile, bore: ProfilePoints | None) -> list[Finding]:
    """The stop for a part that its bore cuts in two."""
    parting = parted(main.seen.outline, bore, folded.fine) if bore else None
    return [in_two(folded, main.sign, parting)] if parting is not None else []


def _without_holes(folded: Folded, sides: Sequence[HalfProfile]) -> tuple[list[HalfProfile], list[Finding]]:
    """The sides without what looks like a recess in a face and is a hole about a centre line of its own."""
    lines = centre_lines(folded, 0)
    near = folded.close
    own = [[f for f in s.faces if has_its_own_axis(f, s.sign, lines, near)] for s in sides]
    drilled = [
        [f for f in s.faces if f not in o and pointed(f, s.faced, near)] for s, o in zip(sides, own, strict=True)
    ]
    told = [
        told_hole(folded, s.sign, f, why)
        for why, rows in (("has a centre line of its own", own), ("ends in the point of a drill", drilled))
        for s, row in zip(sides, rows, strict=True)
        for f in row
    ]
    holes = [(*o, *d) for o, d in zip(own, drilled, strict=True)]
    parted = [(s, h, tuple(f for f in s.faces if f not in h)) for s, h in zip(sides, holes, strict=True)]
    return [replace(s, faces=faces, bolted=bolted) for s, bolted, faces in parted], told


def _paired_faces(
    folded: Folded, sides: Sequence[HalfProfile], plain: Sequence[tuple[FaceRecess, ...]], sectioned: Sequence[bool]
) -> PairedFaces:
    """The recesses in the faces of both halves, but hidden ones whose like is open to the viewer in the other half.

    Seen from outside a ring is hidden in both; `plain`: those that full lines show.
    """
    open_at = [() if cut else some for cut, some in zip(sectioned, plain, strict=True)]
    seen = [some if some and seen_from_outside(folded, s) else () for s, some in zip(sides, open_at, strict=True)]
    rows = zip(sides, open_at, reversed(seen), strict=True)
    faces = [s.faces if mine else unlike_all(s.faces, theirs, folded.pen) for s, mine, theirs in rows]
    return pair_faces(faces, sectioned, folded.pen, _exact(sides, folded))


def _unlike_faces(
    folded: Folded, sides: Sequence[HalfProfile], faces: PairedFaces, sectioned: Sequence[bool]
) -> list[Finding]:
    """The stops for recesses in a face that the halves show unlike; what is seen from outside is no ring."""
    front = _extent(sides[0])[0]
    found = [remarks.unlike_faces(folded, sides[0].sign, front, *pair) for pair in faces.unlike]
    for k, f in faces.alone:
        slot = not sectioned[k] and seen_from_outside(folded, sides[k])
        tell = (
            told_slot(folded, sides[k].sign, f) if slot else remarks.face_of_one_half(folded, sides[k].sign, front, f)
        )
        found.append(tell)
    return found


def _paired(sides: Sequence[HalfProfile], folded: Folded) -> Paired:
    """The grooves that all drawn halves show, and those that only one does."""
    if len(sides) == 1:
        return Paired(sides[0].grooves, ())
    (one, two), near = sides, max(folded.close, LIKE_SHARE * folded.view.size)
    return pair(one.grooves, two.grooves, near, folded.pen, _exact(sides, folded))


def _exact(sides: Sequence[HalfProfile], folded: Folded) -> float:
    """The pen's error for what is straight: by no more than rounding where the halves mirror outside of recesses."""
    if len(sides) == 1:
        return folded.pen
    return min(folded.pen, exactness(sides[0].turned.land_line, sides[1].turned.land_line, folded.fine))


def _off_axis(
    folded: Folded, sides: Sequence[HalfProfile], paired: Paired, single: Sequence[Sequence[Measured]]
) -> list[Finding]:
    """A stop where a row of recesses stands on one side of the axis and no groove on both: half a part, or a rack."""
    sure = folded.view.axis.marked or folded.view.axis.stated
    rows = [(s.sign, row) for s, row in zip(sides, single, strict=True) if row]
    if paired.both or len(rows) != 1:
        return []
    sign, row = rows[0]
    if sure:
        return [remarks.rack(folded, sign, row)] if slotted(row, folded.close) else []
    return [remarks.off_axis(folded, sign, row)] if len(row) >= ROW else []


def slotted(row: Sequence[Measured], near: float) -> bool:
    """True for recesses of one width and depth at one pitch, enough of them for a rack or a comb."""
    sizes = np.array([(m.width, m.depth) for m in row])
    pitches = np.diff([m.z_near for m in row])
    return len(row) >= RACK and bool(max(np.ptp(sizes, axis=0).max(), np.ptp(pitches)) <= near)


def _lopsided(folded: Folded, sides: Sequence[HalfProfile]) -> list[Finding]:
    """A stop where the two halves don't end alike: a bracket, or the view of something else, is no turned part."""
    (front, back, reach), (other_front, other_back, other_reach) = (_extent(sides[0]), _extent(sides[-1]))
    apart = max(abs(front - other_front), abs(back - other_back), abs(reach - other_reach))
    return [remarks.lopsided(folded, apart)] if apart > UNLIKE * folded.view.size else []


def _extent(side: HalfProfile) -> tuple[float, float, float]:
    """Foremost and rearmost z of a half, and its greatest radius."""
    z = [at for at, _ in side.turned.line]
    return max(z), min(z), side.reach


def _apart(sides: Sequence[HalfProfile], folded: Folded) -> tuple[list[Stretch], list[Stretch]]:
    """Where one of two halves ends a hair before the other, and the stretches in which they show unlike lands.

    Grooves and notches are no lands. Of a large view such a hair is within the pen's error.
    """
    if len(sides) == 1:
        return [], []
    one, two = (s.turned.land_line for s in sides)
    front, back = min(one[0][0], two[0][0]), max(one[-1][0], two[-1][0])
    rows = stretches(one, two, folded.pen)
    ends = [s for s in rows if (s.far >= front or s.near <= back) and s.length <= PEN_MOST[folded.inch]]
    return ends, [s for s in rows if s not in ends]


def _higher(sides: Sequence[HalfProfile], apart: Stretch) -> HalfProfile:
    """The half with more metal: what the other lacks was cut from it after turning."""
    return sides[0] if apart.one > apart.two else sides[1]


def _unlike(
    folded: Folded,
    sides: Sequence[HalfProfile],
    ends: Sequence[Stretch],
    apart: Stretch | None,
    hollows: Sequence[Finding],
) -> list[Finding]:
    """What is said of halves that show unlike ends, lands or bores: no turned part has such."""
    found = [remarks.unlike_ends(folded, sides[0].sign, s) for s in ends]
    lopsided = _lopsided(folded, sides)
    if lopsided:
        return [*found, *lopsided]
    front, sign = _extent(sides[0])[0], sides[0].sign
    found += [remarks.unlike_lands(folded, sign, front, apart)] if apart else []
    return [*found, *hollows]


def _findings(folded: Folded, sides: Sequence[HalfProfile], paired: Paired) -> list[Finding]:
    """All that is odd about the halves."""
    found: list[Finding] = []
    single = [[m for m in s.grooves if m in paired.single] for s in sides]
    if len(sides) == 2 and helical(single[0], single[1], folded.fine):
        found.append(remarks.helix(folded, sides[0].sign, single[0]))
    else:
        found += [remarks.one_sided(folded, s.sign, m) for s, row in zip(sides, single, strict=True) for m in row]
        found += _off_axis(folded, sides, paired, single)
    little, plainly, formed = told_apart(paired, sides[0].turned.profile, sides[-1].turned.profile, folded.pen)
    found += [remarks.unlike(folded, sides[0].sign, m) for m in little]
    found += [remarks.leaning(folded, sides[0].sign, m) for m in plainly]
    found += [remarks.in_two_ways(folded, sides[0].sign, m, "in one form", "in another") for m in formed]
    found += [remarks.clashing(folded, sides[0].sign, *pair) for pair in paired.clashing]
    found += [remarks.broken(folded, sides[0].sign, *pair) for pair in paired.broken]
    front = _extent(sides[0])[0]
    found += [remarks.crossing(folded, sides[0].sign, front, *pair) for pair in paired.crossing]
    rows = [_of_one_half(folded, s) for s in sides]
    found += _once(folded, [told for row in rows for told in row])
    found += _unbounded(folded, sides)
    first = sides[0]
    found += [remarks.thread(folded, first.sign, t) for t in first.threads]
    holes = [*first.holes, *(m for m in first.mouths if not any(h.z_near >= m.z_near >= h.z_far for h in first.holes))]
    found += [remarks.cross_hole(folded, first.sign, m) for m in holes]
    walls = [(s, *hole) for s in sides for hole in s.drilled]
    found += [remarks.drilled(folded, walls[0][0].sign, walls[0][1:], len(walls))] if walls else []
    metal = first.half.material
    found += [remarks.inner_lines(folded, first.sign, metal.inner)] if metal.inner else []
    none = [(t.z_far - t.pitch, t.z_near + t.pitch) for t in first.threads]  # of these no groove is made
    none += [(m.z_far, m.z_near) for m in paired.single]
    plain = [at for at in metal.mouths if not any(low < at[0] < high for low, high in none)]
    found += [remarks.told(folded, first.sign, at, DrawingCode.MOUTH_LINE) for at in plain]
    found += [remarks.told(folded, first.sign, at, DrawingCode.GROOVE_OR_THREAD) for at in metal.long]
    boxed = metal.boxed if all(s.half.material.boxed for s in sides) else ()
    found += [remarks.told(folded, first.sign, at, _of_box(first.inside, metal.boxed, at)) for at in boxed]
    found += [ring_in_groove(folded, ring) for ring in metal.put_in]
    found += [remarks.told(folded, first.sign, metal.knurl[0], DrawingCode.KNURL)] if metal.knurl else []
    if all(s.half.material.crossed for s in sides):
        found.append(remarks.told(folded, first.sign, metal.crossed[0], DrawingCode.FACE_UNCLEAR))
    return found


def _of_box(inside: Sequence[Measured], boxed: Sequence[Point], at: Point) -> DrawingCode:
    """What is said of what lines close off beside a bore: in its metal, or a recess where others are open or not."""
    held = [[z for z, _ in boxed if m.z_far < z < m.z_near] for m in inside]
    if not any(at[0] in row for row in held):
        return DrawingCode.LINES_UNEXPLAINED
    return DrawingCode.MOUTH_LINE if all(held) else DrawingCode.GROOVE_OR_THREAD


def _unbounded(folded: Folded, sides: Sequence[HalfProfile]) -> list[Finding]:
    """The stops for recesses that hidden lines alone show on all halves, and for what is inked at the outside."""
    veiled = _paired([replace(s, grooves=s.veiled) for s in sides], folded).both
    at = filled(folded, [s.seen for s in sides])
    found = [remarks.veiled(folded, sides[0].sign, m) for m in veiled]
    found += [told_shut(folded, s.sign, m, stops=not s.inside) for s in sides[:1] for m in s.shut]
    found += [told_overrun(folded, s.sign, m) for s in sides[:1] for m in s.overrun]
    return found + ([remarks.inked(folded, sides[0].sign, at)] if at is not None else [])


def _once(folded: Folded, row: Sequence[Finding]) -> list[Finding]:
    """Findings without those that say the same of one half and of its mirror image: one answer is meant for both."""
    kept, images = list[Finding](), defaultdict[tuple[Code, str], list[Floats]](list)
    for one in row:
        said = one.code, one.message.replace(place_words(one.at), "") if one.at else one.message
        if one.at is None or not any(np.abs(image - one.at).max() <= folded.pen for image in images[said]):
            kept.append(one)
            images[said] += [] if one.at is None else [*folded.axis.mirror(np.array([one.at]))]
    return kept


def _of_one_half(folded: Folded, side: HalfProfile) -> list[Finding]:
    """What is odd at places of one half."""
    metal = side.half.material
    known = frozenset(k for ring in metal.put_in for k in ring.edges)
    open_at = left_open(folded, side.turned.land_line, side.sign, known)
    places = [
        (DrawingCode.OUTLINE_UNCLEAR, (*side.turned.blind, *side.overhangs)),
        (DrawingCode.OUTLINE_OPEN, (open_at,) if open_at else ()),
        (DrawingCode.IN_PIECES, metal.pieces),
        (DrawingCode.LEFT_OUT, (*metal.beside, *side.half.loose)),
    ]
    found = [remarks.slight(folded, side.sign, at) for at in side.turned.slight]
    return found + [remarks.told(folded, side.sign, at, code) for code, row in places for at in row]
