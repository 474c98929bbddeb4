"""Right programs as people write them, at random but seeded, each with the part that it makes.

    for program in hand_programs(200, seed=1): ...

A job is drawn first (units, bar, rows of grooves, insert, reference edge), then the way to cut each row (cycle, single
cycles, plunges, a subprogram), then the hand that writes it. The grooves of `part` come from the job, never from
the text; `cuts` are the plunges meant, in order. Shares no code with the tool's writer or lowering.
"""

import random
from collections.abc import Iterator
from dataclasses import dataclass

from extractor.part import Part, Units
from planner.shop import Material, Shop
from support.hands.writing import Hand
from support.moves import shop, tool
from support.parts import part_of


@dataclass(frozen=True)
class HandProgram:
    """A right program: its text, what it is meant for, and what it must cut.

    `cuts`: x (diameter) and z of the reference edge at the floor of each plunge, in counts, in the order of the text.
    `habits` names what `support.hands.practised` has put in besides.
    """

    name: str
    text: str
    dialect: str
    units: Units
    part: Part
    shop: Shop
    cuts: tuple[tuple[int, int], ...]
    habits: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Row:
    """An evenly pitched row in counts: reference edge at the first and the distance between; one floor.

    `extra`: how much wider than the insert the grooves are; each is then plunged twice, from the front.
    """

    first: int
    pitch: int
    count: int
    floor: int
    extra: int = 0

    @property
    def last(self) -> int:
        return self.first - self.pitch * (self.count - 1)

    @property
    def places(self) -> list[int]:
        return [self.first - self.pitch * n for n in range(self.count)]

    @property
    def plunges(self) -> list[int]:
        return [z - more for z in self.places for more in ([0, self.extra] if self.extra else [0])]


@dataclass(frozen=True)
class Job:
    """What is to be cut, in counts; `start` is the diameter at which cycles begin."""

    units: Units
    per_length: int
    per_feed: int
    bar: int
    width: int
    far: bool
    rows: tuple[Row, ...]
    start: int
    length: int
    station: int
    feed: int
    peck: int


def hand_programs(count: int, seed: int) -> Iterator[HandProgram]:
    """So many different right programs."""
    for n in range(count):
        yield hand_program(seed * 100_003 + n)


def hand_program(seed: int) -> HandProgram:
    """The right program of a seed."""
    rng = random.Random(seed)
    job = random_job(rng)
    dialect = rng.choice(["two-block", "one-block", "plunge"])
    hand = Hand.random(rng, job.per_length, job.per_feed)
    HandSheet(job, dialect, hand, rng).write()
    return program_of(f"hand-{seed}", hand.text(), dialect, job)


def program_of(name: str, text: str, dialect: str, job: Job) -> HandProgram:
    """A text with what it is meant for."""
    cuts = tuple((row.floor, z) for row in job.rows for z in row.plunges)
    return HandProgram(name, text, dialect, job.units, _part(job), _shop(job, dialect), cuts)


