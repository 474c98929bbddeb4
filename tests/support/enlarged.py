r"""Sheets with a detail drawn larger of one groove, true ones and lies, by arithmetic of their own.

x runs along the part from its left end, y is the radius; a row is points (x, y, bulge to the next), from left to right.
A lie is a size printed false, a scale printed false, or a detail drawn otherwise than the view.

    ____        ____          a, b: mouth      "rect" "taper" "vee" "arc" "bowl" (walls above a half circle)
        \      /
         \____/
"""

import io
import math
import random
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

import ezdxf
from ezdxf.document import Drawing
from ezdxf.layouts import Modelspace

Row = list[tuple[float, float, float]]
KINDS = ("rect", "taper", "vee", "arc", "bowl")
LIES = ("", "size", "scale", "shape")
SCALES = (2, 2.5, 4, 5, 8, 10, 20)


@dataclass(frozen=True)
class Hollow:
    """A groove: place of its middle, width at the mouth, depth, lean of its walls in degrees, floor corner radius."""

    kind: str
    at: float
    width: float
    depth: float
    lean: float = 0.0
    round: float = 0.0

    @property
    def low(self) -> float:
        """How deep it comes; the tip of a vee that is rounded not so deep as its flanks would meet."""
        if self.kind != "vee":
            return self.depth
        return self.depth - self.round * (math.hypot(self.width / 2, self.depth) / (self.width / 2) - 1)

    def row(self, land: float) -> Row:
        """Its line from mouth to mouth."""
        a, b, low, half = self.at - self.width / 2, self.at + self.width / 2, land - self.depth, self.width / 2
        if self.kind == "arc":
            return [(a, land, self.depth / half), (b, land, 0.0)]
        if self.kind == "bowl":
            return [(a, land, 0.0), (a, low + half, 1.0), (b, low + half, 0.0), (b, land, 0.0)]
        if self.kind == "vee":
            return eased([(a, land), (self.at, low), (b, land)], self.round)
        inset = self.depth * math.tan(math.radians(self.lean))
        return eased([(a, land), (a + inset, low), (b - inset, low), (b, land)], self.round)


def eased(corners: Sequence[tuple[float, float]], radius: float) -> Row:
    """Corners joined by straight lines, all but the first and last eased by a radius."""
    row: Row = [(*corners[0], 0.0)]
    for before, corner, after in zip(corners, corners[1:], corners[2:], strict=False):
        one, two = _unit(corner, before), _unit(corner, after)
        turn = math.pi - math.acos(max(-1.0, min(1.0, one[0] * two[0] + one[1] * two[1])))
        cut = radius * math.tan(turn / 2)
        if cut:
            row.append((corner[0] + cut * one[0], corner[1] + cut * one[1], math.tan(turn / 4)))
        row.append((corner[0] + cut * two[0], corner[1] + cut * two[1], 0.0))
    return [*row, (*corners[-1], 0.0)]


def _unit(start: tuple[float, float], end: tuple[float, float]) -> tuple[float, float]:
    size = math.dist(start, end)
    return (end[0] - start[0]) / size, (end[1] - start[1]) / size


@dataclass
class Enlarged:
    """One sheet: the file's text, what is false on it, and the mouth places and floor radii of its grooves."""

    seed: int
    lie: str
    text: str = ""
    kind: str = ""
    told: str = ""
    ways: set[str] = field(default_factory=set)
    grooves: list[tuple[float, float, float]] = field(default_factory=list)


