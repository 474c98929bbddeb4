"""What the notes of a sheet point to: a text with the tip of its leader, whether an entity or loose lines.

Rules: a leader of loose lines begins at its text with an end that hangs free, runs through three straight strokes at
most, and ends in the air, on a line or in an arrow head. A text without one points to nothing; only its place counts.
"""

import math
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from functools import cached_property, lru_cache

import numpy as np
import shapely

from extractor.finding import Point
from extractor.grammar import WORDED, normalised
from extractor.remembered import remembered
from extractor.rounding import ROUNDING
from extractor.sheet import HATCH_LINE, Dimension, DimensionKind, Floats, Ints, Pen, Segments, Sheet, Text
from extractor.sizing.lettering.groove_notes import groove_note, is_count
from extractor.sizing.lettering.lists import LINE, with_items
from extractor.sizing.lettering.printed import parse
from extractor.values import dataclass

NEXT = 2.2
"""Letter heights from one line of a note to the next, at most, where each is a text of its own."""
REACH = 3.0
"""Letter heights between a text and the end of its loose leader, at most: nobody knows how wide its letters are."""
IN_LINE = 5.0
"""The same for one that begins in line with the text, as a shelf does; such a one is its own before any other."""
CARRIED = 4.0
"""The same for a leader that holds the text as well, and so is drawn with it: its shelf may stand off."""
BESIDE = 0.5
"""Letter heights by which a second leader of a text may begin farther off than the first."""
UNDER = 0.5
"""Letter heights below or above a text within which a shelf is in line with it."""
STROKES = 3
"""Strokes of a leader at most: shelf, leg, and a knee between them; one that goes on in line with another is none."""
ONWARD = -0.9999
"""Cosine between two strokes at one place up to which they are in line."""
MARGIN = 0.2
"""Letter heights by which the area of a text reaches beyond its letters, above and below."""
LINES_MARGIN = 1.2
"""The same below several lines, whose distance is only roughly known."""
AROUND = 3.0
"""Letter heights from a text to the strokes of a ring about it, at most."""
RING = 8.0
"""Letter heights of a stroke of such a ring, at most: what is longer is a line of a frame or a table."""
SHORTEST = 1.0
"""Letter heights of a loose leader at least: what is shorter is a tick or a part of a letter."""
PRONG = 2.0
"""Letter heights of each leg of a forked leader at least."""
HEAD = 1.2
"""Letter heights of the side of an arrow head at its tip, at most: as long as letters are high, and its slant."""
MEET = 1e-6
"""Share of the sheet's extent within which the ends of two strokes are one place."""
BARE = re.compile(
    r"\s*\(?\s*(?:FULL\s+|\d+\s*[x×X-]\s*)?"
    r"(?:(?:D\s*=\s*)?Ø|dia\b|(?:S?R|RAD(?:IUS)?\.?|RAYON|RAGGIO|RADIO)\s*[=:]?\s*[\d.])",
    re.I,
)
"""How a bare size begins: with its sign, or a count before it; what begins otherwise is a note at a groove."""
LONGEST = 24
"""Letters of a bare size with its tolerance, at most; longer texts are notes."""
NO_LEADER = frozenset({"DIMENSION", "HATCH", "LEADER", "MULTILEADER", "TEXT", HATCH_LINE})
"""Composites whose strokes are never a loose leader."""


@dataclass(frozen=True, kw_only=True)
class PointedNote:
    """A note: its words, where they stand (a box on the sheet), letter height, tip of its leader or None.

    `leaders`: how many the text has, each of which makes a note. Of one `on_paper`, on a layout around the part, the
    place says nothing.
    """

    words: str
    box: shapely.Polygon
    at: Point
    height: float
    tip: Point | None = None
    leaders: int = 1
    on_paper: bool = False

    @classmethod
    def standing(cls, words: str, at: Point) -> "PointedNote":
        """Words at a place, of which nothing more is known."""
        return cls(words=words, box=shapely.Point(at).buffer(0.0), at=at, height=0.0)

    @property
    def middle(self) -> Point:
        """The middle of the words; that of a note on paper is no number, and so lies nowhere on the sheet."""
        if self.on_paper:
            return math.nan, math.nan
        x, y = self.box.centroid.coords[0] if self.height else self.at
        return x, y


