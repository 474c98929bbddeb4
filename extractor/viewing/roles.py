"""The role of each stroke of a sheet: rules claim strokes for a role, each with a weight and a reason.

Nothing is thrown away. A stroke that no rule claims may be outline. One claimed for sure can't be: it is left out of
every view. One that is likely something else stays where it is drawn but closes nothing by itself, and if the outline
does not close without it, the sheet is read once more with the likely ones let back in. The rules run in the order of
the table, each on what is left by those before it.
"""

from collections.abc import Callable, Mapping
from dataclasses import field, replace
from enum import StrEnum
from functools import cached_property, partial

import numpy as np
import numpy.typing as npt

from extractor.geometry.boxes import diagonal_of
from extractor.geometry.network import Strokes
from extractor.grouping import grouped
from extractor.sheet import HATCH_LINE, Floats, Pen, Segments, Sheet
from extractor.values import dataclass
from extractor.viewing.arrows import Arrows, arrows, to_points
from extractor.viewing.axis import DUST, NO_OUTLINE, centre_segments
from extractor.viewing.broad_lines import broad_lines
from extractor.viewing.clouds import clouds
from extractor.viewing.cut_marks import cut_marks
from extractor.viewing.datums import datum_marks
from extractor.viewing.exploded import Exploded, exploded
from extractor.viewing.freehand import freehand
from extractor.viewing.gaps import noding_distance
from extractor.viewing.hatching import loose_hatching
from extractor.viewing.in_line import between_ticks, loose_ticks
from extractor.viewing.leaders import leaders, with_heads
from extractor.viewing.letters import without_letters
from extractor.viewing.marks import texture_marks
from extractor.viewing.parted_lines import put_together
from extractor.viewing.tips import Tips, tips_of

SURE = 1.0
"""From this weight on a claim needs no second reading: the shape of the thing itself says what it is."""

LIKELY = 0.5
"""What words beside it or its layer's name say: it may be wrong."""

MOST_ON_LAYERS = 0.7
"""Where more than this share of what is drawn lies on layers named for one thing, their names say nothing."""

LETTERED = 0.02
"""Strokes shorter than this share of the diagonal of all within the border are those of letters and heads, where there
are longer ones: a sheet that was plotted has more of them than of all else, and they say nothing of its layers."""


class Role(StrEnum):
    """What a stroke is drawn as."""

    OUTLINE = "outline"
    HIDDEN = "hidden"
    CENTRE = "centre"
    DIMENSION = "dimension"
    EXTENSION = "extension"
    LEADER = "leader"
    HATCH = "hatch"
    FRAME = "frame"
    MARK = "mark"
    LETTER = "letter"


@dataclass(frozen=True)
class Claim:
    """Segments (by index) that a rule claims for a role, with its weight and its reason.

    `by_layer`: nothing but the name of their layer says so.
    """

    role: Role
    weight: float
    reason: str
    labels: frozenset[int]
    by_layer: bool = False


@dataclass(frozen=True)
class Desk:
    """The sheet, the strokes that are left, the noding distance, and what earlier rules found out.

    `parted`: for a stroke that was taken for a whole line the labels of its other pieces.
    """

    sheet: Sheet
    strokes: Strokes
    near: float
    pointed: Arrows = field(default_factory=Arrows)
    told: Exploded = field(default_factory=Exploded)
    parted: Mapping[int, frozenset[int]] = field(default_factory=dict)

    @cached_property
    def tips(self) -> Tips:
        """The ends of the strokes."""
        return tips_of(self.strokes, self.near)

    def without(self, labels: frozenset[int]) -> "Desk":
        """The desk without some of its strokes."""
        if not labels:
            return self
        left = self.strokes.pick(~np.isin(self.strokes.label, list(labels)))
        return Desk(self.sheet, left, self.near, self.pointed, self.told, self.parted)


@dataclass(frozen=True)
class Rule:
    """One row of the table."""

    role: Role
    weight: float
    reason: str
    claims: Callable[[Desk], frozenset[int]]
    by_layer: bool = False


