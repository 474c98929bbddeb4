"""The workshop's sheets: layers and words of three tongues, formatted texts, sections hatched line by line."""

import io
import math
import random
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import ezdxf
from ezdxf.enums import TextEntityAlignment

from support.office.truth import Answer, Case, Cut, Truth, View
from support.workshop.turned import Ring, Spot, Turned, random_turned

TONGUES = {
    "de": {
        "layers": ("Koerperkante", "Mittellinie", "Bemassung", "Schraffur", "Verdeckt", "Schriftfeld"),
        "note": ("Einstich {w} breit, {t} tief", "Nut {w} x {t}", "Einstich {w} breit \u00d8{d}"),
        "front": ("Planfl\u00e4che", "Vorderseite", "Z0"),
        "clamp": "hier spannen",
        "title": ("Kolbenstange", "Ma\u00dfstab {s}", "Werkstoff C45", "Alle Ma\u00dfe in mm"),
        "section": "Schnitt A-A",
        "detail": "Einzelheit X ({s})",
        "spaced": "{n} Einstiche {w} breit",
    },
    "en": {
        "layers": ("Visible", "Centreline", "Dims", "Section lines", "Hidden", "Title"),
        "note": ("GROOVE {w} WIDE x {t} DEEP", "{w} WIDE x {t} DEEP", "{w} WIDE \u00d8{d}"),
        "front": ("FRONT FACE", "Z0", "FRONT"),
        "clamp": "CLAMP HERE",
        "title": ("PISTON ROD", "SCALE {s}", "MATL: C45", "DIMENSIONS IN MM"),
        "section": "SECTION A-A",
        "detail": "DETAIL X ({s})",
        "spaced": "{n} GROOVES {w} WIDE",
    },
    "fr": {
        "layers": ("Contour", "Axes", "Cotes", "Hachures", "Caches", "Cartouche"),
        "note": ("GORGE {w} LARGE x {t} PROFOND", "{w} LARGE x {t} PROF.", "GORGE {w} LARGE \u00d8{d}"),
        "front": ("FACE AVANT", "Z0", "FACE AVANT"),
        "clamp": "SERRAGE ICI",
        "title": ("TIGE DE PISTON", "ECHELLE {s}", "MATIERE C45", "COTES EN MM"),
        "section": "COUPE A-A",
        "detail": "DETAIL X ({s})",
        "spaced": "{n} GORGES {w} LARGE",
    },
}


def number(value: float, tongue: str) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return text if tongue == "en" else text.replace(".", ",")


