"""The part at true size: z moved to the front face, lengths divided by the sheet's scale, recesses numbered."""

from collections.abc import Iterator, Sequence
from typing import Any, Literal, NamedTuple

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.gathered import MOST_SPOTS
from extractor.part import Frame, Groove, LeftToOthers, Notch, Part, ProfilePoints, Shape, Units
from extractor.recess.journals import is_chamber, is_journal
from extractor.recess.lands import from_outside, lands
from extractor.recess.recognise import Found
from extractor.recess.shapes import Measured
from extractor.recess.sized import Wanted, none_wanted
from extractor.recess.sorting import Sorted, sort_recesses
from extractor.recess.turnings import FaceRecess
from extractor.runs import spans
from extractor.side import INSIDE, OUTSIDE, SIDES, Where
from extractor.values import dataclass
from extractor.viewing.outline import Folded


class _Measures:
    """Drawn lengths to true ones, z to the front face."""

    def __init__(self, front: float, scale: float) -> None:
        """`front` is the drawn z of the front face, `scale` the drawn length of one true unit."""
        self.front, self.scale = front, scale

    def length(self, drawn: float) -> float:
        """A length at true size, without the dust of floating point (1e-9 is far below any drawing's precision)."""
        return round(drawn / self.scale, 9) + 0.0

    def z(self, drawn: float) -> float:
        """A place along the axis."""
        return self.length(drawn - self.front)

    def line(self, drawn: ProfilePoints) -> ProfilePoints:
        """A line of (z, radius) points."""
        return tuple((self.z(z), self.length(r)) for z, r in drawn)


@dataclass(frozen=True)
class Recesses:
    """How all recesses of a view are treated, by their side; faces have no low lands."""

    sides: tuple[tuple[Where, Sorted], ...]
    faces: tuple[FaceRecess, ...]

    @classmethod
    def of(cls, found: Found, units: Units, scale: float, grooved: Wanted) -> "Recesses":
        """The recesses found, sorted; `grooved`: which wide low lands are grooves too."""
        outside = sort_recesses(found.outside, lambda m: is_journal(m, units, scale, grooved(m)))
        inside = sort_recesses(found.inside, lambda m: is_chamber(m, units, scale, grooved(m)))
        return cls((("outside", outside), ("inside", inside)), found.faces)


def build(folded: Folded, found: Found, units: Units, scale: float, grooved: Wanted = none_wanted) -> Part:
    """The part with its grooves numbered from the front face; `grooved`: which wide low lands are grooves too."""
    front = max(z for z, _ in found.outline)
    true = _Measures(front, scale)
    outline = true.line(_outline(folded, found))
    ux, uy = folded.axis.up
    sorts = Recesses.of(found, units, scale, grooved)
    measured = {id(r): m for r, m in found.main.sized}
    filled = [
        r
        for r in found.main.recesses
        if (m := measured.get(id(r))) is None or not is_journal(m, units, scale, grooved(m))
    ]
    grooves = [_groove(true, m, where) for where, row in sorts.sides for m in row.grooves]
    grooves += [_face_groove(true, f) for f in sorts.faces if not f.overhang]
    grooves.sort(key=lambda g: (-g["z_near"], g["z_far"], g["where"]))
    return Part(
        units=units,
        outer_diameter=true.length(found.across),
        length=-min(z for z, _ in outline),
        grooves=tuple(Groove(id=k, **g) for k, g in enumerate(grooves, start=1)),
        outline=outline,
        lands=true.line(from_outside(lands(found.main.profile, filled))),
        bore=true.line(found.bore) if found.bore else None,
        left_to_others=tuple(_left(true, sorts)),
        frame=Frame(folded.place(front, 0.0), folded.axis.direction, (ux * found.side, uy * found.side), scale),
    )


def _outline(folded: Folded, found: Found) -> ProfilePoints:
    """The outline as it is turned: straight on over what was told to be no groove."""
    near, kept = folded.close, [(m.z_far, m.z_near) for m in found.outside]
    over = []
    for recess, m in found.main.sized if found.spared else ():
        read = any(abs(low - m.z_far) <= folded.pen and abs(high - m.z_near) <= folded.pen for low, high in kept)
        told = any(low - near <= m.z_far and m.z_near <= high + near for low, high in found.spared)
        over += [recess] if told and not read else []
    return from_outside(lands(found.main.profile, over)) if over else found.outline


