"""Random parts as shops turn them, one function a family; every one takes a random source and returns the part."""

import random
from collections.abc import Callable
from dataclasses import replace

from support.second_hand.lathe import Extra, Lathe, TurnedPart, finish
from support.second_hand.mixed import centred, everything

# d1, d2, width m of DIN 471 (shafts) and DIN 472 (bores): published tables, as in the verified list of checks.
SHAFT_RINGS = ((10, 9.6, 1.1), (12, 11.5, 1.1), (15, 14.3, 1.1), (17, 16.2, 1.1), (20, 19.0, 1.3), (25, 23.9, 1.3))
SHAFT_RINGS += ((30, 28.6, 1.6), (35, 33.0, 1.6), (40, 37.5, 1.85), (50, 47.0, 2.15), (60, 57.0, 2.15))
BORE_RINGS = ((20, 21.0, 1.1), (30, 31.4, 1.3), (40, 42.5, 1.85), (62, 65.0, 2.15))
# Radial depth, width, floor radius of O-ring housings: common practice, inside the verified ranges.
SEALS = ((1.4, 2.4, 0.3), (2.25, 3.6, 0.3), (3.1, 4.8, 0.6), (4.7, 7.1, 0.6))

Source = random.Random


def nice(rng: Source, low: float, high: float, grid: float = 0.5) -> float:
    """A round number between two bounds."""
    return round(round(rng.uniform(low, high) / grid) * grid, 4)


def shaft_start(rng: Source, r: float) -> Lathe:
    """The front face from the axis up, its edge chamfered as a rule."""
    edge = rng.choice((0.0, 0.5, 1.0))
    return Lathe(0.0, 0.0).step(r, edge)


def shaft_end(rng: Source, lathe: Lathe, bore: float = 0.0) -> Lathe:
    """The back edge and face, down to the axis or the bore."""
    edge = rng.choice((0.0, 0.5, 1.0))
    if edge:
        lathe.chamfer(edge, False)
    return lathe.to(lathe.z, bore)


def ring_shaft(rng: Source) -> TurnedPart:
    """A stepped shaft with retaining-ring grooves, chamfers at every step."""
    rows = sorted(rng.sample(SHAFT_RINGS, rng.randint(2, 4)))
    lathe = shaft_start(rng, rows[0][0] / 2)
    for k, (d1, d2, m) in enumerate(rows):
        if k:
            lathe.step(d1 / 2, rng.choice((0.0, 0.5, 1.0)))
        lathe.land(nice(rng, 3, 12)).ring(m, (d1 - d2) / 2).land(nice(rng, 8, 40))
        if rng.random() < 0.3:
            lathe.ring(m, (d1 - d2) / 2).land(nice(rng, 4, 10))
    if rng.random() < 0.5:
        lathe.step(rows[0][0] / 2, 0.5).land(nice(rng, 10, 30))
    return finish(shaft_end(rng, lathe))


def seal_piston(rng: Source) -> TurnedPart:
    """A piston with O-ring housings: floor radii, mouth edges chamfered or rounded."""
    depth, width, corner = rng.choice(SEALS)
    lathe = shaft_start(rng, nice(rng, 16, 60) + depth)
    rim = rng.choice((0.0, 0.1, 0.2, 0.3))
    gap = nice(rng, 2, 6) + 2 * rim
    bend = rng.random() < 0.5
    lathe.land(nice(rng, 4, 10))
    for _ in range(rng.randint(1, 5)):
        lathe.ring(width, depth, corner, rim, bend).land(gap)
    lathe.land(nice(rng, 4, 20))
    if rng.random() < 0.5:
        lathe.step(nice(rng, 6, 10), 0.5).land(nice(rng, 15, 40))
    return finish(shaft_end(rng, lathe))


def relieved_thread(rng: Source) -> TurnedPart:
    """A threaded end (drawn by its root lines) with its run-out before a shoulder, then a ring groove."""
    major, root, f, g = rng.choice(
        ((10, 8.16, 5.2, 1.15), (12, 9.85, 6.2, 1.3), (16, 13.55, 7.0, 1.5), (20, 16.93, 8.7, 1.8))
    )
    lathe = Lathe(0.0, 0.0).step(major / 2, rng.choice((1.0, 1.5)))
    lathe.land(nice(rng, 15, 30))
    lathe.extras.append(Extra("thread", 0.0, lathe.z, root / 2, major / 2))
    d1, d2, m = rng.choice([row for row in SHAFT_RINGS if row[0] >= major + 8])
    lathe.thread_relief(f, g, 0.8, d1 / 2, rng.choice((0.0, 0.5, 1.0)))
    # Four to five times wider than deep: turned or grooved is a matter of taste.
    lathe.recesses[-1] = replace(lathe.recesses[-1], loose=True)
    lathe.land(nice(rng, 10, 30)).ring(m, (d1 - d2) / 2).land(nice(rng, 4, 10))
    return finish(shaft_end(rng, lathe))