class Board:
    """A document under way; `way` is 1 where the front is at the right, -1 where it is at the left."""

    def __init__(self, rng: random.Random, part: Turned) -> None:
        self.rng, self.part = rng, part
        self.tongue = rng.choice(sorted(TONGUES))
        self.words = TONGUES[self.tongue]
        self.doc = ezdxf.new(rng.choice(("R2000", "R2004", "R2010", "R2018")), setup=True)
        self.doc.header["$INSUNITS"] = rng.choice((4, 4, 0, 6))
        self.msp = self.doc.modelspace()
        body, axis, dims, hatch, hidden, title = self.words["layers"]
        self.layers = {"body": body, "axis": axis, "dims": dims, "hatch": hatch, "hidden": hidden, "title": title}
        types = {axis: "CENTER", hidden: "DASHED"}
        for name in self.layers.values():
            self.doc.layers.add(name, linetype=types.get(name, "Continuous"), color=rng.randint(1, 7))
        self.x, self.y = rng.choice((0.0, 180.0, 95.5)), rng.choice((0.0, 120.0, -40.25))
        self.way = 1
        self.h = rng.choice((2.5, 3.5))
        self.k = 1.0
        self.up, self.down = part.across / 2 + 9, -part.across / 2 - 9

    def at(self, z: float, r: float) -> Spot:
        return self.x + self.way * z * self.k, self.y + r * self.k

    def line(self, a: Spot, b: Spot, layer: str = "body", **look) -> None:
        self.msp.add_line(self.at(*a), self.at(*b), dxfattribs={"layer": self.layers[layer], **look})

    def run(self, spots: list[Spot], side: int, layer: str = "body") -> None:
        spots = [(z, side * r) for z, r in spots]
        if self.rng.random() < 0.35:
            look = {"layer": self.layers[layer]}
            self.msp.add_lwpolyline([self.at(*p) for p in spots], dxfattribs=look)
            return
        for a, b in pairwise(spots):
            if a != b:
                self.line(a, b, layer)

    # views

    def outside(self, sides: tuple[int, ...] = (1, -1), hidden: bool = True) -> None:
        part = self.part
        for side in sides:
            self.run([(0.0, 0.0), *part.line, (-part.length, 0.0)], side)
            for z in part.edges:
                reach = [r for p, r in part.line if abs(p - z) < 1e-9]
                self.line((z, 0.0), (z, side * min(reach)))
            for near, far, r in part.threads:
                self.line((near, side * r), (far, side * r), "body", lineweight=18)
                self.line((far, 0.0), (far, side * part.radius(far)))
            if hidden and part.hole:
                self.run(part.hole, side, "hidden")
        self.axis()

    def section(self, sides: tuple[int, ...] = (1, -1)) -> None:
        part = self.part
        hole = part.hole or [(0.0, 0.0)]
        for side in sides:
            ring = [*hole[:1], *part.line, *([(-part.length, 0.0)] if hole[-1][1] == 0 else []), *hole[::-1]]
            self.run(ring, side)
            for z in sorted({p for p, r in hole if r}):
                least = min(r for p, r in hole if p == z)
                self.line((z, 0.0), (z, side * least))
            self.hatch(ring, side)
        self.axis()

    def hatch(self, ring: list[Spot], side: int) -> None:
        """Section lining, one line after another, clipped to the metal by counting crossings."""
        corners = [(z, side * r) for z, r in ring]
        edges = list(zip(corners, corners[1:] + corners[:1], strict=True))
        step, low, high = 2.5, min(z - r for z, r in corners), max(z - r for z, r in corners)
        c = low + 0.37 * step
        while c < high:
            cuts = sorted(t for a, b in edges for t in _cut(a, b, c))
            for t, u in zip(cuts[::2], cuts[1::2], strict=False):
                if u - t > 0.05:
                    self.line((c + t, t), (c + u, u), "hatch")
            c += step * math.sqrt(2)

    def axis(self) -> None:
        out = self.rng.choice((3.0, 5.0))
        self.line((out, 0.0), (-self.part.length - out, 0.0), "axis")

    def box(self) -> tuple[float, float, float, float]:
        r, (x, y) = self.part.across / 2 * self.k + 1, self.at(0.0, 0.0)
        other, _ = self.at(-self.part.length, 0.0)
        return min(x, other) - 1, y - r, max(x, other) + 1, y + r

    # sizes and words

    def say(self, value: float) -> str:
        return number(value, self.tongue)

    def size(self, a: Spot, b: Spot, base: Spot, angle: float, text: str) -> None:
        if self.rng.random() < 0.5:
            text = "{\\fArial|b0|i0|c0|p34;" + text + "}" if self.rng.random() < 0.5 else "\\A1;" + text
        style = {"dimtxt": self.h, "dimasz": self.h, "dimlfac": 1 / self.k, "dimdec": 3, "dimexo": 1.0, "dimexe": 1.5}
        look = {"layer": self.layers["dims"]}
        self.msp.add_linear_dim(
            self.at(*base), self.at(*a), self.at(*b), angle=angle, text=text, override=style, dxfattribs=look
        ).render()

    def length(self, a: float, b: float, up: bool, text: str = "") -> None:
        level = self.up if up else self.down
        self.up, self.down = self.up + 7 * up, self.down - 7 * (not up)
        spots = [(z, math.copysign(self._rim(z), level)) for z in (a, b)]
        self.size(*spots, ((a + b) / 2, level), 0, text or self.say(abs(a - b)))

    def _rim(self, z: float) -> float:
        return min(r for p, r in self.part.line if abs(p - z) < 1e-9)

    def across(self, z: float, d: float, text: str = "") -> None:
        self.size((z, d / 2), (z, -d / 2), (z, 0.0), 90, text or f"%%c{self.say(d)}")

    def note(self, tip: Spot, text: str, to: Spot) -> None:
        """A text led to a place: a leader of the file, or strokes with a head of two lines."""
        (x, y), (tx, ty) = self.at(*tip), self.at(*to)
        look = {"layer": self.layers["dims"]}
        left = tx < x
        wide = 0.62 * self.h * len(text)
        if self.rng.random() < 0.5:
            self.msp.add_leader([(x, y), (tx, ty)], override={"dimasz": self.h}, dxfattribs=look)
        else:
            self.msp.add_line((x, y), (tx, ty), dxfattribs=look)
            turn = math.atan2(ty - y, tx - x)
            for by in (0.17, -0.17):
                end = (x + self.h * math.cos(turn + by), y + self.h * math.sin(turn + by))
                self.msp.add_line((x, y), end, dxfattribs=look)
        self.text((tx - wide - 0.5 if left else tx + 0.5, ty - 0.4 * self.h), text, "dims")

    def text(self, at: Spot, text: str, layer: str = "title", height: float = 0.0) -> None:
        look = {"layer": self.layers[layer], "char_height": height or self.h}
        if self.rng.random() < 0.5:
            dressed = "{\\fArial|b0|i0;" + text + "}" if self.rng.random() < 0.4 else text
            self.msp.add_mtext(dressed, dxfattribs={**look, "insert": at, "attachment_point": 7})
            return
        plain = self.msp.add_text(text, height=height or self.h, dxfattribs={"layer": self.layers[layer]})
        plain.set_placement(at, align=TextEntityAlignment.LEFT)

    def title(self, scale: str) -> None:
        x, y = self.at(-self.part.length / 2, self.down * 1.0)
        y -= 40
        for k, cell in enumerate(self.words["title"]):
            self.text((x, y - 2.4 * self.h * k), cell.format(s=scale))
            look = {"layer": self.layers["title"]}
            low = y - 2.4 * self.h * k - 0.7 * self.h
            self.msp.add_line((x - 3, low), (x + 90, low), dxfattribs=look)


