"""General tolerances: what a note such as "ISO 2768-mK" says about every size without a tolerance of its own.

Source: ISO 2768-1:1989 tables 1 (linear sizes) and 2 (radii and chamfers), as in three published tables that agree.
"""

import bisect
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from extractor.grammar import NUMBER, fractions, normalised
from extractor.late import late
from extractor.part import Deviation
from extractor.sheet import Floats, Text
from extractor.shipped import shipped
from extractor.sizing.lettering.note_words import EVERY
from extractor.sizing.lettering.sheet_words import folded, phrases, plain
from extractor.sizing.sentences.could_size import ABOUT_GROOVE
from extractor.values import dataclass

TABLES = shipped("extractor.sizing.tolerances", "standards")["iso2768"]
STEPS = TABLES["steps"]
"""Upper limits of the size steps in mm."""

IN_WORDS = {name[0]: phrases(name) for name in ("very_coarse", "fine", "medium", "coarse")}
"""The classes by their names in the languages of `sheet_words`, of folded text."""
CLASS = r"(?:(?:class[ei]?|klass[ea]?|clase|klasa|trida|tolerantieklasse)\s*)?"
SAME_TABLES = (
    r"(?:iso\s*[-_ ]?\s*2768|(?<![a-z])(?:en\s*22768|gb\s*[/-]?\s*t?\s*1804|jis\s*b\s*-?\s*0?405))"
    r"(?:\s*-\s*1\b)?(?:\s*[-:]\s*(?:19|20)\d\d\b)?"
)
"""ISO 2768-1 and the standards that have its tables (from memory), with part and year."""
NOTE = late(rf"{SAME_TABLES}\s*[-–—:]*\s*\(?\s*{CLASS}([fmcv])[hkl]?\b")
WORDS = late(
    rf"{SAME_TABLES}\D{{0,30}}?\b(?:" + "|".join(f"(?P<{name}>{form})" for name, form in IN_WORDS.items()) + r")\b"
)
OF_FORM = r"\s*-\s*2\b|\s*[-–—:]*\s*[hkl]\b"
"""The part of the standard, or a class of it, that is of form and place alone."""
GENERAL_ONES = f"(?:{phrases('general_tolerances')})"
OF_RULES = r"(?:8015|1101|14405|14\.5|5459|22081)"
"""Standards that say how tolerances are to be read, and give none (from memory)."""
A_STANDARD = rf"[a-z]{{2,5}}(?:[ /]+[a-z]{{1,5}})?\W{{0,2}}(?!{OF_RULES})\d[\d.]{{2,}}(?:\W?\w+)?"
UNREAD = late(
    rf"(?P<known>(?:{SAME_TABLES}(?!{OF_FORM})|\bdin\s*7168)(?:\W{{0,3}}\w+)?)"
    rf"|{GENERAL_ONES}\W+(?:\w+\W+){{0,4}}(?P<other>{A_STANDARD})"
    rf"|(?P<class>{GENERAL_ONES}\W+{CLASS}(?:{'|'.join(IN_WORDS.values())})\b)"
    rf"|(?P<grade>(?-i:\bH1[1-7]\b\W{{1,6}}h1[1-7]\b)(?:\W+IT\s?1[1-7]\s*/\s*2)?|\bIT\s?1[1-7]\s*/\s*2"
    rf"|{GENERAL_ONES}\W+(?-i:js|JS|[Hh])1[1-7]\b)"
    rf"|(?P<ranges>(?:{NUMBER}\s*-\s*{NUMBER}\s*[:=]?\s*±\s*{NUMBER}[\s,;]*){{2,}})"
    r"|(?P<bare>[普一未][通般注](?:寸法|尺寸)?公差\W*\w*)",
    re.I,
)
"""A standard of general tolerances whose class was not read or whose tables are not known here, a class of none, grades
for holes and shafts (`H14, h14, ±IT14/2`), ranges of sizes in one line, or the words for them alone."""


