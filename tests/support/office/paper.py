"""A sheet being drawn: views, sizes, words with leaders, a frame with its title block."""

import random
from collections.abc import Sequence

from support.ink import (
    Callout,
    Circle,
    Dim,
    Ink,
    Leader,
    Line,
    Ordinate,
    Path,
    Point,
    Text,
    exploded,
    extent,
    led,
    number,
)
from support.office.model import Groove, Part
from support.office.place import Place
from support.office.views import unit


class Paper:
    """`dims`: "entity", "loose" (strokes on the dimension layer) or "inline" (strokes in the outline's own layer)."""

    def __init__(self, rng: random.Random, part: Part, place: Place, dims: str = "entity") -> None:
        self.rng, self.part, self.place, self.dims = rng, part, place, dims
        self.ink: list[Ink] = []
        self.u = unit(part)
        self.h = rng.choice((2.5, 3.5, 3.5)) * self.u
        self.arrows = rng.choice(("solid", "open", "closed", "tick"))
        reach = part.diameter / 2
        self.lane = self.h / place.scale  # a text height in lengths of the part
        self.above, self.below = reach + 2 * self.lane, -reach - 2 * self.lane
        self.beyond = {"front": -4 * self.lane, "back": part.length + 4 * self.lane}
        self.said: list[str] = []

    def add(self, items: Sequence[Ink]) -> None:
        self.ink += items

    def say(self, text: str) -> str:
        self.said.append(text)
        return text

    # sizes

    def size(self, a: Point, b: Point, base: Point, angle: float, text: str = "") -> None:
        """A size between two points of the sheet."""
        dim = Dim(a, b, base, angle, text, self.h)
        if self.dims == "entity":
            self.ink.append(dim)
            return
        inline = self.dims == "inline"
        gap = self.rng.choice((0.0, 0.3, 0.3)) if inline else 0.3
        shown = text or number(dim.measured() / self.place.scale)
        dim = Dim(a, b, base, angle, shown, self.h)
        self.ink += exploded(dim, self.arrows, gap, "outline" if inline else None)

    def along(self, s0: float, r0: float, s1: float, r1: float, text: str = "", up: bool = True) -> None:
        """A length along the axis, on the next free lane above or below the view."""
        level = self._lane(up)
        place = self.place
        text = self._true(text, abs(s1 - s0))
        self.size(place.at(s0, r0), place.at(s1, r1), place.at((s0 + s1) / 2, level), 0 if place.lying else 90, text)

    def _lane(self, up: bool) -> float:
        if up:
            level = self.above
            self.above += 2.6 * self.lane
        else:
            level = self.below
            self.below -= 2.6 * self.lane
        return level

    def across(self, s: float, d: float, at: float, text: str = "") -> None:
        """A diameter, its dimension line at `at` along the axis (inside the view or beyond an end)."""
        place = self.place
        text = self._true(text or f"%%c{number(d)}", d)
        a, b, base = place.at(s, d / 2), place.at(s, -d / 2), place.at(at, 0)
        self.size(a, b, base, 90 if place.lying else 0, text)

    def outer(self, s: float, d: float, text: str = "", end: str = "back") -> None:
        """A diameter beyond an end of the view."""
        at = self.beyond[end]
        self.beyond[end] += (-3 if end == "front" else 3) * self.lane
        self.across(s, d, at, text)

    def _true(self, text: str, value: float) -> str:
        """At another scale every text must be written out."""
        return text.replace("<>", number(value)) if text else number(value) if self.place.scale != 1 else ""

    def ordinates(self, stations: Sequence[float], zero: str, up: bool = True) -> None:
        """Running sizes from one end: `zero` is "front" or "back"."""
        part, place = self.part, self.place
        level = self._lane(up) + (2 if up else -2) * self.h
        origin_s = 0.0 if zero == "front" else part.length
        for s in (origin_s, *stations):
            r = part.land(s) / 2 * (1 if up else -1)
            shown = number(abs(s - origin_s))
            o, f, end = place.at(origin_s, 0), place.at(s, r), place.at(s, level)
            if self.dims == "entity":
                self.ink.append(Ordinate(o, f, end, place.lying, shown, self.h))
            else:
                role = "outline" if self.dims == "inline" else "dim"
                gap = place.at(s, r + (0.3 if up else -0.3) * self.h)
                tip = place.at(s, level + (0.4 if up else -0.4) * self.h)
                turned = 90.0 if place.lying else 0.0
                self.ink += [Line(gap, end, role), Text(tip, shown, self.h, turned, role="dim")]
        if up:
            self.above = level + 5 * self.h
        else:
            self.below = level - 5 * self.h

    def usual_sizes(self, zero: str | None, share: float = 0.7) -> None:
        """Lengths from one end (None: none), widths, floors and diameters, as many as an office cares to print."""
        part, rng = self.part, self.rng
        if zero:
            self.overall()
            for g in part.outside():
                if rng.random() < share:
                    self.to_groove(g, zero, up=True)
        for g in part.outside():
            if rng.random() < share * 0.7 and g.shape == "rectangular":
                edge = part.land(g.near) / 2
                self.along(g.near, -edge, g.far, -edge, up=False)
        start = 0.0
        for end, d in part.steps:
            if rng.random() < share:
                if rng.random() < 0.5:
                    self.outer(end - (part.chamfers[1] if end == part.length else 0.0), d)
                else:
                    s = _free(part, start, end)
                    self.across(s, d, s)
            start = end

    def overall(self, text: str = "", up: bool = True) -> None:
        part = self.part
        tips = [
            (d / 2 - c) * (1 if up else -1)
            for (_, d), c in zip((part.steps[0], part.steps[-1]), part.chamfers, strict=True)
        ]
        self.along(0.0, tips[0], part.length, tips[1], text, up)

    def to_groove(self, g: Groove, zero: str, up: bool, text: str = "") -> None:
        """From an end to the groove's wall that is nearer that end."""
        part, side = self.part, 1 if up else -1
        s, end = (g.near, 0.0) if zero == "front" else (g.far, part.length)
        tip = part.steps[0 if zero == "front" else -1][1] / 2 - part.chamfers[0 if zero == "front" else 1]
        self.along(end, side * tip, s, side * part.land(s) / 2, text, up)

    # words

    def lead(self, tip: Point, text: str, to: Point, entity: bool | None = None) -> None:
        """A text with a leader to a point of the sheet."""
        left = to[0] < tip[0]
        wide = len(text) * self.h * 0.75
        bend = (to[0] - self.h if left else to[0] + self.h, to[1])
        leader = Leader((tip, to, bend), self.h)
        roll = self.rng.random() if entity is None else 0.0 if entity else 1.0
        at = (
            (bend[0] - wide - 0.4 * self.h, to[1] - self.h / 2)
            if left
            else (bend[0] + 0.4 * self.h, to[1] - self.h / 2)
        )
        self.say(text)
        if roll < 0.2:
            self.ink.append(Callout(leader.points, at, text, self.h))
            return
        self.ink += [leader] if roll < 0.5 else led(leader, "solid" if roll < 0.8 else "open")
        self.ink.append(Text(at, text, self.h))

    def write(self, at: Point, text: str, middle: bool = False, role: str = "text", angle: float = 0.0) -> None:
        self.ink.append(Text(at, self.say(text), self.h, angle, middle, role))

    def balloon(self, tip: Point, at: Point, text: str) -> None:
        """An item number in a circle with a leader."""
        r = 2 * self.h
        away = ((tip[0] - at[0]), (tip[1] - at[1]))
        run = max((away[0] ** 2 + away[1] ** 2) ** 0.5, 1e-9)
        rim = (at[0] + away[0] / run * r, at[1] + away[1] / run * r)
        self.ink += [Circle(at, r, "dim"), Line(rim, tip, "leader"), Text(at, text, self.h, middle=True)]

    def frame(self, title: str, cells: Sequence[str]) -> None:
        """Border lines round everything drawn, and a title block under it."""
        x0, y0, x1, y1 = extent(self.ink)
        m = 6 * self.h
        low = y0 - m - 2.2 * self.h * (len(cells) + 1)
        x0, y0, x1, y1 = x0 - m, low, max(x1 + m, x0 + 3 * m + 40 * self.h), y1 + m
        for k in (0.0, 1.5 * self.h):
            box = ((x0 - k, y0 - k), (x1 + k, y0 - k), (x1 + k, y1 + k), (x0 - k, y1 + k))
            self.ink.append(Path(box, closed=True, role="frame"))
        row, wide = 2.2 * self.h, 40 * self.h
        for k, cell in enumerate((title, *cells)):
            y = y0 + k * row
            self.ink.append(Line((x1 - wide, y + row), (x1, y + row), "frame"))
            self.ink.append(Text((x1 - wide + self.h, y + 0.5 * self.h), self.say(cell), self.h, role="frame"))
        self.ink.append(Line((x1 - wide, y0), (x1 - wide, y0 + row * (len(cells) + 1)), "frame"))


def _free(part: Part, start: float, end: float) -> float:
    """A place on a land that no groove takes."""
    for k in (0.5, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9):
        s = start + (end - start) * k
        if all(not g.near - 1 <= s <= g.far + 1 for g in part.outside()):
            return s
    return start + (end - start) * 0.05
