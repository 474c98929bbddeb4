"""Several views of one part read together: what each shows of it, and where they differ.

Views of one part agree in every place of the outside that both show (ISO 5456-2, from memory: each projection shows
the whole part); a section also answers for the bore. So the outsides are held against one another along the whole
length, and a bore that only one view shows is taken from it.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, TypeVar

import numpy as np

from extractor.geometry.stretches import stretches
from extractor.part import ProfilePoints
from extractor.recess.recognise import Found
from extractor.recess.shapes import Measured
from extractor.recess.turnings import FaceRecess
from extractor.values import dataclass

AnyRecess = TypeVar("AnyRecess", Measured, FaceRecess)

ALIKE = 1e-3
"""Views of one part differ by no more than this share of its greater size: each was drawn with the pen's error."""


@dataclass(frozen=True, kw_only=True)
class Difference:
    """A stretch behind the front face in which two views show two diameters, or 0 to 0 for the ends themselves.

    `total` is the area between the two outlines along the whole length.
    """

    near: float
    far: float
    one: float
    two: float
    total: float = 0.0

    @property
    def words(self) -> str:
        """What each of the two shows, worded for a sentence."""
        if self.near == self.far:
            return f"one is {self.one:.6g} long, the other {self.two:.6g}"
        stretch = f"at Z{0.0 - self.near:.4g} to Z{0.0 - self.far:.4g}"
        if min(self.one, self.two) == 0:
            return f"{stretch} one shows a bore {max(self.one, self.two):.6g} across, the other none"
        return f"{stretch} one shows {self.one:.6g}, the other {self.two:.6g}"


def difference(one: Found, two: Found) -> Difference | None:
    """Where two views that begin at the same end differ most, None where they show one part."""
    fine = ALIKE * max(one.across, _length(one.outline))
    if abs(_length(one.outline) - _length(two.outline)) > fine:
        return Difference(near=0.0, far=0.0, one=_length(one.outline), two=_length(two.outline), total=math.inf)
    outside = _widest(one.outline, two.outline, fine)
    if outside is not None or not (one.bore and two.bore):
        return outside
    if one.dashed != two.dashed:
        return _hidden_apart(one, two, fine)
    return _widest(_from(one.outline, one.bore), _from(two.outline, two.bore), fine)


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
    faces = tuple(replace(f, z_face=f.z_face + by, z_floor=f.z_floor + by) for f in other.faces)
    bore, inside = base.bore, base.inside
    better = other.bore is not None and (bore is None or (base.dashed and not other.dashed))
    if better and other.bore is not None:
        bore = tuple((z + by, r) for z, r in other.bore)
        inside = tuple(_moved(m, by) for m in other.inside)
    dashed = other.dashed if better else base.dashed
    return replace(base, bore=bore, inside=inside, faces=base.faces or faces, dashed=dashed)


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