def general_classes(notes: Iterable[str]) -> list[str]:
    """The tolerance classes (f, m, c or v) that the sheet's notes call up, each once.

    >>> general_classes(["General tolerances ISO 2768-mK"]), general_classes(["ISO 2768-m", "ISO 2768-f"])
    (['m'], ['f', 'm'])
    """
    found = set[str]()
    for note in notes:
        line = folded(note)
        found.update(m[1] for m in NOTE.finditer(line))
        found.update(str(m.lastgroup) for m in WORDS.finditer(line))
    return sorted(found)


def unread_standards(notes: Iterable[str]) -> list[str]:
    """The standards that notes name for general tolerances, each once, where no class of theirs is known here.

    >>> unread_standards(["General tolerances ISO 13920-B", "DIN 7168 mittel"]), unread_standards(["ISO 8015"])
    (['DIN 7168 mittel', 'ISO 13920-B'], [])
    """
    found = (one for note in notes for one in UNREAD.finditer(plain(normalised(note))))
    return sorted({next(filter(None, one.groups())).strip(" ,;") for one in found})


SIZES = f"(?:{phrases('some_sizes')})"
"""Sizes of one kind, by words that name several."""
HEAD = late(
    rf"{EVERY.pattern}|^\W*(?:{SIZES}\b|TOL\b\W*\d)|\b(?:GENERAL|ALLGEMEIN|ALGEMEN|ALLMAN|OGOLN|VSEOBECN|NEPREDEPSAN)|TOLL?ER|ДОПУСК"
    r"|\b(?:LIMITS?|LINEAR|SAUF|SALVO|TENZIJ|DECIMALS?|DEC|D\.?P)\b|[.,]X{1,4}\b"
)
"""What says of a note, in plain capitals, that it gives tolerances to the sizes without their own."""
ALL_SIZES = late(phrases("all_sizes"))
"""The words beside it that leave it to all sizes; any other may be of some of them alone."""
FIGURE = late(rf"±\s*({NUMBER})(?P<angle>\s*(?:°|DEG|MIN|'))?")
ANGLES = late(r"\b(?:ANGULAR|ANGLES?|WINKEL\w*|ANGULAIRES?|ANGOLAR\w*|ANGULO\w*)\b")
"""What says of a figure that it is of angles; its sign of degrees may be missing."""
OF_ONE_KIND = late(
    rf"(?P<words>(?:{EVERY.pattern}[^\d±+]*?\b(?:{SIZES}|DURCHM(?:ESSER)?|DIA(?:M(?:ETER)?)?|Ø|DIM\w*|MASSE|COTES|QUOTE|COTAS)|^\W*{SIZES})\b\W*?"
    rf"(?P<value>(?:IT\s?|JS|js|[A-HKa-hkmnp])(?:[5-9]|1[0-8])|(?:0|[+-]\s*{NUMBER})\s*/?\s*[+-]\s*{NUMBER}|[+-]\d*\.\d+)(?![\w.]))"
)
"""A class or deviations for all sizes of a kind; `N7` and `M6` are a finish and a thread."""
A_CLASS = late(r"(\b(?:JS|js|[A-Za-z])(?:[5-9]|1[0-8])\b)")
"""A tolerance class, in which a small letter is another than its capital."""
BEHIND = late(r"\s*(?:ON|FOR|AT|OF|AUF|BEI|FUR|SUR|POUR|SU|PER|PARA)\s+(?:THE\s+|ALL\s+)?([^\W\d]+|Ø)")
"""What tolerances are for, said behind them."""
OF_A_SIZE = late(r"(?<!TO )(?<!BIS )(?<!UP )(?<!OVER )(?<!UBER )(?<![<>≤≥-])(?<![\d.<>≤≥-])[\d.]+\s*$")
"""A size before a tolerance, which is of that alone; the end of a range is none."""
BY_PLACES = late(
    r"(?<![\w.,])X?[.,](?P<x>X{1,4})\b|(?<![\w.,])X\b(?![.,])|(?<![\w.])0?\.(?P<zeros>0{1,4})(?![\d.])"
    r"|\b(?P<fraction>FRACTION\w*)"
    r"|\b(?P<n>[0-4]|ONE|TWO|THREE|FOUR)[ -]?(?:(?:(?:PL(?:ACE|C)?\.?[ -]?)?DEC(?:IMAL)?S?\b|D\.?P\b)|PLACE\b)\.?"
    r"(?:\s*PL(?:ACE|C)?S?\b)?"
)
"""Sizes of so many decimals, before the tolerance that a note gives them (common practice, no source)."""
NUMBERS = ("", "ONE", "TWO", "THREE", "FOUR")
OF_A_FRACTION = 6
"""The decimals that a size in fractions is read with."""
GAP = 6.0
"""Letter heights between the cells of one row in a box of tolerances, at most."""
LINE = 2.5
"""The same from one line of it to the next."""


