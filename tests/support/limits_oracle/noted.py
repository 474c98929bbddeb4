"""Notes at grooves whose tolerances the metal must keep: the words, and by hand the least and the greatest size.

No nominal lies within its limits. A depth is radial, so a diameter's limits lie twice as far apart.
"""

from dataclasses import replace
from pathlib import Path

from support.door import make
from support.ink import Line

from .byhand import inside, outside, saved, shaft, shop_with
from .law import Asked, faults
from .laying import lay
from .points import point, program
from .values import Limits, Mark, Piece, Point, measure

Wanted = dict[str, tuple[float, float]]
"""Limits by what is measured and the number of the recess, as `width0`."""


def noted(folder: Path, piece: Piece, words: str, tip: Point | None, wanted: Wanted) -> list[str]:
    """What is wrong with what is made of a piece with one note, led to a place by a line or standing alone."""
    unit = 1.0 if piece.units == "mm" else 0.04
    shop = shop_with(piece.units, outside=(2.0 * unit, 0.1 * unit), inside=(2.0 * unit, 0.1 * unit))
    at = (-piece.length / 3, 1.1 * piece.steps[0][1])
    sheet = replace(lay(piece, []), notes=((at, words),))
    if tip is not None:
        knee = (at[0] - 4 * unit, at[1] + unit)
        lines = (("NOTES", Line(tip, knee)), ("NOTES", Line(knee, (at[0] - unit, at[1] + unit))))
        sheet = replace(sheet, drawn=(*sheet.drawn, *lines))
    answer = make(*saved(folder, sheet, shop), folder / "out")
    if answer.status:
        return [f"refused: {answer.stops()}"]
    mark = Mark(measures=(), first=at, second=at, line=at, text=words)
    asked = [
        Asked(measure(piece, name[:-1], int(name[-1])), Limits(low=low, high=high, source="deviation", nominal=0), mark)
        for name, (low, high) in wanted.items()
    ]
    return [str(fault) for fault in faults(piece, asked, shop, program(folder))]


THREE = shaft(*(outside(8.0 + 7.0 * i, 2.65, 36.0) for i in range(3)))
INCH = shaft(outside(0.3, 0.125, 1.42, land=1.575), across=1.575, length=2.4, units="in")


@point("a note led to a groove limits its width and its floor, and those of grooves drawn alike")
def led(folder: Path) -> list[str]:
    wanted = {f"{name}{i}": pair for i in range(3) for name, pair in (("width", (2.75, 2.85)), ("floor", (35.7, 35.8)))}
    return noted(folder, THREE, "GROOVE 2,65 +0,2/+0,1 x %%c36 -0,2/-0,3", (-9.0, 18.0), wanted)


@point("a note that counts grooves limits each, and a depth counts twice on the diameter")
def counted(folder: Path) -> list[str]:
    wanted = {f"{name}{i}": pair for i in range(3) for name, pair in (("width", (2.45, 2.55)), ("floor", (36.1, 36.2)))}
    return noted(folder, THREE, "3 GROOVES 2.65 -0.1/-0.2 WIDE x 2 -0.05/-0.1 DEEP", None, wanted)


@point("a bare inch width led to a groove is limited")
def inch(folder: Path) -> list[str]:
    return noted(folder, INCH, ".125 +.004/+.002", (-0.35, 0.71), {"width0": (0.127, 0.129)})


@point("a note in a bore makes the floor greater")
def bored(folder: Path) -> list[str]:
    piece, wanted = shaft(inside(8.0, 2.65, 28.0), bore=24.0), {"width0": (2.6, 2.7), "floor0": (28.1, 28.2)}
    return noted(folder, piece, "2.6-2.7 WIDE x 2 +0.1/+0.05 DEEP", (-9.0, 14.0), wanted)