def _cut(a: Spot, b: Spot, c: float) -> Iterator[float]:
    """Where the line z = c + r crosses an edge, as r."""
    fa, fb = a[0] - a[1] - c, b[0] - b[1] - c
    if (fa < 0) != (fb < 0):
        t = fa / (fa - fb)
        yield a[1] + t * (b[1] - a[1])


def truth_of(board: Board) -> Answer:
    cuts = tuple(Cut(r.where, r.near, r.far, r.floor) for r in board.part.rings)
    ordered = tuple(sorted(cuts, key=lambda c: (-c.near, c.where)))
    front = "right" if board.way > 0 else "left"
    return Answer("mm", board.part.length, board.part.across, ordered, front)


def fresh(seed: int, bored: bool | None = None) -> Board:
    rng = random.Random(f"workshop:{seed}")
    while True:
        part = random_turned(rng)
        lop = {(round(-part.length - r.far, 4), r.floor) for r in part.rings} != {(r.near, r.floor) for r in part.rings}
        if part.rings and lop and (bored is None or bool(part.hole) == bored):
            return Board(rng, part)


def done(board: Board, seed: int, kind: str, truth: Truth, views: tuple[View, ...]) -> Case:
    out = io.StringIO()
    board.doc.write(out)
    new = board.doc.dxfversion >= "AC1021"
    data = out.getvalue().encode("utf-8" if new else "cp1252", errors="dxfreplace" if not new else "strict")
    return Case("m", seed, f"{board.tongue}: {kind}", data, replace(truth, views=views))


def outside_rings(board: Board) -> list[Ring]:
    return [r for r in board.part.rings if r.where == "outside"]