class StatedTolerance(NamedTuple):
    """One tolerance of a note as printed: of sizes with so many decimals, of every size, or of some that it names."""

    places: int | None
    value: str
    words: str
    every: bool = False


@dataclass(frozen=True)
class CallUp:
    """What the sheet says of general tolerances: a class of ISO 2768, or deviations in drawing units.

    `figures`: by the decimals of a printed size, None for any size. With neither nobody can tell what it is for.
    """

    words: str
    tolerance_class: str | None = None
    figures: Mapping[int | None, float] = field(default_factory=dict)

    @property
    def known(self) -> bool:
        """True if it is known what sizes it is for."""
        return bool(self.tolerance_class or self.figures)

    @property
    def by_places(self) -> bool:
        """True if it goes by the decimals of a printed size."""
        return bool(self.figures) and None not in self.figures

    def linear(self, size: float, unit: float, places: int | None = None) -> Deviation | None:
        """Deviations of a size in drawing units; `unit` is their length in mm, `places` its decimals as printed."""
        return self._of(linear, size, unit, places)

    def radius(self, size: float, unit: float, places: int | None = None) -> Deviation | None:
        """Deviations of a printed radius in drawing units; none takes it below a sharp corner."""
        found = self._of(radius, size, unit, places)
        return None if found is None else (-min(-found[0], size), found[1])

    def _of(
        self, table: Callable[[float, str], Deviation | None], size: float, unit: float, places: int | None
    ) -> Deviation | None:
        """Deviations by the figures, else by the class's table."""
        if self.tolerance_class is None:
            figure = self.figures.get(places, self.figures.get(None))
            return None if figure is None else (-figure, figure)
        found = table(size * unit, self.tolerance_class)
        return None if found is None else (found[0] / unit, found[1] / unit)


def called_up(notes: Sequence[Text]) -> list[CallUp]:
    """The general tolerances that a sheet names; where they are several, nobody can say which is meant."""
    given = sorted(
        {one for line in wholes(notes) for one in _figures(line)}, key=lambda one: (one.places or 0, one.value)
    )
    placed = [(one.places, one) for one in given if one.places is not None]
    once = len(dict(placed)) == len(placed) > 0
    words = " and ".join(one.words for _, one in placed)
    together = [CallUp(words, figures={places: float(one.value) for places, one in placed})] if once else []
    stated = [
        *(together or (CallUp(one.words) for _, one in placed)),
        *(CallUp(f"ISO 2768-{name}", tolerance_class=name) for name in general_classes(note.text for note in notes)),
        *(
            CallUp(one.words, figures={None: float(one.value)} if one.every else {})
            for one in given
            if one.places is None and float(one.value)
        ),
    ]
    return stated or [CallUp(words) for words in unread_standards(note.text for note in notes)]


def _figures(line: str) -> Iterator[StatedTolerance]:
    """The tolerances that a note in plain capitals gives."""
    headed, at = HEAD.search(line) is not None, 0
    for found in FIGURE.finditer(line):
        words, at = line[at : found.start()], found.end()
        words = words[min((one.start() for form in (HEAD, BY_PLACES) if (one := form.search(words))), default=0) :]
        if found["angle"] or ANGLES.search(words) or ABOUT_GROOVE.search(words):
            continue
        placed, behind = BY_PLACES.search(words), BEHIND.match(line, at)
        every = _of_every(f"{words} {behind[1] if behind else ''}")
        if headed and every:
            places = _places(placed) if placed else None
            shown = {None: "", 0: "X ", OF_A_FRACTION: "fractions "}.get(places, f".{'X' * (places or 0)} ")
            yield StatedTolerance(places, found[1], f"{shown}±{found[1]}", every=True)
        elif headed and not OF_A_SIZE.search(words):
            told = f"{words.strip(' ,;:=')} {line[found.start() : (behind or found).end()]}"
            yield StatedTolerance(None, found[1], " ".join(told.split()))
    for found in OF_ONE_KIND.finditer(line) if not ABOUT_GROOVE.search(line) else ():
        yield StatedTolerance(
            None, max(re.findall(NUMBER, found["value"]), key=float), " ".join(found["words"].split())
        )


