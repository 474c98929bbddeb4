"""Room around the tool: the jaws behind, the tailstock in front, and space for the turret to index."""

from bisect import bisect_right

import numpy as np

from extractor.part import Units
from extractor.side import SIDES
from planner.shop import Machine, Tool
from postproc.codes import ProgramCode
from postproc.cutting.insert import Insert
from postproc.cutting.metal import FAR, Metal
from postproc.cutting.stock import Bench, part_pieces
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.reading.run import ENDS, STARTS_OVER, Standstill

# Nearer to the part than this the other tools of the turret may swing into it (common practice, no source).
INDEX_ROOM: dict[Units, float] = {"mm": 10.0, "in": 0.4}
# Nearer than this they surely do: tools of one turret differ in length by more (common practice, no source).
INDEX_NONE: dict[Units, float] = {"mm": 5.0, "in": 0.2}

# No lathe goes further from its own zero than this, across and along (common practice for shops of small parts, no
# source), unless part, jaws or home are of such a size that these many times their own are further.
FARTHEST: dict[Units, tuple[float, float]] = {"mm": (1500.0, 3000.0), "in": (60.0, 120.0)}
PART_TIMES, HOME_TIMES = 5.0, 2.0
# So many times further no lathe at all goes.
SURELY = 10

# A bar may come so far out of the back of a through bore, to groove near its end (common practice, no source).
OUT_OF_THE_BACK: dict[Units, float] = {"mm": 10.0, "in": 0.4}


def _ends(motion: Motion) -> list[tuple[int, int]]:
    """The places (x, z) that a move is known to touch: its end, and its start where that was said."""
    return [(motion.x1, motion.z1), *([(motion.x0, motion.z0)] if motion.x0_known and motion.z0_known else [])]


class _InFront:
    """The highest of some metal between a place and the front face, as it is asked for at every move of a bar."""

    def __init__(self, metal: Metal) -> None:
        """Of metal that stays as it is."""
        profile = metal.profile()
        count = int(np.searchsorted(profile.u, 0))
        tops = np.maximum(profile.start, profile.end)[:count]
        self._metal, self._ends = metal, profile.u[1 : count + 1].tolist()
        self._tops: list[int] = np.maximum.accumulate(tops[::-1])[::-1].tolist()

    def highest(self, place: int) -> int:
        """Between a place behind the face and the face."""
        k = bisect_right(self._ends, place)
        return max([self._metal.highest(place, min(self._ends[k], 0)), *self._tops[k + 1 : k + 2]])