def undercut_shaft(rng: Source) -> TurnedPart:
    """Bearing seats with undercuts of DIN 509 kind at their shoulders, and ring grooves."""
    rows = sorted(rng.sample([row for row in SHAFT_RINGS if row[0] % 10 == 0 or row[0] in (15, 25, 35)], 2))
    lathe = shaft_start(rng, rows[0][0] / 2)
    lathe.land(nice(rng, 3, 6)).ring(rows[0][2], (rows[0][0] - rows[0][1]) / 2).land(nice(rng, 12, 25))
    lathe.undercut(rng.choice("EF"), rows[1][0] / 2 if rows[1][0] >= rows[0][0] + 6 else rows[0][0] / 2 + 4, 0.5)
    lathe.land(nice(rng, 12, 30)).ring(1.6, 0.8).land(nice(rng, 4, 9))
    return finish(shaft_end(rng, lathe))


def sleeve(rng: Source) -> TurnedPart:
    """A bored bush: ring or snap grooves inside, seal grooves outside."""
    d1, d2, m = rng.choice(BORE_RINGS)
    depth, width, corner = rng.choice(SEALS[:3])
    wall = nice(rng, 5, 12) + depth + (d2 - d1) / 2
    lathe = Lathe(0.0, d1 / 2).step(d1 / 2 + wall, rng.choice((0.0, 0.5, 1.0)))
    lathe.land(nice(rng, 6, 14))
    for _ in range(rng.randint(0, 3)):
        lathe.ring(width, depth, corner).land(nice(rng, 4, 10))
    lathe.land(nice(rng, 15, 30))
    bore = Lathe(0.0, d1 / 2, inside=True)
    bore.land(nice(rng, 3, 6)).ring(m, (d2 - d1) / 2)
    if rng.random() < 0.5:
        bore.land(nice(rng, 4, 8)).ring(nice(rng, 2, 4), nice(rng, 0.5, 1.5, 0.25))
    shaft_end(rng, lathe, d1 / 2)
    bore.to(lathe.z, bore.r)
    return finish(lathe, bore)


def pulley(rng: Source) -> TurnedPart:
    """A V-belt pulley: one to six trapezoidal grooves, bored."""
    top, depth, half, pitch = rng.choice(
        ((10.2, 9.0, 17, 12), (13.0, 11.0, 19, 15), (16.5, 14.0, 17, 19), (5.0, 4.0, 20, 7))
    )
    bore, r = nice(rng, 6, 12), nice(rng, 32, 70)
    lathe = Lathe(0.0, bore).step(r, rng.choice((0.0, 0.5)))
    lathe.land(nice(rng, 3, 8))
    for _ in range(rng.randint(1, 6)):
        lathe.trapeze(top, depth, half).land(pitch - top)
    lathe.land(nice(rng, 1, 6))
    shaft_end(rng, lathe, bore)
    return finish(lathe, Lathe(0.0, bore, inside=True).to(lathe.z, bore))


def labyrinth(rng: Source) -> TurnedPart:
    """A seal ring with many thin fins."""
    fin, gap, depth = rng.choice(((0.5, 2.5, 4.0), (0.3, 1.7, 3.0), (1.0, 3.0, 5.0), (0.25, 1.0, 2.0)))
    lathe = shaft_start(rng, nice(rng, 20, 60))
    lathe.land(nice(rng, 3, 6))
    for _ in range(rng.randint(12, 30)):
        lathe.ring(gap, depth).land(fin)
    lathe.land(nice(rng, 4, 10))
    return finish(shaft_end(rng, lathe))


def alternating(rng: Source) -> TurnedPart:
    """Grooves of two widths, or two depths, in turn at one pitch."""
    one, two = (nice(rng, 1.5, 3, 0.25), nice(rng, 0.8, 2, 0.1)), (nice(rng, 3.25, 5, 0.25), nice(rng, 0.8, 3, 0.1))
    lathe = shaft_start(rng, nice(rng, 12, 45))
    lathe.land(nice(rng, 5, 9))
    for k in range(rng.randint(4, 9)):
        width, depth = two if k % 2 else one
        lathe.ring(width, depth).land(8 - width)
    return finish(shaft_end(rng, lathe.land(5)))


def flange(rng: Source) -> TurnedPart:
    """A flange with an O-ring groove in its front face and a neck behind, bored."""
    bore, inner = nice(rng, 6, 12), nice(rng, 16, 24)
    depth, width, corner = rng.choice(SEALS[:3])
    outer = inner + width
    lathe = Lathe(0.0, bore).face_groove(inner, outer, depth, rng.choice((0.0, min(corner, 0.3))))
    lathe.step(outer + nice(rng, 8, 20), rng.choice((0.0, 1.0))).land(nice(rng, 10, 16))
    lathe.step(outer - 2, 0.0).land(nice(rng, 8, 14)).ring(nice(rng, 2, 3), nice(rng, 1, 1.5)).land(nice(rng, 5, 9))
    shaft_end(rng, lathe, bore)
    return finish(lathe, Lathe(0.0, bore, inside=True).to(lathe.z, bore))