@dataclass(frozen=True)
class LedLabel:
    """A number or a letter that a line leads into a view, as from a balloon: where it stands, and the line's tip."""

    label: str
    at: Point
    tip: Point


def said(sheet: Sheet, wanted: Callable[[str], bool] = lambda _: True) -> tuple[PointedNote, ...]:
    """The notes of a sheet whose words are `wanted`: one for each leader of a text, and those without a leader."""
    leaders = [d for d in sheet.dimensions if d.kind is DimensionKind.LEADER and wanted(d.text or "")]
    counts = [t for t in sheet.texts if is_count(t.text)]
    texts = [_with_count(t, counts) for t in with_items(sheet).texts if wanted(t.text)]
    carriers = Carriers(leaders)
    own = [(t, carriers.of(t)) for t in texts]
    if not own and not leaders:
        return ()
    led = {id(d) for _, mine in own for d in mine}
    loose = loose_leaders(sheet.segments, sheet.measuring)
    tips = [(t, [d.points[0] for d in mine] or loose.tips(t)) for t, mine in own]
    found = [_of_text(t, tip, len(some)) for t, some in tips for tip in some or (None,)]
    # Of a leader that holds its text itself the height of the letters is not known.
    own_texts = ((PointedNote.standing(d.text or "", d.points[-1]), d) for d in leaders if id(d) not in led)
    return (*found, *(replace(note, tip=leader.points[0]) for note, leader in own_texts))


def said_anywhere(sheet: Sheet, wanted: Callable[[str], bool]) -> tuple[PointedNote, ...]:
    """The same with the notes on layouts around the part, which point to nothing on it."""
    texts = (t for t in with_items(sheet).around if wanted(t.text))
    return (*said(sheet, wanted), *(replace(PointedNote.standing(t.text, t.at), on_paper=True) for t in texts))


def _with_count(text: Text, counts: Sequence[Text]) -> Text:
    """A note with the line right under it that counts what it is about, as `4 PLACES` under `3 WIDE`."""
    for other in counts:
        along, up = text.seen(other.at)
        if abs(along) <= text.height and -NEXT * text.height <= up < 0:
            return replace(text, text=f"{text.text}\n{other.text}")
    return text


def led_sizes(sheet: Sheet) -> tuple[tuple[Text, Dimension], ...]:
    """Bare diameters and radii at a leader that is drawn as loose lines, each as the leader that it is.

    A text that a dimension or a leader carries is none, nor is one from which several lines lead.
    """
    carried = {(dimension.text, dimension.at) for dimension in sheet.dimensions}
    free = (t for t in sheet.texts if carried.isdisjoint({(t.text, None), (t.text, t.at)}))
    bare = [t for t in free if len(t.text) <= LONGEST and _a_size(t.text)]
    if not bare:
        return ()
    loose = loose_leaders(sheet.segments, sheet.measuring)
    tips = ((text, loose.tips(text)) for text in bare)
    return tuple((text, led(text.text, tip[0], text.at)) for text, tip in tips if len(tip) == 1)


def led(words: str, tip: Point, at: Point) -> Dimension:
    """Words at a place and the tip of their leader as a dimension."""
    return Dimension(DimensionKind.LEADER, (tip, at), 0.0, 0.0, words, at=at)


def _a_size(text: str) -> bool:
    printed = parse(text)
    line, sized = normalised(text), printed.sign in ("diameter", "radius") and printed.size is not None
    return sized and bool(BARE.match(line) or (WORDED.fullmatch(line) and groove_note(text) is None))


