"""The part in simulation: the metal that a program starts from, and what its feed moves leave of it.

Outside, the metal is the finished outline with its grooves filled (`Part.lands`) or a bar of a given diameter; it goes
on behind the drawn part as bar. Inside it is the bore with its grooves filled, on the face what is seen from the front.
The sharp insert (no corner radius) is exact to the increment; `rounded_profile` adds what stands in the corners.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import pairwise

from extractor.part import Groove, LeftToOthers, Part, ProfilePoints
from extractor.side import OUTSIDE, SIDES, Side, Where
from planner.increment import Increments
from planner.shop import Tool
from postproc.cutting.insert import Insert, Piece, insert_of
from postproc.cutting.metal import FAR, FARTHEST, UNCUT, Metal, Underside
from postproc.motion import Motion


def part_pieces(part: Part, increments: Increments, side: Side, stock: float | None = None) -> list[Piece]:
    """The metal of one side as straight pieces in its frame, before anything is cut.

    `stock` is the diameter of a bar that the outside was not turned from yet.
    """
    if not side.axial:
        return _face(part, increments)
    if side.hollow:
        points = part.bore or ((0.0, 0.0), (-part.length, 0.0))
        return _filled(_along(points, side, increments), [g for g in part.grooves if g.side == side], increments)
    if stock is not None:
        level = increments.count(stock)
        return [(-FARTHEST, level, 0, level)]
    pieces = _along(part.lands, side, increments)
    back = pieces[0]
    return [(-FARTHEST, back[1], back[0], back[1]), *pieces]


def unturned_pieces(part: Part, increments: Increments, side: Side) -> list[Piece]:
    """The metal of one side with every low land that is left to turning still as high as the land beside it."""
    low = [one for one in part.left_to_others if one.where == side.where]
    return _filled(part_pieces(part, increments, side), low, increments)


def outline_pieces(part: Part, increments: Increments) -> list[Piece]:
    """The finished outside as drawn, grooves and all, in the frame of the outside."""
    return _along(part.outline, OUTSIDE, increments)


def drawn_metal(part: Part, increments: Increments, side: Side) -> Metal:
    """One finished side as drawn; upright grooves are cut into a bore or a face whose profile leaves them out."""
    if side == OUTSIDE:
        return Metal(outline_pieces(part, increments))
    metal = Metal(_along(part.bore or (), side, increments) if side.axial else _face(part, increments))
    cuts = list[Underside]()
    for groove in part.grooves:
        if groove.side == side and (groove.shape in ("rectangular", "relief") or not side.axial):
            far, near, floor = (increments.count(v) for v in (groove.far, groove.near, groove.floor))
            cuts.append((((0, floor, near - far, floor),), far, UNCUT))
    metal.cut_all(cuts)
    return metal


def _along(points: ProfilePoints, side: Side, increments: Increments) -> list[Piece]:
    """Pieces over z, rising, from profile points that run from front to back."""
    ends = [(increments.count(z), side.sign * increments.count(2 * radius)) for z, radius in reversed(points)]
    return [(a, ha, b, hb) for (a, ha), (b, hb) in pairwise(ends) if b > a]


def _filled(
    pieces: Sequence[Piece], hollows: Sequence[Groove] | Sequence[LeftToOthers], increments: Increments
) -> list[Piece]:
    """Pieces with some grooves or low lands closed at their mouths."""
    count = increments.count
    return _closed(pieces, [(count(one.far), count(one.near), count(one.mouth)) for one in hollows])


Stretch = tuple[int, int, int]
"""A level stretch: where it begins and ends along u, and its height."""


def _closed(pieces: Sequence[Piece], stretches: Sequence[Stretch]) -> list[Piece]:
    """Pieces with some stretches made level; of those that overlap the last counts, and a slope beside one is level."""
    levels = _apart(stretches)
    fars, nears = [far for far, _, _ in levels], [near for _, near, _ in levels]
    found = [(far, height, near, height) for far, near, height in levels]
    for piece in pieces:
        at, start, behind, end = piece
        over = levels[bisect_right(nears, at) : bisect_left(fars, behind)]
        for far, near, _ in over:
            if at < far:
                found.append((at, start, far, start))
            at = near
        if at < behind:
            found.append((at, end, behind, end) if over else piece)
    return sorted(found)


def _apart(stretches: Sequence[Stretch]) -> list[Stretch]:
    """The stretches that stay of some, rising: one that overlaps others takes from those before it."""
    reach, bunches = -FAR, list[list[int]]()
    for k in sorted(range(len(stretches)), key=stretches.__getitem__):
        far, near, _ = stretches[k]
        if far >= reach:
            bunches.append([])
        bunches[-1].append(k)
        reach = max(reach, near)
    found: list[Stretch] = []
    for bunch in bunches:
        left: list[Stretch] = []
        for far, near, height in (stretches[k] for k in sorted(bunch)):
            before = [(a, min(b, far), h) for a, b, h in left if a < far]
            behind = [(max(a, near), b, h) for a, b, h in left if b > near]
            left = [*before, (far, near, height), *behind]
        found += left
    return found


def _face(part: Part, increments: Increments) -> list[Piece]:
    """What is seen from the front: z of the metal over the diameter, rising shoulder by shoulder."""
    pieces: list[Piece] = []
    reached = increments.count(2 * part.bore[0][1]) if part.bore else 0
    lands = [(increments.count(z), increments.count(2 * radius)) for z, radius in part.lands]
    for (before, _), (z, across) in pairwise([lands[0], *lands]):
        if across > reached:
            pieces.append((reached, before, across, z))
            reached = across
    return pieces


class Bench:
    """A part in the chuck with the shop's tools: every feed move takes metal away."""

    def __init__(self, part: Part, tools: Iterable[Tool], increments: Increments, stock: float | None = None) -> None:
        """Set up the metal of each side that one of the tools can cut.

        `land` is it before all cuts, `turned` the outside without those of the tools.
        """
        self.part, self.increments = part, increments
        self._tools = {(tool.station, tool.offset): tool for tool in tools}
        self._only = {tool.station: tool for tool in reversed(self._tools.values())}
        self._inserts = {id(tool): insert_of(tool, increments) for tool in self._tools.values()}
        names: set[Where] = {tool.where for tool in self._tools.values()} | {OUTSIDE.where}
        self.land = {name: Metal(part_pieces(part, increments, SIDES[name], stock)) for name in sorted(names)}
        self.metal = {name: metal.copy() for name, metal in self.land.items()}
        self.turned = self.outside.copy()
        self._lands = None if stock is None else part_pieces(part, increments, OUTSIDE)

    @property
    def outside(self) -> Metal:
        """The metal of the outside."""
        return self.metal[OUTSIDE.where]

    def tools_of(self, where: Where) -> tuple[Tool, ...]:
        """The tools that cut one side."""
        return tuple(tool for tool in self._tools.values() if tool.where == where)

    def tool(self, motion: Motion) -> Tool | None:
        """The tool at work in a motion; the station's own if the shop has no such offset."""
        return self.tool_at(motion.station, motion.offset)

    def tool_at(self, station: int, offset: int) -> Tool | None:
        """The tool of a station and offset; the station's only one if the shop has no such offset."""
        return self._tools.get((station, offset)) or self._only.get(station)

    def has(self, station: int) -> bool:
        """True if the shop has a tool at a station."""
        return station in self._only

    def knows_offset(self, motion: Motion) -> bool:
        """True if the shop has this offset at this station."""
        return (motion.station, motion.offset) in self._tools

    def insert(self, motion: Motion) -> Insert | None:
        """The sharp insert at work in a motion; None if the shop has no tool there, or no lathe travels that far."""
        tool = self.tool(motion)
        return None if tool is None or beyond(motion) else self.insert_for(tool)

    def insert_for(self, tool: Tool) -> Insert:
        """The sharp insert of one of the tools."""
        return self._inserts[id(tool)]

    def turn(self, piece: Piece, line: int) -> list[Piece]:
        """Take off a bar whatever the point of another tool passes below, down to the drawn lands and no further.

        Returns the pieces where there was metal. A part whose outside is already turned has nothing to take.
        """
        if self._lands is None:
            return []
        passed = [one for land in self._lands for one in _upper(piece, land)]
        for one in passed:
            self.turned.cut(one, line)
        return [one for one in passed if self.outside.cut(one, line)]

    def cut(self, motion: Motion, insert: Insert) -> bool:
        """Remove what a move sweeps; True if there was metal."""
        return self.cut_into(self.metal[insert.where], motion, insert)

    def cut_into(self, metal: Metal, motion: Motion, insert: Insert) -> bool:
        """Remove what a move sweeps from some other metal on the insert's side; True if there was any."""
        gone = False
        for piece in swept(motion, insert):
            gone = metal.cut(piece, motion.line) or gone
        return gone


