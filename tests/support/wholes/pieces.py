"""Parts for whole programs: a bar turned to steps, broken at the front, grooved, perhaps bored and threaded.

All numbers are of our own invention, on a grid of a tenth. `Piece.off` holds what a bar of samples is left with
against the piece.
"""

import random
from dataclasses import dataclass, replace

import numpy as np

from extractor.part import Part
from support.parts import part_of
from support.wholes.bar import TOUCH, Bar, Cutter

WIDTH, INNER = 3.0, 2.0
TURN, FINISH, GROOVE, THREAD, INSIDE, DRILL, BORE, PART = 1, 2, 3, 4, 5, 6, 7, 9


@dataclass(frozen=True)
class Piece:
    """One part. `steps`: z where it begins, diameter, rising; `grooves`: near wall, far wall, floor; `bore`: diameter
    of a through hole or 0; `inner`: grooves in it; `pitch`: of a thread on the first step, 0 none."""

    name: str
    stock: float
    length: float
    steps: tuple[tuple[float, float], ...]
    grooves: tuple[tuple[float, float, float], ...]
    bore: float = 0.0
    inner: tuple[tuple[float, float, float], ...] = ()
    pitch: float = 0.0
    chamfer: float = 1.0

    @property
    def cutters(self) -> dict[int, Cutter]:
        """What stands in the turret."""
        return {
            TURN: Cutter("turn"),
            FINISH: Cutter("turn"),
            GROOVE: Cutter("groove", WIDTH),
            THREAD: Cutter("thread"),
            INSIDE: Cutter("inner", INNER),
            DRILL: Cutter("drill", max(0.0, self.bore - 2.0)),
            BORE: Cutter("bore"),
            PART: Cutter("part"),
        }

    @property
    def shape(self) -> list[tuple[float, float]]:
        """The turned outside as (x, z) from the front: the broken edge, then step by step to the back."""
        first = self.steps[0][1]
        points = [(first - 2 * self.chamfer, 0.0), (first, -self.chamfer)]
        for (z, _), (_, before), (_, after) in zip(self.steps[1:], self.steps, self.steps[1:], strict=False):
            points += [(before, z), (after, z)]
        return [*points, (self.steps[-1][1], -self.length)]

    def part(self) -> Part:
        """The same as a value of the tool's."""
        spots = [*self.grooves, *((n, f, d, {"where": "inside"}) for n, f, d in self.inner)]
        made = part_of(spots, length=self.length, steps=self.steps, bore=self.bore or None)
        return replace(made, lands=self._broken(made.lands), outline=self._broken(made.outline))

    def _broken(self, points):
        radius = self.steps[0][1] / 2
        return ((0.0, radius - self.chamfer), (-self.chamfer, radius), *points[1:])

    def shop(self, dialect: str = "", more: str = "") -> str:
        """The shop file: only the grooving inserts, as a shop lists them."""
        named = f'dialect = "{dialect}"\n' if dialect else ""
        text = (
            f'units = "mm"\n[machine]\n{named}max_rpm = 3000\njaw_gap = 3.0\nstick_out = {self.length + 20}\n{more}'
            '[material]\nname = "C45 steel"\ncutting_speed = 120.0\nspecific_cutting_force = 1700.0\n'
        )
        for station, width, where, reach in ((GROOVE, WIDTH, "outside", 14.0), (INSIDE, INNER, "inside", 5.0)):
            text += (
                f"[[tools]]\nstation = {station}\nwidth = {width}\ncorner_radius = 0.2\nmax_depth = {reach}\n"
                f'reference = "far"\nfeed = 0.08\npeck = 1.0\nretract = 0.5\nwhere = "{where}"\n'
            )
        return text

    def off(self, bar: Bar) -> list[str]:
        """Where a bar is not as drawn."""
        wrong = []
        inside = (bar.z < -0.05) & (bar.z > -self.length + 0.05)
        for name, drawn, cut in (
            ("outside", self._outside(bar.z), bar.outer),
            ("bore", self._inside(bar.z), bar.inner),
        ):
            near = np.zeros(len(bar.z), bool)
            for shift in (-3, 3):
                near |= np.abs(np.roll(drawn, shift) - drawn) > 0.5
            look = inside & ~near
            bad = look & (np.abs(drawn - cut) > TOUCH)
            if bad.any():
                k = int(np.flatnonzero(bad)[0])
                wrong.append(f"{name} {cut[k]:.2f} for {drawn[k]:.2f} at Z{bar.z[k]:.2f}")
        return wrong

    def _outside(self, z: np.ndarray) -> np.ndarray:
        drawn = np.zeros(len(z))
        for start, across in self.steps:
            drawn[z < start] = across
        edge = (z < 0) & (z > -self.chamfer)
        drawn[edge] = self.steps[0][1] + 2 * (-z[edge] - self.chamfer)
        for near, far, floor in self.grooves:
            drawn[(z < near) & (z > far)] = floor
        return drawn

    def _inside(self, z: np.ndarray) -> np.ndarray:
        drawn = np.full(len(z), self.bore)
        for near, far, floor in self.inner:
            drawn[(z < near) & (z > far)] = floor
        return drawn


def random_piece(seed: int) -> Piece:
    """A piece by number: one to three steps, one to four grooves, each third bored, each fourth threaded."""
    rng = random.Random(f"piece {seed}")
    bore = rng.choice((16.0, 20.0, 22.5)) if seed % 3 == 0 else 0.0
    first = bore + rng.choice((12, 14, 18)) if bore else rng.choice((20.0, 24.0, 30.0))
    steps, z, across = [(0.0, first)], -rng.choice((18.0, 20.0, 22.5)), first
    for _ in range(rng.choice((0, 1, 1, 2))):
        across += rng.choice((4.0, 6.0, 9.0))
        steps.append((z, across))
        z -= rng.choice((16.0, 20.0, 24.0))
    length = -z
    ends = [s[0] for s in steps[1:]] + [z]
    threaded = seed % 4 == 1 and not bore
    pitch = rng.choice((1.0, 1.5)) if threaded else 0.0
    grooves = []
    for number, ((start, wide), stop) in enumerate(zip(steps, ends, strict=True)):
        floor = wide - 2 * rng.choice((1.0, 1.5, 2.0))
        if threaded and number == 0:
            grooves.append((stop + WIDTH, stop, wide - 4 * pitch))
            continue
        across_z = rng.choice((WIDTH, WIDTH, 4.5, 8.0))
        near = round(start - 4.0 - rng.randrange(3) * 0.5, 2)
        if near - across_z > stop + 2:
            grooves.append((near, round(near - across_z, 2), floor))
        if across_z == WIDTH and near - 5 - WIDTH > stop + 2 and rng.random() < 0.6:
            grooves.append((near - 5.0, near - 5.0 - WIDTH, floor))
    inner = ((-8.0, -8.0 - INNER, bore + 2.4),) if bore and seed % 2 == 0 else ()
    return Piece(
        f"piece-{seed}", across + rng.choice((2.0, 4.0, 5.0)), length, tuple(steps), tuple(grooves), bore, inner, pitch
    )
