"""Words that name an end of the part: its front face and Z0, or where it is clamped.

Rules: a phrase counts with a leader whose tip lies at one end, or where it stands beside one end and far from the
other; so it does wherever it stands if it names an end by its side, and where sizes begin there, that is asked about.
A single word that may mean much else (`FRONT`, `CHUCK`) must be all else that the text says. What is denied, names a
view, or names both ends says nothing, and neither does a datum letter. The words are common practice, no source.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Literal

import shapely

from extractor.finding import Point
from extractor.late import late
from extractor.sheet import Text
from extractor.sizing.ends.ends import FIGURE, ZERO, EndMark, Ends
from extractor.sizing.lettering.pointers import PointedNote
from extractor.sizing.lettering.sheet_words import about, folded, meant, phrases

Meaning = Literal["front", "chuck", "finished"]

ZERO_PLACE = late(r"(?<![a-z])z ?=? ?[±+-]?0(?:[.,]0*)?(?![\d.,]*\d)(?!\w)")
"""The place itself, which is the front's by the meaning of Z."""
ALONE: tuple[tuple[Meaning, re.Pattern[str]], ...] = (
    ("front", late(phrases("front_alone"))),
    ("chuck", late(phrases("held_alone"))),
)
"""Single words that mean an end only where the text says nothing else; +Z and +X begin at the workpiece's zero."""
NAME = late(rf"\b(?:{phrases('front', 'held_end', 'finished_face')})\b")
"""A phrase for an end."""
REFERRED = late(
    rf"(?:(?:\b(?:{phrases('relation')})\b.*)|(?<![a-z\d.,])\d[\d.,]*\W*(?:mm\W+)?)\b(?:{phrases('from', 'toward')})\W+"
    rf"(?:(?:{phrases('article')})\W+)?(?:{phrases('front', 'held_end')})\b"
)
"""What is behind such words is somewhere else: `SQUARE TO FRONT FACE`, `52 FROM REAR FACE`."""
WORK = "burrs", "deburred", "chamfers", "holes", "paint", "joined", "marks", "work_on_a_face"
"""What may be done at either end."""
OF_A_VIEW = "view", "in_a_view", "detail", "section"
"""Words that make it the name of a view."""
HELD, AT = (rf"\b(?:{phrases(matter)})\b" for matter in ("holder", "at"))
HELD_AT = late(rf"{AT}\W+(?:(?:the|de[mnr]|das|l[aeo]|il|el)\W+)?{HELD}|{HELD}\W+{AT}")
"""The two beside one another: a title may have each, as `SPINDLE, STEEL EN 10083`."""
NO_HOLD = late(phrases("no_hold"))
"""A text about these tells nothing of which end is held."""
SMALL = late(r"\b\w{1,3}\b")
"""A word that only joins others."""
STRANGE = late(r"[^\W\d_]{4,}")
"""A word of a text that may name an end in a language, or in words, that are not known here."""
NUMBERED = late(r"([^\W\d_]{4,}) ?\d")
"""A word with its number: `FACE 1`; other figures are sizes."""
ORIGIN = late(r"[a-qs-z]{1,3} ?0")
"""How an origin is called: `W0`; R0 is a radius."""
SHORT = late(
    r"np|op\W? ?\d0(?: (?:face|side|end))?"
    r"|(?:1|2|i|ii)\W?(?:st|nd)?\W? ?(?:op|seite|side|cote|lato|lado|set-?up|(?:auf)?spannung)\W?"
    r"|g5[4-9]|w\W?p\W?z\W?|原点|零点"
)
"""A zero point, an operation or the side of one in few letters: it may be at either end."""
NO_END = late(
    rf"\d|{phrases('no_end')}|\b(?:{phrases('burrs', 'deburred', 'chamfers', 'holes', 'paint', 'joined', 'marks')})\b"
)
"""What is said of an end face that is not about which end it is; a figure is a size."""
CLAUSE = late(r"\n|[.;](?=\s|$)")
"""Where one thing that a note says ends and the next begins."""
LONGEST = 60
"""Letters of a text that can be a note at an end."""
ON_FACE = 0.05
"""Share of the length within which a tip is on an end face."""
AT_END = 0.4
"""Share of the length within which a tip on a land is at an end: the middle fifth belongs to neither."""
STANDS = 6.0
"""Letter heights from a standing word to its end, at most."""
IN_LINE = 16.0
"""The same for one that stands beyond its end between the heights of the outline: sizes may stand between the two."""
AT_AXIS = 2.0
"""Letter heights from the axis to the middle of a word that stands on the line of it, at most."""
PLAINLY = 3.0
"""How many times farther the other end must be."""