def _of_every(words: str) -> bool:
    """True if words leave a tolerance to all sizes, or to all of so many decimals."""
    return all(ALL_SIZES.fullmatch(word) for word in re.findall(r"[^\W_]+|Ø", BY_PLACES.sub(" ", words)))


def _places(found: re.Match[str]) -> int:
    """The decimals that words are about; a size in fractions counts as one of six."""
    name = found["n"]
    if name is None:
        return OF_A_FRACTION if found["fraction"] else len(found["x"] or found["zeros"] or "")
    return int(name) if name.isdigit() else NUMBERS.index(name)


def wholes(texts: Sequence[Text]) -> list[str]:
    """Texts in plain capitals; a tolerance without a heading stands behind that in the cell before it or above it."""
    lines = [fractions(_capitals(text.text))[0] for text in texts]
    if not any(map(_untitled, lines)):
        return lines
    at, end = (np.array(places) for places in zip(*((text.at, text.end) for text in texts), strict=True))
    before = {k: _cell_before(k, texts[k].height, at, end) for k, line in enumerate(lines) if _untitled(line)}
    for start in list(before):
        run = [start]
        while (title := before.pop(run[-1], None)) is not None:
            run.append(title)
        for title, own in pairwise(reversed(run)):
            lines[own] = _behind(lines[title], lines[own])
    return lines


def _capitals(words: str) -> str:
    """A text in plain capitals, but for classes of tolerances, of which small ones are others."""
    parts = A_CLASS.split(plain(normalised(words)))
    return "".join(part if k % 2 else part.upper() for k, part in enumerate(parts))


def _untitled(line: str) -> bool:
    """True for a tolerance that doesn't say what sizes it is for."""
    figure = FIGURE.search(line)
    told = HEAD.search(line) or BY_PLACES.search(line)
    return figure is not None and not told and not OF_A_SIZE.search(line[: figure.start()])


def _cell_before(own: int, high: float, at: Floats, end: Floats) -> int | None:
    """Which text stands in the cell before one, or else above it; by where texts begin and end."""
    left, up, off = at[own, 0] - end[:, 0], at[:, 1] - at[own, 1], abs(at[:, 0] - at[own, 0])
    beside = np.flatnonzero((left >= 0) & (left <= GAP * high) & (abs(up) <= high / 2) & (np.arange(len(at)) != own))
    above = np.flatnonzero((high / 2 < up) & (up <= LINE * high) & (off <= high))
    if len(beside):
        return int(beside[at[beside, 0].argmax()])
    return int(above[up[above].argmin()]) if len(above) else None


def _behind(title: str, line: str) -> str:
    """A tolerance behind the words before it, if they are its heading."""
    head = HEAD.search(title) or BY_PLACES.search(title)
    return f"{title} {line}" if head and (FIGURE.search(title) or _of_every(title[head.start() :])) else line


def linear(size: float, tolerance_class: str) -> Deviation | None:
    """Deviations in mm of a linear size or diameter in mm, None where the table has no value.

    >>> linear(36.0, "m"), linear(0.4, "m")
    ((-0.3, 0.3), None)
    """
    place = bisect.bisect_left(STEPS, round(size, 4))
    value = TABLES["linear"][tolerance_class][place] if place < len(STEPS) else 0.0
    return (-value, value) if value and size >= TABLES["smallest"] else None


def radius(size: float, tolerance_class: str) -> Deviation | None:
    """Deviations in mm of a radius or chamfer height in mm, None below 0.5 mm."""
    if size < TABLES["smallest"]:
        return None
    value = TABLES["radii"][tolerance_class][bisect.bisect_left(STEPS[:2], round(size, 4))]
    return -value, value
