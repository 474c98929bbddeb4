"""Shop files with square inserts that fit a piece, written as text and kept as values."""

import random

from .values import Insert, Limits, Piece, Shop

WIDTHS = {"mm": (1.0, 1.0, 1.2, 2.0, 3.0), "in": (0.04, 0.04, 0.05, 0.08, 0.12)}
CORNERS = {"mm": (0.0, 0.1, 0.2), "in": (0.0, 0.004, 0.008)}
ROOM = {"mm": 1.0, "in": 1 / 25.0}


def shop_of(piece: Piece, rng: random.Random, corners: list[Limits], dialect: str) -> Shop:
    """Up to three inserts a side; where corner radii are printed, one insert has such a corner."""
    units, inserts = piece.units, []
    for where in sorted({r.where for r in piece.recesses}):
        narrow = min(w for w in WIDTHS[units])
        sizes = {narrow, *rng.sample(WIDTHS[units], 2)}
        for width in sorted(sizes):
            inserts.append((where, width, rng.choice(CORNERS[units])))
        asked = [c for c in corners if c.high < narrow / 2]
        if asked and rng.random() < 0.7:
            wanted = rng.choice(asked)
            inserts.append((where, narrow, round((wanted.low + wanted.high) / 2, 4)))
    reference = {where: rng.choice(("near", "far")) for where in ("outside", "inside", "face")}
    numbered = tuple(
        Insert(station=n, where=where, width=width, corner=corner, reference=reference[where])
        for n, (where, width, corner) in enumerate(inserts, 1)
    )
    tolerance = rng.choice((0.01, 0.02, 0.02, 0.05)) if units == "mm" else rng.choice((0.0005, 0.001, 0.002))
    return Shop(units=units, tolerance=tolerance, inserts=numbered, dialect=dialect)


def shop_text(shop: Shop) -> str:
    """The shop file."""
    k, inch = ROOM[shop.units], shop.units == "in"
    lines = [f'units = "{shop.units}"', "[machine]", f'dialect = "{shop.dialect}"', "max_rpm = 3000"]
    lines += [f"stick_out = {600 * k}", f"tolerance = {shop.tolerance}"]
    lines += ["[material]", 'name = "C45 steel"', f"cutting_speed = {400.0 if inch else 120.0}"]
    for insert in shop.inserts:
        lines += ["[[tools]]", f"station = {insert.station}", f'where = "{insert.where}"', f"width = {insert.width}"]
        lines += [f"corner_radius = {insert.corner}", f"max_depth = {25 * k}", f'reference = "{insert.reference}"']
        lines += [f"feed = {0.06 * k:.4f}", f"peck = {1.0 * k}", f"retract = {0.5 * k}"]
        lines += [f"min_bore = {8 * k}"] if insert.where == "inside" else []
        lines += [f"face_min = {4 * k}", f"face_max = {500 * k}"] if insert.where == "face" else []
    return "\n".join(lines) + "\n"
