"""What the heading of a program says of its inserts: one table by which the comments are written and read back.

Only the exact sentences that the writer writes are taken, before the first block, all of those about an insert and
together with the one that names the units. Anything else in a comment, whoever wrote it, counts for nothing. Blanks and
capitals don't matter, since transfers change them.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import TypeVar, cast

from extractor.part import Units
from extractor.side import SIDES, Where
from extractor.values import dataclass
from planner.increment import Increments
from planner.shop import USUAL_ANGLE, Edge, Reference, Sense, Shop, Tool
from postproc.reading.words import ParsedProgram
from postproc.vocabulary.numbers import decimal

Key = TypeVar("Key", bound=str)

UNIT_TEXTS: Mapping[Units, str] = {"mm": "UNITS MM.", "in": "UNITS INCH."}
KINDS: Mapping[Where, str] = {"outside": "", "inside": "INSIDE ", "face": "FACE "}
FORMS: Mapping[Edge, str] = {"square": "", "vee": "VEE ", "round": "ROUND "}
EDGES: Mapping[tuple[str, str], str] = {
    ("Z", "far"): "Z IS SET TO THE FAR EDGE, CHUCK SIDE",
    ("Z", "near"): "Z IS SET TO THE NEAR EDGE, FRONT FACE SIDE",
    ("X", "far"): "X IS SET TO THE INNER EDGE, TOWARD THE AXIS",
    ("X", "near"): "X IS SET TO THE OUTER EDGE, AWAY FROM THE AXIS",
}
SIZE = "{kind}{form}INSERT {width} WIDE, CORNER RADIUS {radius}"
SENSES: Mapping[Sense, str] = {"cw": "SPINDLE CLOCKWISE", "ccw": "SPINDLE COUNTER-CLOCKWISE"}
ANGLE = "POINT ANGLE {angle} DEG"
MOST_FOLDS = 12
"""Comments that one of our forms may be folded over: the longest has 60 characters, a comment 8 at least."""
LONGEST_NAME = 30
"""Letters of a material's name in the heading: too few to pass for a sentence about an insert."""
HALF_OFF = 0.001
"""By what share twice a radius may be more than its width: both are written rounded."""


@dataclass(frozen=True)
class SaidInsert:
    """An insert as a heading says it, lengths in `units`; `line` is the comment's. `spindle`: None where left out."""

    station: int
    offset: int
    width: float
    corner_radius: float
    reference: Reference
    where: Where
    edge: Edge
    angle: float
    units: Units
    line: int
    spindle: Sense | None

    @property
    def name(self) -> str:
        """Station and offset as the tool word spells them."""
        return f"T{self.station:02d}{self.offset:02d}"


def insert_texts(tool: Tool, increments: Increments) -> Iterator[str]:
    """What a setter must know of an insert: width, corner, point of a vee, and which edge its offset sets."""
    width, radius = (
        decimal(increments.count(length), increments.per_length) for length in (tool.width, tool.corner_radius)
    )
    size = SIZE.format(kind=KINDS[tool.where], form=FORMS[tool.edge], width=width, radius=radius)
    yield f"{tool.name} {size}"
    if tool.edge == "vee":
        yield f"{tool.name} {ANGLE.format(angle=f'{tool.angle or USUAL_ANGLE:g}')}"
    yield f"{tool.name} {EDGES[tool.side.axis, tool.reference]}"
    yield f"{tool.name} {SENSES[tool.spindle or 'cw']}"


def material_texts(shop: Shop) -> Iterator[str]:
    """What the speeds and feeds are for; where nobody named a material, that one was assumed."""
    name = shop.material.name[:LONGEST_NAME].strip()
    assumed = "material" in shop.unsaid
    yield f"SPEEDS AND FEEDS ARE FOR {name}{', ASSUMED: NOBODY NAMED THE MATERIAL' if assumed else ''}."


def said_inserts(parsed: ParsedProgram) -> tuple[SaidInsert, ...]:
    """The inserts that our heading names in full and once, in their order; none if the heading isn't ours."""
    comments = list(_unfolded(list(_heading(parsed))))
    units: list[Units] = [u for _, said in comments for u, text in UNIT_TEXTS.items() if said.startswith(_bare(text))]
    if len(units) != 1:
        return ()
    names = dict.fromkeys(found[1] for _, said in comments if (found := re.match(r"(T\d{4})", said)))
    told = (_said(name, [(line, s[5:]) for line, s in comments if s.startswith(name)], units[0]) for name in names)
    return tuple(insert for insert in told if insert is not None)


