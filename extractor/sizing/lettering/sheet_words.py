"""What sheets are headed and lettered with in many languages, as patterns of plain text; `words.toml` has the words.

Plain text has letters without accents, and `ae`, `oe` and `ue` as the letter that they stand for, so that `MASSSTAB`,
`Maßstab` and `Měřítko` need one spelling each; folded text is plain, and in small letters. English, German, French,
Italian, Spanish, Portuguese, Dutch, Swedish, Danish, Norwegian, Finnish, Polish, Czech, Hungarian, Romanian, Turkish
and Russian.

Source of the words: common practice, no source.
"""

import re
import unicodedata
from functools import cache

from extractor.late import late
from extractor.remembered import remembered
from extractor.shipped import shipped

APART = str.maketrans({"ß": "ss", "ẞ": "SS", "ı": "i"} | dict(zip("łŁæÆœŒđĐ", "lLaAoOdD", strict=True)))
"""Letters that Unicode does not take apart into a letter and its accent."""
TWO_LETTERS = late(r"(?<=[aou])e", re.I)
"""The second letter of an umlaut that is written out."""
LETTER_O = late(r"(?<=[^\W\d_])ø(?=[^\W\d_])", re.I)
"""The letter, which stands within a word; alone or by a figure it is the sign of a diameter."""
IDEOGRAPHS = late(
    r"(?P<detail>部?(?:詳細|详图|詳図|拡大図?|(?:局部)?放大图?)図?)|(?P<every>所有|全部|各)|(?P<groove>(?:退刀|环|環|沟)?(?<!(?<!关)[键鍵])(?<!ー)[槽溝]|みそ)|(?P<wide>[宽寬幅]度?)|(?P<deep>深[度さ]?)|(?P<floor>(?<=[槽溝沟])底部?)|(?P<across>直?[径徑])|(?<=\d)\s*(?P<places>[处處処]|[ヶケかカヵ箇个個]所)"
)
"""What a Chinese or a Japanese note at a groove says without blanks between its words."""
IN_ENGLISH = {
    "detail": "DETAIL",
    "every": "ALL",
    "groove": "GROOVE",
    "wide": "WIDE",
    "deep": "DEEP",
    "floor": "BOTTOM",
    "across": "DIAMETER",
    "places": "PLACES",
}
MATTER = re.compile(r"\{([a-z_]+)\}")
"""A matter in the phrase of another."""


@remembered
def plain(words: str) -> str:
    """A text without accents, its case and its blanks kept, with ideographs for grooves as English words.

    >>> plain("Für Ø34 h11"), plain("SZEROKOŚĆ"), plain("3xØ5"), plain("Rændel")
    ('Fur Ø34 h11', 'SZEROKOSC', '3xØ5', 'Randel')
    """
    if not words.isascii():
        apart = unicodedata.normalize("NFKD", LETTER_O.sub("o", words).translate(APART))
        words = "".join(c for c in apart if not unicodedata.combining(c))
        words = IDEOGRAPHS.sub(lambda found: f" {IN_ENGLISH[found.lastgroup or '']} ", words)
    return TWO_LETTERS.sub("", words)


def folded(words: str) -> str:
    """A text for comparison: small letters without accents, every run of blanks one blank.

    >>> folded("Maßstab"), folded(" Vorderflaeche "), folded("MĚŘÍTKO  2:1"), folded("CZOŁO")
    ('massstab', 'vorderflache', 'meritko 2:1', 'czolo')
    """
    return plain(" ".join(words.split())).lower()


@cache
def phrases(*matters: str) -> str:
    r"""The phrases of some matters of `words.toml` in all languages, as alternatives of a pattern of folded text.

    Those of notes at grooves are of plain text in capitals. `{matter}` in a phrase stands for any of that one.

    >>> phrases("through"), phrases("processed") == rf"\w*(?:{phrases('process')})\w*"
    ('thr[ou]?|through|durch', True)
    """
    table = shipped("extractor.sizing.lettering", "words")
    found = "|".join(phrase for matter in matters for some in table[matter].values() for phrase in some)
    return MATTER.sub(lambda other: f"(?:{phrases(other[1])})", found)


@cache
def meant(*matters: str) -> re.Pattern[str]:
    """The pattern of text in which a phrase of some matters stands as words of their own."""
    return late(rf"\b(?:{phrases(*matters)})\b")


def about(line: str, *matters: str) -> bool:
    """True for a folded line in which a phrase of some matters stands as words of their own.

    >>> about("deburr all edges", "edges", "holes"), about("remarks", "marks")
    (True, False)
    """
    return meant(*matters).search(line) is not None


SCALE, DETAIL, SECTION, VIEW = (f"(?:{phrases(name)})" for name in ("scale", "detail", "section", "view"))
"""What heads a scale, a detail drawn larger, a section and a view."""
RATIO = r"(\d+(?:[.,]\d+)?) ?[:/] ?(\d+(?:[.,]\d+)?)"
"""A scale's two figures."""
