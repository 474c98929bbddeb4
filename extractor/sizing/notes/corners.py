"""Radius notes for groove corners, which are often drawn sharp: `R0.2 MAX` on a leader, or for all grooves.

Rules: "MAX" allows anything from a sharp corner to the size named, so it becomes deviations of the drawn corner radius.
A radius without "MAX" that isn't drawn is a caution: sharp corners were read, and the person at the machine must know.
One that a note gives to grooves stops where all are drawn otherwise.
"""

import math
import re
from collections.abc import Container, Iterator, Mapping, Sequence, Set
from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import NUMBER, normalised
from extractor.part import Deviation, Groove
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.sizing.lettering.corner_words import CornerNote, corner_notes
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.note_words import WHICH
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.measured.features import SNAP_SHARE, Features
from extractor.sizing.measured.like import listed
from extractor.sizing.measured.ties import tie_of
from extractor.sizing.tolerances.tolerance import deviations_of, unit_factor, unread

ALL_CORNERS = re.compile(
    rf"(?:corner|fillet|radii|radius|ecken|radien|rayons?|raggi)[^.;]{{0,30}}?R?\s*({NUMBER})\s*(?:mm\s*|in\s*)?MAX\b",
    re.I,
)
"""A note that limits the radii of all corners."""
RADII = r"(?:RADI(?:I|US|EN)|FILLETS?(?:\s+RADII)?|CORNERS?|ECKEN|CONGES|RAYONS|RAGGI|RACCORDI|RADIOS|RAIOS)"
UNSIZED = re.compile(
    rf"\b(?:(?:UN(?:SPECIFIED|DIMENSIONED|STATED|MARKED|BEMASSTE\w*)|(?:NICHT|OHNE)\s+\w+|ALLE?|OTHER|UBRIGE\w*|ANDERE\w*"
    rf"|TOUS\s+LES|TUTTI\s+I|TODOS\s+LOS)\s+{RADII}|{RADII}\s+(?:NOT?|NON|NAO|NICHT|SIN|SENZA|SANS)\s+\w+"
    rf"|{RADII}(?=\W+R?\s*=?\s*{NUMBER}\s*(?:MM\s*)?,?\s+(?:UNLESS|SAUF|SALVO|WENN\s+NICHT|SOFERN)\b))"
    rf"(?:[\s:=(]+(?:AND|ROUNDS?|ARE|TO|BE|SIND|MIT|WITH)\b)*[\s:=(]*R?[\s=]*({NUMBER})(?!\s*(?:\S+\s+)?MAX|[.\d]*\s*[-°])"
)
"""One, in plain capitals, that gives a radius to all corners that have none of their own."""
CHAMFERED = re.compile(
    rf"(?:^|[\d.;])\W*(?:ALL(?:\s+OTHER)?\s+EDGES|ALLE\s+(?:\w+\s+)?KANTEN)\W*({NUMBER})\s*[X×]\s*45"
)
"""One that chamfers all edges by a size."""
MAX = re.compile(r"\bMAX\b", re.I)
SLACK = 1e-6
OF_THE_FLOOR = 1e-3
"""Share by which a radius differs from that of a groove's floor, to be it: sizes are rounded."""


def corner_tolerances(
    dimensions: Sequence[Dimension], texts: Sequence[Text], features: Features
) -> tuple[dict[int, Deviation | None], tuple[Finding, ...]]:
    """Deviations of the corner radius by groove number, and what there is to say about radii that aren't drawn.

    None stands for a radius that is printed without deviations.
    """
    found: dict[int, Deviation | None] = {}
    findings: list[Finding] = []
    for dimension in (_worded(d, features) for d in dimensions):
        printed = parse(dimension.text)
        groove = _cornered(dimension, printed.value, features) if printed.sign == "radius" and printed.size else None
        if groove is None or printed.reference:
            continue
        agreed, deviation, finding = _at_corner(printed, groove, dimension, features)
        findings += [finding] if finding is not None else []
        if agreed and found.get(groove.id) is None:
            found[groove.id] = deviation
    notes = {d.text: d.points[0] for d in dimensions if d.text} | {text.text: text.at for text in texts}
    findings += _not_drawn(notes, features, found)
    largest = {most for text in texts for most in _largest(text.text)}
    plain = [g for g in features.part.grooves if g.shape == "rectangular" and g.id not in found]
    for groove in plain if len(largest) == 1 else ():
        if groove.corner_radius <= max(largest) + SLACK:
            found[groove.id] = _up_to(max(largest), groove)
        else:
            words = (
                f"A note limits corners to R{max(largest):g} where the drawing shows {groove.corner_radius:.4g} "
                f"(groove {groove.id} corner radius): see which is meant."
            )
            at = features.frame.on_sheet(groove.middle, groove.floor_diameter / 2)
            findings.append(Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, at, groove=groove.id))
    return found, tuple(findings)


