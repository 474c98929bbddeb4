"""Several views of one part read together: what each shows of it, where they differ, and which end is the front.

Views of one part agree in every place of the outside that both show (ISO 5456-2, from memory: each projection shows
the whole part); a section also answers for the bore and for the recesses in the end faces. So the outsides are held
against one another along the whole length, and a bore or such recesses that only one view shows are taken from it.
Words at one view that say which end is the front hold for all:

words name      lengths of a view all begin at      the view read
its end         -                                   stays, by words
its other end   -                                   is turned round, by words
both ends       -                                   stop front-conflict
one end         the other                           stop front-conflict
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Any, TypeVar

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.front import END_WORDS, OPPOSITE, Front, FrontBy, FrontEnd
from extractor.geometry.stretches import stretches
from extractor.part import ProfilePoints
from extractor.placing.laying import LaidView
from extractor.recess.both_faces import pair_faces
from extractor.recess.recognise import Found
from extractor.recess.shapes import Measured
from extractor.recess.turnings import FaceRecess
from extractor.values import dataclass
from extractor.viewing.choice import pointer
from extractor.viewing.views import View

AnyRecess = TypeVar("AnyRecess", Measured, FaceRecess)

ALIKE = 1e-3
"""Views that differ by no more than this share of the part's greater size are of one part."""


@dataclass(frozen=True, kw_only=True)
class Difference:
    """A stretch behind the front face in which two views show two diameters, or 0 to 0 for the ends themselves.

    `total` is the area between the two outlines along the whole length. `rings`: the recess in an end face that each
    shows there, None where one shows none; the diameters are then those of their outer walls.
    """

    near: float
    far: float
    one: float
    two: float
    total: float
    rings: tuple[FaceRecess | None, FaceRecess | None] | None = None

    @property
    def words(self) -> str:
        """What each of the two shows, worded for a sentence."""
        if self.near == self.far:
            return f"one is {self.one:.6g} long, the other {self.two:.6g}"
        if self.rings is not None:
            shown, other = map(_ring_words, self.rings)
            return f"in the face at Z{0.0 - self.near:.4g} one shows {shown}, the other {other}"
        stretch = f"at Z{0.0 - self.near:.4g} to Z{0.0 - self.far:.4g}"
        if min(self.one, self.two) == 0:
            return f"{stretch} one shows a bore {max(self.one, self.two):.6g} across, the other none"
        return f"{stretch} one shows {self.one:.6g}, the other {self.two:.6g}"


def difference(one: Found, two: Found, most: float | None = None) -> Difference | None:
    """Where two views that begin at the same end differ most, None where by no more than `most`: they show one part."""
    fine = ALIKE * max(one.across, _length(one.outline)) if most is None else most
    if abs(_length(one.outline) - _length(two.outline)) > fine:
        return Difference(near=0.0, far=0.0, one=_length(one.outline), two=_length(two.outline), total=math.inf)
    outside = _widest(one.outline, two.outline, fine)
    return outside or _bores_apart(one, two, fine) or _faces_apart(one, two, fine)


def _bores_apart(one: Found, two: Found, fine: float) -> Difference | None:
    """Where two views that show a bore differ in it."""
    if not (one.bore and two.bore):
        return None
    if one.dashed != two.dashed:
        return _hidden_apart(one, two, fine)
    return _widest(_from(one.outline, one.bore), _from(two.outline, two.bore), fine)


def _faces_apart(one: Found, two: Found, fine: float) -> Difference | None:
    """The largest recess in an end face that two views which show some have unlike, or that one of them lacks.

    Hidden lines may leave out what lies behind another line, as in a bore.
    """
    if not (one.faces and two.faces):
        return None
    front = one.outline[0][0]
    moved = _moved_faces(two.faces, front - two.outline[0][0])
    told = pair_faces((one.faces, moved), (not one.dashed, not two.dashed), fine)
    rows: list[tuple[FaceRecess | None, FaceRecess | None]] = [*told.unlike]
    rows += [(f, None) if k == 0 else (None, f) for k, f in told.alone]
    if not rows:
        return None
    areas = [max(_area(f) for f in row if f is not None) for row in rows]
    rings = rows[int(np.argmax(areas))]
    face = next(f for f in rings if f is not None)
    across = [0.0 if f is None else 2 * f.outer for f in rings]
    near, far = (round(front - z, 9) for z in (face.z_face, face.z_floor))
    return Difference(near=near, far=far, one=across[0], two=across[1], total=sum(areas), rings=rings)


