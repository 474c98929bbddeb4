"""Tools of a program that the shop file doesn't have: a drill, a turning tool or an insert nobody named.

Nothing of them can be cut in simulation. As long as such a tool stays where only the finished part's outside, its bore
or its axis is made it can't spoil a groove unseen; where it comes into metal that stands, the program can't be judged.
"""

from extractor.part import Part, Units
from extractor.side import INSIDE, OUTSIDE
from planner.codes import PlanCode
from planner.increment import Increments
from postproc.codes import ProgramCode
from postproc.cutting.insert import Piece
from postproc.cutting.metal import Metal
from postproc.cutting.stock import part_pieces
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.vocabulary.acts import Act

# Slopes are programmed so much beside the drawn line to make up for the nose radius (common practice, no source).
NOSE: dict[Units, float] = {"mm": 0.5, "in": 0.02}

THREADS = frozenset({Act.THREAD.value, Act.THREADING.value})
"""Cycles that cut below the land without cutting a groove."""


class OtherTools:
    """Looks at the feed moves of stations that the shop file has no tool for."""

    def __init__(self, part: Part, increments: Increments, touch: int, notebook: Notebook) -> None:
        """Look at moves round a part; `touch` in h counts is taken for nothing."""
        self.touch, self.notebook = touch, notebook
        self._land = Metal(part_pieces(part, increments, OUTSIDE))
        self._hole = Metal(part_pieces(part, increments, INSIDE)) if part.bore else None
        self._back = increments.count(-part.length)
        self._nose = 2 * increments.count(NOSE[increments.units])
        self._stopped: set[int] = set()
        self._passed: dict[int, int] = {}

    def look(self, motion: Motion) -> None:
        """A move of a tool that the shop file doesn't have; told once a station."""
        if motion.station in self._stopped or (motion.kind == "rapid" and not motion.foreign):
            return
        if motion.station == 0:
            self._stopped.add(0)
            message = "The program cuts before any tool is called; call the tool with its offset first."
            self.notebook.stop(PlanCode.NO_TOOL, motion.line, message)
        elif motion.kind == "feed" and motion.foreign not in THREADS and not self._harmless(motion):
            self._stopped.add(motion.station)
            self.notebook.stop(
                ProgramCode.TOOL_UNKNOWN,
                motion.line,
                f"The shop file has no tool in station {motion.station}, which cuts into the finished part here: what "
                "it leaves can't be followed; give that tool's width, reach and reference edge.",
            )
        else:
            self._passed.setdefault(motion.station, motion.line)

    def close(self) -> None:
        """Tell of the tools that stayed out of the way."""
        for station, line in self._passed.items():
            if station not in self._stopped:
                self.notebook.caution(
                    ProgramCode.TOOL_NOT_FOLLOWED,
                    line,
                    f"The tool in station {station} is no grooving insert of the shop file: what it cuts was not "
                    "followed; it only makes the outside, the bore or the centre, as its places say.",
                )

    def _harmless(self, motion: Motion) -> bool:
        """True if the tool's point stays off the metal of the finished part: before it, over it, in its bore."""
        x0 = motion.x0 if motion.x0_known else motion.x1
        z0 = motion.z0 if motion.z0_known else motion.z1
        if min(z0, motion.z1) >= -self.touch or max(z0, motion.z1) <= self._back:
            return True
        if max(abs(x0), abs(motion.x1)) <= self.touch:
            return True
        spared = self._nose if z0 != motion.z1 and x0 != motion.x1 else self.touch
        ways = _ways((z0, x0), (motion.z1, motion.x1))
        if min(self._land.above(way) for way in ways) <= spared:
            return True
        inner = [(u0, -a, u1, -b) for u0, a, u1, b in ways]
        if z0 == motion.z1:
            inner = [(u0, -max(x0, motion.x1), u1, -max(x0, motion.x1)) for u0, _, u1, _ in ways]
        return self._hole is not None and min(self._hole.above(way) for way in inner) <= spared


def _ways(start: tuple[int, int], end: tuple[int, int]) -> list[Piece]:
    """A move of the point as a piece over z; straight in or out, a hair of either side, since one may be a shoulder."""
    (z0, x0), (z1, x1) = sorted((start, end))
    if z0 != z1:
        return [(z0, x0, z1, x1)]
    return [(z0 - 1, x0, z0, x0), (z0, x0, z0 + 1, x0)]