def _largest(words: str) -> Iterator[float]:
    """The greatest radii that a note allows the corners of all grooves."""
    said = corner_notes(words)
    if not said:
        yield from (float(size) for size in ALL_CORNERS.findall(normalised(words)))
    elif not WHICH.match(capitals(words)):
        yield from (float(one.most) for one in said if one.where == "corner" and not float(one.least))


def asked(words: str) -> Iterator[CornerNote]:
    """What a note says of the corners or edges of grooves, or of all."""
    line = capitals(words)
    yield from (one for one in corner_notes(words) if one.where == "edge" or float(one.least))
    for form, where, what in ((UNSIZED, "corner", "radius"), (CHAMFERED, "edge", "chamfer")):
        if (found := form.search(line)) and float(found[1]):
            yield CornerNote(where, what, least=found[1], most=found[1], of_grooves=False, whole=False)


def _not_drawn(notes: Mapping[str, Point], features: Features, sized: Container[int]) -> Iterator[Finding]:
    """A stop for each note on corners or edges of grooves where none is drawn so; a caution where all are sharp.

    `sized`: the numbers of grooves whose corners have a radius of their own.
    """
    grooves = features.part.grooves
    plain = all(g.shape == "rectangular" for g in grooves)  # a round one has a radius that is no corner's
    open_ones = any(g.id not in sized for g in grooves)
    for (note, at), one in ((row, one) for row in notes.items() for one in asked(row[0])):
        drawn = {(size, form) for g in grooves for size, form in [drawn_at(g, one.where)] if size}
        if agrees(one, drawn, features):
            continue
        told = f'The note "{normalised(note)}" gives the {one.where}s of grooves a {wanted(one)}'
        if drawn and (plain or one.where == "edge") and one.of_grooves:
            other = "" if {form for _, form in drawn} & {one.form, "break"} else f"a {min(drawn)[1]} of "
            shown = other + listed([f"{size:.4g}" for size, _ in sorted(drawn)])
            words = f"{told} where the drawing shows {shown}: ask which is meant."
            yield Finding(Level.STOP, DrawingCode.NOTE_CONTRADICTS, words, at)
        elif grooves and not drawn and (open_ones or not UNSIZED.search(capitals(note))):
            words = f"{told} that isn't drawn; sharp {one.where}s were read."
            yield Finding(Level.CAUTION, DrawingCode.CORNER_NOT_DRAWN, words, at)


def drawn_at(groove: Groove, where: str) -> tuple[float, str]:
    """The size and the form of a groove's corners or edges, 0 for sharp ones."""
    if where == "corner":
        return groove.corner_radius, "radius"
    return groove.edge_chamfer, "radius" if groove.rounded else "chamfer"


def agrees(one: CornerNote, drawn: Set[tuple[float, str]], features: Features) -> bool:
    """True if something is drawn as a note has it; of a greatest size, if nothing is larger."""
    bounds = Printed.of(one.least), Printed.of(one.most)
    if not bounds[0].value:
        return all(size <= bounds[1].value or features.fits(bounds[1], size) for size, _ in drawn)
    return any(
        one.form in (form, "break")
        and (bounds[0].value < size < bounds[1].value or any(features.fits(bound, size) for bound in bounds))
        for size, form in drawn
    )


def wanted(one: CornerNote) -> str:
    """What a note asks for, in words."""
    form = "radius" if one.form == "radius" else "chamfer"
    if not float(one.least):
        return f"{form} of {float(one.most):g} at most"
    if one.most == "inf":
        return f"{form} of {float(one.least):g} at least"
    return f"{form} of {float(one.least):g}" + (f" to {float(one.most):g}" if one.most != one.least else "")


def at_most(dimension: Dimension) -> bool:
    """True if a text prints a greatest size."""
    return bool(MAX.search(dimension.text or ""))


def _up_to(size: float, groove: Groove) -> Deviation:
    """Deviations of the drawn corner radius that allow anything from sharp to `size`."""
    return -groove.corner_radius, max(0.0, round(size - groove.corner_radius, 9))


