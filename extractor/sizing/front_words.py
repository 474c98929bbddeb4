"""Words that name an end of the part: its front face and Z0, or where it is clamped.

Rules: a phrase counts with a leader whose tip lies at one end, or where it stands beside one end and far from the
other. A single word that may mean much else (`FRONT`, `CHUCK`) must be all that the text says. What is denied, names a
view, or names both ends says nothing, and neither does a datum letter. The words are common practice, no source.
"""

import re
from collections.abc import Iterable, Iterator
from typing import Literal

import shapely

from extractor.finding import Point
from extractor.sizing.ends import FIGURE, ZERO, EndMark, Ends
from extractor.sizing.pointers import PointedNote

Meaning = Literal["front", "chuck", "finished"]

FRONT = re.compile(
    r"\bfront\s*(?:face|end|side)\b|\b(?:z|work|workpiece|part|program(?:me)?)\s*[- ]?\s*zero\b"
    r"|(?<![a-z])z\s*=?\s*[±+-]?0(?:[.,]0*)?(?![\d.,]*\d)(?!\w)"
    r"|\bvorder(?:seite|fl(?:ä|ae)che|kante|ende)\b|\bplan(?:seite|fl(?:ä|ae)che)\b|\bz[- ]null\b"
    r"|\b(?:werkst(?:ü|ue)ck|programm)?nullpunkt\b"
    r"|\b(?:face|c(?:ô|o)t(?:é|e))\s+avant\b|\borigine\s+(?:programme|pi(?:è|e)ce)\b|\bz(?:é|e)ro\s+pi(?:è|e)ce\b"
    r"|\b(?:faccia|lato)\s+anteriore\b|\bzero\s+pezzo\b"
    r"|\b(?:cara|lado)\s+(?:frontal|delanter[ao]|anterior)\b|\bcero\s+(?:de\s+)?pieza\b"
    r"|\bstirn(?:seite|fl(?:ä|ae)che)\s+vorne?\b"
    r"|\bczo[łl]o\s+przednie\b|\bstrona\s+przednia\b|\bvoor(?:zijde|vlak|kant)\b"
    r"|\bfram(?:sida|(?:ä|ae)nde)n?\b|\bfr(?:ä|a)mre\s+plan\b|\bp[řr]edn[íi]\s+(?:[čc]elo|strana|plocha)\b",
    re.I,
)
"""Phrases for the finished front face, in nine languages, English first."""
CHUCK = re.compile(
    r"\b(?:jaws?|(?:spann)?backen|futter|mandrin|mors|griffe|mandrino|garras|mordazas?|plato)"
    r"\s+(?:here|hier|ici|qui|aqu(?:í|i))\b"
    r"|\b(?:clamp(?:ed)?|grip(?:ped)?|hold|held|chuck(?:ed)?)\s+(?:it\s+)?(?:here|(?:(?:on|at)\s+)?(?:this\s+)?(?:side|end|area|zone)|on\s+this)\b|\b(?:back|rear)\s*(?:face|end|side)\b"
    r"|\b(?:clamping|gripping|holding|chucking)\s+(?:surface|area|zone|side|end|length|dia(?:meter)?)\b"
    r"|\b(?:ein)?spann(?:stelle|seite|fl(?:ä|ae)che|bereich|ende|zone)\b|\bhier\s+(?:ein)?spannen\b|\bfutterseite\b"
    r"|\br(?:ü|ue)ckseite\b"
    r"|\b(?:serrer|serrage)\s+ici\b|\bzone\s+de\s+serrage\b|\bc(?:ô|o)t(?:é|e)\s+(?:mandrin|serrage)\b"
    r"|\bprise\s+de\s+pi(?:è|e)ce\b|\bface\s+arri(?:è|e)re\b"
    r"|\b(?:bloccare|serrare)\s+qui\b|\blato\s+(?:mandrino|serraggio|posteriore)\b|\bfaccia\s+posteriore\b"
    r"|\b(?:sujetar|amarrar)\s+aqu(?:í|i)\b|\blado\s+(?:del?\s+)?(?:plato|sujeci(?:ó|o)n|mandril)\b"
    r"|\bzona\s+de\s+(?:sujeci(?:ó|o)n|amarre)\b|\bcara\s+(?:trasera|posterior)\b"
    r"|\bheadstock\s+(?:side|end)\b|\bprise\s+(?:de\s+mors|en\s+mandrin)\b|\bpresa\s+(?:mandrino|griffe|pezzo)\b"
    r"|\bmocowa[ćc]\s+tu(?:taj)?\b|\bstrona\s+uchwytu\b|\bhier\s+inspannen\b|\bklauwzijde\b"
    r"|\bsp(?:ä|a)nn\s+h(?:ä|a)r\b|\bchucksida\b|\bupnout\s+zde\b|\bstrana\s+skl[íi][čc]idla\b",
    re.I,
)
"""Phrases for the end that is held, or for the back."""
FINISHED = re.compile(
    r"\bfinished\s+(?:face|end|side)\b|\b(?:face|end|side)\s+(?:already\s+)?finished\b"
    r"|\bfertige?\s+(?:bearbeitete?\s+)?(?:seite|fl(?:ä|ae)che)\b|\b(?:seite|fl(?:ä|ae)che)\s+fertig\b"
    r"|\bface\s+finie\b|\bfaccia\s+finita\b|\bcara\s+(?:acabada|terminada)\b",
    re.I,
)
"""Phrases for a face that is finished: Z0 is put there, or it was turned before and the part is held at it now."""
ALONE: tuple[tuple[Meaning, re.Pattern[str]], ...] = (
    ("front", re.compile(r"front|vorne?|avant|fronte|frente|prz[óo]d|\+\s*[zx]|[zx]\s*\+", re.I)),
    (
        "chuck",
        re.compile(
            r"(?:clamp|clamping|clamped|chuck|chucking|(?:(?:chuck|soft)\s+)?jaws?|gripp?|back|rear|spannen|spannung|einspannung|futter"
            r"|spannfutter|backen|hinten|mandrin|serrage|mors|arri(?:è|e)re|mandrino|serraggio|griffe|presa"
            r"|plato|mordazas?|sujeci(?:ó|o)n|amarre)",
            re.I,
        ),
    ),
)
"""Single words that mean an end only where the text says nothing else; +Z and +X begin at the workpiece's zero."""
DENIED = re.compile(
    r"\b(?:not|don'?t|never|no|nicht|kein\w*|ne\s+pas|non|opposite|gegen(?:ü|ue)ber|oppos(?:é|e)e?|opposto|opuest[ao])\b",
    re.I,
)
"""Words that deny or turn round."""
OF_A_VIEW = re.compile(
    r"\b(?:view|elevation|\w*ansicht|vue|vista|detail|einzelheit|section|schnitt|coupe|sezione|secci(?:ó|o)n)\b", re.I
)
"""Words that make it the name of a view."""
FROM = re.compile(r"\b(?:from|von|ab|vom|depuis|(?:à|a)\s+partir|dal?|dalla|desde)\b", re.I)
"""Without a leader, a note on where lengths begin may be about any end."""
STRANGE = re.compile(r"[^\W\d_]{4,}")
"""A word of a text that may name an end in a language, or in words, that are not known here."""
NO_END = re.compile(
    r"\d|deburr|burr|chamfer|break|round|sharp|grind|ground|polish|harden|mill|drill|hole|centre|center|thread|groove|weld"
    r"|surface|finish|paint|coat|plat(?:e|ing)|lack|farbe|peint|mark|stamp|engrav|datum|flat|key|entgrat|grat|fase|scharf|schleif|poliert?|h(?:ä|ae)rt|gefr|bohr"
    r"|zentrier|gewinde|nut\b|oberfl|schwei(?:ß|ss)|chanfrein|arr[êe]te|rectif|trou|filet|smuss|foro|chafl|taladro|rosca",
    re.I,
)
"""What is said of an end face that is not about which end it is; a figure is a size."""
LONGEST = 60
"""Letters of a text that can be a note at an end."""
ON_FACE = 0.05
"""Share of the length within which a tip is on an end face."""
AT_END = 0.4
"""Share of the length within which a tip on a land is at an end: the middle fifth belongs to neither."""
STANDS = 6.0
"""Letter heights from a standing word to its end, at most."""
PLAINLY = 3.0
"""How many times farther the other end must be."""


