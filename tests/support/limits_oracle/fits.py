"""Stepped shafts whose grooves carry classes of ISO 286, and ring grooves of DIN 471."""

import itertools
from pathlib import Path

from support.door import judged, make

from .byhand import Print, drawn, shop_with, wanted
from .law import Asked, faults
from .points import program
from .rival import rival
from .standards import DIN_471
from .values import Piece, Recess, Shop, State

SHOP: Shop = shop_with(outside=(0.8, 0.0), outside2=(2.0, 0.1))


def stairs(sizes: list[tuple[float, float, float]]) -> Piece:
    """A shaft of steps 12 long, each with one groove: (land, floor, width), the smallest in front."""
    steps, recesses, z = [], [], 0.0
    for land, floor, width in sizes:
        recesses.append(Recess(where="outside", near=z + 5, far=round(z + 5 + width, 6), floor=floor, land=land))
        z += 14.0
        steps.append((z, land))
    return Piece(units="mm", steps=tuple(steps), recesses=tuple(recesses))


def classed(sizes: list[tuple[float, float, float]], floors: list[str], width: str) -> Print:
    """Every floor and width with its class; no place is printed."""
    printed = Print(stairs(sizes))
    for i, (recess, name) in enumerate(zip(printed.piece.recesses, floors, strict=True)):
        printed.put("width", i, f"<> {width}").put("floor", i, f"%%c{recess.floor:g} {name}")
    return printed


def din_471(first: int, last: int) -> Print:
    """Ring grooves of the standard's rows."""
    rows = DIN_471[first:last]
    return classed([(d1, d2, m) for d1, d2, _, m in rows], [name for _, _, name, _ in rows], "H13")


def steps_of_sizes(sizes: list[float], name: str) -> Print:
    """Floors of these diameters with one class, each in a land 2 greater."""
    return classed([(size + 2.0, size, 3.0) for size in sizes], [name] * len(sizes), "H13")


def at(printed: Print, asked: list[Asked], upper: bool, beyond: str) -> State:
    """Every width and floor at one end of its limits; those named `beyond` a count further."""
    state = printed.piece.state()
    for one in asked:
        more = 0.001 if one.measure.name == beyond else 0.0
        aim = one.limits.high + more if upper else one.limits.low - more
        i = one.measure.recess
        if one.measure.name == "floor":
            state[i, "floor"] = aim
        else:
            state[i, "far"] = state[i, "near"] + aim
    return state


def held(folder: Path, printed: Print, names: tuple[str, ...] = ("floor",)) -> list[str]:
    """Made within the classes; programs at each end agree, and one count beyond differ at every groove."""
    files, asked = drawn(folder, printed, SHOP), wanted(printed, SHOP)
    answer = make(*files, folder / "out")
    if answer.status:
        return [f"refused: {answer.stops()}"]
    found = [str(f) for f in faults(printed.piece, asked, SHOP, program(folder))]
    states = {"": "matches", "floor": "depth", "width": "width"}
    for upper, beyond in itertools.product((False, True), ("", *names)):
        text = rival(printed.piece, asked, SHOP, at(printed, asked, upper, beyond))
        verdict = judged(files, text or "").document
        told = [g["state"] for g in verdict["grooves"]]
        if told != [states[beyond]] * len(told) or verdict["agree"] != (not beyond):
            found.append(f"{'upper' if upper else 'lower'} end, beyond it {beyond or 'nothing'}: {told}")
    return found