def alone(found: Found, scale: float) -> tuple[Notch, ...]:
    """The recesses that one half shows alone, at true size."""
    true = _Measures(max(z for z, _ in found.outline), scale)
    return tuple(Notch(near=true.z(m.z_near), far=true.z(m.z_far), floor=true.length(2 * m.floor)) for m in found.alone)


def left_findings(folded: Folded, found: Found, units: Units, scale: float, grooved: Wanted) -> tuple[Finding, ...]:
    """A caution for each low land that is left to turning, a stop for each recess that is left to another tool."""
    sorts, front = Recesses.of(found, units, scale, grooved), found.outline[0][0]
    told = [_journal_finding(folded, found.side, m, front, scale, w) for w, row in sorts.sides for m in row.turned]
    for where, row in sorts.sides:
        told += [
            _overhang_finding(folded, found.side, _Ends(where, m.z_near, m.z_far, m.floor), front, scale)
            for m in row.overhangs
        ]
    for f in sorts.faces:
        if f.overhang:
            near, far = max(f.z_face, f.z_floor), min(f.z_face, f.z_floor)
            told.append(_overhang_finding(folded, found.side, _Ends("face", near, far, f.outer), front, scale))
    return tuple(told)


class _Ends(NamedTuple):
    """A recess's side, the z that it lies between, and a radius to show it at."""

    where: Where
    near: float
    far: float
    radius: float


def _journal_finding(folded: Folded, side: int, m: Measured, front: float, scale: float, where: Where) -> Finding:
    """The caution for a low land: the program takes it for turned, and `--grooved` would have it grooved."""
    span = f"from Z{(m.z_near - front) / scale:.4g} to Z{(m.z_far - front) / scale:.4g}"
    if where == INSIDE.where:
        what, done = f"chamber in the bore of diameter {2 * m.floor / scale:.4g} {span}", ("boring", "bored")
    else:
        what = f"low land of diameter {2 * m.floor / scale:.4g} {span} between higher ones"
        done = ("turning", "turned")
    words = (
        f"The {what} is left to {done[0]} and must be {done[1]} before the grooves are cut; use --grooved to treat it "
        "as a groove."
    )
    at = folded.place((m.z_near + m.z_far) / 2, side * m.floor)
    return Finding(Level.CAUTION, DrawingCode.JOURNAL, words, at)


def _overhang_finding(folded: Folded, side: int, ends: _Ends, front: float, scale: float) -> Finding:
    """The stop for a recess that reaches under the metal beside its mouth."""
    frame = SIDES[ends.where]
    words = (
        f"The recess {frame.place + ' ' if frame.place else ''}from Z{(ends.near - front) / scale:.4g} to "
        f"Z{(ends.far - front) / scale:.4g} reaches under the metal beside its mouth, where no insert comes straight "
        f"along {frame.infeed}: it can't be cut here; accept it to leave it to another tool."
    )
    at = folded.place((ends.near + ends.far) / 2, side * ends.radius)
    return Finding(Level.STOP, DrawingCode.OVERHANG, words, at)


def _left(true: _Measures, sorts: Recesses) -> Iterator[LeftToOthers]:
    """The low lands that are turned, and the recesses that another tool makes."""
    for where, row in sorts.sides:
        sign = SIDES[where].sign
        whys: tuple[tuple[Literal["turned", "overhang"], tuple[Measured, ...]], ...] = (
            ("turned", row.turned),
            ("overhang", row.overhangs),
        )
        for why, m in ((why, m) for why, some in whys for m in some):
            floor, mouth = sign * true.length(2 * m.floor), sign * true.length(2 * m.mouth)
            near, far = true.z(m.z_near), true.z(m.z_far)
            yield LeftToOthers(where=where, near=near, far=far, floor=floor, mouth=mouth, why=why)
    for f in sorts.faces:
        if f.overhang:
            near, far = true.length(2 * f.outer), true.length(2 * f.inner)
            floor, mouth = true.z(f.z_floor), true.z(f.z_face)
            yield LeftToOthers(where="face", near=near, far=far, floor=floor, mouth=mouth, why="overhang")