def _area(f: FaceRecess) -> float:
    """The area that a recess in a face takes up of one half."""
    return (f.outer - f.inner) * abs(f.z_face - f.z_floor)


def _ring_words(f: FaceRecess | None) -> str:
    """A recess in a face, worded for a sentence."""
    if f is None:
        return "no groove"
    return f"a groove {2 * f.inner:.6g} to {2 * f.outer:.6g} across and {abs(f.z_face - f.z_floor):.6g} deep"


def _hidden_apart(one: Found, two: Found, fine: float) -> Difference | None:
    """Where hidden lines show a recess in the bore that a section has otherwise, or not at all.

    They may leave out what lies behind another line, so what the section alone shows says nothing.
    """
    hidden, cut = (one, two) if one.dashed else (two, one)
    for m in hidden.inside:
        rows = [_sides(n, cut) for n in cut.inside]
        (near, far), floor = _sides(m, hidden)
        if any(max(abs(near - n), abs(far - f), abs(floor - r)) <= fine for (n, f), r in rows):
            continue
        own = [(ends, r) for ends, r in rows if ends[0] > far and ends[1] < near]
        (n, f), r = own[0] if own else ((near, far), m.mouth)
        if own and abs(floor - r) <= fine:  # of two like floors that stand apart the stretch that only one has
            near, far = (max(near, n), min(near, n)) if abs(near - n) > fine else (max(far, f), min(far, f))
            r = m.mouth
        shown = (2 * floor, 2 * r) if one.dashed else (2 * r, 2 * floor)
        area = (near - far) * abs(floor - r)
        return Difference(near=0.0 - near, far=0.0 - far, one=shown[0], two=shown[1], total=area)
    return None


def _sides(recess: Measured, found: Found) -> tuple[tuple[float, float], float]:
    """Where a recess stands behind the front face, and the radius of its floor."""
    front = found.outline[0][0]
    return (recess.z_near - front, recess.z_far - front), recess.floor


def _length(outline: ProfilePoints) -> float:
    return outline[0][0] - outline[-1][0]


def _from(outline: ProfilePoints, bore: ProfilePoints) -> ProfilePoints:
    """The bore with its front end at the front face, as far as the part is long."""
    return ((outline[0][0], bore[0][1]), *bore, (outline[-1][0], bore[-1][1]))


def _widest(one: ProfilePoints, two: ProfilePoints, fine: float) -> Difference | None:
    """The longest stretch in which two lines of (z, radius) lie apart, behind their front ends; None if they agree."""
    found = stretches(_behind(one), _behind(two), fine)
    widest = max(found, key=lambda s: s.length, default=None)
    if widest is None:
        return None
    return Difference(
        near=0.0 - widest.near,
        far=0.0 - widest.far,
        one=2 * widest.one,
        two=2 * widest.two,
        total=sum(s.area for s in found),
    )


def _behind(line: ProfilePoints) -> ProfilePoints:
    """The line with its front end at z 0."""
    return tuple((z - line[0][0], r) for z, r in line)


def with_bore(base: Found, other: Found) -> Found:
    """What one view shows of the outside with the bore and the end faces that another shows alone, or in section.

    Hidden lines say less of a bore than a section does: what lies behind another line is left out.
    """
    by = base.outline[0][0] - other.outline[0][0]
    moved = _moved_faces(other.faces, by)
    cut = base.dashed and not other.dashed
    faces = moved or base.faces if cut else base.faces or moved
    if other.bore is None or (base.bore is not None and not cut):
        return replace(base, faces=faces)
    bore = tuple((z + by, r) for z, r in other.bore)
    inside = tuple(_moved(m, by) for m in other.inside)
    return replace(base, bore=bore, inside=inside, faces=faces, dashed=other.dashed)


def _moved_faces(faces: Sequence[FaceRecess], by: float) -> tuple[FaceRecess, ...]:
    """Recesses in end faces moved along the axis."""
    return tuple(replace(f, z_face=f.z_face + by, z_floor=f.z_floor + by) for f in faces)


def _moved(m: Measured, by: float) -> Measured:
    """A recess moved along the axis."""
    (a, b), (c, d) = m.foot, m.reach
    return replace(m, z_near=m.z_near + by, z_far=m.z_far + by, foot=(a + by, b + by), reach=(c + by, d + by))


def drawn_so_large(found: Found, times: float) -> Found:
    """What `together` asks of a view as it would be drawn so many times as large."""
    if times == 1.0:
        return found
    return replace(
        found,
        outline=_larger(found.outline, times),
        bore=found.bore and _larger(found.bore, times),
        across=times * found.across,
        inside=tuple(_as_large(m, times) for m in found.inside),
        faces=tuple(_as_large(f, times) for f in found.faces),
    )


