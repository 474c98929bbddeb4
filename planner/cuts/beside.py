"""Beside a shoulder: where the strokes of a row begin, and how the tool comes to a plunge that touches a high face.

shoulder __          From above, the tool comes down a clearance off the face at rapid, to a clearance above the
           |  1 |    land at hand (1), then sideways to the face at the feed (2); from there it cuts. Off again it
           |<-2-v    goes the same way, all at rapid. Where there is no room for that, every stroke begins above the
           |_        shoulder, and feeds down to the land through air.
     groove _|
"""

from collections.abc import Iterator, Sequence
from functools import cached_property

from extractor.values import dataclass
from planner.cuts.moves import TOUCH, Setting, Spot
from planner.cuts.paths import side_feed
from planner.cuts.place import Placed
from planner.steps import Arc, Cut, Rapid, Step

# So much of the clearance the insert keeps from a face on its way down at rapid; nearer than that it stands beside it.
BESIDE = 0.5


@dataclass(frozen=True)
class Beside:
    """A row and the shoulders that it stands beside; all places are counts of the far edge."""

    placed: Placed
    setting: Setting

    @cached_property
    def aside(self) -> int:
        """How far off a face the tool comes down: the clearance."""
        return self.placed.side.along * self.setting.increments.count(self.setting.shop.machine.clearance)

    @cached_property
    def high(self) -> int:
        """The height a clearance above everything that the insert stands beside."""
        return self._above(self.placed.lowest, self.placed.places[0] + self.placed.width, BESIDE)

    @cached_property
    def low(self) -> int:
        """The height a clearance above the lands that the insert comes down on, shoulders beside it left out."""
        placed = self.placed
        ends = (placed.lowest + TOUCH, placed.places[0] + placed.width - TOUCH)
        return self._above(*ends, 0.0) if ends[0] < ends[1] else self.high

    @cached_property
    def start(self) -> int:
        """The height from which the strokes of the row begin."""
        if self.low == self.high:
            return self.high
        spots = [place - offset for place in self.placed.places for offset in (0, self.placed.layout.span)]
        return self.low if all(self.free(spot) is not None for spot in spots) else self.high

    def touches(self, spot: int) -> bool:
        """True if the insert stands beside a face there that is higher than where its stroke begins."""
        return self._above(spot, spot + self.placed.width, BESIDE) > self.start

    def free(self, spot: int) -> int | None:
        """The nearest place clear of every face, on either side of a place; None if there is none."""
        for way in (0, 1, -1):
            moved = spot + way * self.aside
            if self._above(moved, moved + self.placed.width, BESIDE) <= self.low:
                return moved
        return None

    def _above(self, low: int, high: int, share: float) -> int:
        """A clearance above the lands between two counts, with a share of it on either side."""
        return self.setting.above(self.placed.ground, low, high, share * self.setting.shop.machine.clearance)


def start_height(placed: Placed, setting: Setting) -> int:
    """The height count from which every stroke of a row begins."""
    return Beside(placed, setting).start


def start_of(placed: Placed, setting: Setting) -> Spot:
    """Where the first cut of a row begins, off the face where it is beside one."""
    beside = Beside(placed, setting)
    first = placed.places[0] - placed.layout.order[0]
    first = (beside.free(first) if beside.touches(first) else first) or first
    return Spot(*placed.side.machine(placed.reference(first), beside.start))


def off_the_faces(steps: Sequence[Step], beside: Beside, start: Spot) -> Iterator[Step]:
    """The steps of a row with a way round by a free place for each stroke that begins beside a face.

    The steps begin at the place of the first plunge; the tool stands at `start`, and at the end it is off every face.
    """
    placed, side = beside.placed, beside.placed.side
    feed = side_feed(placed.tool, beside.setting.increments)
    at, height = side.frame(start.x, start.z)
    at -= placed.reference(0)
    first = placed.places[0] - placed.layout.order[0]
    if at != first:
        yield placed.cut(feed, first)
        at = first
    for step in steps:
        if isinstance(step, Rapid | Cut | Arc):
            u, h = _reached(step, placed)
            to = at if u is None else u - placed.reference(0)
            if isinstance(step, Rapid) and h is None and to != at and beside.touches(to):
                yield from _round(placed, at, to, beside, feed)
                at = to
                continue
            at, height = to, height if h is None else h
        yield step
    if beside.touches(at) and (free := beside.free(at)) is not None:
        yield placed.rapid(free)


def _round(placed: Placed, at: int, to: int, beside: Beside, feed: int) -> Iterator[Step]:
    """Along the start height to a place beside a face: at rapid to a clearance off it, then at the feed."""
    free = beside.free(to)
    if free is None or (free - to) * (at - to) <= 0 or abs(at - to) <= abs(free - to):
        # The tool is nearer already, or comes along the face: the whole way at the feed.
        yield placed.cut(feed, to)
        return
    yield placed.rapid(free)
    yield placed.cut(feed, to)


def _reached(step: Rapid | Cut | Arc, placed: Placed) -> tuple[int | None, int | None]:
    """Where a move ends as u of the reference edge and height, None along which it stays."""
    u, h = placed.side.frame(step.x or 0, step.z or 0)
    along, up = (step.z, step.x) if placed.side.axial else (step.x, step.z)
    return (None if along is None else u), (None if up is None else h)
