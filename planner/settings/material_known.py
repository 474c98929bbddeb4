"""What a material's name says: the family and the material within it, or that the name is unknown here.

A name is taken apart into words; runs of words without their blanks and hyphens are looked up, the longest first. A
name that says two things which can't both be true is not known, and neither is a plain word beside an unknown number.
Metal that is said to be hardened, or harder than `HARD_FROM`, is never taken for steel.
"""

import re
import unicodedata
from collections.abc import Iterator
from functools import cache
from itertools import pairwise

from extractor.values import dataclass
from planner.settings.material_rules import by_rule
from planner.settings.materials import FAMILIES, MATERIALS, Family

# From here on metal is cut as hardened (from memory); 45 HRC are about 446 HV and 424 HB (ISO 18265, from memory).
HARD_FROM = {"HRC": 45.0, "HV": 446.0, "HB": 424.0}
SPELT = (
    ("Ä", "AE"),
    ("Ö", "OE"),
    ("Ü", "UE"),
    ("Ł", "L"),
    ("ß", "SS"),
    ("ẞ", "SS"),
    ("–", "-"),
    ("—", "-"),
    ("‑", "-"),
)
HARDENED = "hardened steel or iron"
HARDENS = frozenset(
    key for key, family in FAMILIES.items() if family.kind in ("steel", "stainless", "iron", "hardened")
)
"""Families of which there is hardened metal."""
PREFIXES = ("AISI", "SAE", "UNS", "ENAW", "DIN", "EN", "SS", "AL", "TYPE", "MATNR", "WNR")
"""What may stand before a name without being part of it."""
# Longest run of words that is one name, and longest text that is looked at.
RUN, LONGEST = 6, 200
_HARD_WORD = re.compile(
    r"(?<![A-Z])(?:(?:CASE|SURFACE|THROUGH|INDUCTION|FLAME)?[ -]?HARDENED"
    r"|(?:INDUKTIONS?|EINSATZ|DURCH|RAND|RANDSCHICHT|OBERFLAECHEN|FLAMM)?[ -]?GEHAERTET\w*"
    r"|GEH\.|NITRIDED|NITRIERT|TREMPE)(?![A-Z])"
)
_NOT_HARD = re.compile(
    r"(?:PRE|UN|NOT|NON|AGE|PRECIPITATION|NICHT|AUS|VORGE|WARMAUS|KALTAUS)[ -]?(?:HARDENED|GEHAERTET)|UNGEHAERTET"
)
_SCALES = r"(HRC|HV|HB)[A-Z]{0,2}(?:\d{0,2}(?!\d))?"
_SPAN = r"(\d{2,4}(?:\.\d)?)(?:\s*(?:\+|-|\.\.\.?|/|TO|BIS)\s*(\d{1,4}(?:\.\d)?))?"
_HARDNESS = re.compile(rf"(?<![\d.])(?:{_SPAN}\s*{_SCALES}|(HRC|HV|HB)\s*{_SPAN})(?![A-Z0-9])")
_ATOM = re.compile(r"[A-Z0-9]+(?:\.[A-Z0-9]+)*")
_BRIDGE = re.compile(r"[\s\-_.]{1,3}")
# Short codes that may be something else: they count where nothing longer is named.
_SHORT = re.compile(r"[ABDHLMOPS]\d{1,2}|\d{3,4}")
# A word with a number that names a material, rather than a state, a standard, a size or a strength.
_DESIGNATION = re.compile(r"(?=.*\d)(?=.*[A-Z])[A-Z0-9.]{3,}|\d\.\d{4}|\d{3,}")
_HARMLESS = re.compile(
    r"T\d{1,4}|H\d{1,4}|(?:RD|D|O|SW|VKT|PH|DIA)\d[\d.]*|RM?\d+|N\d*|\d+(?:\.\d+)?(?:MM|X\d[\d.]*)?"
    r"|(?:EN|DIN|ISO|ASTM|BS|SEW)\d*|A\d{3}"
)
_EITHER = re.compile(r"/|\b(?:OR|ODER|OU|OPPURE|OF|ALT(?:ERNATIV\w*)?|BZW|LUB|NEBO|ELLER)\b\.?")
"""What parts one material from another that may be meant instead."""
_NEXT, _YEAR = re.compile("[,;]"), re.compile(r"(?:19|20)\d\d")
"""What else stands between two of them, and behind it the year of a standard that is no grade."""
_GRADE = re.compile(r"\d{3,4}")
STRENGTH_STEP, STRONGEST = 50, 2000
"""A multiple of the one up to the other may be a strength in N/mm2, and is no grade beside a name."""
# A text that is no more than this may be a number of something, a grade, a chamfer or a mark.
_CODE = re.compile(
    r"[A-Z]{1,2}\d?|[ABDHLMOPST]\d{1,2}|C(?:\d|10)|E\d\d|\d{1,2}H(?:13)?|S250|A60-2|[\d-]+|GR(?:ADE)?\d+|EN\d+|(?:.*[^A-Z])?A[24]-?[78]0"
)
_COLOURS = (
    "BLACK",
    "WHITE",
    "SCHWARZ",
    "WEISS",
    "NOIR",
    "BLANC",
    "NERO",
    "BIANCO",
    "NEGRO",
    "BLANCO",
    "CZARNY",
    "BIALY",
)
_STATES = ("QT", "N", "U", "A", "C", "SH", "AT", "SR", "NATURAL", "NATUR")
# Numbers, and a size of two, as 20x13 is, however it is lettered.
_FIGURES = re.compile(r"\s*\d+\s*(?:[xX×хХ]\s*\d+\s*)?")
BESIDE = frozenset({*_COLOURS, *_STATES})
"""What stands beside a name and is none: the colour of a plastic, the state of a metal."""
LATIN = str.maketrans(
    dict(zip("АБВГДЕЗИЙКЛМНОПРСТУФХЦЫЭ", "ABVGDEZIJKLMNOPRSTUFXCYE", strict=True))
    | {"Ж": "ZH", "Ч": "CH", "Ш": "SH", "Щ": "SHCH", "Ю": "YU", "Я": "YA", "Ь": "", "Ъ": ""}
)
"""Cyrillic capitals as names of steels are written in Latin ones (from memory)."""
_CARBON = re.compile(r"(?:STAL\s*|CT\.?\s*)?([1-5][05]|60)\s*(?:#|号?钢|號?鋼)?")
CARBON = {"20": "22"}
"""Carbon steel is named by hundredths of a per cent alone in GB and GOST; EN has no 20 but 22 (from memory)."""
_NATIONAL = re.compile(
    r"\b(?:PN[ -](?:(?:\d\d)?/?[A-Z][ -]?\d{5}|(?:(?:EN|ISO)[ -])+\d{3,6})|NF[ -]?A[ -]?\d\d[ -]\d{3}"
    r"|(?:(?:UNI|GOST)(?:[ -]R)?|NF)(?:[ -](?:EN|ISO))*[ -]?(?<!NF[ -])\d{3,6})(?:[-:]\d{1,4})*"
    r"(?![\w:/-]|\.\d)(?!\s*(?:HRC(?!\s*\d)|H[VB]W?(?!\s*\d{3})))"
)
"""A national standard and its own number, wherever they stand: what is beside them, as a hardness, is no part of it."""
_TREATED = re.compile(r"\bSS[ -]?(\d{4})-\d{2}\b")
"""A Swedish number with the state of the metal behind it (SS 14 23 33, from memory)."""
_STANDARD = re.compile(
    r"(?:DIN|EN|ISO|ASTM|BS|SEW|JIS|AMS)(?:[ -]?(?:EN|ISO))*[ -]?[B-Z]?\d{3,6}(?:-\d{1,2})*(?::\d{4})?"
    r"|\d+ ?(?:MM|N/MM2|MPA)"
)