def _larger(line: ProfilePoints, times: float) -> ProfilePoints:
    return tuple((times * z, times * r) for z, r in line)


def _as_large(recess: AnyRecess, times: float) -> AnyRecess:
    """A recess so many times as large: its real numbers, and pairs of them, are lengths, all else is kind and count."""
    lengths = dict[str, Any]()
    for name, value in vars(recess).items():
        if isinstance(value, float):
            lengths[name] = times * value
        elif isinstance(value, tuple) and all(isinstance(v, float) for v in value):
            lengths[name] = tuple(times * v for v in value)
    return replace(recess, **lengths)


def best_of(base: Found, ways: Sequence[Found]) -> tuple[int, Difference | None]:
    """Which of several ways to lay a view is most like another view, and where they still differ."""
    told = [difference(base, way) for way in ways]
    best = int(np.argmin([0.0 if d is None else d.total for d in told]))
    return best, told[best]


def joined(view: View) -> Finding:
    """The note for another view that shows more of the part."""
    words = f"The view at {place_words(view.middle)} shows the same part and more of it, and was read together with it."
    return Finding(Level.NOTE, DrawingCode.READ_TOGETHER, words, view.middle)


def differs(view: View, told: Difference, inside: int) -> Finding:
    """The caution for another view that contradicts the one read; `inside`: so many recesses more in its bore."""
    words = f"Another view of the part, at {place_words(view.middle)}, differs from the one read: {told.words}"
    if inside > 0:
        alone = "a recess" if inside == 1 else f"{inside} recesses"
        words += f"; it alone shows {alone} in the bore, which the part that was read lacks"
    return Finding(Level.CAUTION, DrawingCode.VIEWS_DIFFER, f"{words}.", view.middle)


def contradicts(one: View, two: View, told: Difference) -> Finding:
    """The stop for two views of one part of which one contradicts the other; the user may point to the right one."""
    spots = pointer(one, [one, two]), pointer(two, [one, two])
    words = (
        f"The views at {place_words(spots[0])} and {place_words(spots[1])} are drawn as of one part and differ: "
        f"{told.words}; see which is right, and point to it with --at X,Y."
    )
    return Finding(Level.STOP, DrawingCode.VIEWS_DIFFER, words, spots[1], spots=spots)


TELLING: tuple[FrontBy, ...] = ("words", "dimensions")
"""What of a view may say which end is the front."""


@dataclass(frozen=True)
class Heard:
    """What tells of one view which end is the front, where that view lies, and whether the view read begins there."""

    by: FrontBy
    at: Point
    same: bool


def agreed(first: LaidView, heard: Iterable[Heard], turn: Callable[[Front], LaidView]) -> LaidView:
    """The view, read as all the views together say; `turn` lays it from another end."""
    end, rows = first.front, list(heard)
    if end is None or end.by == "option" or not any(h.by == "words" for h in rows):
        return first
    words, lengths = ([h for h in rows if h.by == by] for by in TELLING)
    against = next((h for h in (*words, *lengths) if h.same != words[0].same), None)
    if against is not None:
        return first.with_findings(_conflict(end, words[0], against))
    if words[0].same:
        kept = tuple(f for f in first.findings if f.code != DrawingCode.FRONT_ASSUMED)
        read = replace(first, front=FrontEnd(end.end, "words"), findings=kept)
    else:
        turned = turn(OPPOSITE[end.end])
        read = replace(turned, front=FrontEnd(OPPOSITE[end.end], "words"))
    at = words[0].at
    told = f"Words at the other view of the part, at {place_words(at)}, say which end is Z0."
    return read if end.by == "words" else read.with_findings(Finding(Level.NOTE, DrawingCode.FRONT_BY_WORDS, told, at))


def _conflict(end: FrontEnd, word: Heard, against: Heard) -> Finding:
    """The stop for views that name two ends."""
    named = end.end if word.same else OPPOSITE[end.end]
    other = "words there name" if against.by == "words" else "all lengths begin at"
    words = (
        f"Words at the view at {place_words(word.at)} make the {END_WORDS[named]} the front; at the view at "
        f"{place_words(against.at)} {other} the {END_WORDS[OPPOSITE[named]]}: give --front {named} or --front "
        f"{OPPOSITE[named]}, whichever is the finished front face."
    )
    return Finding(Level.STOP, DrawingCode.FRONT_CONFLICT, words, against.at)
