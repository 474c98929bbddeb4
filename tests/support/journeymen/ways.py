"""The ways to cut a groove of `support.journeymen`, one method each, written with a `support.journeymen.pen.Pen`.

Places are least increments; z is that of the insert's far flank while a way is worked out, and the reference edge when
it is written. Every way begins and ends above all metal.
"""

import random
from collections.abc import Callable, Sequence
from itertools import groupby, pairwise

from support.journeymen.parts import Bench, Cut
from support.journeymen.pen import Pen


class Journey:
    """One program on its way; `x` and `z` follow the reference edge."""

    def __init__(self, bench: Bench, dialect: str, pen: Pen, rng: random.Random, top: int) -> None:
        self.bench, self.dialect, self.pen, self.rng = bench, dialect, pen, rng
        self.ways: set[str] = set()
        self.clear = top + 2 * rng.choice([1, 2, 3]) * bench.mm
        self.width = bench.wide
        self.x = self.z = 0
        self.steps = rng.choice([0.0, 0.0, 0.5])
        self.feed = rng.choice([6, 8, 10]) * pen.per_feed // (100 if bench.units == "mm" else 2500)
        self.subprograms: list[Callable[[], None]] = []
        self.feed_due = True
        self.later = rng.random() < 0.5

    def write(self, cuts: Sequence[Cut]) -> str:
        """The whole program."""
        pen, rng = self.pen, self.rng
        framed = rng.random() < 0.8
        if framed:
            pen.lines.append("%")
        if rng.random() < 0.8:
            pen.lines.append(rng.choice(["O0123", "O1(GROOVES)", "O4711 (PART 8-2)"]))
        self.start()
        slim = [cut for cut in cuts if cut.width < self.bench.wide]
        for station, width, mine in (
            (3, self.bench.wide, [c for c in cuts if c not in slim]),
            (5, self.bench.slim, slim),
        ):
            if mine:
                self.tool(station, width)
                self.all(mine)
                self.away()
        self.end()
        for subprogram in self.subprograms:
            subprogram()
        if framed:
            pen.lines.append("%")
        return pen.text()

    def start(self) -> None:
        """What comes before the first tool."""
        pen, rng = self.pen, self.rng
        unit = "G21" if self.bench.units == "mm" else "G20"
        for block in rng.choice([[(unit, "G40", "G99")], [(unit,), ("G99", "G97")], [(unit, "G99"), ("G18",)]]):
            pen.raw(*block)
        if rng.random() < 0.2:
            pen.raw("M68" if rng.random() < 0.5 else "M10")
        if rng.random() < 0.3:
            pen.raw("G54")
        if rng.random() < 0.6:
            pen.raw("G28", "U0", "W0")

    def tool(self, station: int, width: int) -> None:
        """Call an insert, start the spindle, go near."""
        pen, rng = self.pen, self.rng
        self.width, self.feed_due = width, True
        pen.raw(f"T{station:02d}{station:02d}")
        pen.raw("G50", "S2500")
        pen.raw("G96", f"S{110 if self.bench.units == 'mm' else 360}", "M3")
        if rng.random() < 0.5:
            pen.raw("M8")
        pen.forget()
        self.x = self.clear + 20 * self.bench.mm
        self.z = 5 * self.bench.mm
        pen.put("G0", X=self.x, Z=self.z)

    def away(self) -> None:
        """Clear of the part, to where tools are changed."""
        pen = self.pen
        if self.rng.random() < 0.5:
            pen.put("G0", X=self.clear + 60 * self.bench.mm)
            pen.put("G0", Z=50 * self.bench.mm)
        else:
            pen.put("G0", U=40 * self.bench.mm)
            pen.raw("G28", "U0")
            pen.raw("G28", "W0")
        pen.forget()
        if self.rng.random() < 0.3:
            pen.raw("M1")

    def end(self) -> None:
        if self.rng.random() < 0.5:
            self.pen.raw("M9")
        if self.rng.random() < 0.5:
            self.pen.raw("M5")
        if self.rng.random() < 0.15:
            self.pen.raw("M69")
        self.pen.raw("M30")

    # moves

    def edge(self, far: int) -> int:
        """The reference edge where the far flank stands."""
        return far if self.bench.far else far + self.width

    def go(self, x: int | None = None, far: int | None = None) -> None:
        """At rapid."""
        self._move("G0", x, far, None)

    def cut(self, x: int | None = None, far: int | None = None, slow: int = 1) -> None:
        """At feed."""
        self._move("G1", x, far, self.feed // slow if self.feed_due or slow > 1 else None)
        self.feed_due = slow > 1

    def arc(self, code: str, x: int, far: int, radius: int) -> None:
        """At feed on an arc."""
        self.pen.put(code, X=x, Z=self.edge(far), R=radius, F=self.feed if self.feed_due else None)
        self.feed_due = False
        self.x, self.z = x, self.edge(far)

    def _move(self, code: str, x: int | None, far: int | None, feed: int | None) -> None:
        """A straight move, by places or by increments."""
        z = None if far is None else self.edge(far)
        by = self.rng.random() < self.steps
        words: dict[str, int | None] = {}
        if x is not None and x != self.x:
            words["U" if by else "X"] = x - self.x if by else x
        if z is not None and z != self.z:
            words["W" if by else "Z"] = z - self.z if by else z
        if not words:
            return
        self.pen.put(code, **words, F=feed)
        self.x, self.z = self.x if x is None else x, self.z if z is None else z

    def over(self, far: int) -> None:
        """Above a place, at the height of all rapids."""
        self.go(far=far)
        self.go(x=self.clear)

    # ways

    def all(self, cuts: Sequence[Cut]) -> None:
        """Rows of like narrow grooves by one of the ways for rows, all others one by one."""
        for _, group in groupby(cuts, key=lambda c: (c.width, c.floor, c.land)):
            row = list(group)
            pitches = {a.near - b.near for a, b in pairwise(row)}
            if row[0].width == self.width:
                ways = [self.straight, self.pecks]
                if self.dialect != "plunge":
                    ways += [self.cycle, self.cycle_by_steps, self.cycle]
                if len(row) > 1 and len(pitches) == 1:
                    ways += [self.called]
                way = self.rng.choice(ways)
                self.ways.add(way.__name__)
                way(row)
                continue
            for cut in row:
                single = [self.zigzag, self.wall_floor_wall, self.side_to_side]
                if cut.corner:
                    single = [self.contour]
                one = self.rng.choice(single)
                self.ways.add(one.__name__)
                one(cut)

    def straight(self, row: Sequence[Cut]) -> None:
        """One plunge each, with a dwell or none."""
        dwell = self.rng.choice(["", "P200", "X.3", "U0.5"])
        for cut in row:
            self.over(cut.far)
            self.cut(x=cut.floor)
            if dwell:
                self.pen.raw("G4", dwell)
                self.pen.forget()
            self.go(x=self.clear)

    def pecks(self, row: Sequence[Cut]) -> None:
        """Each peck written out."""
        deep = self.rng.choice([5, 8, 12]) * self.bench.mm // 10
        for cut in row:
            self.over(cut.far)
            x = cut.land
            while x > cut.floor:
                x = max(cut.floor, x - 2 * deep)
                self.cut(x=x)
                if x > cut.floor:
                    self.go(x=min(self.clear, x + self.bench.mm))
            self.go(x=self.clear)

    def cycle(self, row: Sequence[Cut]) -> None:
        """The cycle over the row, or for each groove alone."""
        pitches = {a.near - b.near for a, b in pairwise(row)}
        if len(row) > 1 and len(pitches) == 1:
            self.over(row[0].far)
            self._call(row[0], self.edge(row[-1].far), pitches.pop())
            return
        for cut in row:
            self.over(cut.far)
            self._call(cut, None, 0)

    def cycle_by_steps(self, row: Sequence[Cut]) -> None:
        """The cycle again and again, W between."""
        self.over(row[0].far)
        for n, cut in enumerate(row):
            if n:
                self.pen.put("G0", W=self.edge(cut.far) - self.z)
                self.z = self.edge(cut.far)
            self._call(cut, None, 0, again=n > 0)

    def _call(self, cut: Cut, last: int | None, pitch: int, again: bool = False) -> None:
        """One call of the cycle from where the tool is; `again` may leave out what is in force."""
        peck = self.rng.choice([8, 10, 15]) * self.bench.mm // 10
        x: dict[str, int | str | None] = {"X": cut.floor}
        if self.rng.random() < self.steps:
            x = {"U": cut.floor - self.x}
        if self.dialect == "two-block":
            if not again or self.rng.random() < 0.7:
                self.pen.put("G75", R=self.bench.mm // 2)
            self.pen.put("G75", **x, Z=last, P=str(peck), Q=str(pitch) if last is not None else None, F=self.feed)
        else:
            self.pen.put("G75", **x, Z=last, I=peck, K=pitch if last is not None else None, F=self.feed)
        self.feed_due = False
        self.pen.forget()

    def called(self, row: Sequence[Cut]) -> None:
        """A subprogram by increments for each groove, called with L."""
        number = 100 + 10 * len(self.subprograms)
        pitch, deep = row[0].near - row[1].near, self.clear - row[0].floor
        self.over(row[0].far)
        times = len(row)
        if self.rng.random() < 0.5:
            self.pen.raw("M98", f"P{number}", f"L{times}")
        else:
            for _ in range(times):
                self.pen.raw("M98", f"P{number}")
        self.z -= pitch * times
        self.pen.forget()
        self.feed_due = True
        feed = self.feed

        def body() -> None:
            self.pen.lines.append(f"O{number:04d}")
            self.pen.forget()
            self.pen.put("G1", U=-deep, F=feed)
            self.pen.put("G0", U=deep)
            self.pen.put("G0", W=-pitch)
            self.pen.raw("M99")

        self.subprograms.append(body)

    def plunges(self, cut: Cut, left: int, above: int) -> list[int]:
        """Places of overlapping plunges that leave so much on the walls; `above` stays on the floor."""
        far, near = cut.far + left, cut.near - left - self.width
        lap = max(self.width - 2 * self.bench.corner - self.bench.mm // 5, self.width // 2)
        count = max(1, -(-(near - far) // lap))
        return [far + (near - far) * n // count for n in range(count + 1)]

    def rough(self, cut: Cut, left: int, above: int, order: str) -> None:
        """Plunges over the whole width, leaving something."""
        places = self.plunges(cut, left, above)
        if order == "middle":
            middle = len(places) // 2
            places = [places[middle], *[p for n, p in enumerate(places) if n != middle]]
        elif order == "alternate":
            places = [p for pair in zip(places, reversed(places), strict=True) for p in pair][: len(places)]
        elif order == "front":
            places.reverse()
        for far in dict.fromkeys(places):
            self.over(far)
            self.cut(x=cut.floor + 2 * above)
            self.go(x=self.clear)

    def zigzag(self, cut: Cut) -> None:
        """Plunges from wall to wall and back, to the floor."""
        places = self.plunges(cut, 0, 0)
        order = [p for pair in zip(places, reversed(places), strict=True) for p in pair]
        for far in list(dict.fromkeys(order)):
            self.over(far)
            self.cut(x=cut.floor)
            self.go(x=self.clear)
        if self.rng.random() < 0.5:
            self._sweep(cut)

    def _sweep(self, cut: Cut) -> None:
        """Along the floor from wall to wall, to take what the corners left."""
        self.over(cut.far)
        self.cut(x=cut.floor)
        self.cut(far=cut.near - self.width)
        self.go(x=self.clear)

    def wall_floor_wall(self, cut: Cut) -> None:
        """Roughed with an allowance; then down one wall, along the floor, out, down the other, and back over a lap."""
        left = self.rng.choice([1, 2]) * self.bench.mm // 10
        self.rough(cut, left, left, self.rng.choice(["front", "back", "middle", "alternate"]))
        near, lap = cut.near - self.width, self.bench.mm // 2
        middle = (cut.far + near) // 2
        self.over(near)
        self.cut(x=cut.floor)
        self.cut(far=max(cut.far, middle - lap // 2))
        self.go(x=self.clear)
        self.over(cut.far)
        self.cut(x=cut.floor)
        self.cut(far=min(near, middle + lap // 2))
        self.go(x=self.clear)

    def side_to_side(self, cut: Cut) -> None:
        """Layer by layer from side to side, sloping down into each."""
        layer = self.rng.choice([3, 5, 8]) * self.bench.mm // 10
        near = cut.near - self.width
        self.over(near)
        x, here = cut.land, near
        while x > cut.floor:
            x = max(cut.floor, x - 2 * layer)
            self.cut(x=x)
            here = cut.far if here == near else near
            self.cut(far=here)
        self.go(x=self.clear)

    def contour(self, cut: Cut) -> None:
        """Roughed, then the whole form: down the front wall, round the corner, along the floor and up behind."""
        left, bend = self.bench.mm // 5, cut.corner - self.bench.corner
        near = cut.near - self.width
        for far in self.plunges(cut, cut.corner, left):
            self.over(far)
            self.cut(x=cut.floor + 2 * left)
            self.go(x=self.clear)
        # Seen with X up and Z to the right the insert goes down at the right and round to the left: clockwise.
        if self.rng.random() < 0.5:
            self.over(near)
            self.cut(x=cut.floor + 2 * bend)
            self.arc("G2", cut.floor, near - bend, bend)
            self.cut(far=cut.far + bend)
            self.arc("G2", cut.floor + 2 * bend, cut.far, bend)
            self.cut(x=self.clear)
            return
        middle, lap = (cut.far + near) // 2, self.bench.mm // 4
        self.over(near)
        self.cut(x=cut.floor + 2 * bend)
        self.arc("G2", cut.floor, near - bend, bend)
        self.cut(far=max(cut.far + bend, middle - lap))
        self.go(x=self.clear)
        self.over(cut.far)
        self.cut(x=cut.floor + 2 * bend)
        self.arc("G3", cut.floor, cut.far + bend, bend)
        self.cut(far=min(near - bend, middle + lap))
        self.go(x=self.clear)