def near_shoulder(rng: Source) -> TurnedPart:
    """Ring grooves 0.3 to 1.5 away from a shoulder, before or behind it."""
    d1, d2, m = rng.choice(SHAFT_RINGS[2:])
    lathe = shaft_start(rng, d1 / 2)
    lathe.land(nice(rng, 10, 25)).ring(m, (d1 - d2) / 2).land(nice(rng, 0.3, 1.5, 0.1))
    lathe.step(d1 / 2 + nice(rng, 3, 8), rng.choice((0.0, 0.5))).land(nice(rng, 8, 15))
    lathe.step(d1 / 2, rng.choice((0.0, 0.5))).land(nice(rng, 0.3, 1.5, 0.1)).ring(m, (d1 - d2) / 2).land(
        nice(rng, 10, 20)
    )
    return finish(shaft_end(rng, lathe))


def wide_recess(rng: Source) -> TurnedPart:
    """A narrow groove, and a recess many times wider than deep, which may be called turned or grooved."""
    lathe = shaft_start(rng, nice(rng, 12, 30))
    lathe.land(nice(rng, 5, 9)).ring(nice(rng, 1.5, 3), nice(rng, 1, 2)).land(nice(rng, 6, 9))
    lathe.ring(nice(rng, 18, 45), nice(rng, 1, 4, 0.25), rng.choice((0.0, 0.5, 1.0)))
    lathe.recesses[-1] = replace(lathe.recesses[-1], loose=True)
    return finish(shaft_end(rng, lathe.land(nice(rng, 5, 12))))


def rope_roller(rng: Source) -> TurnedPart:
    """Round grooves for ropes or retaining wire, some vees for break-off."""
    lathe = shaft_start(rng, nice(rng, 15, 40))
    lathe.land(nice(rng, 5, 9))
    radius = nice(rng, 1, 4)
    for _ in range(rng.randint(1, 4)):
        lathe.hollow(radius, rng.choice((1.0, 0.5, 0.8)) * radius).land(nice(rng, 3, 6))
    if rng.random() < 0.5:
        lathe.trapeze(nice(rng, 2, 4), 9.0, 45).land(nice(rng, 3, 6))
    return finish(shaft_end(rng, lathe))


def milled_shaft(rng: Source) -> TurnedPart:
    """A drive shaft: keyway, cross hole or flats beside ring grooves."""
    part = ring_shaft(rng)
    lands = [
        (a, b)
        for a, b in zip(part.outside, part.outside[1:], strict=False)
        if abs(a[1] - b[1]) < 1e-9 and a[0] - b[0] > 7.9 and a[1] > 4
    ]
    extras = []
    for near, far in rng.sample(lands, min(len(lands), rng.randint(1, 2))):
        kind = rng.choice(("keyway", "cross hole", "flat"))
        extras.append(Extra(kind, near[0] - 1.5, far[0] + 1.5, rng.choice((2.0, 3.0, 4.0)), near[1]))
    return TurnedPart(part.outside, part.outside_bulges, recesses=part.recesses, extras=tuple(extras))


def knurled_knob(rng: Source) -> TurnedPart:
    """A knob with a knurled land between grooves."""
    lathe = shaft_start(rng, nice(rng, 10, 25))
    lathe.land(nice(rng, 3, 5)).ring(nice(rng, 1.5, 3), nice(rng, 1, 2)).land(1.0)
    near = lathe.z
    lathe.land(nice(rng, 10, 20))
    lathe.extras.append(Extra("knurl", near, lathe.z, 1.0, lathe.r))
    lathe.land(1.0).ring(nice(rng, 1.5, 3), nice(rng, 1, 2)).land(nice(rng, 3, 6))
    lathe.step(lathe.r / 2, 0.5).land(nice(rng, 10, 15))
    return finish(shaft_end(rng, lathe))


def plain_pin(rng: Source) -> TurnedPart:
    """A pin without any groove: chamfers, a step, a cross hole."""
    lathe = shaft_start(rng, nice(rng, 5, 12)).land(nice(rng, 15, 40))
    lathe.step(lathe.r + nice(rng, 2, 6), 0.5).land(nice(rng, 4, 12))
    return finish(shaft_end(rng, lathe))


FAMILIES: dict[str, Callable[[Source], TurnedPart]] = {
    "ring_shaft": ring_shaft,
    "seal_piston": seal_piston,
    "relieved_thread": relieved_thread,
    "undercut_shaft": undercut_shaft,
    "sleeve": sleeve,
    "pulley": pulley,
    "labyrinth": labyrinth,
    "alternating": alternating,
    "flange": flange,
    "near_shoulder": near_shoulder,
    "wide_recess": wide_recess,
    "rope_roller": rope_roller,
    "milled_shaft": milled_shaft,
    "knurled_knob": knurled_knob,
    "plain_pin": plain_pin,
    "everything": everything,
    "centred": centred,
}
