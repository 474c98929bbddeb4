"""Dimensions that an export exploded into lines, arrow heads and a bare text: the one place that reassembles them.

What makes a straight line the dimension line of the text beside it, one row for each way:

    at both its ends                        the text prints     its length
    an arrow head or an oblique tick        a size              may be another: a scale and a contradiction show
    the same, and no other text is of it    a word and a size   may be another
    a line square to it, it lies on a       a size              may be another
    layer named for dimensions
    a line square to it                     a number            is that number

In the last two rows nothing marks the line itself, and a land between two walls looks the same. So a line counts there
only if nothing else hangs on it and its extension lines: a wall ends where a floor begins, an extension line ends free,
on a dimension line or on a corner that other lines make. A land has its mirror image across the centre line, and an
end face has its middle on it, with lines that end just at its ends; extension lines run on (ISO 129-1, from memory).
"""

import math
from collections.abc import Iterable, Sequence, Set
from dataclasses import replace

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.geometry.network import Strokes
from extractor.grammar import WORDED, normalised
from extractor.remembered import remembered
from extractor.sheet import Dimension, DimensionKind, Floats, Segments, Sheet, Text
from extractor.sizing.lettering.letters import by_letter
from extractor.sizing.lettering.note_words import ELSEWHERE, OTHER_THING
from extractor.sizing.lettering.printed import Printed, parse, without_second
from extractor.values import dataclass
from extractor.viewing.alike import SKEW
from extractor.viewing.arrows import Arrows
from extractor.viewing.assigned import BEGINS, Pieces, assigned, with_other_limit
from extractor.viewing.axis import centre_segments
from extractor.viewing.dots import dots_among
from extractor.viewing.in_line import (
    DimensionLine,
    from_outside,
    on_tail,
    own,
    past_mark,
    places,
    through_ticks,
    ticked,
    ticks_at,
)
from extractor.viewing.loose import AT_END, Loose, across, once, over, running_rows, upon
from extractor.viewing.parted_lines import LONGEST
from extractor.viewing.tips import Tips, tips_of

TINY = 1e-300
"""Instead of a length of nought, to divide by: the direction is then none, and nothing lies along it."""
SHORTEST = 0.1
"""Letter heights of a dimension line at least: that of a narrow groove is far shorter than its text is high."""
BESIDE = 2.5
"""Letter heights between a text and its dimension line, at most."""
OVERSHOOT = 1.0
"""Letter heights that an extension line runs on beyond its dimension line, at most."""
LIKE = 6e-3
"""Relative difference of a printed number and the length of the line it says, at most: printed sizes are rounded."""
BEAR_OUT = 3
"""Marked dimensions at least that share a ratio of print to length, before it is taken for the scale of the sheet."""
BEYOND = 0.5
"""Share of half a diameter by which its line runs on beyond the centre line, at most: a whole one runs on by all."""
AMID = 0.2, 4.0
"""A bare number stands from the middle of its line by no more than this share of its length and so many heights."""


@dataclass(frozen=True)
class Exploded:
    """All dimensions of a sheet that lie in pieces, and texts with a tolerance that may be for either of two lines."""

    pieces: tuple[Loose, ...] = ()
    unclear: tuple[Text, ...] = ()

    def put_together(self, sheet: Sheet) -> Sheet:
        """The sheet with these dimensions among its own, which stand first."""
        if not self.pieces and not self.unclear:
            return sheet
        whole = (piece.dimension for piece in self.pieces)
        findings = (*sheet.findings, *map(_unclear, self.unclear))
        return replace(sheet, dimensions=(*sheet.dimensions, *whole), findings=findings)


def _unclear(text: Text) -> Finding:
    """The caution for a tolerance of which nobody can say what it is for."""
    words = f'"{text.text}" stands between two dimension lines: its tolerance was given to no groove; read it yourself.'
    return Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, " ".join(words.split()), at=text.at)


