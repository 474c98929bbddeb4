"""The part at true size: z moved to the front face, lengths divided by the sheet's scale, recesses numbered."""

from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import Frame, Groove, LeftToOthers, Part, ProfilePoints, Units
from extractor.recess.journals import is_journal
from extractor.recess.lands import from_outside, lands
from extractor.recess.levels import Recess
from extractor.recess.recognise import Found
from extractor.recess.shapes import Measured
from extractor.recess.turnings import FaceRecess
from extractor.side import Where
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


def build(folded: Folded, found: Found, units: Units, scale: float, grooved: bool = False) -> Part:
    """The part with its grooves numbered from the front face; `grooved`: wide low lands are grooves too."""
    front = max(z for z, _ in found.outline)
    true = _Measures(front, scale)
    outline = true.line(found.outline)
    ux, uy = folded.axis.up
    grooves = [_groove(true, m, "outside") for m in found.outside if not is_journal(m, units, scale, grooved)]
    filled = [r for r in found.main.recesses if not _journal_at(found, r, units, scale, grooved)]
    grooves += [_groove(true, m, "inside") for m in found.inside]
    grooves += [_face_groove(true, f) for f in found.faces]
    grooves.sort(key=lambda g: (-g.z_near, g.z_far, g.where))
    return Part(
        units=units,
        outer_diameter=true.length(found.across),
        length=-min(z for z, _ in outline),
        grooves=tuple(replace(g, id=k) for k, g in enumerate(grooves, start=1)),
        outline=outline,
        lands=true.line(from_outside(lands(found.main.profile, filled))),
        bore=true.line(found.bore) if found.bore else None,
        left_to_others=tuple(_turned(true, m) for m in found.outside if is_journal(m, units, scale, grooved)),
        frame=Frame(folded.place(front, 0.0), folded.axis.direction, (ux * found.side, uy * found.side), scale),
    )


def _journal_at(found: Found, recess: Recess, units: Units, scale: float, grooved: bool) -> bool:
    """True if a recess of the profile is a journal."""
    return any(r is recess and is_journal(m, units, scale, grooved) for r, m in found.main.sized)


def journal_findings(
    folded: Folded, found: Found, units: Units, scale: float, grooved: bool = False
) -> tuple[Finding, ...]:
    """A caution for each journal: the program takes it for turned, and `--grooved` would have it grooved."""
    front = found.outline[0][0]
    return tuple(
        Finding(
            Level.CAUTION,
            DrawingCode.JOURNAL,
            f"The low land of diameter {2 * m.floor / scale:.4g} from Z{(m.z_near - front) / scale:.4g} to "
            f"Z{(m.z_far - front) / scale:.4g} between higher ones is left to turning and must be turned before the "
            "grooves are cut; use --grooved to groove it instead.",
            folded.place((m.z_near + m.z_far) / 2, found.side * m.floor),
        )
        for m in found.outside
        if is_journal(m, units, scale, grooved)
    )


def _turned(true: _Measures, m: Measured) -> LeftToOthers:
    """A low land of the outside that is turned before anything is grooved."""
    return LeftToOthers(
        where="outside",
        near=true.z(m.z_near),
        far=true.z(m.z_far),
        floor=true.length(2 * m.floor),
        mouth=true.length(2 * m.mouth),
        why="turned",
    )


def _groove(true: _Measures, m: Measured, where: Where) -> Groove:
    """A recess of the outside or of the bore as a groove, its number still to come."""
    return Groove(
        id=1,
        where=where,
        shape=m.shape,
        z_near=true.z(m.z_near),
        z_far=true.z(m.z_far),
        mouth_diameter=true.length(2 * m.mouth),
        floor_diameter=true.length(2 * m.floor),
        corner_radius=true.length(min(m.corners)),
        edge_chamfer=true.length(max(m.chamfers)),
        near_land_diameter=true.length(2 * m.near_land),
        far_land_diameter=true.length(2 * m.far_land),
    )


def _face_groove(true: _Measures, f: FaceRecess) -> Groove:
    """A recess in an end face as a groove; in a face that looks to the back, floor and face change places."""
    return Groove(
        id=1,
        where="face",
        shape=f.shape,
        z_near=true.z(max(f.z_face, f.z_floor)),
        z_far=true.z(min(f.z_face, f.z_floor)),
        mouth_diameter=true.length(2 * f.outer),
        floor_diameter=true.length(2 * f.inner),
        corner_radius=true.length(f.corner),
        edge_chamfer=true.length(f.chamfer),
        bevelled=f.bevelled,
    )


WORDS = {
    "vee": "a vee",
    "round": "round",
    "tapered": "tapered",
    "relief": "a relief against a shoulder",
    "other": "of no plain shape",
}


LOOKED_AT: dict[Where, DrawingCode] = {
    "outside": DrawingCode.NOT_RECTANGULAR,
    "inside": DrawingCode.INSIDE_GROOVE,
    "face": DrawingCode.FACE_GROOVE,
}
"""The code of the caution for a recess that is no plain groove of the outside, by where it is."""


def shape_findings(part: Part) -> tuple[Finding, ...]:
    """A caution for every recess that is no plain rectangular groove of the outside."""
    return tuple(f for g in part.grooves for f in [_shape_finding(part, g)] if f)


def _shape_finding(part: Part, g: Groove) -> Finding | None:
    """The caution for one groove, None for a plain one."""
    if g.where == "outside" and g.shape == "rectangular":
        return None
    place = {"outside": "", "inside": "in the bore ", "face": "in an end face "}[g.where]
    shape = WORDS.get(g.shape, "rectangular")
    span = f"from Z{g.z_near:.4g} to Z{g.z_far:.4g}"
    words = f"Recess {g.id} {place}{span} is {shape}; it is listed and must be looked at before it is cut."
    radius = (g.mouth_diameter if g.where == "face" else g.floor_diameter) / 2
    at = part.frame.on_sheet((g.z_near + g.z_far) / 2, radius) if part.frame else None
    return Finding(Level.CAUTION, LOOKED_AT[g.where], words, at, groove=g.id)