def _upper(piece: Piece, land: Piece) -> list[Piece]:
    """A piece where it lies over a land, and the land where that is higher, over the stretch that they share."""
    u0, u1 = max(piece[0], land[0]), min(piece[2], land[2])
    if u0 >= u1:
        return []
    ends = [(height_at(piece, u), height_at(land, u)) for u in (u0, u1)]
    over = [a - b for a, b in ends]
    if over[0] * over[1] >= 0:
        return [(u0, max(ends[0]), u1, max(ends[1]))]
    at = u0 + round((u1 - u0) * over[0] / (over[0] - over[1]))
    inner = max(height_at(piece, at), height_at(land, at))
    return [p for p in ((u0, max(ends[0]), at, inner), (at, inner, u1, max(ends[1]))) if p[0] < p[2]]


def height_at(piece: Piece, u: int) -> int:
    """The height of a piece at a place, rounded to the count."""
    u0, h0, u1, h1 = piece
    return h0 + round((h1 - h0) * (u - u0) / (u1 - u0))


def beyond(motion: Motion) -> bool:
    """True if a motion goes farther than any lathe travels."""
    ends = motion.x0, motion.z0, motion.x1, motion.z1
    return min(ends) < -FARTHEST or max(ends) > FARTHEST


def swept(motion: Motion, insert: Insert) -> list[Piece]:
    """The underside of what an insert is sure to sweep in a motion, in the frame of its side."""
    motion = motion.sure
    u0, h0 = insert.place(motion.x0, motion.z0)
    u1, h1 = insert.place(motion.x1, motion.z1)
    if insert.flat and (u0 == u1 or h0 == h1):
        low = min(h0, h1)
        return [(min(u0, u1) + insert.left, low, max(u0, u1) + insert.right, low)]
    return insert.underside(u0, h0, u1, h1)