@dataclass(frozen=True)
class Roles:
    """All claims of a sheet, the strokes that may be outline, the noding distance, the dimensions put together."""

    claims: tuple[Claim, ...]
    strokes: Strokes
    near: float
    size: float
    told: Exploded

    @cached_property
    def aside(self) -> frozenset[int]:
        """Segments that are probably not outline but are still among the strokes."""
        mine = set(self.strokes.label.tolist())
        return frozenset(k for claim in self.claims for k in claim.labels if k in mine)

    @cached_property
    def by_layer(self) -> frozenset[int]:
        """Segments that only the name of their layer marks as no outline."""
        named = {k for claim in self.claims if claim.by_layer for k in claim.labels}
        return frozenset(named - {k for claim in self.claims if not claim.by_layer for k in claim.labels})

    @cached_property
    def hatching(self) -> frozenset[int]:
        """Segments that are hatch lines drawn one by one."""
        return frozenset(k for c in self.claims if c.role is Role.HATCH and c.weight >= SURE for k in c.labels)

    def told_on(self, sheet: Sheet) -> Sheet:
        """The sheet with what was put together and named: dimensions in pieces, and hatch lines drawn one by one."""
        segments = sheet.segments
        lines = [k for k in sorted(self.hatching) if segments.sources[segments.source[k]].owner != "HATCH"]
        source = segments.source.copy()
        source[lines] = len(segments.sources) + np.arange(len(lines))
        named = (segments.sources[k]._replace(owner=HATCH_LINE) for k in segments.source[lines].tolist())
        marked = replace(segments, source=source, sources=(*segments.sources, *named))
        return self.told.put_together(replace(sheet, segments=marked) if lines else sheet)

    def of(self, count: int) -> list[Role | None]:
        """The role of each of `count` segments by its heaviest claim, the first of equal ones; None where none is."""
        best: list[tuple[float, Role] | None] = [None] * count
        for claim in self.claims:
            for k in claim.labels:
                held = best[k]
                if held is None or claim.weight > held[0]:
                    best[k] = claim.weight, claim.role
        return [held[1] if held else None for held in best]


def assign(sheet: Sheet) -> Roles:
    """Claim the strokes of a sheet for their roles by the rules of the table."""
    segments = sheet.segments
    strokes = solid_strokes(segments)
    size = diagonal(strokes)
    claims = [*_by_pen(segments)]
    kept = without_letters(strokes, segments.ends[centre_segments(segments)])
    letters = frozenset(strokes.label.tolist()) - frozenset(kept.label.tolist())
    claims.append(Claim(Role.LETTER, SURE, "it hangs together with nothing, one small piece among thousands", letters))
    if not len(kept):
        return Roles(tuple(claims), kept, 0.0, 0.0, Exploded())
    near = noding_distance(kept)
    desk = Desk(sheet, to_points(kept, near), near)
    desk = desk.without(_claimed(TEXTURE, desk, claims))
    whole, rest = put_together(desk.strokes, sheet.texts, desk.near)
    pointed = arrows(whole, desk.near, sheet.circles)
    measuring, more = put_together(to_points(_measuring(segments), near), sheet.texts, near)
    told = exploded(sheet, measuring, desk.near, pointed)
    desk = Desk(sheet, desk.strokes, desk.near, pointed, told, rest | more)
    for rule in RULES:
        labels = _claimed(rule, desk, claims)
        if rule.weight >= SURE:
            desk = desk.without(labels)
    return Roles(tuple(claims), desk.strokes, desk.near, size, told)


def with_loose(sheet: Sheet) -> Sheet:
    """The sheet with the dimensions that lie in pieces put together, after its own."""
    return assign(sheet).told.put_together(sheet)


def _claimed(rule: Rule, desk: Desk, claims: list[Claim]) -> frozenset[int]:
    """What a rule claims; its claim is put with the others."""
    labels = rule.claims(desk)
    labels = labels.union(*(desk.parted[k] for k in labels & desk.parted.keys()))
    claims.append(Claim(rule.role, rule.weight, rule.reason, labels, rule.by_layer))
    return labels


