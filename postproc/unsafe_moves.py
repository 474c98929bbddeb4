"""Moves that hurt, seen while the metal is being cut: rapids into it, starts below the land, too deep, too near.

Each is named with its program line and one sentence. What is thinner than the shop's tolerance counts as touched, not
as hit. A rapid that runs into metal doesn't count as cutting, but what it ran into isn't told again: one mistake is one
finding.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from extractor.part import Units
from planner.fit import UNKNOWN_HOLDER
from planner.shop import Machine, Tool
from postproc.insert import Insert, Piece
from postproc.metal import UNCUT, Metal
from postproc.motion import Motion
from postproc.notebook import Notebook
from postproc.run import CycleCall
from postproc.stock import Bench, swept
from postproc.unsafe_cycles import check_cycle

# Deepest sideways cut as a share of the insert's width where the shop file gives none (catalogues: 0.75 to 0.8).
SIDE_SHARE = 0.75
# A wall's finishing allowance up to this share of the insert's width may be taken from the side (common practice).
THIN_WALL = 0.1
# Nearer to the part than this the other tools of the turret may swing into it (common practice, no source).
INDEX_ROOM: dict[Units, float] = {"mm": 10.0, "in": 0.4}


class Watch:
    """Runs motions over a bench and notes what is unsafe about where they go."""

    def __init__(self, bench: Bench, machine: Machine, notebook: Notebook, cycles: Sequence[CycleCall] = ()) -> None:
        """Watch over a bench whose metal is still uncut; `cycles` are those that motions refer to."""
        self.bench = bench
        self.machine = machine
        self.notebook = notebook
        self.touch = max(1, bench.increments.count(machine.tolerance))
        self._clear = bench.increments.count(machine.clearance)
        self._near = bench.increments.count(INDEX_ROOM[bench.increments.units])
        self._felt = dict(bench.metal)
        self._land = {side: Metal(bench.pieces[side]) for side in bench.metal}
        self._unknown: set[int] = set()
        self._cycles = cycles
        self._begun: set[int] = set()

    def run(self, motions: Iterable[Motion]) -> set[int]:
        """Make every move; the lines of those that cut metal come back."""
        cutting: set[int] = set()
        before: Motion | None = None
        for motion in motions:
            if before is not None and before.station != motion.station and before.station:
                self._index(before, motion)
            before = motion
            tool, insert = self.bench.tool(motion), self.bench.insert(motion)
            if tool is None or insert is None:
                self._no_tool(motion)
                continue
            self._cycle(motion, tool)
            self._room(motion, tool, insert)
            if motion.kind == "rapid":
                self._rapid(_known(motion), insert)
            elif self._feed(motion, tool, insert):
                cutting.add(motion.line)
        return cutting

    def _cycle(self, motion: Motion, tool: Tool) -> None:
        """Look at a call of the grooving cycle when its first move comes up."""
        if motion.cycle is not None and motion.cycle not in self._begun and motion.cycle < len(self._cycles):
            self._begun.add(motion.cycle)
            check_cycle(self._cycles[motion.cycle], tool, self.bench, self.touch, self.notebook)

    def _no_tool(self, motion: Motion) -> None:
        """A feed move with a tool that the shop file doesn't have: nothing of it can be cut in simulation."""
        if motion.kind == "rapid" or motion.station in self._unknown:
            return
        self._unknown.add(motion.station)
        if motion.station == 0:
            self.notebook.stop(
                "no-tool",
                motion.line,
                "The program cuts before any tool is called; call the tool with its offset first.",
            )
            return
        self.notebook.stop(
            "tool-unknown",
            motion.line,
            f"The shop file has no tool in station {motion.station}, so its cuts can't be followed; "
            "give that tool's width, reach and reference edge.",
        )

    def _index(self, before: Motion, motion: Motion) -> None:
        """The turret must be indexed clear of the part: whatever sticks out of it swings round."""
        insert = self.bench.insert(before)
        if insert is None or insert.where == "inside" or not (motion.x0_known and motion.z0_known):
            return
        above = before.x1 - self.bench.metal["outside"].top
        if before.z1 + insert.left > self._near:
            return
        message = f"The turret is indexed at {self.notebook.end(before)}, beside the part; move clear of it first."
        if above <= 2 * self._clear:
            self.notebook.stop("index-near-part", motion.line, message)
        elif above <= 2 * self._near:
            self.notebook.caution("index-near-part", motion.line, message)

    def _room(self, motion: Motion, tool: Tool, insert: Insert) -> None:
        """Jaws behind and tailstock before the part, for tools that work outside."""
        if tool.where != "outside":
            return
        machine, count = self.machine, self.bench.increments.count
        if machine.stick_out is not None:
            aside = insert.left - count(tool.holder_far or 0.0)
            lowest, came = motion.z1 + aside, motion.z0 + aside
            room = count(machine.jaw_gap - machine.stick_out)
            if lowest < room - 1 and (came >= room - 1 or not motion.z0_known):
                self.notebook.stop(
                    "into-jaws",
                    motion.line,
                    f"The tool comes to Z{self.notebook.length(lowest)}; the jaws with their gap begin at "
                    f"Z{self.notebook.length(room)}: stick out {self.notebook.length(room - lowest)} more.",
                )
        across = count(machine.tailstock)
        if across and min(motion.x0, motion.x1) < across and max(motion.z0, motion.z1) + insert.right > 0:
            self.notebook.stop(
                "into-tailstock",
                motion.line,
                f"The tool comes to {self.notebook.end(motion)}, where the tailstock's centre stands at "
                f"X{self.notebook.length(across)}; stay above it in front of the part.",
            )

    def _rapid(self, motion: Motion, insert: Insert) -> None:
        """A rapid must stay clear of all metal; one that bends must as well."""
        metal = self._felt[insert.where]
        pieces = swept(motion, insert)
        if all(min(piece[1], piece[3]) > metal.top for piece in pieces):
            return
        over = max(metal.above(piece) for piece in pieces)
        if over > self.touch:
            self._hit(motion, insert, over)
            self._forget(pieces, insert)
        elif motion.x0 != motion.x1 and motion.z0 != motion.z1 and metal.above(_box(motion, insert)) > self.touch:
            self.notebook.caution(
                "rapid-bends",
                motion.line,
                f"On a straight line the rapid to {self.notebook.end(motion)} clears the metal, but rapids of both "
                "axes seldom run straight; move one axis after the other.",
            )
        elif over >= 0 and self._on_land(motion, insert):
            self.notebook.caution(
                "no-clearance",
                motion.line,
                f"The rapid to {self.notebook.end(motion)} ends on the metal with no clearance; stay a little off it.",
            )

    def _forget(self, pieces: Sequence[Piece], insert: Insert) -> None:
        """Leave metal that was run into out of what is looked at later; for the verdict it still stands."""
        side = insert.where
        if self._felt[side] is self.bench.metal[side]:
            self._felt[side] = self.bench.metal[side].copy()
        for piece in pieces:
            self._felt[side].cut(piece, UNCUT)

    def _hit(self, motion: Motion, insert: Insert, over: int) -> None:
        """Name a rapid that runs into metal: from a start below the land, or on its way."""
        if self.notebook.has("start-below-land", motion.line):
            return
        deep = self.notebook.length(over) if insert.where == "face" else self.notebook.radial(over)
        self.notebook.stop(
            "rapid-into-material",
            motion.line,
            f"The rapid from {self.notebook.place(motion.x0, motion.z0)} to {self.notebook.end(motion)} runs {deep} "
            "deep into metal; go round it, or cut there at feed.",
        )

    def _on_land(self, motion: Motion, insert: Insert) -> bool:
        """True if a rapid comes down onto land that nothing has cut."""
        u, h = insert.place(motion.x1, motion.z1)
        _, h0 = insert.place(motion.x0, motion.z0)
        land = self._land[insert.where].highest(u + insert.left, u + insert.right)
        return h0 > h and abs(h - land) <= self.touch

    def _feed(self, motion: Motion, tool: Tool, insert: Insert) -> bool:
        """A cut: from where it starts, sideways and down; True if it cut metal."""
        metal = self._felt[insert.where]
        pieces = swept(motion, insert)
        if all(min(piece[1], piece[3]) >= metal.top for piece in pieces):
            return False
        self._start(motion, insert, metal)
        self._side(motion, tool, insert, metal)
        self._reach(motion, tool, insert, metal)
        gone = self.bench.cut(motion, insert)
        if metal is not self.bench.metal[insert.where]:
            for piece in pieces:
                metal.cut(piece, motion.line)
        if gone and not self.bench.knows_offset(motion):
            self._offset(motion, tool)
        return gone

    def _start(self, motion: Motion, insert: Insert, metal: Metal) -> None:
        """A cut must begin outside the metal."""
        u, h = insert.place(motion.x0, motion.z0)
        if not (motion.x0_known and motion.z0_known) or h >= metal.top:
            return
        over = max(metal.above(piece) for piece in insert.underside(u, h, u, h))
        if over > self.touch:
            self.notebook.stop(
                "start-below-land",
                motion.line,
                f"The cut starts at {self.notebook.place(motion.x0, motion.z0)}, below the metal around it; "
                "start above the largest diameter nearby.",
            )

    def _side(self, motion: Motion, tool: Tool, insert: Insert, metal: Metal) -> None:
        """A grooving insert bears only a shallow cut sideways."""
        u0, h0 = insert.place(motion.x0, motion.z0)
        u1, h1 = insert.place(motion.x1, motion.z1)
        if u0 == u1:
            return
        lowest = min(dh for _, dh in insert.corners)
        flat = [du for du, dh in insert.corners if dh == lowest]
        lead = max(flat) if u1 > u0 else min(flat)
        way = ((u0, h0), (u1, h1)) if u1 > u0 else ((u1, h1), (u0, h0))
        front = (way[0][0] + lead, way[0][1], way[1][0] + lead, way[1][1])
        deep = metal.above(front)
        scale = 1 if insert.where == "face" else 2
        bears = scale * self.bench.increments.count(tool.side_depth or SIDE_SHARE * tool.width)
        if deep > bears + self.touch:
            told = self.notebook.length if scale == 1 else self.notebook.radial
            message = (
                f"The insert is fed sideways through metal {told(deep)} deep and bears {told(bears)}; "
                "plunge first, then take the floor in a shallow pass."
            )
            thin = metal.thickness(front, bears + self.touch) <= THIN_WALL * insert.width
            (self.notebook.caution if thin else self.notebook.stop)("sideways-in-solid", motion.line, message)

    def _reach(self, motion: Motion, tool: Tool, insert: Insert, metal: Metal) -> None:
        """Above its reach the holder must find no metal beside the insert."""
        for x, z in {(motion.x0, motion.z0), (motion.x1, motion.z1)}:
            u, h = insert.place(x, z)
            body = h + insert.reach
            if metal.top <= body + self.touch:
                continue
            near, far, known = self._holder(tool, insert)
            left, right = u + insert.left, u + insert.right
            beside = metal.highest(left - 1, right + 1)
            if known:
                beside = max(beside, metal.highest(left - far, right + near))
            if beside > body + self.touch:
                self._too_deep(motion, tool, beside - h, insert)
            elif not known and metal.highest(left - far, right + near) > body + self.touch:
                self.notebook.caution(
                    "holder-near-shoulder",
                    motion.line,
                    f"A shoulder beside {self.notebook.place(x, z)} stands higher than {tool.name} reaches; make sure "
                    "that the holder clears it, or give holder_near and holder_far in the shop file.",
                )

    def _holder(self, tool: Tool, insert: Insert) -> tuple[int, int, bool]:
        """How far the holder's body stands out on both sides along u, and whether the shop file says so."""
        scale = 2 if insert.where == "face" else 1
        unknown = UNKNOWN_HOLDER[self.bench.increments.units]
        near = unknown if tool.holder_near is None else tool.holder_near
        far = unknown if tool.holder_far is None else tool.holder_far
        count = self.bench.increments.count
        known = tool.holder_near is not None or tool.holder_far is not None
        return scale * count(near) + 1, scale * count(far) + 1, known

    def _too_deep(self, motion: Motion, tool: Tool, deep: int, insert: Insert) -> None:
        """Name a cut that is deeper than the insert reaches."""
        told = self.notebook.length if insert.where == "face" else self.notebook.radial
        self.notebook.stop(
            "beyond-reach",
            motion.line,
            f"{tool.name} goes {told(deep)} deep beside standing metal and reaches {told(insert.reach)}: "
            "the holder would strike; take an insert with a longer reach.",
        )

    def _offset(self, motion: Motion, tool: Tool) -> None:
        """Name a cut under an offset that isn't the tool's."""
        if motion.offset == 0:
            what = f"Station {motion.station} cuts with no offset in force"
        else:
            what = f"Station {motion.station} cuts with offset {motion.offset}"
        self.notebook.stop(
            "offset", motion.line, f"{what}, the shop file says {tool.name}: the insert would be somewhere else."
        )


def _known(motion: Motion) -> Motion:
    """A motion with a start that the program never said put at its end."""
    if motion.x0_known and motion.z0_known:
        return motion
    x0 = motion.x0 if motion.x0_known else motion.x1
    z0 = motion.z0 if motion.z0_known else motion.z1
    return replace(motion, x0=x0, z0=z0)


def _box(motion: Motion, insert: Insert) -> Piece:
    """The underside of all that a bending rapid may sweep."""
    u0, h0 = insert.place(motion.x0, motion.z0)
    u1, h1 = insert.place(motion.x1, motion.z1)
    low = min(h0, h1)
    return min(u0, u1) + insert.left, low, max(u0, u1) + insert.right, low
