"""Labels of the rows of a table of grooves that stand at the grooves without a balloon or a leader.

Rules: a letter that stands alone beside the part at one groove names that; two of one letter mark a plane. A number may
be a size: numbers name grooves where those of all rows stand on one line, as large as each other and each at a groove
of its own; what else stands on that line so is the number of a groove too (common practice, no source).
"""

from collections.abc import Iterator, Mapping, Sequence, Set

from extractor.finding import Point
from extractor.part import Groove
from extractor.sheet import Sheet, Text
from extractor.side import OUTSIDE
from extractor.sizing.lettering.pointers import LedLabel, middle_of
from extractor.sizing.measured.features import Features

OVER = 6.0
"""Letter heights over the part within which a letter of a row, alone on the sheet, names the groove below it: lines of
sizes may run between them."""
LEVEL = 0.5
"""Share of the letters' height by which numbers on one line may lie apart."""
FEWEST_NUMBERS = 2
"""So many rows with numbers at least: one number at one groove may be its size."""
AtGroove = tuple[Text, Groove]


def standing(sheet: Sheet, names: Mapping[str, Point], known: Set[str], features: Features) -> Iterator[LedLabel]:
    """The labels of rows, by name with their place in the table, that stand at grooves; `known` are led there."""
    letters = {name for name in names if name.isalpha()} - known
    numbers = {name for name in names if name.isdigit()}
    numbers = numbers if len(numbers) >= FEWEST_NUMBERS and not numbers & known else set[str]()
    bare = [(text, text.text.strip()) for text in sheet.texts]
    texts = [(t, word) for t, word in bare if word in letters or (numbers and word.isdigit())]
    texts = [(t, word) for t, word in texts if t.at != names.get(word)]
    over = [(t, g) for t, _ in texts for g in _below(t, features)]
    for letter in names:
        own = [t for t, word in texts if letter in letters and word == letter]
        if len(own) == 1 == sum(t is own[0] for t, _ in over):
            yield LedLabel(letter, own[0].at, middle_of(own[0]))
    yield from _numbered([one for one in over if one[0].text.strip().isdigit()], numbers, features)


def _below(text: Text, features: Features) -> Iterator[Groove]:
    """The grooves outside that a text stands over."""
    (z, r), height = features.frame.on_part(middle_of(text)), text.height / features.frame.scale
    if abs(r) - features.part.outer_diameter / 2 <= OVER * height:
        outside = (g for g in features.part.grooves if g.side == OUTSIDE)
        yield from (g for g in outside if g.z_far - height <= z <= g.z_near + height)


def _numbered(over: Sequence[AtGroove], numbers: Set[str], features: Features) -> Iterator[LedLabel]:
    """The numbers on the first line on which those of all rows stand."""
    away = {text: features.frame.on_part(middle_of(text))[1] for text, _ in over}
    for first in away if numbers else ():
        slack = LEVEL * first.height / features.frame.scale
        line = [t for t in away if t.height == first.height and abs(away[t] - away[first]) <= slack]
        words = {t.text.strip() for t in line}
        grooves = {g.id for t, g in over if t in line}
        if numbers <= words and len(words) == len(line) == len(grooves):
            yield from (LedLabel(t.text.strip(), t.at, middle_of(t)) for t in line)
            return
