"""What families of sheets share: a pencil that may tell one lie, and the beginnings of a sheet.

Sizes of ring grooves are those of published tables (DIN 471, DIN 472); the other numbers are invented.
"""

import random
from dataclasses import dataclass

from hands_ink import Drawing
from hands_pieces import Cut, Limits, Piece, View
from support.ink import number

# Shaft or bore, groove's floor, width, and the floor's limits: rows of DIN 471 and DIN 472 as in the trade's tables.
SHAFTS = ((20, 19.0, 1.3, (-0.13, 0.0)), (25, 23.9, 1.3, (-0.21, 0.0)), (30, 28.6, 1.6, (-0.21, 0.0)))
BORES = ((20, 21.0, 1.1, (0.0, 0.13)), (30, 31.4, 1.3, (0.0, 0.25)), (40, 42.5, 1.85, (0.0, 0.25)))
H13: Limits = (0.0, 0.14)  # of widths up to 3
AWAY = (-1.0, -0.5, 0.5, 1.0)


@dataclass
class Pencil:
    """Prints values; where `lie` names one it prints another and remembers which."""

    comma: bool
    pick: random.Random
    lie: int | None = None
    printed: int = 0
    told: str = ""

    def value(self, true: float) -> float:
        """The value to print."""
        mine, self.printed = self.printed, self.printed + 1
        if mine != self.lie:
            return true
        false = true + self.pick.choice(AWAY if true > 2 else (0.3, 0.5)) * (1 if true > 2 else true)
        self.told = f"{false:g} printed for {true:g}"
        return false

    def __call__(self, true: float, places: int = 3) -> str:
        return self.figure(self.value(true), places)

    def figure(self, value: float, places: int = 3) -> str:
        """A number without needless noughts."""
        return number(value, places).replace(".", "," if self.comma else ".")

    def limits(self, limits: Limits) -> str:
        """Upper and lower deviation, a nought without a sign."""
        return "/".join("0" if not d else ("+" if d > 0 else "") + self.figure(d) for d in (limits[1], limits[0]))


@dataclass
class Sheet:
    """A drawing with the piece that it truly shows, and what is false on it."""

    drawing: Drawing
    piece: Piece
    left: bool = False


def begin(pick: random.Random, piece: Piece, left: bool = False, units: int = 4) -> tuple[Drawing, View]:
    drawing = Drawing(old=pick.random() < 0.4, units=units)
    view = View(drawing.model, piece, (150, 80), entity=not drawing.old and pick.random() < 0.7, left=left)
    return drawing, view


def some_grooves(pick: random.Random, number: int, limits: Limits | None = None) -> Piece:
    """A plain piece with some like grooves, unevenly spaced."""
    across, width = pick.randrange(24, 61, 2), pick.choice((2.0, 2.5, 3.0, 4.0))
    z, cuts = 0.0, []
    for _ in range(number):
        z += pick.randrange(8, 19) / 2
        floor = across - pick.choice((3, 4, 5))
        cuts.append(Cut(z, width, floor, pick.choice((0, 0, 0.3)), width_limits=limits))
        z += width
    return Piece(((z + pick.randrange(8, 16), across),), tuple(cuts))


def overall(view: View, say: Pencil, row: int = -1) -> None:
    """Overall length and the diameter at the back."""
    piece = view.piece
    view.along((0, piece.length), say(piece.length), row)
    view.across(piece.length, piece.lands[-1][1], "%%c" + say(piece.lands[-1][1]), 14 if view.left else -14)
