"""Cuts that break an insert: begun in metal, too deep sideways, beyond reach, with no peck, under a wrong offset."""

from collections.abc import Collection

from extractor.side import OUTSIDE
from planner.codes import PlanCode
from planner.fit import UNKNOWN_HOLDER
from planner.shop import Tool
from postproc.codes import ProgramCode
from postproc.cutting.insert import Insert
from postproc.cutting.metal import Metal
from postproc.cutting.stock import Bench
from postproc.judging.unsafe_rapids import around
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.vocabulary.acts import Act

# Deepest sideways cut as a share of the insert's width where the shop file gives none (catalogues: 0.75 to 0.8).
SIDE_SHARE = 0.75
# Counts along u that metal beside an edge may be off by rounding on a curved way.
ROUNDING = 3
# A wall's finishing allowance up to this share of the insert's width may be taken from the side (common practice).
THIN_WALL = 0.1
# A plunge outside a cycle, so many times deeper than wide, is worth a look if it has no peck (common practice).
DEEP = 2
# What stands beside a plunge is a wall from this share of its depth on; less is a floor's allowance (common practice).
WALL_SHARE = 0.5


class Feeds:
    """Notes what is unsafe about cutting moves, before they take metal away."""

    def __init__(self, bench: Bench, touch: int, notebook: Notebook, unsaid: Collection[str] = ()) -> None:
        """Look at cuts over a bench; `touch` in h counts is taken for nothing, `unsaid` as `Shop.unsaid`."""
        self.bench, self.touch, self.notebook, self.unsaid = bench, touch, notebook, unsaid
        self._peckless_told: set[str] = set()
        self._reach_told: set[str] = set()
        self._curve_told: set[str] = set()

    def look(self, motion: Motion, tool: Tool, insert: Insert, metal: Metal) -> None:
        """Check one cut against the metal as it stands."""
        self._start(motion, insert, metal)
        self._side(motion, tool, insert, metal)
        self._reach(motion, tool, insert, metal)
        self._peckless(motion, tool, insert, metal)
        self._curve(motion, tool, insert, metal)

    def depths_told(self, tool: Tool, insert: Insert) -> tuple[int, int]:
        """Depths in h counts beyond which something may be said of a cut straight in that starts clear of all metal.

        Below the highest metal of all, and below that under the insert.
        """
        count, up = self.bench.increments.count, insert.side.up
        reach, out = insert.reach + self.touch, 2 * count(tool.overhang)
        return (min(reach, out) if out else reach), DEEP * up * count(tool.width) + self.touch

    def _start(self, motion: Motion, insert: Insert, metal: Metal) -> None:
        """A cut must begin outside the metal."""
        u, h = insert.place(motion.x0, motion.z0)
        if not (motion.x0_known and motion.z0_known) or h >= metal.top:
            return
        pieces = insert.underside(u, h, u, h)
        # Beside a steep edge a count along u is many in height: what is no wider is rounding, not metal.
        if sum(metal.thickness(piece, self.touch) for piece in pieces) > ROUNDING:
            message = (
                f"The cut starts at {self.notebook.place(motion.x0, motion.z0)}, below the metal around it; "
                "start above the largest diameter nearby."
            )
            self.notebook.stop(ProgramCode.START_BELOW_LAND, motion.line, message)

    def _side(self, motion: Motion, tool: Tool, insert: Insert, metal: Metal) -> None:
        """A grooving insert bears only a shallow cut sideways."""
        u0, h0 = insert.place(motion.x0, motion.z0)
        u1, h1 = insert.place(motion.x1, motion.z1)
        if u0 == u1:
            return
        flat = [du for du, dh in insert.corners if not dh]
        lead = max(flat) if u1 > u0 else min(flat)
        way = sorted(((u0, h0), (u1, h1)))
        front = (way[0][0] + lead, way[0][1], way[1][0] + lead, way[1][1])
        deep = metal.above(front)
        side, told = insert.side, self.notebook.height
        bears = side.up * self.bench.increments.count(tool.side_depth or SIDE_SHARE * tool.width)
        if deep > bears + self.touch:
            message = (
                f"The insert is fed sideways through metal {told(deep, side)} deep and bears {told(bears, side)}; "
                "plunge first, then take the floor in a shallow pass."
            )
            thin = metal.thickness(front, bears + self.touch) <= THIN_WALL * insert.width
            (self.notebook.caution if thin else self.notebook.stop)(ProgramCode.SIDEWAYS_IN_SOLID, motion.line, message)

    def _peckless(self, motion: Motion, tool: Tool, insert: Insert, metal: Metal) -> None:
        """A plunge deeper than the insert is wide, in one go: the chip can't break; the shop may want it so."""
        u, h = insert.place(motion.x1, motion.z1)
        u0, h0 = insert.place(motion.x0, motion.z0)
        if motion.cycle is not None or u0 != u or h >= h0 or not tool.peck or tool.name in self._peckless_told:
            return
        floor = (u + insert.left, h, u + insert.right, h)
        side, told = insert.side, self.notebook.height
        width = self.bench.increments.count(tool.width) * side.up
        if metal.thickness(floor, DEEP * width + self.touch) == insert.width:
            self._peckless_told.add(tool.name)
            message = (
                f"The plunge is {told(metal.above(floor), side)} deep and {told(width, side)} wide with no peck to "
                "break the chip."
            )
            self.notebook.caution(ProgramCode.NO_PECKS, motion.line, message)

    def _curve(self, motion: Motion, tool: Tool, insert: Insert, metal: Metal) -> None:
        """A face insert's body is curved: its outside must clear an outer wall, its inside an inner one."""
        u, h = insert.place(motion.x1, motion.z1)
        u0, h0 = insert.place(motion.x0, motion.z0)
        if insert.side.axial or u0 != u or h >= h0 or tool.name in self._curve_told:
            return
        count, outer = self.bench.increments.count, u + insert.right
        if outer < count(tool.face_min) - ROUNDING:
            wall = (outer, outer + ROUNDING)
        elif tool.face_max and outer > count(tool.face_max) + ROUNDING:
            wall = (u + insert.left - ROUNDING, u + insert.left)
        else:
            return
        under = metal.above((u + insert.left, h, outer, h))
        if under <= self.touch or metal.highest(*wall) - h < WALL_SHARE * under:
            return
        self._curve_told.add(tool.name)
        length = self.notebook.length
        least_told, most_told = length(count(tool.face_min)), length(count(tool.face_max))
        bears = f"{least_told} to {most_told}" if tool.face_max else f"{least_told} or more"
        message = (
            f"{tool.name} comes down beside a wall with its outer edge on {length(outer)} across, and its curve "
            f"fits {bears}; begin where it fits, or take another insert."
        )
        self.notebook.stop(PlanCode.FACE_CURVE, motion.line, message)

    def _reach(self, motion: Motion, tool: Tool, insert: Insert, metal: Metal) -> None:
        """Above its reach the holder must find no metal beside the insert."""
        for x, z in {(motion.x0, motion.z0), (motion.x1, motion.z1)}:
            u, h = insert.place(x, z)
            body = h + insert.reach
            out = 2 * self.bench.increments.count(tool.overhang)
            if out and insert.side == OUTSIDE and metal.top > h + out:
                self._turret(motion, tool, metal.top - h)
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
                message = (
                    f"A shoulder beside {self.notebook.place(x, z)} stands higher than {tool.name} reaches; make sure "
                    "that the holder clears it, or give holder_near and holder_far in the shop file."
                )
                self.notebook.caution(PlanCode.HOLDER_NEAR_SHOULDER, motion.line, message)

    def _holder(self, tool: Tool, insert: Insert) -> tuple[int, int, bool]:
        """How far the holder's body stands out on both sides along u, and whether the shop file says so."""
        unknown = UNKNOWN_HOLDER[self.bench.increments.units]
        near = unknown if tool.holder_near is None else tool.holder_near
        far = unknown if tool.holder_far is None else tool.holder_far
        count = self.bench.increments.count
        known = tool.holder_near is not None or tool.holder_far is not None
        along = insert.side.along
        return along * count(near) + 1, along * count(far) + 1, known

    def _turret(self, motion: Motion, tool: Tool, deep: int) -> None:
        """Name a cut at which the turret's face would meet the highest metal."""
        message = (
            f"{tool.name} goes {self.notebook.radial(deep)} below the part's largest diameter and stands "
            f"{self.notebook.radial(2 * self.bench.increments.count(tool.overhang))} out of the turret, which would "
            "meet the part; take an insert that stands out farther."
        )
        self.notebook.stop(PlanCode.TURRET, motion.line, message)

    def _too_deep(self, motion: Motion, tool: Tool, deep: int, insert: Insert) -> None:
        """Name a cut that is deeper than the insert reaches, or than a reach that nobody gave."""
        side, told = insert.side, self.notebook.height
        if f"{tool.name} max_depth" in self.unsaid:
            if tool.name not in self._reach_told:
                self._reach_told.add(tool.name)
                message = (
                    f"{tool.name} goes {told(deep, side)} deep beside standing metal and no shop file gives its reach; "
                    "make sure that the holder clears it, or give max_depth."
                )
                self.notebook.caution(ProgramCode.REACH_UNKNOWN, motion.line, message)
            return
        message = (
            f"{tool.name} goes {told(deep, side)} deep beside standing metal and reaches {told(insert.reach, side)}: "
            "the holder would strike; take an insert with a longer reach."
        )
        self.notebook.stop(ProgramCode.BEYOND_REACH, motion.line, message)

    def unplaced(self, motion: Motion, insert: Insert, metal: Metal) -> None:
        """Name a feed past metal on a slope from a place that nobody said; its end alone is taken for cut."""
        if metal.above(around(motion, insert)) > self.touch:
            message = (
                f"The feed to {self.notebook.end(motion)} begins where no block has said and moves both axes past "
                "metal; give X and Z in a block before it."
            )
            self.notebook.stop(ProgramCode.PLACE_UNKNOWN, motion.line, message)

    def compensated(self, motion: Motion, tool: Tool) -> None:
        """Name a cut whose path depends on a nose radius that only the machine knows."""
        message = (
            f"{tool.name} cuts under radius compensation: where its edge goes depends on a radius kept at the machine, "
            f"so it can't be judged; program the edge itself, with {self.notebook.word(Act.UNCOMPENSATED)}."
        )
        self.notebook.stop(ProgramCode.RADIUS_COMPENSATION, motion.line, message)

    def foreign(self, motion: Motion, tool: Tool) -> None:
        """Name a cycle of another kind of tool that a judged insert runs."""
        message = (
            f"{tool.name} runs a {motion.foreign}, which is not followed here, so what it leaves can't be judged; "
            "write it out, or as the grooving cycle."
        )
        self.notebook.stop(ProgramCode.CYCLE_NOT_FOLLOWED, motion.line, message)

    def offset(self, motion: Motion, tool: Tool) -> None:
        """Name a cut under an offset that isn't the tool's."""
        if motion.offset == 0:
            what = f"Station {motion.station} cuts with no offset in force"
        else:
            what = f"Station {motion.station} cuts with offset {motion.offset}"
        message = f"{what}, the shop file says {tool.name}: the insert would be somewhere else."
        self.notebook.stop(ProgramCode.OFFSET, motion.line, message)