@dataclass(frozen=True)
class NamedMaterial:
    """What a name says. `names`: the materials meant, none for plain words; `may_be`: families that are left open."""

    family: Family
    names: frozenset[str]
    may_be: frozenset[str]

    def agrees(self, other: "NamedMaterial") -> bool:
        """True if both may mean one material; hardened metal never matches a soft one."""
        if (self.family.key == HARDENED) is not (other.family.key == HARDENED):
            return False
        if self.names and other.names:
            return bool(self.names & other.names) and self.family == other.family
        return self.family.key in other.may_be or other.family.key in self.may_be


@dataclass(frozen=True)
class _Hit:
    """A run of words found: the families that it may mean, and which material it is."""

    family: str
    name: str
    may_be: frozenset[str]
    short: bool = False


def known(name: str) -> NamedMaterial | None:
    """What a material's name says; None if the name is unknown.

    >>> known("Edelstahl 1.4571").family.key, known("100Cr6, hardened 60+4 HRC").family.group
    ('austenitic stainless steel', 'H')
    >>> known("steel 37Q9") is known("unobtainium") is None
    True
    """
    text = _plain(name)
    hard, rest = _hardness(text)
    hits, words = _hits(rest)
    left = [word for word in words if _DESIGNATION.fullmatch(word) and not _harmless(word)]
    named = [hit for hit in hits if hit.name and not hit.short] or [hit for hit in hits if hit.name]
    plain = [hit for hit in hits if not hit.name]
    if not hits:
        return NamedMaterial(FAMILIES[HARDENED], frozenset(), frozenset({HARDENED})) if hard and not left else None
    families = {hit.family for hit in (*named, *_instead(rest))}
    if len(families) > 1 or (plain and not named and left):
        return None
    may_be = frozenset.intersection(*(hit.may_be for hit in (*named, *plain)))
    if not may_be:
        return None
    family = families.pop() if families else min(plain, key=lambda hit: len(hit.may_be)).family
    if family not in may_be:
        return None
    if hard and family in HARDENS:
        family, may_be = HARDENED, frozenset({HARDENED})
    return NamedMaterial(FAMILIES[family], frozenset(hit.name for hit in named), may_be)


