"""Right programs of whole parts: what `support.hands.style` writes, with what people do round the grooves besides.

    for program in practised_programs(200, seed=1): ...

Another tool works first, the mouths of the grooves are broken, the finished part is parted off, the clamp stands after
the fixed speed, and there is an optional stop with a new call of the tool between two rows. `habits` of a program names
those that it has. All of them are common practice, no source; so is breaking edges by no more than 0.3 mm.
"""

import random
from collections.abc import Iterator
from dataclasses import replace

from support.hands.style import HandProgram, HandSheet, Job, Row, program_of, random_job
from support.hands.writing import Hand

HABITS = ("other-tool", "broken-edges", "parting-off", "clamp-after-speed", "stop-between")


def practised_programs(count: int, seed: int) -> Iterator[HandProgram]:
    """So many different right programs with habits."""
    for n in range(count):
        yield practised_program(seed * 100_003 + n)


def practised_program(seed: int) -> HandProgram:
    """The right program of a seed, in a lathe with room behind the part to part it off."""
    rng = random.Random(seed)
    job = random_job(rng)
    dialect = rng.choice(["two-block", "one-block", "plunge"])
    sheet = PractisedSheet(job, dialect, Hand.random(rng, job.per_length, job.per_feed), rng)
    sheet.write()
    program = program_of(f"practised-{seed}", sheet.hand.text(), dialect, job)
    room = (job.length + 15 * sheet.unit) / job.per_length
    machine = replace(program.shop.machine, stick_out=room)
    return replace(program, shop=replace(program.shop, machine=machine), habits=frozenset(sheet.done))


class PractisedSheet(HandSheet):
    """A program on its way to paper, with the habits drawn for it; `done` are those that came to be written."""

    def __init__(self, job: Job, dialect: str, hand: Hand, rng: random.Random) -> None:
        super().__init__(job, dialect, hand, rng)
        self.unit = job.per_length if job.units == "mm" else job.per_length // 25
        self.wanted = {habit for habit in HABITS if rng.random() < 0.5}
        self.done: set[str] = set()

    def _does(self, habit: str) -> bool:
        """True if this program has the habit, which is then noted."""
        if habit in self.wanted:
            self.done.add(habit)
        return habit in self.wanted

    def _other_tool(self) -> None:
        """A drill or a turning tool in another station, out of the way again before the insert comes."""
        if not self._does("other-tool"):
            return
        hand, job, unit = self.hand, self.job, self.unit
        station = job.station % 12 + 1
        hand.write(("T", f"{station:02d}{station:02d}"))
        hand.write(("G", 97), ("S", 800), ("M", 3))
        self._first_work(self.rng.choice(["drill", "turn", "face"]))
        self._go(job.bar + 10 * unit, None)
        self._away(station)

    def _first_work(self, kind: str) -> None:
        """One cut of a tool that is no grooving insert, and back out to the front."""
        job, unit = self.job, self.unit
        start, end = {
            "drill": ((0, 3 * unit), (0, -20 * unit)),
            "turn": ((job.bar, 2 * unit), (job.bar, 5 * unit - job.length)),
            "face": ((job.bar + 4 * unit, 0), (-unit, 0)),
        }[kind]
        self._go(*start)
        self._go(*end, job.feed)
        if kind == "turn":
            self._go(job.bar + 4 * unit, None)
        self._go(None, 5 * unit)

    def _away(self, station: int) -> None:
        """To where tools are changed, and the optional stop there."""
        rng, hand = self.rng, self.hand
        self._go(9 * self.job.bar, 9 * self.job.bar)
        if rng.random() < 0.5:
            hand.write(("T", f"{station:02d}00"))
        if rng.random() < 0.5:
            hand.write(("M", 5))
        hand.write(("M", 1))
        self.feed_said = False

    def _spindle(self) -> None:
        """The fixed speed first and the clamp after it, then constant surface speed or none."""
        if not self._does("clamp-after-speed"):
            super()._spindle()
            return
        self.hand.write(("G", 97), ("S", 800), ("M", 3))
        self.hand.write(("G", 92 if self.iso else 50), ("S", 2500))
        if not self.per_minute and self.rng.random() < 0.7:
            self.hand.write(("G", 96), ("S", self.surface))

    def _row(self, number: int, row: Row) -> None:
        """One row, its edges broken before or after."""
        if number and self._does("stop-between"):
            self._go(2 * self.job.bar, None)
            self._away(self.job.station)
            self.hand.write(("T", f"{self.job.station:02d}{self.job.station:02d}"))
            self._spindle()
        breaks = self._does("broken-edges")
        early = breaks and self.rng.random() < 0.3
        if early:
            self._approach(row.first)
            self._break_edges(row)
        super()._row(number, row)
        if breaks and not early:
            self._break_edges(row)

    def _break_edges(self, row: Row) -> None:
        """Both edges of each mouth, with the corner of the insert that lies at the wall."""
        size = self.unit * self.rng.choice([5, 10, 20, 30]) // 100
        for z in row.places:
            self._bevel(z, size, 1)
            self._bevel(z - row.extra, size, -1)

    def _bevel(self, z: int, size: int, way: int) -> None:
        """One edge at 45 degrees, from over the land (`way` 1: to the front of the groove) down to its wall at z."""
        job, over = self.job, self.unit // 10
        self._go(None, z + way * (size + over))
        self._go(job.bar + 2 * over, None, job.feed)
        self._go(job.bar - 2 * size, z, job.feed)
        self._go(job.bar + 2 * over, None, job.feed)
        self._go(job.start, None)

    def _tail(self) -> None:
        """The part cut off behind its back face, and the end."""
        job, rng = self.job, self.rng
        if self._does("parting-off"):
            behind = -job.length - rng.choice([0, self.unit // 5, self.unit])
            self._go(None, behind - job.width if job.far else behind)
            self._go(rng.choice([0, -2 * (self.unit // 5)]), None, job.feed)
            self._go(job.start, None)
        super()._tail()
