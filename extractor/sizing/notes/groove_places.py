"""Places of grooves in words: from an end of the part to a wall, to the middle, in a list, or at a leader.

Rules: `11 TO FIRST GROOVE` is the distance of either wall or of the middle, from the end that the note names, else
from either; so is each of `GROOVES AT 11, 20`, and the figure of a note led to a groove. None of them turns Z0.
"""

import re
from collections.abc import Sequence

from extractor.grammar import NUMBER
from extractor.part import Groove
from extractor.sizing.ends.front_words import names_front
from extractor.sizing.lettering.pointers import PointedNote
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import about, folded
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import steps
from extractor.sizing.notes.note_places import led_to

COMMAS = re.compile(r"\d,\d+,\d")
"""Figures of a list without blanks."""


def place_fault(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the place of the first groove, of the last, or of any, "" for nothing."""
    figures, part = [Printed.of(one) for one in re.findall(NUMBER, found["behind"] or found["before"])], features.part
    named = any(found[name] for name in ("at", "place", "joined", "begins", "ends", "first", "last", "before"))
    # `GROOVE 2 FROM FRONT` may be the second, or 2 wide, and `GROOVES AT 8` have that pitch.
    others = [g.width for g in part.grooves] if not named else []
    others += [step for g in part.grooves for step in steps(g, features)] if not found["end"] else []
    if features.fits(figures[0], *others) or (not named and figures[0].value <= len(part.grooves)):
        return ""
    # `27,44,56` is a list, and no decimals.
    pieces = [Printed.of(one) for one in re.findall(r"\d+", note.words)] if COMMAS.search(note.words) else figures
    here = led_to(note, features)
    ways = [_places(found, end, [here] if here else part.grooves) for end in from_ends(note, features)]
    tried = (all(features.fits(one, *way) for one in some) for way in ways for some in (figures, pieces))
    if not any(ways) or any(tried):
        return ""
    off = next(one for one in figures if not features.fits(one, *ways[0]))
    return off_drawn("distance", off, ways[0], features)


def _places(found: re.Match[str], end: float, grooves: Sequence[Groove]) -> list[float]:
    """How far from an end of the part lies what a note calls the place of one of some grooves."""
    axial = sorted((g for g in grooves if g.side.axial), key=lambda g: abs(end - g.middle), reverse=bool(found["last"]))
    firsts = [g for k, g in enumerate(axial) if g.where not in {before.where for before in axial[:k]}]
    some = firsts if found["first"] or found["last"] or found["before"] else axial
    walls = [sorted((abs(end - g.z_near), abs(end - g.z_far))) for g in some]
    return [size for near, far in walls for size in ((far,) if found["ends"] else (near, far, (near + far) / 2))]


def from_ends(note: PointedNote, features: Features) -> list[float]:
    """The z of the ends that a note may count from: of the front, where it names that, else of either.

    Of a groove that it is led to, the other end too where it names that alone.
    """
    line = folded(note.words)
    front, back = names_front(line) or about(line, "front_alone"), about(line, "held_end")
    if back and not front and note.tip is not None:
        return [-features.part.length]
    return [0.0] if front else [0.0, -features.part.length]


def led_place_fault(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the place of the groove that a note is led to, "" for nothing."""
    groove = led_to(note, features)
    if groove is None or not groove.side.axial:
        return ""
    figure = Printed.of(next(one for one in found.groups() if one))
    ends = [0.0] if found["z"] else from_ends(note, features)
    drawn = [abs(end - groove.middle) for end in ends]
    walls = [abs(end - z) for end in ends for z in (groove.z_near, groove.z_far)]
    # To the centre may be to the part's as well.
    drawn = [*drawn, *(r for r in groove.radii)] if found["middle"] else [*walls, *drawn]
    return off_drawn("distance", figure, drawn, features)


def off_drawn(what: str, figure: Printed, drawn: Sequence[float], features: Features) -> str:
    """That a printed size is none of those drawn, in words; "" where it is, and where none is drawn."""
    if not drawn or features.fits(figure, *drawn):
        return ""
    return f"prints {what} {figure.value:g} where the drawing measures {drawn[0]:.6g}"