def units_remark(parsed: ParsedProgram) -> tuple[Units, int] | None:
    """The units of the first comment in the heading, in anybody's words, that names them, and its line."""
    named = ((found[1], line) for line, text in _heading(parsed) if (found := _UNITS.search(text)))
    return next((("in" if word == "INCH" else "mm", line) for word, line in named), None)


def said_edge(comment: str) -> tuple[str, tuple[str, str]] | None:
    """The name of the insert, and axis and edge, in a comment that is our sentence about the edge.

    >>> said_edge("T0303 Z IS SET TO THE NEAR EDGE, FRONT FACE SIDE"), said_edge("T0303 NEAR EDGE")
    (('T0303', ('Z', 'near')), None)
    """
    bare = _bare(comment)
    return next(((bare[:5], key) for key, words in EDGES.items() if bare[5:] == _bare(words)), None)


def _heading(parsed: ParsedProgram) -> Iterator[tuple[int, str]]:
    """Line and bare text of each comment before the first block that does anything."""
    for block in parsed.blocks:
        if any(word.address != "O" for word in block.words):
            return
        for comment in block.comments:
            yield block.line, _bare(comment)


def _unfolded(comments: Sequence[tuple[int, str]]) -> Iterator[tuple[int, str]]:
    """The comments, those of our own forms with what a narrow comment has folded onto the lines behind them."""
    for number, (line, text) in enumerate(comments):
        joined = ("".join(more for _, more in comments[number : number + fold]) for fold in range(1, MOST_FOLDS + 1))
        yield line, next((whole for whole in joined if _ours(whole)), text)


@lru_cache(maxsize=1024)  # those who ask for the inserts of a program ask one after the other
def _ours(text: str) -> bool:
    """True for a bare text that is all of one of our forms about an insert, or begins with that of the units."""
    if any(text.startswith(_bare(said)) for said in UNIT_TEXTS.values()):
        return True
    about = text[5:] if re.match(r"T\d{4}", text) else ""
    return bool(_SIZE.fullmatch(about) or _ANGLE.fullmatch(about)) or about in _WHOLE


@lru_cache(maxsize=1024)  # our own forms are held against each comment, folded in each way
def _bare(text: str) -> str:
    """A text without what transfers change."""
    return "".join(text.split()).upper()


def _said(name: str, texts: Sequence[tuple[int, str]], units: Units) -> SaidInsert | None:
    """One insert from the texts that begin with its name; None if they don't say all of it, or say it twice."""
    sizes = [(line, found) for line, text in texts if (found := _SIZE.fullmatch(text))]
    edges = [key for _, text in texts for key, words in EDGES.items() if text == _bare(words)]
    angles = [float(found[1]) for _, text in texts if (found := _ANGLE.fullmatch(text))]
    senses = [sense for _, text in texts for sense, words in SENSES.items() if text == _bare(words)]
    if len(sizes) != 1 or len(edges) != 1:
        return None
    line, size = sizes[0]
    kind, form = _key(KINDS, size["kind"]), _key(FORMS, size["form"])
    width, radius = float(size["width"]), float(size["radius"])
    (axis, reference), vee = edges[0], form == "vee"
    if axis != SIDES[kind].axis or len(angles) != vee or not width > 0 or 2 * radius > width * (1 + HALF_OFF):
        return None
    return SaidInsert(
        int(name[1:3]),
        int(name[3:5]),
        width,
        radius,
        cast(Reference, reference),
        kind,
        form,
        angles[0] if vee else 0.0,
        units,
        line,
        senses[0] if len(senses) == 1 else None,
    )


def _key(table: Mapping[Key, str], bare: str) -> Key:
    """The key of a table whose bare text this is."""
    return next(key for key, text in table.items() if _bare(text) == bare)


def _pattern(text: str, **groups: str) -> re.Pattern[str]:
    """The pattern of a bare text with its gaps."""
    return re.compile(re.sub(r"\\\{(\w+)\\\}", lambda m: groups[m[1]], re.escape("".join(text.split()))))


_NUMBER = r"\d{1,5}\.\d{0,5}"
_SIZE = _pattern(
    SIZE,
    kind=f"(?P<kind>{'|'.join(map(_bare, KINDS.values()))})",
    form=f"(?P<form>{'|'.join(map(_bare, FORMS.values()))})",
    width=f"(?P<width>{_NUMBER})",
    radius=f"(?P<radius>{_NUMBER})",
)
_ANGLE = _pattern(ANGLE, angle=r"(\d{1,3}(?:\.\d{1,4})?)")
_WHOLE = frozenset(_bare(text) for text in (*EDGES.values(), *SENSES.values()))
_UNITS = re.compile(r"UNITS(?:ARE|IN|[:=])*(MM|MILLIM|METRIC|INCH)")