class Room:
    """Notes moves that come too near the machine, and tool changes too near the part."""

    def __init__(self, bench: Bench, machine: Machine, notebook: Notebook) -> None:
        """Look at moves over a bench on a machine."""
        self.bench, self.machine, self.notebook = bench, machine, notebook
        self._clear = bench.increments.count(max(machine.clearance, INDEX_NONE[bench.increments.units]))
        self._far = self._farthest()
        self._near = bench.increments.count(INDEX_ROOM[bench.increments.units])
        self._touch = 2 * max(1, bench.increments.count(machine.tolerance))
        self._told: set[tuple[int, ProgramCode]] = set()
        self._in_groove: set[int] = set()
        self._at_centre: tuple[int, int] | None = None
        self._lands = {side: Metal(part_pieces(bench.part, bench.increments, SIDES[side])) for side in bench.metal}
        self._in_front = {side: _InFront(land) for side, land in self._lands.items()}

    def _farthest(self) -> tuple[int, int]:
        """Counts of X and Z beyond which a place was hardly meant."""
        machine, part, (across, along) = self.machine, self.bench.part, FARTHEST[self.bench.increments.units]
        long = max(part.length, machine.stick_out or 0.0)
        top = self.bench.increments.length(self.bench.outside.top)
        far_x = max(across, PART_TIMES * top, HOME_TIMES * abs(machine.home_x))
        far_z = max(along, PART_TIMES * long, HOME_TIMES * abs(machine.home_z))
        return self.bench.increments.count(far_x), self.bench.increments.count(far_z)

    @property
    def far_across(self) -> int:
        """How far across `place` takes a place for meant, whatever its z."""
        return self._far[0]

    def clear_of_centre(self, z: int, insert: Insert) -> bool:
        """True where no move at z, which came there by one at z, can be told of the tailstock's centre."""
        return not self.bench.increments.count(self.machine.tailstock) or z + insert.right <= 0

    def place(self, line: int, x: int | None, z: int | None) -> None:
        """Note a place so far out that a digit or a point must have slipped; None for an axis of unknown place."""
        for axis, count, far in (("X", x, self._far[0]), ("Z", z, self._far[1])):
            if count is None or abs(count) <= far:
                continue
            told = f"{axis}{self.notebook.length(count)}"
            if abs(count) > SURELY * far:
                words = f"No lathe goes to {told}; check its digits and its decimal point."
                self.notebook.stop(ProgramCode.TOO_FAR, line, words)
            else:
                message = (
                    f"The tool goes to {told}, far from any part like this; check its digits and its decimal point."
                )
                self.notebook.caution(ProgramCode.FAR_PLACE, line, message)

    def index(self, before: Motion, line: int, inside: bool = False, what: str = "turret is indexed") -> None:
        """The turret must be indexed clear of the part: whatever sticks out of it swings round.

        So must an offset be cancelled: the next move, or the word itself, goes off by all of it (common practice). And
        where the program ends, a hand takes the part out.

        `before` is the last move, which ended where the program has said; `line` calls the next station. `inside`: a
        tool that is followed as a point stands in the bore. A stop in the groove in the same line says it all.
        """
        if line in self._in_groove:
            return
        insert = self.bench.insert(before)
        if before.z1 < 0 and (inside or (insert is not None and insert.side.hollow)):
            place = self.notebook.end(before)
            message = f"The {what} at {place}, inside the part; bring the tool out of the bore first."
            self.notebook.stop(ProgramCode.INDEX_NEAR_PART, line, message)
            return
        message = f"The {what} at {self.notebook.end(before)}, beside the part; move clear of it first."
        above = self._above(before.x1, before.z1, insert, self._near)
        if above <= 2 * self._clear and what not in (ENDS, STARTS_OVER):
            self.notebook.stop(ProgramCode.INDEX_NEAR_PART, line, message)
        elif above <= 2 * self._near:
            self.notebook.caution(ProgramCode.INDEX_NEAR_PART, line, message)

    def begin(self, before: Motion | None, motion: Motion) -> None:
        """A program that only says that the tool stands beside the part (G50 or G92 with X and Z) can't be checked."""
        if before is not None and (before.x1, before.z1) == (motion.x0, motion.z0):
            return
        insert = self.bench.insert(motion)
        if insert is None or insert.side.hollow or not (motion.x0_known and motion.z0_known):
            return
        if self._above(motion.x0, motion.z0, insert, 0) <= 2 * self._near:
            place = self.notebook.place(motion.x0, motion.z0)
            message = (
                f"The program says the tool stands at {place}, beside the part, where none of its moves brought it; "
                "move there instead."
            )
            self.notebook.stop(ProgramCode.ZERO_BESIDE_PART, motion.line, message)

    def _above(self, x: int, z: int, insert: Insert | None, before: int) -> int:
        """How far over the part's greatest diameter a place is; a great deal so far before the part."""
        lowest = z if insert is None or not insert.side.axial else z + insert.left
        return FAR if lowest >= before else x - self.bench.outside.top

    def halt(self, before: Motion, insert: Insert, halt: Standstill) -> None:
        """The machine must not wait, nor the spindle stand, while an insert is in a groove."""
        came, known = before.x1 != before.x0, before.x0_known
        if not insert.side.axial:
            came, known = before.z1 != before.z0, before.z0_known
        if before.home or not (came or known):
            return
        u, h = insert.place(before.x1, before.z1)
        land = self._lands[insert.where].highest(u + insert.left, u + insert.right)
        if h < land - self._touch:
            if not halt.optional:
                self._in_groove.add(halt.line)
            (self.notebook.caution if halt.optional else self.notebook.stop)(
                ProgramCode.STOPPED_IN_GROOVE,
                halt.line,
                f"The program {halt.what} here with the insert at {self.notebook.end(before)}, in the groove, where it "
                "rubs or breaks; bring it out first.",
            )

    def point(self, motion: Motion, inside: bool, grips: bool = False) -> None:
        """Check the point of a tool missing from the shop file, outside the part: jaws behind, tailstock in front.

        What `grips` the bar stands round it, wherever its point is, and may come right up to the jaws.
        """
        if motion.home:
            return
        self._at_tailstock(motion, 0)
        if (inside and not grips) or self.machine.stick_out is None:
            return
        count, jaws = self.bench.increments.count, "the jaws with their gap begin"
        room = count(self.machine.jaw_gap - self.machine.stick_out)
        held = max(room, count(-self.bench.part.length))
        across = self.bench.outside.highest(held, held + 2)
        # On a bar that is still to be turned a pass comes to the jaws below its surface.
        across = min(across, count(2 * self.bench.part.lands[-1][1]))
        outside = max(abs(motion.x0), abs(motion.x1)) >= across
        if grips and not outside:
            room, jaws = count(-self.machine.stick_out), "the jaws begin"
        if (outside or grips) and motion.z1 < room and (motion.z0 >= room or not motion.z0_known):
            message = (
                f"The tool in station {motion.station} comes to {self.notebook.end(motion)}; {jaws} at "
                f"Z{self.notebook.length(room)}."
            )
            self.notebook.stop(ProgramCode.INTO_JAWS, motion.line, message)

    def _at_tailstock(self, motion: Motion, right: int) -> None:
        """A tool that comes to where the tailstock's centre stands, a bar on its way into the bore too.

        `right`: how far the tool reaches to the front of its place. A move that only leaves a place already told is
        not told again.
        """
        across = self.bench.increments.count(self.machine.tailstock)
        if not across:
            return
        ends = _ends(motion)
        comes = motion.x1 < across and motion.z1 + right > 0
        leaves = (motion.x0, motion.z0) == self._at_centre
        self._at_centre = (motion.x1, motion.z1) if comes else None
        if comes or (not leaves and min(x for x, _ in ends) < across and max(z for _, z in ends) + right > 0):
            message = (
                f"The tool {'comes' if comes else 'moves'} to {self.notebook.end(motion)}, {'' if comes else 'past '}"
                f"where the tailstock's centre stands at X{self.notebook.length(across)}; stay above it in front of "
                "the part."
            )
            self.notebook.stop(ProgramCode.INTO_TAILSTOCK, motion.line, message)

    def _bar(self, motion: Motion, tool: Tool, insert: Insert) -> None:
        """The back of a bar must clear the wall across the bore: it lies `min_bore` from the edge."""
        # A plane that the insert may just touch is not on its way.
        edge = insert.left + self._touch
        within = [(x, z) for x, z in _ends(motion) if z + edge < 0]
        if not tool.min_bore or not within or (motion.station, ProgramCode.BAR_STRIKES) in self._told:
            return
        lowest = max(min(z for _, z in within) + edge, self.bench.increments.count(-self.bench.part.length))
        bore = -self._in_front[insert.where].highest(lowest)
        x, least = min(x for x, _ in within), 2 * self.bench.increments.count(tool.min_bore) - bore
        if x < least - self._touch:
            self._told.add((motion.station, ProgramCode.BAR_STRIKES))
            message = (
                f"{tool.name} comes to {self.notebook.end(motion)} in a bore of X{self.notebook.length(bore)}, and the "
                f"back of a bar for {tool.min_bore:g} would strike the wall across it; stay above "
                f"X{self.notebook.length(least)}."
            )
            self.notebook.stop(ProgramCode.BAR_STRIKES, motion.line, message)

    def _behind(self, motion: Motion, insert: Insert) -> None:
        """A bar that comes out behind a bored part is in the spindle, and beside its bore in the jaws."""
        count = self.bench.increments.count
        back = count(-self.bench.part.length)
        if motion.home or motion.z1 + insert.left >= back - count(OUT_OF_THE_BACK[self.bench.increments.units]):
            return
        bore = -self._lands[insert.where].highest(back, back + 2)
        across = max(x for x, _ in _ends(motion))
        code = ProgramCode.INTO_JAWS if across > bore + self._touch else ProgramCode.FAR_PLACE
        if (motion.station, code) in self._told:
            return
        self._told.add((motion.station, code))
        comes = f"The tool comes to {self.notebook.end(motion)}"
        if code is ProgramCode.INTO_JAWS:
            message = (
                f"{comes}, behind the part and outside its bore, where the jaws and the chuck are; bring it out in "
            )
            self.notebook.stop(code, motion.line, f"{message}front of the part.")
        else:
            message = f"{comes}, out of the back of the part, and nothing says what stands there; check its Z."
            self.notebook.caution(code, motion.line, message)

    def look(self, motion: Motion, tool: Tool, insert: Insert) -> None:
        """Check jaws behind and tailstock in front; for a bar the wall across the bore and what is behind the part."""
        self._at_tailstock(motion, insert.right if insert.side.axial else 0)
        if insert.side.hollow:
            if insert.where in self._lands:
                self._bar(motion, tool, insert)
                self._behind(motion, insert)
            if min(x for x, _ in _ends(motion)) < self.bench.outside.top:
                return
        machine, count = self.machine, self.bench.increments.count
        left = insert.left - count(tool.holder_far or 0.0) if insert.side.axial else 0
        if machine.stick_out is not None:
            lowest, came = motion.z1 + left, motion.z0 + left
            room = count(machine.jaw_gap - machine.stick_out)
            if lowest < room - 1 and (came >= room - 1 or not motion.z0_known):
                message = (
                    f"The tool comes to Z{self.notebook.length(lowest)}; the jaws with their gap begin at "
                    f"Z{self.notebook.length(room)}: stick out {self.notebook.length(room - lowest)} more."
                )
                self.notebook.stop(ProgramCode.INTO_JAWS, motion.line, message)