def _groove(true: _Measures, m: Measured, where: Where) -> dict[str, Any]:
    """A recess of the outside or of the bore as the fields of a groove, its number still to come."""
    return {
        "where": where,
        "shape": m.shape,
        "z_near": true.z(m.z_near),
        "z_far": true.z(m.z_far),
        "mouth_diameter": true.length(2 * m.mouth),
        "floor_diameter": true.length(2 * m.floor),
        "corner_radius": true.length(min(m.corners)),
        "edge_chamfer": true.length(m.rim[0]),
        "rounded": m.rim[1],
        "near_land_diameter": true.length(2 * m.near_land),
        "far_land_diameter": true.length(2 * m.far_land),
    }


def _face_groove(true: _Measures, f: FaceRecess) -> dict[str, Any]:
    """The same of a recess in an end face; in a face that looks to the back, floor and face change places."""
    return {
        "where": "face",
        "shape": f.shape,
        "z_near": true.z(max(f.z_face, f.z_floor)),
        "z_far": true.z(min(f.z_face, f.z_floor)),
        "mouth_diameter": true.length(2 * f.outer),
        "floor_diameter": true.length(2 * f.inner),
        "corner_radius": true.length(f.corner),
        "edge_chamfer": true.length(f.chamfer),
        "bevelled": f.bevelled,
        "rounded": f.rounded,
        "from_back": f.z_face < f.z_floor,
    }


SHAPED = {
    "vee": "a vee",
    "round": "round",
    "tapered": "tapered",
    "relief": "a relief against a shoulder",
    "other": "of no plain shape",
}


MANY_SHAPED = {"vee": "vees", "relief": "reliefs against shoulders"}
"""The same of several, where it is spelt otherwise."""

LOOKED_AT: dict[Where, DrawingCode] = {
    "outside": DrawingCode.NOT_RECTANGULAR,
    "inside": DrawingCode.INSIDE_GROOVE,
    "face": DrawingCode.FACE_GROOVE,
}
"""The code of the caution for a recess that is no plain groove of the outside, by where it is."""


ONE_BY_ONE = 3
"""So many recesses of one form on one side are told one by one; of more nobody reads each sentence."""


def shape_findings(part: Part) -> tuple[Finding, ...]:
    """A caution for every recess that is no plain rectangular groove of the outside, of many alike for all at once."""
    alike: dict[tuple[Where, Shape], list[Groove]] = {}
    for g in part.grooves:
        if g.side != OUTSIDE or g.shape != "rectangular":
            alike.setdefault((g.where, g.shape), []).append(g)
    told = [[row] if len(row) > ONE_BY_ONE else [[g] for g in row] for row in alike.values()]
    return tuple(_shape_finding(part, row) for rows in told for row in rows)


def _shape_finding(part: Part, row: Sequence[Groove]) -> Finding:
    """The caution for one groove, or for several of one form on one side."""
    first, many = row[0], len(row) > 1
    place = f"{first.side.place} " if first.side.place else ""
    span = f"from Z{max(g.z_near for g in row):.4g} to Z{min(g.z_far for g in row):.4g}"
    shape = (MANY_SHAPED if many else SHAPED).get(first.shape) or SHAPED.get(first.shape, "rectangular")
    if many:
        words = (
            f"Recesses {spans(g.id for g in row)} {place}{span} are {shape}; they are planned if tools can cut them: "
        )
        words += "compare their forms and their sizes with the print first."
    else:
        words = f"Recess {first.id} {place}{span} is {shape}; it is planned if a tool can cut it: compare its form and "
        words += "its sizes with the print first."
    at = [_place(part, g) for g in row]
    return Finding(
        Level.CAUTION,
        LOOKED_AT[first.where],
        words,
        at[0],
        groove=None if many else first.id,
        spots=tuple(p for p in at[1 : 1 + MOST_SPOTS] if p is not None),
    )


def _place(part: Part, g: Groove) -> Point | None:
    """The middle of a groove on the sheet, at its floor."""
    radius = (g.floor_diameter if g.side.axial else g.mouth_diameter) / 2
    return part.frame.on_sheet((g.z_near + g.z_far) / 2, radius) if part.frame else None