def names_front(line: str) -> bool:
    """True if a folded line has a phrase for the front face or for its place."""
    return about(line, "front", "first") or ZERO_PLACE.search(line) is not None


def meaning(words: str, *, led: bool) -> Meaning | None:
    """What a text says of the end where it is, `led` there by a leader or standing beside it.

    >>> meaning("FRONT FACE", led=True), meaning("CLAMP HERE", led=True), meaning("FRONT VIEW", led=False)
    ('front', 'chuck', None)
    >>> meaning("SQUARE TO FRONT FACE", led=True), meaning("52 FROM REAR FACE", led=True)
    (None, None)
    """
    line = folded(words)
    if not line or len(line) > LONGEST or about(line, "denied", *OF_A_VIEW) or (about(line, "from") and not led):
        return None
    if REFERRED.search(line):
        return None
    front, chuck = names_front(line), about(line, "held_end")
    if front != chuck:
        return "front" if front else "chuck"
    if not front and about(line, "finished_face"):
        return "finished"
    return _alone(line) if not front else None


def _is_known(line: str) -> bool:
    """True for a folded line whose words for an end are known, though it may only refer to one."""
    return REFERRED.search(line) is not None or meaning(line, led=True) is not None


def _says_more(line: str) -> bool:
    """True for a folded line that names an end and says of it what may be done at either, as `DEBURR FRONT FACE`."""
    return NAME.search(line) is not None and bool(about(line, *WORK))


def _is_phrase(line: str) -> bool:
    """True for a folded line that names an end by more than a single word that may mean much else."""
    return names_front(line) or bool(about(line, "held_end")) or _alone(line) is None


def _alone(line: str) -> Meaning | None:
    """What a folded line says of an end by a single word."""
    bare = meant("here").sub("", line).strip(" .,:;!()[]=-")
    return next((name for name, word in ALONE if word.fullmatch(bare)), None)


def may_tell(words: str) -> bool:
    """True for a text that may say which end is the front, and for the figures in the row of a zero."""
    return FIGURE.fullmatch(words) is not None or meaning(words, led=True) is not None


def front_marks(notes: Iterable[PointedNote], ends: Ends) -> tuple[EndMark, ...]:
    """Every note that names an end of a laid part."""
    listed = list(notes)
    found = [m for note in listed if (m := _mark(note, ends)) is not None]
    return tuple(dict.fromkeys((*found, *_zeros(listed, ends))))