def meaning(words: str, *, led: bool) -> Meaning | None:
    """What a text says of the end where it is, `led` there by a leader or standing beside it.

    >>> meaning("FRONT FACE", led=True), meaning("CLAMP HERE", led=True), meaning("FRONT VIEW", led=False)
    ('front', 'chuck', None)
    """
    line = " ".join(words.split())
    if (
        not line
        or len(line) > LONGEST
        or DENIED.search(line)
        or OF_A_VIEW.search(line)
        or (FROM.search(line) and not led)
    ):
        return None
    front, chuck = bool(FRONT.search(line)), bool(CHUCK.search(line))
    if front != chuck:
        return "front" if front else "chuck"
    if not front and FINISHED.search(line):
        return "finished"
    bare = line.strip(" .,:;!()[]")
    return next((name for name, word in ALONE if word.fullmatch(bare)), None) if not front else None


def may_tell(words: str) -> bool:
    """True for a text that may say which end is the front, and for the figures in the row of a zero."""
    return FIGURE.fullmatch(words) is not None or meaning(words, led=True) is not None


def front_marks(notes: Iterable[PointedNote], ends: Ends) -> tuple[EndMark, ...]:
    """Every note that names an end of a laid part."""
    listed = list(notes)
    found = [m for note in listed if (m := _mark(note, ends)) is not None]
    return tuple(dict.fromkeys((*found, *_zeros(listed, ends))))