def random_job(rng: random.Random) -> Job:
    """A job that a shop could have."""
    units: Units = rng.choice(["mm", "in"])
    per_length, per_feed = (1000, 10_000) if units == "mm" else (10_000, 100_000)
    grain = 100 if units == "mm" else 50
    unit = per_length if units == "mm" else per_length // 25
    bar = rng.randrange(20 * unit, 90 * unit, grain)
    width = rng.randrange(15, 41) * unit // 10 // grain * grain
    far = rng.random() < 0.5
    rows: list[Row] = []
    edge = -rng.randrange(2 * unit, 15 * unit, grain)
    for _ in range(rng.choice([1, 1, 2, 3])):
        number = rng.choice([1, 1, 2, 3, 4, 6])
        extra = rng.randrange(width // 10, width * 9 // 10, grain // 2) if rng.random() < 0.25 else 0
        pitch = width + extra + rng.randrange(unit, 6 * unit, grain // 2)
        floor = bar - 2 * rng.randrange(unit // 2, min(width * 3, bar // 3), grain // 2)
        rows.append(Row(edge - width if far else edge, pitch, number, floor, extra))
        edge -= pitch * (number - 1) + width + extra + rng.randrange(2 * unit, 9 * unit, grain)
    return Job(
        units,
        per_length,
        per_feed,
        bar,
        width,
        far,
        tuple(rows),
        bar + 2 * rng.choice([unit // 2, unit, 2 * unit]),
        -edge + 30 * unit,
        rng.randrange(1, 13),
        rng.randrange(4, 16) * (per_feed // 100 if units == "mm" else per_feed // 2500),
        rng.choice([width // 3, width // 2, width]),
    )


def _part(job: Job) -> Part:
    """The drawing's own numbers."""
    at = job.per_length
    spots = []
    for row in job.rows:
        for z in row.places:
            near = z + job.width if job.far else z
            spots.append((near / at, (near - job.width - row.extra) / at, row.floor / at))
    return part_of(spots, diameter=job.bar / at, length=job.length / at, units=job.units)


SURFACE: dict[Units, int] = {"mm": 120, "in": 400}
"""The usual cutting speed, m/min or ft/min."""


def _shop(job: Job, dialect: str) -> Shop:
    """The insert that the program takes for granted, in a lathe with room for it."""
    at, metric = job.per_length, job.units == "mm"
    scale = 1.0 if metric else 1 / 25.4
    insert = tool(
        station=job.station,
        offset=job.station,
        width=job.width / at,
        max_depth=job.bar / at,
        reference="far" if job.far else "near",
        feed=job.feed / job.per_feed,
        peck=job.peck / at,
        retract=0.5 * scale,
    )
    lengths = {"jaw_gap": 3 * scale, "clearance": 1 * scale, "stick_out": job.length / at}
    steel = Material("steel", SURFACE[job.units], 2000.0)
    return shop(insert, units=job.units, material=steel, dialect=dialect, home_x=300.0, home_z=300.0, **lengths)


class HandSheet:
    """One program on its way to paper. `x` and `z` follow the tool in counts, None before they are said."""

    def __init__(self, job: Job, dialect: str, hand: Hand, rng: random.Random) -> None:
        self.job, self.dialect, self.hand, self.rng = job, dialect, hand, rng
        self.surface = SURFACE[job.units]
        self.x: int | None = None
        self.z: int | None = None
        self.iso = dialect == "plunge" and rng.random() < 0.5
        self.increments = not self.iso and rng.random() < 0.3
        self.feed_said = False
        self.started = ""
        self.per_minute = False
        self.relative = False
        self.subprograms: list[tuple[int, Row]] = []

    def write(self) -> None:
        """The whole program."""
        self._head()
        for n, row in enumerate(self.job.rows):
            self._row(n, row)
        self._tail()
        for number, row in self.subprograms:
            self._subprogram(number, row)

    def _head(self) -> None:
        """Everything before the first groove."""
        rng, hand, job = self.rng, self.hand, self.job
        self.started = rng.choice(["home", "home", "home", "far", "told"])
        hand.line(rng.choice(["O1234", "O0007(RING)", "(GROOVES)", "O12 (A-B)"]), numbered=False)
        unit = {("mm", False): 21, ("in", False): 20, ("mm", True): 71, ("in", True): 70}[job.units, self.iso]
        self.per_minute = rng.random() < 0.12
        mode = ("G", 94 + (not self.per_minute) if self.iso else 99 - self.per_minute)
        absolute = [("G", 90)] if self.iso else []
        hand.write(*rng.choice([[("G", unit)], [("G", unit), ("G", 40)], [("G", 18), ("G", unit)]]))
        hand.write(*absolute, *rng.choice([[mode], [("G", 97), mode], [mode, ("G", 40)], [("G", 54), mode]]))
        if self.started == "home" and not self.iso:
            hand.write(*rng.choice([[("G", 28), ("U", "0"), ("W", "0")], [("G", 28), ("U", 0), ("W", 0)]]))
        elif self.started == "told" and not self.iso:
            hand.write(("G", 50), ("X", 9 * job.bar), ("Z", 9 * job.bar))
            self.x = self.z = 9 * job.bar
        else:
            self._go(9 * job.bar, 9 * job.bar)
        self._other_tool()
        hand.write(("T", rng.choice([f"{job.station:02d}{job.station:02d}", f"{job.station}{job.station:02d}"])))
        self._spindle()
        if rng.random() < 0.7:
            hand.write(("M", 8))

    def _other_tool(self) -> None:
        """What a tool before the insert does: nothing here."""

    def _spindle(self) -> None:
        """The spindle, with its clamp wherever the surface speed is constant."""
        rng, hand = self.rng, self.hand
        if self.per_minute or rng.random() < 0.3:
            hand.write(("G", 97), ("S", 800), ("M", 3))
            if rng.random() < 0.2:
                hand.write(("M", rng.choice([41, 42, 6])))
            return
        hand.write(("G", 92 if self.iso else 50), ("S", 2500))
        if rng.random() < 0.3:
            hand.write(("G", 97), ("S", 500), ("M", 3))
            hand.write(("G", 96), ("S", self.surface))
        else:
            hand.write(("G", 96), ("S", self.surface), ("M", rng.choice([3, 3, 4])))

    def _row(self, number: int, row: Row) -> None:
        """One row, from above the bar back to above the bar."""
        rng = self.rng
        way = self.rng.choice(["cycle", "cycle", "single", "plunges", "subprogram"])
        if self.dialect == "plunge" and way in ("cycle", "single"):
            way = "plunges"
        if row.extra or (way == "subprogram" and self.iso):
            way = {"cycle": "single", "subprogram": "plunges"}.get(way, way)
        first = row.first + row.pitch if way == "subprogram" and row.count > 1 else row.first
        self._approach(first)
        if way == "cycle":
            self._cycle(row.floor, row.last, row.pitch if row.count > 1 else 0)
        elif way == "subprogram":
            self._call(1000 + number, row, first)
        else:
            for z in row.places if way == "single" else row.plunges:
                if row.extra and way == "plunges" and z not in row.places and rng.random() < 0.5:
                    self._finished(row, z)
                    continue
                self._go(None, z)
                self._cycle(row.floor, z - row.extra, row.extra) if way == "single" else self._plunge(row.floor)

    def _finished(self, row: Row, z: int) -> None:
        """The second plunge of a wide groove, then along its floor to the first wall, and out."""
        self._go(None, z)
        self._go(row.floor, None, self.job.feed)
        self._go(None, z + row.extra, self.job.feed)
        self._go(self.job.start, None)

    def _approach(self, z: int) -> None:
        """To the start of a row: Z first, or X first where the tool is already beside the part."""
        if self.x is not None and self.x <= self.job.start:
            self._go(None, z)
        elif self.rng.random() < 0.5:
            self._go(None, z)
            self._go(self.job.start, None)
        else:
            self._go(self.job.start, z)

    def _go(self, x: int | None, z: int | None, feed: int | None = None) -> None:
        """A straight move, absolute or by increments as this hand likes."""
        hand = self.hand
        pairs = [("G", 0 if feed is None else 1)]
        for (place, step), value, now in ((("X", "U"), x, self.x), (("Z", "W"), z, self.z)):
            if value is not None and value != now:
                if self.relative and now is not None:
                    pairs.append((place, value - now))
                elif self.increments and now is not None and self.rng.random() < 0.5:
                    pairs.append((step, value - now))
                else:
                    pairs.append((place, value))
        if feed is not None and not (self.feed_said and hand.modal):
            pairs.append(self._feed())
            self.feed_said = True
        if len(pairs) > 1 and any(a in "XZUW" for a, _ in pairs):
            hand.write(*pairs)
        self.x, self.z = self.x if x is None else x, self.z if z is None else z

    def _feed(self) -> tuple[str, int | str]:
        """The feed as it is meant: per revolution, or per minute at 800 rev/min, a whole number with a point or not."""
        if not self.per_minute:
            return "F", self.job.feed
        count = self.job.feed * 800
        plain = count % self.job.per_feed == 0 and self.rng.random() < 0.5
        return "F", str(count // self.job.per_feed) if plain else count

    def _plunge(self, floor: int) -> None:
        """One groove, in ISO words by distances now and then."""
        self.relative = self.iso and self.rng.random() < 0.3
        if self.relative:
            self.hand.write(("G", 91))
        self._pecks(floor)
        if self.relative:
            self.hand.write(("G", 90))
        self.relative = False

    def _pecks(self, floor: int) -> None:
        """One groove in G00 and G01, in pecks or straight down, with a dwell now and then."""
        job, rng = self.job, self.rng
        x = job.start - 2 * job.peck
        while x > floor and rng.random() < 0.9:
            self._go(x, None, job.feed)
            self._go(x + 2 * (job.peck // 4), None)
            x -= 2 * job.peck
        self._go(floor, None, job.feed)
        if rng.random() < 0.2:
            dwell = ("X", ".2") if self.iso else rng.choice([("P", "200"), ("X", "0.2"), ("U", ".2")])
            self.hand.write(("G", 4), dwell)
        self._go(job.start, None)

    def _cycle(self, floor: int, last: int, pitch: int) -> None:
        """The grooving cycle over a row, or over one groove where the pitch is 0."""
        job, hand, rng = self.job, self.hand, self.rng
        assert self.x is not None
        assert self.z is not None
        by_step = self.increments and rng.random() < 0.3
        place = [("U", floor - self.x)] if by_step else [("X", floor)]
        if pitch or rng.random() < 0.2:
            place.append(("W", last - self.z) if by_step else ("Z", last))
        if self.dialect == "two-block":
            hand.write(("G", 75), ("R", job.peck // 4))
            amounts = [("P", job.peck)] + ([("Q", pitch)] if pitch else [])
        else:
            amounts = [("I", job.peck)] + ([("K", pitch)] if pitch else [])
        hand.write(("G", 75), *place, *amounts, self._feed())
        self.feed_said = False

    def _call(self, number: int, row: Row, first: int) -> None:
        """A subprogram run once for each groove, which shifts first where there are several."""
        repeats = [("L", row.count)] if row.count > 1 else self.rng.choice([[], [("L", 1)]])
        pairs = [("M", 98), ("P", number), *repeats]
        if row.count > 1 and self.rng.random() < 0.3:
            pairs = [("M", 98), ("P", f"{row.count:02d}{number:04d}")]
        self.hand.write(*pairs)
        self.hand.in_force = None
        self.subprograms.append((number, row))
        self.z = first - (row.pitch * row.count if row.count > 1 else 0)
        self.feed_said = False

    def _tail(self) -> None:
        """The way out and the end."""
        rng, hand, job = self.rng, self.hand, self.job
        self._go(2 * job.bar, None)
        if rng.random() < 0.5 and not self.iso:
            hand.write(("G", 28), ("U", "0"))
            hand.write(("G", 28), ("W", "0"))
        else:
            # Where a block said at the head that the tool stands, the next piece begins again.
            self._go(9 * job.bar if self.started == "told" else None, 9 * job.bar)
        if rng.random() < 0.3:
            hand.write(("T", f"{job.station:02d}00"))
        if rng.random() < 0.5:
            hand.write(("M", 9))
        if rng.random() < 0.4:
            hand.write(("M", 5))
        hand.write(("M", rng.choice([30, 30, 2])))

    def _subprogram(self, number: int, row: Row) -> None:
        """The subprogram of a row."""
        hand, job = self.hand, self.job
        hand.in_force, self.feed_said = None, False
        hand.line(f"O{number:04d}", numbered=False)
        self.x, self.z = job.start, row.first
        if row.count > 1:
            hand.write(("G", 0), ("W", -row.pitch))
        self._plunge(row.floor)
        hand.write(("M", 99))