class Carriers:
    """The leaders of a sheet by the words that they carry."""

    def __init__(self, leaders: Sequence[Dimension]) -> None:
        """Of leaders with or without words."""
        self._by_words: dict[str | None, list[Dimension]] = {}
        for leader in leaders:
            self._by_words.setdefault(leader.text, []).append(leader)
        ends = ((words, [leader.points[-1] for leader in some]) for words, some in self._by_words.items())
        self._ends = {words: shapely.STRtree(shapely.points(some)) for words, some in ends}

    def of(self, text: Text) -> list[Dimension]:
        """Those that carry this very text."""
        if text.text not in self._by_words:
            return []
        near = self._ends[text.text].query(box_of(text), predicate="dwithin", distance=CARRIED * text.height)
        return [self._by_words[text.text][k] for k in sorted(near.tolist())]


def _of_text(text: Text, tip: Point | None, leaders: int) -> PointedNote:
    return PointedNote(
        words=text.text, box=box_of(text), at=text.at, height=text.height, tip=tip, leaders=max(1, leaders)
    )


@remembered
def box_of(text: Text) -> shapely.Polygon:
    """Roughly the area of a text, which begins at the foot of its first line."""
    lines = text.text.split("\n")
    width, height = text.width, text.height
    low = -((len(lines) - 1) * LINE + (MARGIN if len(lines) == 1 else LINES_MARGIN)) * height
    high = (1.0 + MARGIN) * height
    return shapely.Polygon([text.place(*at) for at in ((0.0, low), (width, low), (width, high), (0.0, high))])


def middle_of(text: Text) -> Point:
    """The middle of a text."""
    x, y = box_of(text).centroid.coords[0]
    return x, y


def _level(text: Text, at: Floats) -> bool:
    """True for a place in line with one of a text's lines, or right under it."""
    _, up = text.seen(at)
    low = -(len(text.text.split("\n")) - 1) * LINE * text.height
    return bool(low - UNDER * text.height <= up <= (1.0 + UNDER) * text.height)


