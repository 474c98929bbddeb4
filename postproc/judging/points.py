"""Tools of a program that the shop file doesn't have: a drill, a turning tool or an insert nobody named.

Each is followed as its point. It may turn the outside, make the bore and the axis, and cut a thread no deeper than one
of its lead; if it goes further into the part, what it leaves can't be judged. At rapid it must meet no metal, like
any other tool.
"""

from typing import NamedTuple

from extractor.part import Units
from extractor.runs import spans
from extractor.side import INSIDE, OUTSIDE
from planner.codes import PlanCode
from postproc.codes import ProgramCode
from postproc.cutting.insert import Piece
from postproc.cutting.metal import FARTHEST, Metal
from postproc.cutting.stock import Bench, part_pieces
from postproc.cutting.turned import Turned, as_pieces, stands_over, way
from postproc.judging.lands import general, land_findings
from postproc.judging.parting import behind
from postproc.judging.unsafe_rapids import bends, bent_way
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.vocabulary.acts import Act, Switch

# Slopes are programmed so much beside the drawn line to make up for the nose radius (common practice, no source).
NOSE: dict[Units, float] = {"mm": 0.5, "in": 0.02}
# Threads are cut no deeper than this share of their lead: 0.61 of ISO 68-1, 0.87 of a buttress (from memory).
THREAD_SHARE = 0.9
# And no less deep than this share of it, which eight starts have: 0.61 / 8.
LEAST_SHARE = 0.07
# In the bore of a blank a bar goes along its wall; a tool this far in is a drill, as a share of the bore.
DRILL_SHARE = 0.5


class Slot(NamedTuple):
    """Where a point went straight in: its station, z, and how low it came, in the frame of its side."""

    station: int
    z: int
    low: int