def _worded(dimension: Dimension, features: Features) -> Dimension:
    """A dimension of a radius that ties to nothing drawn, with all that it prints; any other as it is."""
    if dimension.kind is not DimensionKind.RADIUS or tie_of(dimension, features) is not None:
        return dimension
    text = (dimension.text or "R<>").replace("<>", f"{dimension.measured * dimension.factor:.4g}")
    return replace(dimension, text=text if parse(text).sign == "radius" else f"R{text}")


def _arced(dimension: Dimension, size: float, features: Features) -> Groove | None:
    """The rectangular groove in a corner of which the arc of a radius dimension would lie."""
    (z, r), (cz, cr) = (features.frame.on_part(p) for p in dimension.points[1::-1])
    reach = SNAP_SHARE * features.part.outer_diameter
    for groove in (g for g in features.part.grooves if g.side.axial and g.shape == "rectangular"):
        floor = groove.floor_diameter / 2
        in_air = groove.z_far < cz < groove.z_near and groove.side.sign * (abs(cr) - floor) > 0
        at = min(math.dist((z, abs(r)), (wall, floor)) for wall in (groove.z_near, groove.z_far))
        if in_air and at <= reach + (math.sqrt(2) - 1) * size and size <= min(groove.width / 2, groove.depth) + SLACK:
            return groove
    return None


def _cornered(dimension: Dimension, size: float, features: Features) -> Groove | None:
    """The groove whose floor corner a leader's tip touches, or a radius dimension with a greatest size measures.

    A tip that lies as far off as the radius is large may touch its arc, whether or not that is drawn. One on a floor
    between two walls means the corners of these, where the radius has room.
    """
    if dimension.kind is DimensionKind.RADIUS and at_most(dimension):
        tie = tie_of(dimension, features)
        return features.part.grooves[tie.grooves[0] - 1] if tie is not None else _arced(dimension, size, features)
    if dimension.kind is DimensionKind.RADIUS:
        return None if tie_of(dimension, features) else _arced(dimension, size, features)
    if dimension.kind is not DimensionKind.LEADER:
        return None
    z, r = features.frame.on_part(dimension.points[0])
    reach = 2 * SNAP_SHARE * features.part.outer_diameter
    for groove in features.part.grooves:
        if math.isclose(2 * size, groove.floor_diameter, rel_tol=OF_THE_FLOOR):
            continue  # the radius of the floor itself
        # Where floor and walls would meet without a corner radius.
        if groove.side.axial:
            corners = [(wall, groove.floor_diameter / 2) for wall in (groove.z_near, groove.z_far)]
        else:
            corners = [(getattr(groove, groove.floor_field), wall) for wall in groove.radii]
        room = max(groove.corner_radius, min(size, groove.width / 2))
        if any(math.dist((z, abs(r)), corner) <= reach + room for corner in corners):
            return groove
    tie = tie_of(dimension, features)
    row = [features.part.grooves[n - 1] for n in tie.grooves] if tie and tie.field == "floor_diameter" else []
    return next((g for g in row if g.side.axial and g.shape == "rectangular" and size <= g.depth), None)


def _at_corner(
    printed: Printed, groove: Groove, dimension: Dimension, features: Features
) -> tuple[bool, Deviation | None, Finding | None]:
    """What a radius text says of the corner it points to: whether it agrees, deviations, a finding."""
    drawn = groove.corner_radius
    factor = unit_factor(printed, dimension, drawn) if drawn else 1.0
    size, most = printed.value * factor, at_most(dimension)
    if most and drawn <= size + SLACK:
        return True, _up_to(size, groove), None
    if not most and drawn and features.agrees(printed, drawn, factor):
        given, finding = deviations_of(printed, dimension, features.sized(drawn, drawn))
        finding = unread(dimension) if given is None and finding is None and printed.unread else finding
        return True, (max(given[0], -drawn), given[1]) if given is not None else None, finding
    level, code = Level.STOP, DrawingCode.DIMENSION_CONTRADICTS
    by = "leader" if dimension.kind is DimensionKind.LEADER else "dimension"
    words = (
        f"A {by} prints R{size:g}{' MAX' if most else ''} where the drawing shows {drawn:.4g} (groove {groove.id} "
        "corner radius): ask which is meant."
    )
    if drawn == 0:
        level, code = Level.CAUTION, DrawingCode.CORNER_NOT_DRAWN
        words = (
            f"A {by} gives groove {groove.id} a corner radius of {size:g} that isn't drawn; sharp corners were read."
        )
    return False, None, Finding(level, code, words, dimension.points[0], groove=groove.id)