class _Desk:
    """Draws one sheet."""

    def __init__(self, seed: int, lie: str) -> None:
        self.rng = random.Random(f"enlarged {seed}")
        self.sheet = Enlarged(seed, lie)
        self.doc: Drawing = ezdxf.new("R2010", setup=True)
        self.doc.units = 4
        self.msp: Modelspace = self.doc.modelspace()
        self.poly = self.rng.random() < 0.4
        self.digits = self.rng.choice((3, 4, 12, 12))

    def draw(self) -> Enlarged:
        rng = self.rng
        self.length, self.land = rng.randint(50, 110), rng.randint(14, 35) + 0.0
        self.times, self.high = rng.choice(SCALES), rng.choice((2.5, 3.5))
        hollows = self._hollows()
        meant = rng.choice(hollows)
        self.sheet.kind = meant.kind
        self.sheet.grooves = [(h.at - h.width / 2, h.at + h.width / 2, self.land - h.depth) for h in hollows]
        self._view(hollows)
        self._ring(meant)
        self._detail(meant)
        stream = io.StringIO()
        self.doc.write(stream)
        self.sheet.text = stream.getvalue()
        return self.sheet

    def _hollows(self) -> list[Hollow]:
        """One to three grooves, well apart."""
        rng, found, at = self.rng, [], 0.0
        for _ in range(rng.randint(1, 3)):
            kind = rng.choice(KINDS)
            width, depth = rng.randint(8, 24) / 4, rng.randint(4, 14) / 4
            lean = rng.choice((5.0, 10.0, 15.0, 20.0)) if kind == "taper" else 0.0
            depth = min(depth, width / 2 * (0.6 if kind == "arc" else 1.5))
            depth = max(depth, width / 2 + 0.5) if kind == "bowl" else depth
            depth = min(depth, 0.3 * width / math.tan(math.radians(lean))) if lean else depth
            depth = round(depth, 2)
            eased_by = 0.0 if kind in ("arc", "bowl") else rng.choice((0.0, 0.2, 0.4)) if depth > 0.8 else 0.0
            at += 9 + width / 2 + rng.randint(0, 6)
            found.append(Hollow(kind, at, width, depth, lean, eased_by))
            at += width / 2
        self.length = max(self.length, math.ceil(at + 12))
        return found

    def _stroke(self, row: Row, place, layer: str = "0") -> None:
        """A row drawn, placed by a function; as lines and arcs or as one polyline."""
        flip = place(0.0, 1.0)[1] < place(0.0, 0.0)[1]
        spots = [(place(x, y), -b if flip else b) for x, y, b in row]
        points = [(round(x, self.digits), round(y, self.digits), b) for (x, y), b in spots]
        if self.poly:
            self.msp.add_lwpolyline(points, format="xyb", dxfattribs={"layer": layer})
            return
        for (x, y, b), (u, v, _) in pairwise(points):
            if b:
                centre, start, end, radius = ezdxf.math.bulge_to_arc((x, y), (u, v), b)
                self.msp.add_arc(centre, radius, math.degrees(start), math.degrees(end), dxfattribs={"layer": layer})
            elif (x, y) != (u, v):
                self.msp.add_line((x, y), (u, v), dxfattribs={"layer": layer})

    def _view(self, hollows: Sequence[Hollow]) -> None:
        """The part from the side with its centre line, its length and its diameter."""
        row: Row = [(0.0, 0.0, 0.0), (0.0, self.land, 0.0)]
        for h in hollows:
            row += h.row(self.land)
        row += [(self.length, self.land, 0.0), (self.length, 0.0, 0.0)]
        for sign in (1, -1):
            self._stroke(row, lambda x, y, s=sign: (x, s * y))
        for h in hollows:
            for x, y, _ in (h.row(self.land)[0], h.row(self.land)[-1]):
                self.msp.add_line((x, -y), (x, y))
        self.msp.add_line((-5, 0), (self.length + 5, 0), dxfattribs={"linetype": "CENTER"})
        style = {"dimtxt": self.high}
        below = -self.land - 6 * self.high
        self.msp.add_linear_dim((0, below), (0, -self.land), (self.length, -self.land), override=style).render()
        far = (self.length, -self.land), (self.length, self.land)
        self.msp.add_linear_dim((self.length + 6 * self.high, 0), *far, angle=90, text="%%c<>", override=style).render()

    def _ring(self, h: Hollow) -> None:
        """The ring about the groove, or about one wall of it, with its letter beside it or led to it."""
        self.letter = self.rng.choice("AXZ")
        self.middle = (h.at, self.land - h.depth / 2)
        self.reach = math.hypot(h.width / 2, h.depth / 2) * self.rng.uniform(1.25, 1.6)
        if h.kind in ("rect", "taper") and h.width >= 1.2 * h.depth and self.rng.random() < 0.3:
            self.sheet.ways.add("partial")
            self.middle = (h.at - h.width / 2, self.land - h.depth / 2)
            self.reach = 0.7 * h.depth
        if self.rng.random() < 0.3:
            self.sheet.ways.add("below")
        x, y = self.middle[0], -self.middle[1] if "below" in self.sheet.ways else self.middle[1]
        self.msp.add_circle((x, y), self.reach)
        slant = self.reach * math.sqrt(0.5)
        out = -1 if "below" in self.sheet.ways else 1
        down = self.high if out < 0 else 0.0
        if self.rng.random() < 0.6:
            self._write(self.letter, (x + slant + 0.5, y + out * (slant + 0.5) - down))
        else:
            tip, knee = (x + slant, y + out * slant), (x + slant + 6, y + out * (slant + 8))
            self.msp.add_line(tip, knee)
            self.msp.add_line(knee, (knee[0] + 4, knee[1]))
            self._write(self.letter, (knee[0] + 4.5, knee[1]))

    def _write(self, words: str, at: tuple[float, float], height: float = 0.0) -> None:
        self.msp.add_text(words, height=height or self.high).set_placement(at)

    def _told_otherwise(self, h: Hollow) -> Hollow:
        """The groove that the detail shows: another than the view's where that is the lie."""
        if self.sheet.lie != "shape":
            return h
        ways = {"deeper": replace(h, depth=h.depth * 1.15), "wider": replace(h, width=h.width * 1.15)}
        if h.kind == "taper":
            ways["steeper"] = replace(h, lean=h.lean + 6)
        if "partial" in self.sheet.ways:
            del ways["wider"]
        self.sheet.told = self.rng.choice(sorted(ways))
        return ways[self.sheet.told]

    def _detail(self, meant: Hollow) -> None:
        """The groove drawn larger below the view, broken off at both sides, with its sizes and heading."""
        rng, k = self.rng, self.times
        h, (mx, my) = self._told_otherwise(meant), self.middle
        half = math.sqrt(self.reach**2 - (meant.depth / 2) ** 2)
        room = k * (self.reach + 1) + 8 * self.high
        ox, oy = rng.uniform(0.2, 0.8) * self.length, -self.land - 10 * self.high - room

        below = "below" in self.sheet.ways and rng.random() < 0.7
        if "below" in self.sheet.ways and not below:
            self.sheet.ways.add("mirrored")
        side = -1 if below else 1

        def place(x: float, y: float) -> tuple[float, float]:
            return ox + k * (x - mx), oy + side * k * (y - my)

        left, right = (mx - half * rng.uniform(0.95, 1.05), mx + half * rng.uniform(0.95, 1.05))
        row: Row = [(left, self.land, 0.0), *h.row(self.land), (right, self.land, 0.0)]
        if "partial" in self.sheet.ways:
            row = [p for p in row[:-1] if p[0] < h.at] + [(h.at, self.land - h.depth, 0.0)]
        self._stroke(row, place)
        self._edge(place, left, right)
        self._sizes(h, place, right)
        self._heading(k, (ox - 5 * self.high, oy - k * self.reach - 4 * self.high))

    def _edge(self, place, left: float, right: float) -> None:
        """What the detail is broken off with: a circle, a wave, a zigzag or nothing."""
        (mx, my), how = self.middle, self.rng.choice(("circle", "wave", "zigzag", "none"))
        low = my - self.reach
        if how == "circle":
            self.msp.add_circle(place(mx, my), self.times * math.dist((right, self.land), (mx, my)))
        elif how != "none":
            inner = [(left + (right - left) * t / 8, low + self.reach * (0.1 if t % 2 else 0.02)) for t in range(9)]
            points = [place(*p) for p in [(left, self.land), *inner, (right, self.land)]]
            if how == "wave":
                self.msp.add_spline(points)
            else:
                self.msp.add_lwpolyline(points)

    def _printed(self, size: float, false: bool) -> str:
        """A size as its text, one that is false by a twentieth and more."""
        return f"{size * self.rng.choice((0.9, 1.1)) if false else size:.3f}".rstrip("0").rstrip(".")

    def _sizes(self, h: Hollow, place, right: float) -> None:
        """Width, depth, and the corner radius or the angle, at the detail: true ones of what is drawn there."""
        rng, k, low = self.rng, self.times, self.land - h.low
        a, b = h.at - h.width / 2, h.at + h.width / 2
        style, lie = {"dimtxt": self.high, "dimlfac": 1 / k, "dimdec": 3}, self.sheet.lie == "size"
        names = ["depth"] if "partial" in self.sheet.ways else ["width", "depth"]
        false = rng.choice(names) if lie else ""
        self.sheet.told = false or self.sheet.told
        typed = {name: lie or rng.random() < 0.5 for name in names}
        if "width" in names and (lie or rng.random() < 0.8):
            top = place(h.at, self.land)[1] + 4 * self.high
            text = self._printed(h.width, false == "width") if typed["width"] else "<>"
            ends = place(a, self.land), place(b, self.land)
            self.msp.add_linear_dim((0, top), *ends, text=text, override=style).render()
        if lie or rng.random() < 0.6:
            floor = place(h.at, low)
            side = place(right, self.land)
            text = self._printed(h.low, false == "depth") if typed["depth"] else "<>"
            land = place(a if "partial" in self.sheet.ways else b, self.land)
            self.msp.add_linear_dim(
                (side[0] + 3 * self.high, 0), floor, land, angle=90, text=text, override=style
            ).render()
        if h.kind == "vee" and not h.round and rng.random() < 0.5:
            tip, one, two = place(h.at, self.land - h.depth), place(a, self.land), place(b, self.land)
            self.msp.add_angular_dim_3p(
                (tip[0], tip[1] + 0.7 * k * h.depth), tip, two, one, override={"dimtxt": self.high}
            ).render()

    def _heading(self, k: float, at: tuple[float, float]) -> None:
        """The heading in one of many spellings; its scale may be false."""
        rng, said = self.rng, f"{k:g}"
        if self.sheet.lie == "scale":
            said = f"{rng.choice([s for s in SCALES if s != k]):g}"
            self.sheet.told = said
        x, y = at
        way = rng.randrange(6 if self.sheet.lie in ("", "size") else 5)
        if way == 5:
            self.sheet.ways.add("unscaled")
            self._write(f"DETAIL {self.letter}", at)
        elif way == 3:
            self._write(f"DETAIL {self.letter}", at)
            self._write(f"SCALE {said}:1", (x, y - 1.6 * self.high))
        elif way == 4:
            self._write(f"({said}:1)", (x, y + 1.6 * self.high))
            self._write(self.letter, at)
        else:
            forms = (f"DETAIL {self.letter} ({said}:1)", f"{self.letter} {said}:1", f"{self.letter} ({said} : 1)")
            self._write(forms[way], at)


def enlarged(seed: int, lie: str = "") -> Enlarged:
    """The sheet of a seed with one kind of lie, or none."""
    return _Desk(seed, lie).draw()
