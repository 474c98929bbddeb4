"""What sheets are headed and lettered with in many languages, as patterns of folded text.

Folded text has small letters without accents, and `ae`, `oe` and `ue` as the letter that they stand for, so that
`MASSSTAB`, `Maßstab` and `Měřítko` need one spelling each. English, German, French, Italian, Spanish, Portuguese,
Dutch, Swedish, Danish, Norwegian, Finnish, Polish, Czech, Hungarian, Romanian, Turkish and Russian.

Source of the words: common practice, no source.
"""

import re
import unicodedata

APART = str.maketrans({"ł": "l", "ø": "o", "ß": "ss", "æ": "a", "œ": "o", "đ": "d", "ı": "i"})
"""Letters that Unicode does not take apart into a letter and its accent."""
TWO_LETTERS = re.compile(r"(?<=[aou])e")
"""The second letter of an umlaut that is written out."""


def folded(words: str) -> str:
    """A text for comparison: small letters without accents, every run of blanks one blank.

    >>> folded("Maßstab"), folded(" Vorderflaeche "), folded("MĚŘÍTKO  2:1"), folded("CZOŁO")
    ('massstab', 'vorderflache', 'meritko 2:1', 'czolo')
    """
    apart = unicodedata.normalize("NFKD", " ".join(words.split()).lower().translate(APART))
    return TWO_LETTERS.sub("", "".join(c for c in apart if not unicodedata.combining(c)))


def any_of(*phrases: str) -> re.Pattern[str]:
    """The pattern of folded text in which one of some phrases stands as words of their own."""
    return re.compile(r"\b(?:" + "|".join(phrases) + r")\b")


SCALE = (
    r"(?:scale|massstab|echelle|esc(?:ala)?|scala|skala|schaal|skal|malestokk?|malestok|mittakaava|podzialka|meritko|mierka"
    r"|meretarany|leptek|scara|olcek|mjerilo|merilo|масштаб|比例)"
)
"""What heads the scale of a sheet or of a view."""
DETAIL = r"(?:detail|detalje?|detalle|einzelheit|dettaglio|particolare|pormenor|szczegol|yksityiskohta|reszlet)"
"""What names a detail drawn larger."""
SECTION = r"(?:sect(?:ion)?|schnitt|coupe|sezione|secci?on|corte|doorsnede|snitt?|przekroj|rez|leikkaus|metszet|разрез)"
"""What names a section."""
VIEW = r"(?:view|elevation|ansicht|vu|vista|aanzicht|vy|visning|widok|pohled|kuvanto|nezet|вид)"
"""What names a view; the French `vue` folds to `vu`."""

RATIO = r"(\d+(?:[.,]\d+)?) ?[:/] ?(\d+(?:[.,]\d+)?)"
"""A scale's two figures."""

__all__ = ["DETAIL", "RATIO", "SCALE", "SECTION", "VIEW", "any_of", "folded"]