class Points:
    """Looks at the moves of stations that the shop file has no tool for, and makes them."""

    def __init__(self, bench: Bench, touch: int, notebook: Notebook) -> None:
        """Look at moves round a part on a bench; `touch` in h counts is taken for nothing."""
        part, increments = bench.part, bench.increments
        self.bench, self.touch, self.notebook = bench, touch, notebook
        self.turned = Turned(part, increments)
        self._land = Metal(part_pieces(part, increments, OUTSIDE))
        self._hole = Metal(part_pieces(part, increments, INSIDE)) if part.bore else None
        self._back = increments.count(-part.length)
        self._nose = 2 * increments.count(NOSE[increments.units])
        self._stopped: set[int] = set()
        self._stood: set[int] = set()
        self._turned: set[int] = set()
        self._held: tuple[int, int, int] | None = None
        self._passed: dict[int, int] = {}
        self._reverse: set[int] = set()
        self._slot: Slot | None = None
        self._threads: dict[int, tuple[int, Motion]] = {}
        self._across = increments.count(2 * part.bore[0][1]) if part.bore else 0
        self._opened = self._open = 0
        self._passes: dict[int, tuple[int, Motion]] = {}
        self._along: dict[int, list[tuple[Motion, bool, int]]] = {}

    def inside(self, motion: Motion) -> bool:
        """True if the point that made a move last is in the bore, or in the hole of a drill."""
        return self.turned.at.station == motion.station and self.turned.at.inside

    def follow(self, motion: Motion) -> bool:
        """Keep up with a move; True if it is made in the bore."""
        fed = motion.kind == "feed" or self.lets_go(motion)
        self._held = (motion.station, motion.x1, motion.z1) if fed else None
        return self.turned.follow(motion)

    def look(self, motion: Motion, parted: int | None = None) -> list[Piece]:
        """Check a move of such a tool and make it; returns the pieces that it takes off the bar.

        `parted`: the z where the piece was parted off, behind which alone the move is looked at.
        """
        inside = self.follow(motion)
        if motion.kind == "rapid":
            self._rapid(motion, inside, FARTHEST if parted is None else parted)
            return []
        motion = motion if parted is None else behind(motion, parted) or motion
        self._passed.setdefault(motion.station, motion.line)
        if motion.turning:
            self._turned.add(motion.station)
        if motion.reverse:
            self._reverse.add(motion.station)
        self._slot = self._kept_slot(motion, inside)
        if motion.station == 0:
            if 0 not in self._stopped:
                message = "The program cuts before any tool is called; call the tool with its offset first."
                self.notebook.stop(PlanCode.NO_TOOL, motion.line, message)
            self._stopped.add(0)
            return []
        if motion.thread and max(abs(motion.x0), abs(motion.x1)) > self.touch:
            self._thread(motion, inside)
            return []
        if not self._harmless(motion):
            self._unknown(motion)
        elif self._drills(motion) and self._beside_axis(motion):
            message = f"A hole is drilled at X{self.notebook.length(motion.x1)}, beside the axis; a drill stands at X0."
            self.notebook.stop(ProgramCode.DRILL_OFF_AXIS, motion.line, message)
        self._open = self._opened
        if inside or abs(motion.x1) <= self._axis():
            self._opened = min(self._opened, motion.z0, motion.z1)
        if motion.placed:
            self.turned.cut(motion)
        return [] if inside else way(motion, False)

    def still(self, motion: Motion, took: bool) -> None:
        """A point that works while the spindle stands; `took`: there was metal of the bar in its way.

        Told once a station. A puller draws the bar out, away from the chuck, and a stop only touches its face.
        """
        if motion.kind != "feed" or motion.station in self._stood:
            return
        start = self.notebook.word(Switch.CLOCKWISE)
        if motion.foreign == Act.DRILLING.value or self._into_solid(motion):
            message = (
                "A hole is drilled with the spindle stopped, which only suits a driven tool or a rigid tap; check the "
                "tool, or start the spindle first."
            )
            self.notebook.caution(ProgramCode.SPINDLE_OFF, motion.line, message)
        elif self.works(motion, took) or self._goes_in(motion):
            message = (
                f"The tool in station {motion.station} cuts with the spindle stopped; start it with {start} and S "
                "first."
            )
            self.notebook.stop(ProgramCode.SPINDLE_OFF, motion.line, message)
        else:
            return
        self._stood.add(motion.station)

    def _into_solid(self, motion: Motion) -> bool:
        """True for a way in along the axis of a part without a bore, farther than anything went before."""
        on_axis = not self._across and max(abs(motion.x0), abs(motion.x1)) <= self.touch
        return on_axis and motion.z1 < min(motion.z0, self._open, -self.touch)

    def works(self, motion: Motion, took: bool) -> bool:
        """True for a feed that cuts: metal of the bar was in its way, or it goes along the drawn part as a cut does."""
        return motion.kind == "feed" and bool(took or motion.foreign or self._goes_along(motion))

    def _goes_in(self, motion: Motion) -> bool:
        """True for a way deeper into the bar, of a tool that has worked while the spindle turned: it is no puller."""
        deeper = (motion.x1 < motion.x0 or motion.z1 < motion.z0) and not self.inside(motion)
        return deeper and motion.station in self._turned and self._in_bar(motion.z1, motion.x1)

    def _in_bar(self, z: int, x: int) -> bool:
        """True if a place is in the metal of the bar."""
        return abs(x) < self.bench.outside.highest(z - 1, z + 1) - self.touch

    def lets_go(self, motion: Motion) -> bool:
        """True for a rapid of a puller, which came to the bar at feed: forward, or outward to a place off the bar."""
        fed = self._held == (motion.station, motion.x0, motion.z0) and motion.station not in self._turned
        away = motion.x1 >= motion.x0 and motion.z1 >= motion.z0
        off = motion.x1 == motion.x0 or not self._in_bar(motion.z1, motion.x1)
        return motion.kind == "rapid" and fed and away and off

    def _goes_along(self, motion: Motion) -> bool:
        """True for a way on the drawn part as a cut goes: toward the chuck on a land, into the bar on the face."""
        if not (motion.x0_known and motion.z0_known):
            return False
        if motion.z0 == motion.z1:
            bar = self.bench.outside.highest(-self.touch, 0)
            return abs(motion.z1) <= self.touch and abs(motion.x1) < min(abs(motion.x0), bar)
        if motion.z0 <= self._back or motion.z1 >= min(motion.z0, -self.touch):
            return False
        metal, sign = self._drawn()
        over = stands_over(metal, (motion.z0, motion.x0), (motion.z1, motion.x1), sign)
        return over >= -self.touch and max(abs(motion.x0), abs(motion.x1)) > self.touch

    def _drawn(self) -> tuple[Metal, int]:
        """The drawn side that the point is on, and the sign of its heights."""
        return (self._hole, -1) if self.turned.at.inside and self._hole is not None else (self._land, 1)

    def _on_slope(self, motion: Motion) -> bool:
        """True for a way of both axes that lies on the drawn part from the face, or its start, to its end."""
        way = behind(motion, 0)
        if way is None or way.x0 == way.x1 or way.z0 == way.z1:
            return False
        metal, sign = self._drawn()
        (piece,) = as_pieces((way.z0, sign * way.x0), (way.z1, sign * way.x1))
        return metal.thickness(piece, -self.touch - 1) == piece[2] - piece[0]

    def _unknown(self, motion: Motion) -> None:
        """A point in the finished part; told once a station."""
        if motion.station in self._stopped:
            return
        self._stopped.add(motion.station)
        message = (
            f"The tool in station {motion.station}, which is not in the shop file, cuts into the drawn part here: "
            "correct its X and Z; if it is a grooving insert, give the shop file its width, reach and reference edge."
        )
        self.notebook.stop(ProgramCode.TOOL_UNKNOWN, motion.line, message)

    def close(self) -> None:
        """Report the tools that stayed out of the way, and the lands that they leave."""
        for station, line in self._passed.items():
            if station not in self._stopped:
                counter = self.notebook.word(Switch.COUNTER)
                sense = f", and see that it is meant to cut with {counter}" if station in self._reverse else ""
                message = (
                    f"The tool in station {station} is not a grooving insert of the shop file: it was followed as a "
                    f"point alone, so look at its shape and its holder yourself{sense}."
                )
                self.notebook.caution(ProgramCode.TOOL_NOT_FOLLOWED, line, message)
        self._threads_seen()
        self._shallow_threads()
        land_findings(self.bench.part, self.turned, self.bench.increments, self.touch, self.notebook)

    def _rapid(self, whole: Motion, inside: bool, front: int) -> None:
        """A rapid of a point through metal, which begins at z `front`; from where nobody has said, its end alone."""
        known = whole.x0_known and whole.z0_known
        motion = behind(whole, front) or whole
        if (motion.home and not known) or motion.station in self._stopped:
            return
        if abs(motion.x1) <= self._axis() and motion.z1 < min(self._opened, front) - self.touch:
            self._unopened(motion)
            return
        start = (motion.z0, motion.x0) if known else (motion.z1, motion.x1)
        if min(start[0], motion.z1) >= -self.touch or self._in_slot(motion, inside):
            self._slides(motion)
            return
        metal = self._hole if inside else self.bench.outside
        if metal is None:
            metal, inside = self.bench.outside, False
            if max(abs(motion.x0), abs(motion.x1)) <= self.touch:
                return
        sign = -1 if inside else 1
        over = stands_over(metal, start, (motion.z1, motion.x1), sign)
        bent = [part for one in (bent_way(whole) if known else []) if (part := behind(one, front))]
        deep = max((stands_over(metal, (part.z0, part.x0), (part.z1, part.x1), sign) for part in bent), default=0)
        if self.touch >= over and deep > self.touch:
            bends(self.notebook, whole, self.notebook.radial(deep))
        elif over > self.touch:
            end = self.notebook.end(whole)
            message = (
                f"The rapid of station {motion.station} to {end} runs {self.notebook.radial(over)} deep into metal; "
                "go round it, or cut there at feed."
            )
            self.notebook.stop(ProgramCode.RAPID_INTO_MATERIAL, motion.line, message)
        else:
            self._slides(motion)

    def _slides(self, motion: Motion) -> None:
        """Note a rapid that goes as a cut would on the drawn part: along one axis, or along a slope of it."""
        alone = motion.x0 == motion.x1 or motion.z0 == motion.z1
        if not motion.foreign and (alone or self._on_slope(motion)) and self._goes_along(motion):
            end = self.notebook.end(motion)
            message = f"The rapid to {end} slides along the metal; go there at feed, or keep clear of it."
            self.notebook.caution(ProgramCode.NO_CLEARANCE, motion.line, message)

    def _unopened(self, motion: Motion) -> None:
        """A rapid along the axis to where nothing has drilled yet."""
        message = (
            f"The rapid of station {motion.station} to {self.notebook.end(motion)} runs into metal that nothing has "
            "drilled before; go there at feed."
        )
        self.notebook.stop(ProgramCode.RAPID_INTO_MATERIAL, motion.line, message)

    def _kept_slot(self, motion: Motion, inside: bool) -> Slot | None:
        """The way straight in, or the end of a thread, out of which the point can come again."""
        if motion.thread:
            return Slot(motion.station, motion.z1, -motion.x1 if inside else motion.x1)
        if motion.z0 != motion.z1:
            return None
        low = _lowest(motion, inside)
        if self._slot is not None and self._slot[:2] == (motion.station, motion.z1):
            low = min(low, self._slot.low)
        return Slot(motion.station, motion.z1, low)

    def _in_slot(self, motion: Motion, inside: bool) -> bool:
        """True for a rapid out of, or inside, the slot that the point has just cut."""
        slot = self._slot
        if slot is None or motion.z0 != motion.z1 or slot[:2] != (motion.station, motion.z1):
            return False
        return _lowest(motion, inside) >= slot.low

    def _thread(self, motion: Motion, inside: bool) -> None:
        """A pass of a thread: no deeper than its lead bears, on one land, at a steady spindle."""
        if motion.surface:
            message = (
                f"A thread is cut under constant surface speed ({self.notebook.word(Act.SURFACE)}), so its lead "
                f"wanders with the diameter; say {self.notebook.word(Act.RPM)}."
            )
            self.notebook.stop(ProgramCode.THREAD_SPEED, motion.line, message)
        metal = self._hole if inside and self._hole is not None else self._land
        # Straight in or out there is no way along, and nothing cut.
        over = sum(metal.above(piece) for piece in way(motion, inside and self._hole is not None))
        if over > self.touch:
            self._along.setdefault(motion.station, []).append((motion, inside, over))
        deepest = self._passes.get(motion.station)
        if deepest is None or over > deepest[0]:
            self._passes[motion.station] = over, motion
        lead = self.bench.increments.feed_length(motion.feed or 0)
        bears = 2 * self.bench.increments.count(THREAD_SHARE * lead)
        if over > bears + self.touch:
            message = (
                f"The thread goes {self.notebook.radial(over)} below the land, and with a lead of {lead:g} it may "
                f"go no deeper than {self.notebook.radial(bears)}: check X, Z and F."
            )
            self.notebook.stop(ProgramCode.THREAD_TOO_DEEP, motion.line, message)
        elif not inside and over > max(self.touch, self._threads.get(motion.station, (0, motion))[0]):
            self._threads[motion.station] = over, motion

    def _threads_seen(self) -> None:
        """Say where threads are cut, and over which grooves: of a drawing no thread is kept to hold them against."""
        for passes in self._along.values():
            first, inside, _ = passes[0]
            near = min(0, max(max(motion.z0, motion.z1) for motion, _, _ in passes))
            far = max(self._back, min(min(motion.z0, motion.z1) for motion, _, _ in passes))
            deep = self.notebook.radial(max(over for _, _, over in passes))
            side, count, told = INSIDE if inside else OUTSIDE, self.bench.increments.count, self.notebook.length
            within = [
                groove.id
                for groove in self.bench.part.grooves
                if groove.side == side and far < count(groove.z_far) and count(groove.z_near) < near
            ]
            lead = self.bench.increments.feed_length(first.feed or 0)
            over = f", over groove{'s' if len(within) > 1 else ''} {spans(within)}" if within else ""
            message = (
                f"A thread {deep} deep with a lead of {lead:g} is cut from Z{told(near)} to Z{told(far)}{over}; "
                "threads are not held against the drawing, so see that it has this one."
            )
            self.notebook.caution(ProgramCode.THREAD_NOT_HELD, first.line, message)

    def _shallow_threads(self) -> None:
        """Threads that stay far above what their lead makes, since F was not the lead, and those that cut nothing."""
        for over, motion in self._passes.values():
            if over < -self.touch:
                message = "No pass of this thread touches the part: check X and the sign of Z."
                self.notebook.stop(ProgramCode.THREAD_IN_AIR, motion.line, message)
        for over, motion in self._threads.values():
            lead = self.bench.increments.feed_length(motion.feed or 0)
            if over < 2 * self.bench.increments.count(LEAST_SHARE * lead):
                words = (
                    f"The thread goes only {self.notebook.radial(over)} below the land with a lead of {lead:g}: F is "
                    "the lead, not the threads to the inch; check it."
                )
                self.notebook.stop(ProgramCode.THREAD_LEAD, motion.line, words)

    def _drills(self, motion: Motion) -> bool:
        """True for a drilling cycle, and for a way along Z deep in a bore that nothing has opened yet."""
        if motion.foreign == Act.DRILLING.value:
            return True
        deep = motion.x0 == motion.x1 and abs(motion.x0) < DRILL_SHARE * self._across
        return deep and motion.z1 < motion.z0 and self.turned.at.inside and not self._opened

    def _axis(self) -> float:
        """The diameter up to which a point stands so near to the axis that only a drilled hole has room for it."""
        return max(float(self.touch), DRILL_SHARE * self._across - 1)

    def _beside_axis(self, motion: Motion) -> bool:
        """True for a hole beside the axis, as far as the bore goes; on a pitch circle it would be in the metal."""
        return abs(motion.x1) > self.touch and motion.z1 != motion.z0

    def _harmless(self, motion: Motion) -> bool:
        """True if the tool's point stays off the metal of the finished part: before it, over it, in its bore."""
        x0 = motion.x0 if motion.x0_known else motion.x1
        z0 = motion.z0 if motion.z0_known else motion.z1
        if min(z0, motion.z1) >= -self.touch or max(z0, motion.z1) <= self._back:
            return True
        if max(abs(x0), abs(motion.x1)) <= self.touch:
            return True
        spared = self._spared(z0, x0, motion)
        inside = self.turned.at.inside
        if not inside or self._hole is None:
            ways = as_pieces((z0, x0), (motion.z1, motion.x1))
            return min(self._land.above(piece) for piece in ways) <= spared
        inner = as_pieces((z0, -x0), (motion.z1, -motion.x1))
        return min(self._hole.above(piece) for piece in inner) <= spared

    def _spared(self, z0: int, x0: int, motion: Motion) -> int:
        """How far below the drawn line a move may go: on a slope by a nose radius, else as a land may be off."""
        if z0 != motion.z1 and x0 != motion.x1:
            return self._nose
        return max(self.touch, general(min(x0, motion.x1), self.bench.increments))


def _lowest(motion: Motion, inside: bool) -> int:
    """How low a move comes, in the frame of its side."""
    ends = motion.x0, motion.x1
    return -max(ends) if inside else min(ends)
