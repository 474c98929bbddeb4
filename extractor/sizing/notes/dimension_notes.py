"""Texts of dimensions and leaders that are notes at grooves, or no size of what they measure."""

import re
from collections.abc import Sequence
from dataclasses import replace

from extractor.grammar import DIAMETER, NUMBER, coarsest, normalised
from extractor.late import late
from extractor.part import Groove, Part
from extractor.sheet import Dimension, DimensionKind
from extractor.side import OUTSIDE
from extractor.sizing.lettering.groove_notes import GrooveNote, behind_words, capitals, groove_note
from extractor.sizing.lettering.note_words import DEEP
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.lettering.sheet_words import about, folded, phrases, plain
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import Tie
from extractor.sizing.notes.corners import at_most
from extractor.sizing.notes.note_faults import faults_of, hold
from extractor.sizing.sentences.could_size import ABOUT_GROOVE, GROOVES
from extractor.sizing.tolerances.tolerance import is_shaft, unit_factor

NOTED_FIELDS = frozenset({"width", "floor_diameter", "mouth_diameter", "depth"})
"""Fields that a note at a groove prints."""
DASHED = late(rf"(?<![\d.+-])(?:<>|{NUMBER})(?:\s*{DIAMETER})?\s*-\s*({NUMBER})(?!\s*(?:[.\d/^,;|+-]|0\b))", re.I)
"""A diameter with a lone figure behind a minus, which may be a dash before a width."""
COUNTED = late(rf"(?P<count>[1-9]\d*)\s*-\s*(?P<rest>{NUMBER}.*)")
"""A whole number before a dash, which may count what is behind it."""
COUNTS_ALONE = late(r"\W*\d+[xX×]\s")
CLASSED = late(rf"\W*(?:\d+\s*[xX×*]\s*)?{DIAMETER}\s*{NUMBER}\s*b(?:[89]|1[0-3])\W*", re.I)
"""A diameter and a class b, which has the grades 8 to 13 (ISO 286-2, from memory)."""
FINE = 0.25
"""Share of the coarsest tolerance up to which such a figure is a deviation whatever is drawn: grade 13 is so wide."""
DRILLED = 3.0
"""A diameter with a depth, led to one more than so many times as large, is that of a hole drilled there."""
OTHERS = late(rf"\b(?:{phrases('raw', 'bar', 'holes', 'through_hole')})\b", re.I)
"""What a diameter at a leader to the outside of a part is of, if its words say so: of stock, or of a hole across it."""


def dashed(dimension: Dimension, printed: Printed, tie: Tie, features: Features) -> tuple[Dimension, Printed]:
    """A dimension and what it prints, where a dash stands for the sign behind a count, or before a width or a depth.

    `2-1.3` counts where 1.3 is drawn, and not 2.
    """
    found = COUNTED.fullmatch(normalised(dimension.text or ""))
    rest = parse(found["rest"]) if found else Printed()
    if found is None or features.fits(Printed.of(found["count"]), tie.true) or not features.fits(rest, tie.true):
        return dimension, _without_dash(dimension, printed, tie, features)
    text = f"{found['count']} OFF {found['rest']}"
    return replace(dimension, text=text), parse(text)


def _without_dash(dimension: Dimension, printed: Printed, tie: Tie, features: Features) -> Printed:
    """A floor's diameter without the lone figure behind a minus that is drawn as its width or depth.

    Where it is neither and no deviation is so large, nobody can tell what it is.
    """
    found = DASHED.search(normalised(dimension.text or "")) if tie.field == "floor_diameter" else None
    if found is None or printed.deviations != (-float(found[1]), 0.0):
        return printed
    unit, figure = features.part.unit, Printed.of(found[1])
    share = figure.value * unit_factor(printed, dimension, tie.true) * unit / coarsest(tie.true * unit)
    grooves = [features.part.grooves[n - 1] for n in tie.grooves]
    if share > FINE and any(features.fits(figure, g.width, g.depth) for g in grooves):
        return replace(printed, deviations=None, unread=printed.tolerance_class is not None)
    return replace(printed, deviations=None, unread=True) if share > 1.0 else printed


