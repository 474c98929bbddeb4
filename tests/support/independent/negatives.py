"""Sheets that hold no turned part, or not one: each must be refused with a sentence, never read.

Each function draws one kind at random; all are in mm and tidy, so nothing but their subject is wrong with them.
"""

import math
import random
from collections.abc import Callable

from support.independent import views
from support.independent.move import Move
from support.independent.offices import ENGLISH, PATTERNS, Case
from support.independent.stock import Wishes, random_part
from support.independent.views import Looks
from support.ink import Arc, Circle, Ink, Line, Look, Path, Text, strokes
from support.plain_dxf import Style, Writer

OUTLINE, CENTRE = Look("OUTLINE"), Look("CENTER", "CENTER")


def polygon(points: list[tuple[float, float]], look: Look = OUTLINE) -> list[Ink]:
    return strokes([(x, y, 0.0) for x, y in points], True, look)


def box(x: float, y: float, width: float, height: float, look: Look = OUTLINE) -> list[Ink]:
    return polygon([(x, y), (x + width, y), (x + width, y + height), (x, y + height)], look)


def cross(x: float, y: float, reach: float) -> list[Ink]:
    return [Line((x - reach, y), (x + reach, y), CENTRE), Line((x, y - reach), (x, y + reach), CENTRE)]


def plate(rng: random.Random) -> list[Ink]:
    """A plate with four holes, two edge slots and its centre lines."""
    w, h = rng.randint(60, 160), rng.randint(40, 100)
    s, d = rng.randint(4, 9), rng.randint(5, 12)
    up = [(-w / 2, h / 2), (-s, h / 2), (-s, h / 2 - d), (s, h / 2 - d), (s, h / 2), (w / 2, h / 2)]
    ink = polygon(up + [(x, -y) for x, y in reversed(up)])
    for x, y in ((-1, -1), (-1, 1), (1, -1), (1, 1)):
        ink += [
            Circle((x * (w / 2 - 10), y * (h / 2 - 10)), 3.5, OUTLINE),
            *cross(x * (w / 2 - 10), y * (h / 2 - 10), 6),
        ]
    return ink + cross(0, 0, w * 0.6)


def beam(rng: random.Random) -> list[Ink]:
    """An extruded section with tee slots on all sides and two centre lines."""
    a = rng.choice((20, 30, 40, 45))
    n, m, t = 0.2 * a, 0.41 * a, 0.09 * a
    quarter = [(n / 2, a / 2), (a / 2, a / 2), (a / 2, n / 2), (a / 2 - t, n / 2), (a / 2 - t, m / 2), (a / 4, m / 4)]
    points = [(n / 2, a / 2 - t), (m / 2, a / 2 - t), (m / 4, a / 4)]
    eighth = [*reversed(points), *quarter]
    whole: list[tuple[float, float]] = []
    for turn in range(4):
        c, s = round(math.cos(-turn * math.pi / 2)), round(math.sin(-turn * math.pi / 2))
        whole += [(x * c - y * s, x * s + y * c) for x, y in eighth]
    return [*polygon(whole), Circle((0, 0), a * 0.08, OUTLINE), *cross(0, 0, a * 0.65)]


def heat_sink(rng: random.Random) -> list[Ink]:
    """A comb section with fins on one side."""
    fins, pitch, base, tall = rng.randint(6, 14), rng.choice((4, 5, 6)), 5, rng.randint(15, 30)
    width = (fins - 1) * pitch + 2
    points = [(0.0, 0.0), (width, 0.0)]
    for fin in reversed(range(fins)):
        x = fin * pitch
        points += [(x + 2, base + tall), (x, base + tall)] + ([(x, base), (x - pitch + 2, base)] if fin else [])
    return [*polygon(points), Line((width / 2, -10), (width / 2, base + tall + 10), CENTRE)]


def double_comb(rng: random.Random) -> list[Ink]:
    """A rack bar with slots on both sides, as symmetric as a shaft, drawn with its thickness below as a plate has."""
    slots, pitch, depth, tall = rng.randint(4, 9), 8, 6, rng.randint(30, 50)
    width = slots * pitch + 4
    up: list[tuple[float, float]] = [(0, tall / 2)]
    for slot in range(slots):
        x = 4 + slot * pitch
        up += [(x, tall / 2), (x, tall / 2 - depth), (x + 4, tall / 2 - depth), (x + 4, tall / 2)]
    up.append((width, tall / 2))
    ink = polygon(up + [(x, -y) for x, y in reversed(up)])
    ink += [*box(0, -tall - 20, width, 5), Text((0, -tall - 40), "PLATE 5 THK, SHEET STEEL", 4)]
    for x in (15, width - 15):
        ink += [Circle((x, 0), 4, OUTLINE), *cross(x, 0, 7)]
    return ink


def schematic(rng: random.Random) -> list[Ink]:
    """Boxes joined by wires, as a circuit diagram."""
    ink: list[Ink] = []
    for row in range(4):
        for column in range(4):
            x, y = column * 40, row * 30
            ink += [*box(x, y, 20, 12), Text((x + 2, y + 2), f"R{row}{column}", 3)]
            ink.append(Line((x + 20, y + 6), (x + 40, y + 6), OUTLINE))
            if rng.random() < 0.6:
                ink.append(Line((x + 10, y + 12), (x + 10, y + 30), OUTLINE))
    return ink


def map_sheet(rng: random.Random) -> list[Ink]:
    """Parcels with crooked borders and a road."""
    ink: list[Ink] = []
    for _ in range(25):
        x, y = rng.uniform(0, 500), rng.uniform(0, 500)
        spokes = sorted(rng.uniform(0, math.tau) for _ in range(rng.randint(4, 9)))
        corners = [(x + rng.uniform(10, 30) * math.cos(a), y + rng.uniform(10, 30) * math.sin(a)) for a in spokes]
        ink.append(Path(tuple((*c, 0.0) for c in corners), True, Look("PARCELS")))
    road = tuple((t * 5.0, 250 + 60 * math.sin(t / 12), 0.0) for t in range(100))
    return [*ink, Path(road, False, Look("ROAD"))]