def exploded(sheet: Sheet, strokes: Strokes, near: float, pointed: Arrows) -> Exploded:
    """The dimensions in pieces among the strokes of a sheet; `near` is the noding distance.

    Where the sheet has arrow heads, only a line that ends in one is known by its number.
    """
    if not sheet.texts or not len(strokes):
        return Exploded()
    tips = tips_of(strokes, near)
    desk = _StrokeIndex(sheet.segments, tips, pointed, running_rows(sheet.texts), dots_among(tips, sheet.circles))
    every, whole = assigned(desk.open_to(sheet.texts), sheet.texts)
    ratio = _ratio(whole.values())
    if ratio != 1.0:
        desk.ratio = ratio
        every, whole = assigned(desk.open_to(sheet.texts), sheet.texts)
    told = {k: with_other_limit(k, whole, every, sheet.texts) for k in whole}
    unclear = [sheet.texts[k] for k in every if k not in whole and parse(sheet.texts[k].text).limited]
    return Exploded(tuple(desk.unneeded(list(told.values()))), tuple(unclear))


def _ratio(pieces: Iterable[Loose]) -> float:
    """Printed size over drawn length that most of the marked dimensions share, 1 where too few share one."""
    printed = [(parse(piece.dimension.text).size, piece.dimension.measured) for piece in pieces if piece.sure]
    ratios = [size / drawn for size, drawn in printed if size and drawn]
    alike = [[one for one in ratios if abs(one - ratio) <= LIKE * ratio] for ratio in ratios]
    most = max(alike, key=len, default=[])
    shared = len(most) >= BEAR_OUT and 2 * len(most) > len(ratios)
    ratio = sorted(most)[len(most) // 2] if shared else 1.0
    return 1.0 if abs(ratio - 1.0) <= LIKE else ratio


class _StrokeIndex:
    """The straight strokes of a sheet, looked up by place."""

    def __init__(self, segments: Segments, tips: Tips, pointed: Arrows, running: Set[Text], dots: Floats) -> None:
        self.running, self.dots = running, dots
        self.tips, self.size, self.ratio = tips, tips.sizes, 1.0
        self.straight = tips.strokes.bulge == 0
        self.axes, self.middle = segments.ends[centre_segments(segments)], np.median(tips.at, axis=0)
        self.centre = np.isin(tips.strokes.label, centre_segments(segments))
        self.named = segments.of(lambda s: s.role == "dimension")[tips.strokes.label]
        self.headed = np.isin(tips.strokes.label, list(pointed.lines))
        self.tipped = np.isin(tips.strokes.label, list(pointed.headed))
        self.fit = self.tipped if pointed.headed else self.straight
        rows = {label: k for k, label in enumerate(tips.strokes.label.tolist())}
        self.points = {self._end(rows[label], at) for label, at in pointed.tips if label in rows}
        facing = [
            DimensionLine(tuple(sorted(rows[n] for n in one.lines if n in rows)), one.ends) for one in pointed.facing
        ]
        self.facing = {k: line for line in facing for k in line.strokes}

    def open_to(self, texts: Sequence[Text]) -> Pieces:
        """By number of a text the dimensions that it may be of."""
        return {k: pieces for k, text in enumerate(texts) if (pieces := self.pieces(text))}

    def pieces(self, text: Text) -> list[Loose]:
        """The dimensions whose text this may be, the likeliest first."""
        bare, words = BEGINS.match(text.text) is not None, normalised(text.text)
        fit = bare or (WORDED.fullmatch(words) and not (OTHER_THING.search(words) or ELSEWHERE.search(words)))
        lettered = by_letter(text.text) is not None
        short = len(without_second(words)[0]) <= LONGEST and text.height > 0
        printed = parse(text.text) if (fit or lettered) and short else None
        if printed is None or (printed.size is None and not lettered) or printed.sign in ("angle", "thread"):
            return []
        near = self._beside(text)
        beside = dict.fromkeys(own(self.tips, self.facing.get(k) or self._plain(k), text) for k in near)
        # Hatching crosses a line between heads as ticks would.
        plain = (k for k in near if not self.headed[k])
        beside |= dict.fromkeys(line for k in plain if (line := through_ticks(self.tips, k)) is not None)
        beside |= dict.fromkeys(from_outside(self.tips, near, text, self._marked))
        beside |= dict.fromkeys(on_tail(self.tips, near, text, self._whole))
        beside |= dict.fromkeys(past_mark(self.tips, near, text, self._marked, self.dots))
        lines = once(piece for line in beside if (piece := self._piece(line, text, printed)) is not None)
        # A line that heads or ticks end is meant before an edge of the view that happens to be as long as printed.
        lines = [piece for piece in lines if piece.sure] or (lines if bare else [])
        # A radius has a head at one end, and stands wherever its leader leaves it room.
        lines = [piece for piece in lines if printed.sign != "radius" or (piece.sure and piece.says)]
        lines = [piece for piece in lines if piece.says or not any(upon(one, piece) for one in lines)]
        level = [piece for piece in lines if not across(piece, text)]
        turned = text not in self.running
        lines = level or [piece for piece in lines if piece.says or (turned and piece.sure and over(piece, text))]
        return sorted(lines, key=lambda piece: (not piece.says, piece.away))

    def _beside(self, text: Text) -> list[int]:
        """The straight strokes beside a text that are long enough."""
        spots, reach = shapely.points([text.at, text.end, *places(text)]), [BESIDE, BESIDE, AMID[1], AMID[1]]
        at, near = self.tips.tree.query(spots, predicate="dwithin", distance=np.array(reach) * text.height)
        close = {*near[at < 2].tolist(), *(k for k in near[at >= 2].tolist() if self._amid(k, text))}
        return [k for k in sorted(close) if self.straight[k] and self.size[k] > SHORTEST * text.height]

    def _amid(self, k: int, text: Text) -> bool:
        """True if a text stands about the middle of a stroke."""
        return self._away(k, text) <= AMID[0] * float(self.size[k]) + AMID[1] * text.height

    def _away(self, k: int, text: Text) -> float:
        """How far a text stands from the middle of a stroke: its beginning or its own middle, whichever is nearer."""
        return min(math.dist(at, self.tips.middles[k]) for at in places(text))

    def _off(self, k: int, text: Text, line: DimensionLine) -> float:
        """The same, from a tail by the text's middle alone: what begins over one may be the next line's size."""
        x, y = np.subtract(self.tips.middles[k], line.ends[0])
        within = 0.0 < float((x, y) @ line.along) < line.size
        return self._away(k, text) if within else math.dist(places(text)[1], self.tips.middles[k])

    def _end(self, k: int, at: Point) -> int:
        """The tip of a stroke that lies at a place, or nearer to it than the other one."""
        return min(2 * k, 2 * k + 1, key=lambda tip: math.dist(self.tips.place(tip), at))

    def _marked(self, tip: int) -> bool:
        """True if a head or a tick ends a stroke there."""
        return tip in self.points or ticked(self.tips, tip)

    def _whole(self, k: int) -> bool:
        """True if heads or ticks end a stroke at both ends."""
        return bool(self.headed[k]) or (ticked(self.tips, 2 * k) and ticked(self.tips, 2 * k + 1))

    def _plain(self, k: int) -> DimensionLine:
        """A stroke as a line of its own."""
        return DimensionLine((k,), (self.tips.place(2 * k), self.tips.place(2 * k + 1)))

    def _piece(self, line: DimensionLine, text: Text, printed: Printed) -> Loose | None:
        """The dimension that a line makes, None where no row of the table fits."""
        k, feet = line.strokes[0], tuple(self._square(line, end) for end in (0, 1))
        marked = self.tipped[k] or any(ticked(self.tips, tip) for tip in (2 * k, 2 * k + 1))
        half = self._to_axis(line, feet) if printed.sign == "diameter" and marked else None
        if half is not None:
            line, feet = half, tuple([j for j in side if not self.centre[j]] for side in feet)
        sure = half is not None or line.in_line or ((line.through or line.marked) and all(feet)) or self._whole(k)
        alike, says = (
            any(abs(line.size * ratio - size) <= LIKE * size for size in printed.sizes) for ratio in (1.0, self.ratio)
        )
        known = self.named[k] or (alike and self._amid(k, text) and self.fit[k])
        if not (sure or (all(feet) and known and not self._edge(line))):
            return None
        begins = tuple(self._begin(at, square, text.height) for at, square in zip(line.ends, feet, strict=True))
        angle = math.degrees(math.atan2(line.along[1], line.along[0])) % 180
        label = self.tips.strokes.label
        found = frozenset(int(label[j]) for side in feet for j in side if self._hangs(j, line, side, text.height))
        ticks = (j for end in line.ends for j in ticks_at(self.tips, end, line.along) if sure)
        drawn = found.union(int(label[j]) for j in (*line.strokes, *ticks))
        at = text.at if sure else None
        whole = Dimension(DimensionKind.LINEAR, begins, angle, line.size, text.text, at=at, drawn=drawn)
        away = 0.0 if line.in_line else min(self._off(j, text, line) for j in line.strokes)
        return Loose(int(label[k]), found, whole, sure, says, away, line.ends)

    def _to_axis(self, line: DimensionLine, feet: Sequence[Sequence[int]]) -> DimensionLine | None:
        """Half a diameter's line, ending free on the centre line or a little beyond, as one that ends on it; else None.

        ISO 129-1 (from memory): only the end at the outline has a head or a tick, and an extension line.
        """
        free = [end for end in (0, 1) if all(self.centre[j] for j in feet[end])]
        if len(free) != 1 or len(line.strokes) != 1:
            return None
        for along, height in self._heights(line.strokes[0]):
            beyond, whole = float(height[free[0]]), float(height[1 - free[0]]) or math.inf
            if abs(self.tips.toward(line.strokes[0], along)) <= SKEW and -SKEW <= -beyond / whole <= BEYOND:
                (x0, y0), (x1, y1) = line.ends[1 - free[0]], line.ends[free[0]]
                share = whole / (whole - beyond)
                ends = (x0, y0), (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
                return line._replace(ends=ends if free[0] else ends[::-1])
        return None

    def _heights(self, k: int) -> Iterable[tuple[Floats, Floats]]:
        """The direction of each centre line, and how far both ends of a stroke lie from it, (2,), signed."""
        for axis in self.axes.reshape(-1, 2, 2):
            along = (axis[1] - axis[0]) / max(TINY, math.dist(axis[0], axis[1]))
            off = self.tips.at[2 * k : 2 * k + 2] - axis[0]
            yield along, off[:, 1] * along[0] - off[:, 0] * along[1]

    @remembered
    def _edge(self, line: DimensionLine) -> bool:
        """True if the stroke of a line looks like an edge of the view."""
        k, feet = line.strokes[0], (self._square(line, 0), self._square(line, 1))
        return self._mirrored(k) or self._face(k, feet)

    def _mirrored(self, k: int) -> bool:
        """True if a stroke runs along a centre line and another one is its mirror image across it."""
        far = AT_END * float(self.size[k])
        for along, height in self._heights(k):
            if np.ptp(height) > SKEW * self.size[k]:
                continue
            image = self.tips.at[2 * k : 2 * k + 2] - 2 * height[:, None] * np.array([-along[1], along[0]])
            x, y = image.mean(axis=0).tolist()
            for j in self.tips.near_by((x, y), far).tolist():
                off = [np.hypot(*(self.tips.at[2 * j : 2 * j + 2] - way).T).max() for way in (image, image[::-1])]
                if j != k and self.straight[j] and min(off) <= far:
                    return True
        return False

    def _face(self, k: int, feet: Sequence[Sequence[int]]) -> bool:
        """True if a centre line halves a stroke, and those square to it begin at its ends and go on no land in line."""
        met = [t for end in (0, 1) for t in self.tips.beside.get(2 * k + end, ())]
        if not {j for square in feet for j in square} <= {t // 2 for t in met}:
            return False
        if any(self._goes_on(t ^ 1, other) for t in met for other in self.tips.beside.get(t ^ 1, ())):
            return False
        close = SKEW * float(self.size[k])
        return any(
            abs(self.tips.toward(k, along)) <= SKEW and abs(height.sum()) <= close for along, height in self._heights(k)
        )

    @remembered
    def _square(self, line: DimensionLine, end: int) -> list[int]:
        """The strokes that pass through an end of a line square to it."""
        close = [int(j) for j in self.tips.near_by(line.ends[end], AT_END * line.size) if int(j) not in line.strokes]
        return [j for j in close if self.straight[j] and abs(self.tips.toward(j, line.along)) <= SKEW]

    def _begin(self, at: Point, square: Sequence[int], height: float) -> Point:
        """Where an extension line at an end begins: its far end, that at the axis where it runs on to the next size.

        Between two edges of the view it needs none.
        """
        sides = {j: sorted(self.tips.at[2 * j : 2 * j + 2].tolist(), key=lambda e: math.dist(e, at)) for j in square}
        ending = [j for j in square if math.dist(sides[j][0], at) <= OVERSHOOT * height]
        # One that begins beside this dimension line and runs on out, to a size beyond, is not its own.
        inward = [j for j in ending if self._inner(j) == sides[j][1]]
        longest = max(inward or ending or square, key=lambda j: float(self.size[j]), default=None)
        if longest is None:
            return at
        begin = sides[longest][1] if ending else self._inner(longest)
        return begin[0], begin[1]

    def _inner(self, k: int) -> list[float]:
        """The end of a stroke nearer to a centre line, or where there is none to the middle of what is drawn."""
        ends = self.tips.at[2 * k : 2 * k + 2]
        heights = [np.abs(height) for _, height in self._heights(k)] or [np.hypot(*(ends - self.middle).T)]
        inner: list[float] = ends[int(np.array(heights).min(axis=0).argmin())].tolist()
        return inner

    def _hangs(self, j: int, line: DimensionLine, side: Sequence[int], height: float) -> bool:
        """True if a stroke square to a dimension line ends free or just at it; one that others meet is an edge.

        Those that pass its end besides, on `side`, are extension lines of other sizes from one place, one on another.
        """
        at_tips = {t for k in line.strokes for tip in (2 * k, 2 * k + 1) for t in self.tips.beside.get(tip, ())}
        mine = {*line.strokes, *side}
        return any(self.tips.hangs(t, mine, height) or t in at_tips for t in (2 * j, 2 * j + 1))

    def unneeded(self, pieces: list[Loose]) -> list[Loose]:
        """The pieces without those whose lines the rest of the drawing hangs on: lands between walls."""
        while True:
            taken = {k: piece for piece in pieces if not piece.sure for k in (piece.line, *piece.feet)}
            needed = {id(taken[k]) for k in self._left_hanging(taken.keys())}
            if not needed:
                return pieces
            pieces = [piece for piece in pieces if id(piece) not in needed]

    def _left_hanging(self, taken: Iterable[int]) -> Iterable[int]:
        """Labels among those taken that alone hold the end of another stroke, unless that goes on in their line."""
        label, gone = self.tips.strokes.label, set(taken)
        for k in np.flatnonzero(np.isin(label, list(gone))).tolist():
            for tip in (2 * k, 2 * k + 1):
                for other in self.tips.beside.get(tip, ()):
                    holders = {int(label[t // 2]) for t in self.tips.beside[other]}
                    if int(label[other // 2]) not in gone and holders <= gone and not self._goes_on(tip, other):
                        yield int(label[k])

    def _goes_on(self, tip: int, other: int) -> bool:
        """True if the stroke of another tip at the same place runs on in line: the next dimension of a chain."""
        one, two = self.tips.line(tip), self.tips.line(other)
        cross = abs(float(one[0] * two[1] - one[1] * two[0]))
        return bool(cross <= SKEW * math.hypot(*one) * math.hypot(*two) and float(one @ two) < 0)
