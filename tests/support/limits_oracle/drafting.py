"""Random pieces: a stepped shaft with grooves outside, in its bore, in its front face."""

import random

from .values import Piece, Recess

WIDTHS = (1.3, 1.6, 2.15, 2.65, 3.0, 3.2, 4.0, 5.0, 6.0, 7.5)
GRID = {"mm": 0.1, "in": 0.005}
SCALE = {"mm": 1.0, "in": 1 / 25.0}


class Drafter:
    """Lays grooves out one after the other, on a grid that people use."""

    def __init__(self, rng: random.Random, units: str) -> None:
        self.rng, self.units, self.left = rng, units, rng.randint(1, 6)

    def size(self, mm: float, grid: float = 1.0) -> float:
        """A length given in mm, in the piece's units on the grid."""
        step = GRID[self.units] * grid
        return round(round(mm * SCALE[self.units] / step) * step, 6)

    def width(self) -> float:
        """A groove's width; those of retaining rings have two decimals."""
        mm = self.rng.choice(WIDTHS)
        return mm if self.units == "mm" else self.size(mm)

    def corner(self, width: float, depth: float) -> float:
        most = min(width / 3, depth / 2) / SCALE[self.units]
        radii = [r for r in (0.3, 0.4, 0.5, 0.8, 1.0) if r <= most]
        return self.size(self.rng.choice(radii)) if radii and self.rng.random() < 0.4 else 0.0

    def row(self, z: float, where: str, land: float) -> list[Recess]:
        """One groove, or like ones at one pitch, from z on."""
        count = min(self.left, self.rng.choice((1, 1, 1, 2, 3, 4)))
        self.left -= count
        width = self.width()
        depth = self.size(self.rng.choice((0.5, 0.7, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0)))
        floor = round(land + (2 if where == "inside" else -2) * depth, 6)
        corner, pitch = self.corner(width, depth), self.size(width / SCALE[self.units] + self.rng.choice((3, 4, 6.5)))
        near = [round(z + i * pitch, 6) for i in range(count)]
        return [
            Recess(where=where, near=n, far=round(n + width, 6), floor=floor, land=land, corner=corner) for n in near
        ]

    def gap(self) -> float:
        return self.size(self.rng.choice((4, 5, 6.5, 8)))

    def along(self, z: float, where: str, land: float, most: int) -> list[Recess]:
        """Up to so many rows on one land."""
        listed: list[Recess] = []
        for _ in range(self.rng.randint(0, most)):
            if self.left:
                listed += self.row(round(z + self.gap(), 6), where, land)
                z = listed[-1].far
        return listed

    def face(self, inside: float, outside: float) -> list[Recess]:
        """One groove in the face between two diameters, or none where there is no room."""
        width, depth = self.width(), self.size(self.rng.choice((1.0, 1.5, 2.0, 3.0)))
        low, high = inside + self.size(8), outside - self.size(8) - 2 * width
        if not self.left or high < low:
            return []
        self.left -= 1
        inner = self.size(self.rng.uniform(low, high) / SCALE[self.units], 10)
        corner = self.corner(width, depth)
        return [Recess(where="face", near=round(inner + 2 * width, 6), far=inner, floor=depth, land=0.0, corner=corner)]

    def draw(self) -> Piece:
        """A whole piece, with one groove or more."""
        kinds = self.rng.choice(
            (("outside",), ("outside",), ("outside", "inside"), ("inside",), ("face",), ("face", "outside"))
        )
        across = self.size(self.rng.choice((40, 50, 64)), 10)
        bore = self.size(self.rng.choice((20, 24)), 10) if "inside" in kinds else 0.0
        recesses = self.face(bore, across) if "face" in kinds else []
        if "inside" in kinds:
            recesses += self.along(0.0, "inside", bore, 2) or self.row(self.gap(), "inside", bore)
        steps, z = [], self.size(10) if "face" in kinds else 0.0
        for _ in range(self.rng.randint(1, 3)):
            listed = self.along(z, "outside", across, 2) if "outside" in kinds else []
            if not listed and not recesses and self.left:
                listed = self.row(round(z + self.gap(), 6), "outside", across)
            recesses += listed
            z = round((listed[-1].far if listed else z) + self.size(self.rng.choice((6, 10, 15))), 6)
            steps.append((z, across))
            across = round(across + self.size(self.rng.choice((6, 10, 14))), 6)
        deepest = max((r.far for r in recesses if r.where == "inside"), default=0.0)
        if z < deepest + self.size(8):
            steps[-1] = (round(deepest + self.size(12), 6), steps[-1][1])
        order = {"face": 0, "outside": 1, "inside": 1}
        recesses.sort(key=lambda r: (order[r.where], r.near, r.where))
        return Piece(units=self.units, steps=tuple(steps), recesses=tuple(recesses), bore=bore)


def random_piece(seed: int, units: str = "") -> Piece:
    """The piece of a seed."""
    rng = random.Random(f"piece {seed}")
    return Drafter(rng, units or rng.choice(("mm", "mm", "in"))).draw()