def gear(rng: random.Random) -> list[Ink]:
    """A spur gear seen from its end."""
    teeth, radius = rng.randint(12, 30), rng.uniform(20, 40)
    points = []
    for tooth in range(teeth):
        for share, reach in ((0.0, 0.88), (0.2, 0.88), (0.3, 1.0), (0.6, 1.0), (0.7, 0.88)):
            angle = math.tau * (tooth + share) / teeth
            points.append((radius * reach * math.cos(angle), radius * reach * math.sin(angle)))
    return [*polygon(points), Circle((0, 0), radius * 0.3, OUTLINE), *cross(0, 0, radius * 1.2)]


def two_shafts(rng: random.Random) -> list[Ink]:
    """Two different turned parts on one sheet, each with its centre line."""
    ink: list[Ink] = []
    offset = 0.0
    for _ in range(2):
        part = random_part(rng.randint(0, 10**6), Wishes())
        one = views.side(part, Looks(OUTLINE, OUTLINE)) + views.centre_line(part, CENTRE)
        ink += Move((0.0, offset - part.outer_diameter)).all(one)
        offset -= part.outer_diameter * 2 + 30
    return ink


def empty(rng: random.Random) -> list[Ink]:
    """A title block and nothing in it."""
    ink = box(0, 0, 297, 210, Look("BORDER"))
    return [
        *ink,
        *box(190, 10, 97, 40, Look("BORDER")),
        Text((200, 20), "TITLE", 4, role=Look("BORDER")),
        Text((200, 30), "mm", 3),
    ]


def open_outline(rng: random.Random) -> list[Ink]:
    """A shaft whose outline stops short by 3 mm on one side of a groove: no one can say where the wall is."""
    part = random_part(rng.randint(0, 10**6), Wishes(plain=True))
    ink = views.outline(part, Looks(OUTLINE, OUTLINE))
    walls = [
        i for i in ink if isinstance(i, Line) and abs(i.a[0] - i.b[0]) < 1e-9 and 0.2 < abs(i.a[0]) < part.length - 0.2
    ]
    drop = rng.choice(walls) if walls else ink[0]
    return [i for i in ink if i is not drop] + views.centre_line(part, CENTRE)


def lopsided(rng: random.Random) -> list[Ink]:
    """A side view whose halves differ: a groove on one side only, which is a slot and no groove."""
    part = random_part(rng.randint(0, 10**6), Wishes(plain=True, steps=1))
    other = [(z, -r, b) for z, r, b in part.outside_run() if z in (0.0, -part.length)]
    ink = strokes(part.outside_run(), False, OUTLINE) + strokes(other, False, OUTLINE)
    for z in (0.0, -part.length):
        ink.append(Line((z, -part.outside[1].r), (z, part.outside[1].r), OUTLINE))
    return (ink if part.grooves else plate(rng)) + views.centre_line(part, CENTRE)


def sheet_bracket(rng: random.Random) -> list[Ink]:
    """A bent bracket: an L with a rounded corner and holes."""
    a, b, t = rng.randint(40, 90), rng.randint(30, 60), rng.randint(3, 8)
    corners = [(0, 0, 0.0), (a, 0, 0.0), (a, t, 0.0), (t + 5, t, 0.0), (t, t + 5, 0.0), (t, b, 0.0), (0, b, 0.0)]
    return [*strokes(corners, True, OUTLINE), Circle((a / 2, -30), 5, OUTLINE), *cross(a / 2, -30, 9)]


def spring(rng: random.Random) -> list[Ink]:
    """A coil spring drawn as rows of wire circles about a centre line."""
    coils, pitch, radius, wire = rng.randint(5, 9), rng.uniform(6, 9), rng.uniform(12, 20), 2.0
    ink: list[Ink] = [Line((-10, 0), (coils * pitch + 10, 0), CENTRE)]
    for coil in range(coils):
        x = coil * pitch
        ink += [Circle((x, radius), wire, OUTLINE), Circle((x + pitch / 2, -radius), wire, OUTLINE)]
        ink += [Line((x - wire, radius), (x + pitch / 2 - wire, -radius), OUTLINE)]
    return ink


def nest(rng: random.Random) -> list[Ink]:
    """Washers and discs as an end view alone: circles on one centre, no side view."""
    radii = sorted(rng.uniform(5, 40) for _ in range(4))
    return [*(Circle((0, 0), r, OUTLINE) for r in radii), Arc((0, 0), radii[-1] + 3, 10, 80, OUTLINE), *cross(0, 0, 50)]


_MAKERS = (plate, beam, heat_sink, double_comb, schematic, map_sheet, gear, two_shafts, empty, open_outline)
_MAKERS += (lopsided, sheet_bracket, spring, nest)
KINDS: dict[str, Callable[[random.Random], list[Ink]]] = {maker.__name__: maker for maker in _MAKERS}


def negative(kind: str, seed: int, old: bool = False) -> Case:
    """The sheet of one kind, in mm and with a note that says so."""
    ink = [*KINDS[kind](random.Random(seed)), Text((0, -400), "ALL DIMENSIONS IN MM", 4)]
    style = Style(old=old, header=(("$INSUNITS", 70, "4"),), patterns=PATTERNS)
    expect = "caution" if kind == "lopsided" else "refuse"
    return Case(Writer(style, ENGLISH.layers).text(ink), "cp1252", None, {}, expect)