def note_of(dimension: Dimension, tie: Tie, features: Features) -> GrooveNote | None:
    """The note at a groove that a dimension's text is, None where it is a plain size, or of one wall of a face."""
    if not tie.grooves or tie.field not in NOTED_FIELDS:
        return None
    words, grooves = dimension.text or "", [features.part.grooves[number - 1] for number in tie.grooves]
    note = groove_note(words, tie.field) or understood(words, grooves, features)
    if note is None or note.bare or parse(dimension.text).limits or is_classed(words, note, grooves, features):
        return None
    if dimension.kind is not DimensionKind.LEADER and grooves[0].shape == "tapered" and tie.field == "width":
        widths = [dict(meaning.sizes).get("width") for meaning in note.meanings]
        if not any(width is None or features.fits(width, tie.true) for width in widths):
            return None  # the width of the floor is none of the mouth
    of_walls = any(tie.field in dict(meaning.sizes) for meaning in note.meanings)
    return note if of_walls or tie.field != "mouth_diameter" else None


def is_classed(words: str, note: GrooveNote, grooves: Sequence[Groove], features: Features) -> bool:
    """True for a diameter with nothing but its class, whose letter may stand for a width: `Ø34 b11`, but none is 11."""
    letters = {"b" if is_shaft(groove, "floor_diameter") else "B" for groove in grooves}
    alone = CLASSED.fullmatch(normalised(words)) is not None and (parse(words).tolerance_class or "")[:1] in letters
    return alone and all(hold(note, groove, features) for groove in grooves)


def understood(words: str, grooves: Sequence[Groove], features: Features) -> GrooveNote | None:
    """A note behind unknown words at grooves that it fits: these name them.

    One that asks for other grooves is none, nor is one whose sizes may be those of another state.
    """
    line = folded(words)
    note = None if about(line, "more", "otherwise", "processed") else behind_words(words)
    fits = note is not None and grooves and not any(hold(note, groove, features) for groove in grooves)
    return note if fits else None


def whole_note(note: GrooveNote, field: str, grooves: Sequence[Groove], features: Features) -> GrooveNote | None:
    """A note with tolerances at a dimension, most likely of more sizes than that measures, read in no other way.

    Whose its tolerances are, the note says: H13 in `Ø34 x 3 H13` is that of the width, whatever the dimension measures.
    A depth has no class, so that `3x 3 H13` is a width.
    """
    sized = [(m, dict(m.sizes)) for m in note.meanings if note.limited]
    of_field = [m for m, of in sized if field in of and not ("depth" in of and of["depth"].tolerance_class)]
    own = [m for m in of_field if not any(faults_of(m, groove, features) for groove in grooves)]
    if not own or len(own[0].sizes) == 1:
        return None
    return replace(note, meanings=tuple(m for m in own if len(m.sizes) > 1))


def without_count(printed: Printed, tie: Tie, dimension: Dimension) -> Printed:
    """What a dimension prints of a distance, where its count is no size of that.

    A tolerance parts them, or a gap behind the sign alone, as in `2x 3`.
    """
    parted = printed.limited or COUNTS_ALONE.match(dimension.text or "") is not None
    return replace(printed, sizes=printed.sizes[:1]) if tie.ends and printed.count > 1 and parted else printed


def of_several(note: GrooveNote | None) -> bool:
    """True for a note without a tolerance that names several grooves."""
    return note is not None and note.sure and not note.limited and bool(GROOVES.search(plain(note.words).upper()))


def not_its_size(printed: Printed, tie: Tie, dimension: Dimension, features: Features) -> bool:
    """True for a leader that names no diameter and no half of one, or a radius text on a width and the like."""
    if dimension.kind is DimensionKind.LEADER:
        if not tie.grooves and ABOUT_GROOVE.search(capitals(dimension.text or "")):
            return True  # a note at a groove, held as such
        return printed.sign != "diameter" and not (tie.half and features.agrees(printed, tie.true / 2))
    if dimension.kind is DimensionKind.RADIUS and at_most(dimension):
        return True  # `corners` knows what it allows
    return printed.sign == "radius" and tie.field != "corner_radius" and not tie.half


def of_others(words: str, printed: Printed, tie: Tie, part: Part) -> bool:
    """True for words at a leader to the outside of the part that size stock, or a hole drilled there or in the bore."""
    if any(part.grooves[number - 1].side != OUTSIDE for number in tie.grooves):
        return False
    small = printed.size is not None and tie.true > DRILLED * printed.size
    deep = re.search(rf"\d\s*{DEEP}", plain(words), re.I)
    in_bore = any(2 * r == tie.true for _, r in part.bore or ())  # which goes through itself
    others = OTHERS.search(plain(words)) is not None and (small or not in_bore)
    return others or (small and deep is not None)