def sided(texts: Iterable[Text], ends: Ends) -> tuple[list[EndMark], list[EndMark]]:
    """What notes say of an end that they name by its side, wherever they stand; and those that ask which end is meant.

    So do those where sizes begin or work comes from there, and those on how a part is held that name no end known.
    """
    told, asked = list[EndMark](), list[EndMark]()
    for at, clause in ((text.at, clause) for text in texts for clause in CLAUSE.split(text.text)):
        line, words = folded(clause), " ".join(clause.split())
        named = [side for side in (ends.taken, ends.other) if about(line, side)]
        if not named and _tells_hold(line):
            asked.append(EndMark(taken=False, words=words, spot=None, at=at))
        if len(named) != 1:
            continue
        tries = [meant(named[0]).sub(other, line) for other in ("this end", "this", "")]
        if not about(line, "denied"):
            tries.append(" ".join((*SMALL.sub("", tries[-1]).split(), "side")))
        means = [meaning(one, led=False) for one in tries]
        said = next(filter(None, means), None)
        taken = (named[0] == ends.taken) == (said != "chuck")
        mark = EndMark(taken=taken, words=words, spot=named[0], at=at, sure=said != "finished", named=True)
        told += [mark] if said is not None else []
        worked = about(line, "from") and not any(map(str.isdecimal, line))  # with a figure it is a length
        begins_there = (about(line, "begin") or worked) and not about(line, *OF_A_VIEW)
        asked += [mark] if said is None and not taken and begins_there and len(line) <= LONGEST else []
    return told, asked


def _tells_hold(line: str) -> bool:
    """True for a note on how the part is held or turned round that says nothing else."""
    if len(line) > LONGEST or about(line, "denied", *OF_A_VIEW) or NO_HOLD.search(line) or meaning(line, led=True):
        return False
    return about(line, "turned_round") or HELD_AT.search(line) is not None


def strange(words: str) -> bool:
    """True for a text that may name an end in words that are not known here.

    >>> strange("Etureuna"), strange("FRONT FACE"), strange("DEBURR"), strange("2 deep")
    (True, False, False, False)
    """
    line = folded(words)
    numbered = NUMBERED.fullmatch(line)
    if SHORT.fullmatch(line):
        return True
    bare = numbered[1] if numbered else ORIGIN.sub("", line)
    if len(line) > LONGEST or about(line, *OF_A_VIEW) or NO_END.search(bare):
        return False
    named = STRANGE.search(line) or ORIGIN.fullmatch(line)
    return named is not None and not _is_known(line)


def strange_at_other(notes: Iterable[PointedNote], ends: Ends) -> tuple[EndMark, ...]:
    """Those of such notes that name an origin at the end that was not taken, where no length begins."""
    named = (note for note in notes if _of_origin(note))
    return tuple(mark for mark in strange_marks(named, ends) if not mark.taken)


def strange_marks(notes: Iterable[PointedNote], ends: Ends) -> tuple[EndMark, ...]:
    """Every note of strange words whose leader ends on an end face; a datum at the end taken is as it should be.

    One without a leader that names an origin counts where it stands plainly at the end that was not taken.
    """
    listed = list(notes)
    led = [(note, _led(note, "front", ends)) for note in listed if note.tip is not None and _touches(note.tip, ends)]
    told = [(note, at) for note, at in led if at is not None and not (at and about(folded(note.words), "a_datum"))]
    standing = (note for note in listed if note.tip is None and _of_origin(note))
    told += [(note, False) for note in standing if _beside(note, ends, STANDS) is False]
    return tuple(_made(note, ends, at_taken=at, front=True, sure=False) for note, at in told)


def _of_origin(note: PointedNote) -> bool:
    """True for a note that names an origin, or the end that is worked first."""
    line = folded(note.words)
    return bool(about(line, "an_origin") or ORIGIN.fullmatch(line) or SHORT.fullmatch(line))


def _touches(tip: Point, ends: Ends) -> bool:
    """True for a tip no farther from the axis than the part reaches: an end face may be there."""
    return abs(ends.frame.on_part(tip)[1]) <= (1 + ON_FACE) * ends.reach


def _mark(note: PointedNote, ends: Ends) -> EndMark | None:
    """What one note says, None where it is about no end."""
    said = meaning(note.words, led=note.tip is not None)
    if said is None:
        return None
    near = _led(note, said, ends) if note.tip is not None else _beside(note, ends, STANDS)
    more = _says_more(folded(note.words)) and (note.tip is None or _led(note, "front", ends) is None)
    far = near is None and note.tip is None and _in_line(note, ends)
    far = far and (_is_phrase(folded(note.words)) or (said == "front" and _at_axis(note, ends)))
    at_taken = _beside(note, ends, IN_LINE) if far else near
    if at_taken is None:
        return None
    sure = said != "finished" and not (far or more)
    return replace(_made(note, ends, at_taken=at_taken, front=said != "chuck", sure=sure), far=far, more=more)


