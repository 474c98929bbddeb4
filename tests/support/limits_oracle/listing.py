"""The inspection list of a job sheet, held against what the drawing prints."""

import csv
from pathlib import Path

from .law import Asked
from .values import Piece

CLOSE = {"mm": 6e-4, "in": 6e-5}


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def listed_faults(piece: Piece, wanted: list[Asked], path: Path, numbers: dict[int, int]) -> list[str]:
    """Printed limits that no row of their groove gives, and aims outside of their own limits.

    `numbers` says which groove of the tool is which recess. Where a size has no deviation the list may give what it
    likes: what the shop allows is no matter of the drawing.
    """
    table, close, found = rows(path), CLOSE[piece.units], []
    for row in table:
        low, high, aim = (float(row[name]) if row[name] else None for name in ("lower limit", "upper limit", "aim"))
        if None not in (low, high, aim) and not low - close <= aim <= high + close:  # type: ignore[operator]
            found.append(f"aim {aim} of {row['characteristic']} of groove {row['groove']} outside {low} to {high}")
    for one in wanted:
        if one.limits.source in ("shop", "none"):
            continue
        number = str(numbers.get(one.measure.recess, -1))
        ends = (one.limits.low, one.limits.high)
        pairs = [
            tuple(float(row[name]) for name in ("lower limit", "upper limit"))
            for row in table
            if number in row["groove"].replace(",", " ").split() and row["lower limit"] and row["upper limit"]
        ]
        if not any(max(abs(a - b) for a, b in zip(pair, ends, strict=True)) < close for pair in pairs):
            found.append(f"{one.measure.name} of recess {one.measure.recess} {ends[0]:.5g} to {ends[1]:.5g} not listed")
    return found


def numbers_of(piece: Piece, grooves: list[dict[str, float | str]]) -> dict[int, int]:
    """The tool's number for each recess, by side and place; what is not found is left out."""
    found, wide = {}, 0.5 if piece.units == "mm" else 0.02
    for i, recess in enumerate(piece.recesses):
        for groove in grooves:
            if groove["where"] != recess.where:
                continue
            if recess.where == "face":
                outer = groove.get("outer_wall_diameter", groove["mouth_diameter"])
                same = abs(float(outer) - recess.near) < wide
            else:
                same = abs(float(groove["z_near"]) + recess.near) < wide
            if same:
                found[i] = int(groove["id"])
    return found