def strange(words: str) -> bool:
    """True for a text that may name an end in words that are not known here.

    >>> strange("Etupinta"), strange("FRONT FACE"), strange("DEBURR"), strange("2 deep")
    (True, False, False, False)
    """
    line = " ".join(words.split())
    if len(line) > LONGEST or OF_A_VIEW.search(line) or NO_END.search(line):
        return False
    return STRANGE.search(line) is not None and meaning(line, led=True) is None


def strange_marks(notes: Iterable[PointedNote], ends: Ends) -> tuple[EndMark, ...]:
    """Every note of strange words whose leader ends on an end face."""
    led = [(note, _led(note, "front", ends)) for note in notes if note.tip is not None and _touches(note.tip, ends)]
    return tuple(_made(note, ends, at_taken=at, front=True, sure=False) for note, at in led if at is not None)


def _touches(tip: Point, ends: Ends) -> bool:
    """True for a tip no farther from the axis than the part reaches: an end face may be there."""
    return abs(ends.frame.on_part(tip)[1]) <= (1 + ON_FACE) * ends.reach


def _mark(note: PointedNote, ends: Ends) -> EndMark | None:
    """What one note says, None where it is about no end."""
    said = meaning(note.words, led=note.tip is not None)
    if said is None:
        return None
    at_taken = _led(note, said, ends) if note.tip is not None else _beside(note, ends)
    if at_taken is None:
        return None
    return _made(note, ends, at_taken=at_taken, front=said != "chuck", sure=said != "finished")


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


def _beside(note: PointedNote, ends: Ends) -> bool | None:
    """True if a word stands plainly beside the end taken, False beside the other, None beside neither."""
    away = [note.box.distance(face) for face in _faces(ends)]
    near, far = min(away), max(away)
    if note.height <= 0 or near > STANDS * note.height or far < PLAINLY * max(near, note.height):
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