class LooseLeaders:
    """The straight strokes of a sheet that may be leaders, looked up by their ends."""

    def __init__(self, segments: Segments, taken: frozenset[int] = frozenset()) -> None:
        """Keep what is drawn as a thin or thick full line and belongs to nothing else, as those `taken` do."""
        fit = np.array([s.pen is Pen.SOLID and s.owner not in NO_LEADER for s in segments.sources], dtype=bool)
        size = np.hypot(*(segments.ends[:, 2:] - segments.ends[:, :2]).T) if len(segments) else np.zeros(0)
        kept = (segments.bulge == 0) & (size > 0) & fit[segments.source] if len(segments) else np.zeros(0, dtype=bool)
        kept[list(taken)] = False
        self.ends: Floats = segments.ends[kept]
        self.size: Floats = size[kept]
        self.near = MEET * float(np.ptp(segments.ends)) if len(segments) else 0.0
        self._told: dict[Text, tuple[Point, ...]] = {}
        self._met: dict[int, list[int]] = {}

    @cached_property
    def _tree(self) -> shapely.STRtree:
        """Both ends of every stroke: 2k its start, 2k + 1 its end."""
        return shapely.STRtree(shapely.points(self.ends.reshape(-1, 2)))

    @cached_property
    def _along(self) -> shapely.STRtree:
        """Every stroke."""
        return shapely.STRtree(shapely.linestrings(self.ends.reshape(-1, 2, 2)))

    def tips(self, text: Text) -> tuple[Point, ...]:
        """Where the loose leaders of a text end."""
        if text not in self._told:
            self._told[text] = self._tips(text) if len(self.ends) and text.height > 0 else ()
        return self._told[text]

    def _tips(self, text: Text) -> tuple[Point, ...]:
        box = box_of(text)
        close: Ints = self._tree.query(box, predicate="dwithin", distance=IN_LINE * text.height)
        points = self.ends.reshape(-1, 2)
        off = shapely.distance(box, shapely.points(points[close])).tolist()
        free = {k: away for k, away in zip(close.tolist(), off, strict=True) if not self._beside(k)}
        level = {k: off for k, off in free.items() if _level(text, points[k])}
        free = self._shelves(text) or level or {k: off for k, off in free.items() if off <= REACH * text.height}
        nearest = min(free.values(), default=0.0)
        led = (self._followed(k, text.height) for k, off in free.items() if off <= nearest + BESIDE * text.height)
        return tuple(dict.fromkeys(tip for tips in led for tip in tips if box.distance(shapely.Point(tip)) > 0))

    def from_ring(self, text: Text, circles: Sequence[shapely.Polygon]) -> tuple[Point, ...]:
        """Where the leaders end that begin at the ring about a text: at a figure of strokes, or one of some circles."""
        within: Ints = self._along.query(box_of(text), predicate="dwithin", distance=AROUND * text.height)
        strokes = self.ends[within[self.size[within] <= RING * text.height]].reshape(-1, 2, 2)
        middle = shapely.Point(middle_of(text))
        figures = (*shapely.get_parts(shapely.polygonize(shapely.linestrings(strokes))), *circles)
        ring = min((f for f in figures if f.contains(middle)), key=lambda f: f.area, default=None)
        if ring is None:
            return ()
        near = self._tree.query(ring.boundary, predicate="dwithin", distance=BESIDE * text.height).tolist()
        led = (self._followed(k, text.height) for k in near if k ^ 1 not in near)
        return tuple(dict.fromkeys(tip for tips in led for tip in tips if not ring.covers(shapely.Point(tip))))

    def _shelves(self, text: Text) -> dict[int, float]:
        """The free ends of shelves that a text stands on, however long, with how far off they run; a leg goes on."""
        box, points = box_of(text), self.ends.reshape(-1, 2)
        under: Ints = self._along.query(box, predicate="dwithin", distance=UNDER * text.height)
        ends = [k for s in under.tolist() for k in (2 * s, 2 * s + 1) if _level(text, points[k])]
        legs = [k for k in ends if k ^ 1 in ends and not self._beside(k) and len(self._beside(k ^ 1)) == 1]
        return {k: float(box.distance(shapely.LineString(points[[k, k ^ 1]]))) for k in legs}

    def _beside(self, end: int) -> list[int]:
        """The ends of other strokes at the place of an end."""
        if end not in self._met:
            place, near = shapely.Point(self.ends.reshape(-1, 2)[end]), max(self.near, ROUNDING)
            found: Iterable[int] = self._tree.query(place, predicate="dwithin", distance=near).tolist()
            self._met[end] = [k for k in found if k // 2 != end // 2]
        return self._met[end]

    def _followed(self, end: int, height: float) -> list[Point]:
        """The tip of the chain of strokes that begins at an end, those of its fork; none where it is no leader."""
        run, strokes = 0.0, 1
        while strokes <= STROKES:
            run += float(self.size[end // 2])
            far = end ^ 1
            onward = self._beside(far)
            if len(onward) != 1:
                forked = len(onward) > 1 and all(self._is_prong(k, height) for k in onward)
                tips = self.ends.reshape(-1, 2)[[k ^ 1 for k in onward] if forked else [far]].tolist()
                return [(x, y) for x, y in tips] if forked or run > SHORTEST * height else []
            turn = self._vector(far) @ self._vector(onward[0]) / (self.size[far // 2] * self.size[onward[0] // 2])
            strokes, end = strokes + int(turn > ONWARD), onward[0]
        return []

    def _is_prong(self, end: int, height: float) -> bool:
        """True for a stroke that ends in the air or in a head: those of an outline meet others as long as they."""
        met, size = self._beside(end ^ 1), float(self.size[end // 2])
        return size > PRONG * height and len(met) != 1 and all(self.size[k // 2] <= HEAD * height for k in met)

    def _vector(self, end: int) -> Floats:
        """From one end of a stroke to the other."""
        a, b = self.ends.reshape(-1, 2)[[end, end ^ 1]]
        return np.asarray(b - a)


@lru_cache(maxsize=2)
def loose_leaders(segments: Segments, taken: frozenset[int]) -> LooseLeaders:
    """The leaders among some segments but those taken, the same for all who ask of one sheet."""
    return LooseLeaders(segments, taken)