def _by_pen(segments: Segments) -> list[Claim]:
    """What the pen of a stroke says, or what it was expanded from."""
    said = [OWNERS.get(source.owner) or PENS.get(source.pen) for source in segments.sources]
    found = grouped((named, k) for k, source in enumerate(segments.source.tolist()) if (named := said[source]))
    return [Claim(role, SURE, reason, frozenset(rows)) for (role, reason), rows in found.items()]


OWNERS: dict[str, tuple[Role, str]] = {
    "HATCH": (Role.HATCH, "it bounds a hatched area"),
    "DIMENSION": (Role.DIMENSION, "it belongs to a dimension of the file"),
    **dict.fromkeys(("LEADER", "MLEADER", "MULTILEADER"), (Role.LEADER, "it belongs to a leader of the file")),
    "TEXT": (Role.LETTER, "it belongs to a text of the file"),
}
"""What a composite of the file that a stroke was expanded from says."""

PENS: dict[Pen, tuple[Role, str]] = {
    Pen.CENTRE: (Role.CENTRE, "it is drawn as a centre line"),
    Pen.HIDDEN: (Role.HIDDEN, "it is drawn as a hidden line"),
    Pen.PHANTOM: (Role.FRAME, "it is drawn as the line of something beside the part"),
}
"""What a pen says (ISO 128-2 lines 02, 04, 05; from memory)."""

BORDER, CONSTRUCTION = "border", "construction"
"""The roles of a layer named for the frame of the sheet, and for lines that helped to draw."""

ASIDE = {"dimension": Role.DIMENSION, "text": Role.LETTER, BORDER: Role.FRAME, CONSTRUCTION: Role.MARK}
"""Roles of layers whose strokes are beside the matter."""


def _on_layers(desk: Desk, wanted: str) -> frozenset[int]:
    """Strokes on layers with such a role, none if layers of this kind hold most of what is drawn."""
    strokes, segments = desk.strokes, desk.sheet.segments
    size = strokes.chord_lengths
    said = np.array([segments.sources[s].role for s in segments.source[strokes.label]], dtype=object)
    # A border is longer than all within it: it doesn't say that the other names are wrong.
    within = said != BORDER if wanted != BORDER else np.ones(len(said), dtype=bool)
    long = within & (size >= LETTERED * diagonal(strokes.pick(within)))
    within = long if long.any() else within
    kind = (wanted,) if wanted == CONSTRUCTION else tuple(name for name in ASIDE if name != CONSTRUCTION)
    if size[within & np.isin(said, kind)].sum() > MOST_ON_LAYERS * size[within].sum():
        return frozenset()
    return frozenset(strokes.label[said == wanted].tolist())


def _construction(desk: Desk) -> frozenset[int]:
    """Straight strokes on layers named for construction that hang in the air at both ends, but for one another."""
    named = _on_layers(desk, CONSTRUCTION)
    mine = [k for k, label in enumerate(desk.strokes.label.tolist()) if label in named]
    free = [
        k
        for k in mine
        if all(desk.tips.straight(t) and desk.tips.hangs(t, frozenset(mine)) for t in (2 * k, 2 * k + 1))
    ]
    return frozenset(desk.strokes.label[free].tolist())


def _hatching(desk: Desk) -> frozenset[int]:
    """Hatch lines drawn one by one; ticks lean alike as well, and stand in even steps in a chain of dimensions."""
    ticks = frozenset(desk.strokes.label[list(loose_ticks(desk.tips))].tolist())
    return loose_hatching(desk.without(ticks).strokes, desk.near)


TEXTURE = Rule(
    Role.MARK,
    SURE,
    "two legs of a surface-texture mark stand on a line",
    lambda d: texture_marks(d.strokes, d.near),
)