def _made(note: PointedNote, ends: Ends, *, at_taken: bool, front: bool, sure: bool = True) -> EndMark:
    """The evidence of a note at one end: a front there, or the chuck's end there."""
    words = " ".join(note.words.split())
    spot = ends.taken if at_taken else ends.other
    return EndMark(taken=at_taken == front, words=words, spot=spot, at=note.at, sure=sure)


def _led(note: PointedNote, said: Meaning, ends: Ends) -> bool | None:
    """True if a leader's tip lies at the end taken, False at the other, None at neither.

    A front face must be touched; where a part is held is a stretch of it.
    """
    assert note.tip is not None
    z, r = ends.frame.on_part(note.tip)
    share = AT_END if said == "chuck" else min(AT_END, max(ON_FACE, note.height / ends.length))
    if abs(r) > ends.reach + 0.5 * ends.size:
        return None
    if abs(z) <= share * ends.length:
        return True
    return False if abs(z + ends.length) <= share * ends.length else None


def _in_line(note: PointedNote, ends: Ends) -> bool:
    """True for a word that stands beyond an end between the heights of the outline."""
    z, r = ends.frame.on_part(note.middle)
    return abs(r) <= ends.reach and not -ends.length <= z <= 0


def _at_axis(note: PointedNote, ends: Ends) -> bool:
    """True for a word on the line of the axis: the name of a view stands clear over or under what it names."""
    return abs(ends.frame.on_part(note.middle)[1]) <= AT_AXIS * note.height


def _beside(note: PointedNote, ends: Ends, most: float) -> bool | None:
    """True if a word stands plainly beside the end taken, False beside the other, None beside neither.

    It stands no farther off than `most` letter heights.
    """
    away = [note.box.distance(face) for face in _faces(ends)]
    near, far = min(away), max(away)
    if note.height <= 0 or near > most * note.height or far < PLAINLY * max(near, note.height):
        return None
    return bool(away[0] < away[1])


def _faces(ends: Ends) -> list[shapely.LineString]:
    """Both end faces as drawn, the one taken first."""
    spans = ((0.0, ends.reach), (0.0, -ends.reach)), ((-ends.length, ends.reach), (-ends.length, -ends.reach))
    return [shapely.LineString([ends.frame.on_sheet(*p) for p in span]) for span in spans]


def _zeros(notes: Iterable[PointedNote], ends: Ends) -> Iterator[EndMark]:
    """A nought whose leader touches an end face, or that stands just beyond the outline in line with one.

    On the axis it may be the origin of heights, and in a row of figures that of running dimensions: those are lengths.
    """
    figures = [n for n in notes if FIGURE.fullmatch(n.words)]
    for note in figures:
        if not ZERO.fullmatch(note.words) or _in_row(note, figures, ends):
            continue
        if note.tip is not None:
            at_taken = _led(note, "front", ends)
        else:
            z, r = ends.frame.on_part(note.middle)
            outside = ends.reach < abs(r) <= ends.reach + STANDS * note.height
            fit = [abs(z - end) <= note.height for end in (0.0, -ends.length)]
            at_taken = fit[0] if outside and fit[0] != fit[1] else None
        if at_taken is not None:
            yield _made(note, ends, at_taken=at_taken, front=True)


def _in_row(zero: PointedNote, figures: Iterable[PointedNote], ends: Ends) -> bool:
    """True if other figures stand in one row with a nought along the axis."""
    height = ends.frame.on_part(zero.middle)[1]
    return any(n is not zero and abs(ends.frame.on_part(n.middle)[1] - height) <= 2 * zero.height for n in figures)