def _instead(text: str) -> Iterator[_Hit]:
    """The materials that stand as a bare number, and nothing more, beside another one, as 6082 in `C45 / 6082`."""
    firm, loose = _EITHER.split(text), [part for part in _NEXT.split(text) if not _YEAR.fullmatch(part.strip())]
    for part in (*(firm if len(firm) > 1 else ()), *(loose if len(loose) > 1 else ())):
        number = part.strip(" ()[].")
        if _GRADE.fullmatch(number) and (int(number) > STRONGEST or int(number) % STRENGTH_STEP):
            yield from (hit for hit in _hits(number)[0] if hit.name)


def is_name(text: str) -> bool:
    """True if a text is the name of a material and nothing else, and no short code that may be something else.

    >>> is_name("Ti-6Al-4V"), is_name("POM black"), is_name("BRASS BUSH"), is_name("1018"), is_name("H13")
    (True, True, False, False, False)
    """
    if known(text) is None or _CODE.fullmatch(squeezed(text)) or _FIGURES.fullmatch(text):
        return False
    hits, words = _hits(_hardness(_plain(text))[1])
    return bool(hits) and all(word in BESIDE or _HARMLESS.fullmatch(word) for word in words)


def says_hard(text: str) -> bool:
    """True if a text says that metal is hard.

    >>> says_hard("HARDENED 60 HRC"), says_hard("C45"), says_hard("42CrMo4 44 HRC")
    (True, False, False)
    """
    return _hardness(_plain(text))[0]


def _plain(name: str) -> str:
    """Capitals without accents, points for decimal commas."""
    text = name[:LONGEST].upper()
    for one, two in SPELT:
        text = text.replace(one, two)
    text = "".join(c for c in unicodedata.normalize("NFKD", text) if unicodedata.category(c) != "Mn").translate(LATIN)
    text = _NATIONAL.sub(" ; ", _TREATED.sub(r"SS\1", re.sub(r"(?<=\d),(?=\d)", ".", text)))
    carbon = _CARBON.fullmatch(text.strip(" ;"))
    return f"C{CARBON.get(carbon[1], carbon[1])}" if carbon else text