RULES: tuple[Rule, ...] = (
    Rule(Role.MARK, SURE, "it is an arc of a revision cloud", lambda d: clouds(d.strokes, d.near)),
    Rule(Role.MARK, SURE, "it is a side of an arrow head", lambda d: d.pointed.heads),
    Rule(Role.DIMENSION, SURE, "an arrow head ends it at either side", lambda d: d.pointed.lines),
    Rule(Role.HATCH, SURE, "four or more lines lean alike in even steps", _hatching),
    Rule(Role.MARK, SURE, "its layer is named for construction lines and it hangs free at both ends", _construction),
    Rule(
        Role.MARK,
        LIKELY,
        "it sways freehand from one line to another",
        lambda d: freehand(d.sheet.segments, d.tips),
    ),
    Rule(
        Role.MARK,
        LIKELY,
        "it stands at an end of a cutting plane, a letter beside it",
        lambda d: cut_marks(d.sheet.texts, d.tips, d.sheet.segments.ends[centre_segments(d.sheet.segments)]),
    ),
    Rule(
        Role.MARK,
        LIKELY,
        "it is a datum's triangle on a line, or leads from there to its letter",
        lambda d: datum_marks(d.sheet.texts, d.tips, d.sheet.segments.ends[centre_segments(d.sheet.segments)]),
    ),
    Rule(
        Role.MARK,
        LIKELY,
        "it bounds a line or an arrow as wide as a pen, and others are as wide",
        lambda d: broad_lines(d.strokes, d.near),
    ),
    Rule(Role.EXTENSION, LIKELY, "a dimension line with heads ends at it", lambda d: d.pointed.extensions),
    Rule(
        Role.DIMENSION,
        LIKELY,
        "the size beside it says what it is",
        lambda d: frozenset(k for piece in d.told.pieces for k in piece.dimension.drawn - piece.feet),
    ),
    Rule(
        Role.EXTENSION,
        LIKELY,
        "the line of a printed size ends at it",
        lambda d: frozenset(k for piece in d.told.pieces for k in piece.feet),
    ),
    Rule(
        Role.MARK,
        LIKELY,
        "it slants across a line's end and hangs free on both sides of it",
        lambda d: frozenset(int(d.strokes.label[k]) for k in loose_ticks(d.tips)),
    ),
    Rule(
        Role.DIMENSION,
        LIKELY,
        "such a tick ends it at either side",
        lambda d: frozenset(int(d.strokes.label[k]) for k in between_ticks(d.tips)),
    ),
    Rule(
        Role.LEADER,
        LIKELY,
        "it leads from a text to a place",
        lambda d: frozenset(leaders(d.sheet.texts, d.tips, d.pointed.headed)),
    ),
    Rule(
        Role.LEADER,
        LIKELY,
        "an arrow head ends it at one side, and it hangs free at the other",
        lambda d: frozenset(with_heads(d.tips, d.pointed.headed - d.pointed.lines)),
    ),
    *(
        Rule(role, LIKELY, f"its layer is named for {name} lines", partial(_on_layers, wanted=name), True)
        for name, role in ASIDE.items()
    ),
)
"""The table. Heads and hatching go before what is likely: a leader's head or a hatch line would hide its other end."""


def solid_strokes(segments: Segments) -> Strokes:
    """The strokes that may be outline: visible edges, not part of a dimension, leader or hatch."""
    return _picked(segments, segments.of(lambda s: s.pen is Pen.SOLID and s.owner not in NO_OUTLINE))


def _measuring(segments: Segments) -> Strokes:
    """The straight strokes that may be a dimension's: whatever the pen, but not of a dimension or hatching already."""
    return _picked(segments, segments.of(lambda s: s.owner not in ("DIMENSION", "HATCH")))


def _picked(segments: Segments, fit: npt.NDArray[np.bool_]) -> Strokes:
    """The strokes under a mask."""
    index = np.flatnonzero(fit).astype(np.int64)
    return cleaned(Strokes(segments.ends[index], segments.bulge[index], index))


def cleaned(strokes: Strokes) -> Strokes:
    """The strokes without dots, arcs that rise by next to nothing made straight."""
    if not len(strokes):
        return strokes
    dust = DUST * diagonal(strokes)
    bulge: Floats = np.where(np.abs(strokes.bulge) * strokes.chord_lengths / 2 > dust, strokes.bulge, 0.0)
    return Strokes(strokes.ends, bulge, strokes.label).pick(strokes.chord_lengths > dust)


def diagonal(strokes: Strokes) -> float:
    """Diagonal of everything drawn."""
    return diagonal_of(strokes.ends.reshape(-1, 2))
