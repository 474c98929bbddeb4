"""Notes that say of what form grooves are, held against the shape that was read.

Rules: such a note names a groove, its floor or its walls, says of what form they are, and no more: a round floor or a
flat one, square walls or sloping ones, with their angle or without, or a groove that is wider below. At a leader it is
about the groove there, else about all of them. Shapes that have no name, and forms that a shape may have besides, are
left: where nobody can tell, nothing is told.

Source of the words: common practice, no source.
"""

import math
from collections.abc import Iterator, Sequence

from extractor.codes import DrawingCode
from extractor.decimals import half_place, places_of
from extractor.finding import Finding, Level
from extractor.grammar import NUMBER, normalised
from extractor.late import late
from extractor.part import Groove
from extractor.remembered import remembered
from extractor.sheet import Sheet
from extractor.sizing.lettering.groove_notes import without_item
from extractor.sizing.lettering.note_words import GROOVE, NUMERALS
from extractor.sizing.lettering.pointers import said_anywhere
from extractor.sizing.lettering.sheet_words import folded, meant, phrases
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.note_places import PEN, led_to
from extractor.values import dataclass

FORMS = {
    "round": "form_of_round", "flat": "form_of_flat", "square": "form_of_square", "slope": "form_of_slope",
    "under": "form_of_under",
}  # fmt: skip
"""The matter of the words for each form."""
NAMED = {
    "round": "a round floor", "flat": "a flat floor", "square": "square walls", "slope": "sloping walls",
    "under": "a groove that is wider below its mouth",
}  # fmt: skip
"""What each form is called."""
OTHERWISE = {
    "round": ("rectangular", "vee", "tapered"),
    "flat": ("vee", "round"),
    "square": ("vee", "tapered"),
    "slope": ("rectangular",),
    "under": ("rectangular", "vee", "round"),
}
"""The shapes that are not so; of any other nobody can tell."""
ANGLE = late(rf"(?<![\w.])({NUMBER})\s*°")
"""How far walls slope."""
COUNT = late(r"^\W*\d+\s*(?:x\s*)?(?=[^\W\d]{3})")
"""How many grooves it is about, which is held elsewhere."""
UPRIGHT = 90.0
"""Degrees of a wall to the axis that does not slope."""
PARTS = "floor_of_groove", "wall_of_groove"
ROUND_IT = late(r"\ball (?:a)?round\b")
"""That a groove goes round the part says nothing of its floor."""
IN_WORDS = late(rf"\b{GROOVE}")
SMALL = late(rf"\b(?:{phrases(*PARTS, 'beside_a_form', 'groove_bent', *FORMS.values())})\b|\W+|[\d.]+\s*°")
"""What such a note is made of, besides the name of the groove."""


@dataclass(frozen=True, kw_only=True)
class Form:
    """What a note says of the form of grooves, with the angle in degrees of walls that slope.

    `named` if it names grooves; else it may be about the part, and a leader must tie it to one.
    """

    name: str
    angle: str = ""
    named: bool = True


@remembered
def form_said(words: str) -> Form | None:
    """The form that a note gives grooves, None for any other note.

    >>> form_said("GROOVES ROUND BOTTOM"), form_said("NUTFLANKEN 5° GENEIGT").angle, form_said("ROUND ALL EDGES")
    (Form(name='round', angle='', named=True), '5', None)
    """
    line = ROUND_IT.sub(" ", COUNT.sub("", folded(without_item(normalised(words)))))
    part = next((one for one in PARTS if meant(one).search(line)), "")
    forms = [form for form, matter in FORMS.items() if meant(matter).search(line)]
    angle = ANGLE.search(line)
    if not forms and part == "wall_of_groove" and angle:
        forms = ["square" if float(angle[1]) == UPRIGHT else "slope"]
    if len(forms) != 1:
        return None
    left = SMALL.sub(" ", line).upper()
    bare = IN_WORDS.sub(" ", NUMERALS.sub(" ", left)).strip()
    named = bare != left.strip() or forms == ["under"] or meant("groove_bent").search(line) is not None
    of_all = named and not part
    if bare or not (named or part) or (forms[0] in ("round", "flat") and part != PARTS[0] and not of_all):
        return None
    if forms[0] == "slope" and part == PARTS[0]:
        return None  # another kind of groove, not another wall
    return Form(name=forms[0], angle=angle[1] if angle else "", named=named)


def form_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each note that gives grooves another form than was read."""
    for note in said_anywhere(sheet, lambda words: form_said(words) is not None):
        form, groove = form_said(note.words), led_to(note, features)
        grooves = [groove] if groove is not None else features.part.grooves
        if (
            form is None
            or not grooves
            or not (form.named or groove)
            or not all(_off(form, one, features) for one in grooves)
        ):
            continue
        angle = f" at {form.angle} degrees" if form.angle else ""
        words = (
            f'The note "{normalised(note.words)}" asks for {NAMED[form.name]}{angle}, and '
            f"{_drawn(grooves, groove)} otherwise: ask which is meant."
        )
        number = None if groove is None else groove.id
        yield Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, words, note.tip or note.at, groove=number)


def _drawn(grooves: Sequence[Groove], led: Groove | None) -> str:
    """Which grooves are drawn, in words."""
    if led is not None:
        return f"groove {led.id} is drawn"
    return "the groove is drawn" if len(grooves) == 1 else "the grooves are drawn"


def _off(form: Form, groove: Groove, features: Features) -> bool:
    """True for a groove that is plainly of another form."""
    if form.name != "slope" or not form.angle:
        return groove.shape in OTHERWISE[form.name]
    if groove.shape not in ("rectangular", "vee", "tapered"):
        return False
    slack = half_place(places_of(form.angle)) + PEN
    tilts = [0.0] if groove.shape == "rectangular" else _tilts(groove, features)
    ways = [way for tilt in tilts for way in (tilt, 2 * tilt, 90 - tilt, 90 + tilt, 180 - 2 * tilt)]
    return all(abs(float(form.angle) - way) > slack for way in ways)


def _tilts(groove: Groove, features: Features) -> Iterator[float]:
    """How far the walls of a groove lean from upright, in degrees."""
    near = features.snap
    for a, b in features.part.edges:
        within = all(groove.z_far - near <= z <= groove.z_near + near for z, _ in (a, b))
        if within and a[1] != b[1]:
            yield math.degrees(math.atan2(abs(a[0] - b[0]), abs(a[1] - b[1])))