def _hardness(text: str) -> tuple[bool, str]:
    """Whether a text says that the metal is hard, and the text without those words."""
    hard = bool(_HARD_WORD.search(_NOT_HARD.sub(" ", text)))
    for found in _HARDNESS.finditer(text):
        low, more, scale = (found[1], found[2], found[3]) if found[3] else (found[5], found[6], found[4])
        sign = "+" in found[0]
        greatest = max(float(low), (float(low) if sign else 0.0) + float(more or 0.0))
        hard = hard or greatest >= HARD_FROM[scale]
    rest = _HARDNESS.sub(" ; ", text)
    return hard, _STANDARD.sub(" ; ", _HARD_WORD.sub(" ; ", _NOT_HARD.sub(" ; ", rest)))


def _hits(text: str) -> tuple[list[_Hit], list[str]]:
    """Every name in a text, the longest first and none inside another; and the words that are in none."""
    atoms = list(_ATOM.finditer(text))
    taken, hits = set[int](), list[_Hit]()
    for length in range(min(RUN, len(atoms)), 0, -1):
        for first in range(len(atoms) - length + 1):
            run = atoms[first : first + length]
            places = range(first, first + length)
            if taken.isdisjoint(places) and _together(run, text) and (hit := _lookup(_squeezed(run))):
                hits.append(hit)
                taken.update(places)
    return hits, [atom[0] for place, atom in enumerate(atoms) if place not in taken]


def _harmless(word: str) -> bool:
    """True for a state, a standard, a size or a strength; a bare number of three digits or more is a grade."""
    return bool(_HARMLESS.fullmatch(word)) and not re.fullmatch(r"\d{3,}|\d\.\d{4}", word)


def _together(run: list[re.Match[str]], text: str) -> bool:
    """True if only blanks and hyphens part the words of a run."""
    return all(_BRIDGE.fullmatch(text[one.end() : two.start()]) for one, two in pairwise(run))


def _squeezed(run: list[re.Match[str]]) -> str:
    """Words run together; a hyphen stays between two numbers."""
    joined = ""
    for atom in run:
        joined += ("-" if joined[-1:].isdigit() and atom[0][:1].isdigit() else "") + atom[0]
    return joined


@cache
def _table() -> dict[str, _Hit]:
    """All names that have a row, squeezed."""
    found: dict[str, _Hit] = {}
    for row in MATERIALS["plain"]:
        may_be = frozenset(key for key, family in FAMILIES.items() if family.kind in row["kinds"])
        found |= {squeezed(word.replace("_", " ")): _Hit(row["family"], "", may_be) for word in row["words"].split()}
    for key, family in FAMILIES.items():
        for names in family.materials:
            for name in map(squeezed, names):
                hit = _Hit(key, names[0], frozenset({key}), bool(_SHORT.fullmatch(name)))
                found.setdefault(name, hit)
    return found


def squeezed(name: str) -> str:
    """A name as it is looked up.

    >>> squeezed("EN AW-6082"), squeezed("X5 CrNi 18-10"), squeezed("Al99,5")
    ('ENAW6082', 'X5CRNI18-10', 'AL99.5')
    """
    return _squeezed(list(_ATOM.finditer(_plain(name))))


def _lookup(key: str) -> _Hit | None:
    """What a squeezed name is, by its row or by the rules of its system."""
    if hit := _table().get(key):
        return hit
    for prefix in PREFIXES:
        if key.startswith(prefix) and (hit := _table().get(key.removeprefix(prefix))) and hit.name:
            return _Hit(hit.family, hit.name, hit.may_be)
    family = by_rule(key)
    return _Hit(family, key, frozenset({family})) if family else None
