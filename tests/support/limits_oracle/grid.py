"""Every field on every side with every kind of deviation: one small drawing a cell, its other sizes printed bare."""

import itertools
import random

from .byhand import Print, face, inside, outside
from .cases import Case, case_of
from .values import Piece, Recess
from .wording import Deviation, toleranced

KINDS: dict[str, Deviation] = {
    "+/-": (-0.05, 0.1),
    "+/+": (0.05, 0.12),
    "-/-": (-0.12, -0.05),
    "0/-": (-0.1, 0.0),
    "+/0": (0.0, 0.1),
    "equal": (-0.06, 0.06),
}
ALONG = ("width", "near", "far", "centre", "near from back", "far from back", "land", "pitch", "far pitch")
FIELDS = {
    "outside": (*ALONG, "centre pitch", "floor", "depth", "corner"),
    "inside": (*ALONG, "centre pitch", "floor", "depth", "corner"),
    "face": ("width", "near", "far", "floor", "corner"),
}
CELLS = [(where, name, kind) for where, names in FIELDS.items() for name, kind in itertools.product(names, KINDS)]
SCALE = {"mm": 1.0, "in": 0.04}


def recesses(where: str, k: float, corner: float) -> tuple[Recess, ...]:
    """Two grooves of one kind, or one in the face."""
    if where == "face":
        return (face(44 * k, 34 * k, 3 * k, corner),)
    make, land, floor = (inside, 24.0, 30.0) if where == "inside" else (outside, 50.0, 44.0)
    return tuple(make(near * k, 4 * k, floor * k, land * k, corner) for near in (10.0, 20.0))


def piece_of(where: str, name: str, units: str) -> Piece:
    k = SCALE[units]
    corner = round(0.5 * k, 6) if name == "corner" else 0.0
    rounded = tuple(
        Recess(
            where=r.where,
            near=round(r.near, 6),
            far=round(r.far, 6),
            floor=round(r.floor, 6),
            land=r.land,
            corner=corner,
        )
        for r in recesses(where, k, corner)
    )
    bore = 24.0 * k if where == "inside" else 0.0
    return Piece(units=units, steps=((60.0 * k, 50.0 * k),), recesses=rounded, bore=bore)


def printed_cell(where: str, name: str, kind: str, units: str, rng: random.Random) -> Print:
    """The piece with this size toleranced and as many bare ones as it needs."""
    piece, scale = piece_of(where, name, units), 1.0 if units == "mm" else 0.04
    low, high = (round(d * scale * (0.5 if name in ("depth",) else 1.0), 4) for d in KINDS[kind])
    printed = Print(piece)
    paired = name == "land" or name.endswith("pitch")
    size = printed.size(name, 0, 1 if paired else None)
    before = "%%c" if (name == "floor" and where != "face") or (where == "face" and name in ("near", "far")) else ""
    before = "R" if name == "corner" else before
    word = toleranced(rng, units, size, (low, high), before)
    printed.put(name, 0, word.text, j=1 if paired else None, **word.variables)
    for i in range(len(piece.recesses)):
        bare(printed, i, name)
    return printed


def bare(printed: Print, i: int, name: str) -> None:
    """The sizes without a deviation that recess i still needs."""
    recess, placed = (
        printed.piece.recesses[i],
        i == 0 and name in ("near", "far", "centre", "near from back", "far from back"),
    )
    placed = placed or (i == 1 and (name == "land" or name.endswith("pitch")))
    sign = "%%c" if recess.where == "face" else ""
    if not (i == 0 and name == "width"):
        printed.put("width", i, "")
    if not placed:
        printed.put("near", i, f"{sign}<>" if sign else "")
    if not (i == 0 and name in ("floor", "depth")):
        printed.put("floor", i, "" if recess.where == "face" else "%%c<>")
    if recess.corner and i:
        printed.put("corner", i, "R<>")


def cell(where: str, name: str, kind: str, units: str = "mm") -> Case:
    """The case of a cell; how its size is worded, and the shop, are by its name."""
    rng = random.Random(f"{where} {name} {kind} {units}")
    printed = printed_cell(where, name, kind, units, rng)
    seed = rng.randrange(1000)
    return case_of(printed.piece, printed.marks, "", seed)
