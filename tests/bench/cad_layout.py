"""Lays the views of a random part out as a drawing page: jobs for `cad_pages.py`, and the truth of each sheet.

View coordinates are true lengths from the middle of a view, to the right and up; places on the page are mm.
"""

import math
import random
from dataclasses import replace
from typing import Any

from cad_desk import CadDesk
from cad_features import shape_for
from cad_habits import CadHabits, take_up
from cad_parts import CadRing, CadShape

FAMILIES = (
    "front",
    "section",
    "half",
    "offset",
    "end",
    "detail",
    "picture",
    "sheet",
    "upright",
    "inch",
    "scaled",
    "cuts",
    "threads",
    "faces",
)
INCH = 25.4
BORNE_OUT = 3
"""A printed scale with fewer sizes that bear it out may be asked about."""
Extra = list[list[list[float]]]


def _main_view(desk: CadDesk) -> str:
    """Draw the view or views that show the part along its axis; the name of the one that is dimensioned."""
    rng, family = desk.rng, desk.family
    axis = rng.random() < 0.85
    out = 4.0 / desk.k
    lines: Extra = []
    if axis:
        tip = desk.half() + out
        lines = [[list(desk.page(-tip, 0.0)), list(desk.page(tip, 0.0))]]
    if desk.shape.thread:
        lines += _thread_lines(desk)
    hollow = bool(desk.shape.bores) or bool(desk.shape.of("face"))
    if family in ("half", "offset"):
        aside = next((c["pcd"] / 2 * desk.factor for c in desk.shape.cuts if c["kind"] == "bolt"), 0.0)
        desk.view("Front", family, 0.0, 0.0, aside=aside, extra=lines, hatch=rng.random() < 0.6)
        return "Front"
    alone = hollow and family == "section" and rng.random() < 0.5
    hidden = hollow and family == "front"
    if not alone:
        desk.view("Front", "front", 0.0, 0.0, extra=lines, hidden=hidden)
    if hollow and not hidden:
        room = 0.0 if alone else desk.across + 25 + 8 * rng.randint(4, 6)
        base = "Front"
        if alone:
            base = "End"
            _end_view(desk, rng.random() < 0.5)
        side = rng.choice((1, -1))
        more = {"base": base, "extra": lines, "hatch": rng.random() < 0.6}
        desk.view("SectionA", "section", 0.0, side * room, **more)
        x, y = desk.page(0.0, side * room)
        desk.write(
            "A-A" if rng.random() < 0.5 else "SECTION A-A",
            x,
            y - (desk.long if desk.upright else desk.across) / 2 - 9,
            5,
        )
        return "SectionA" if alone or rng.random() < 0.5 else "Front"
    return "Front"


def _thread_lines(desk: CadDesk) -> Extra:
    """The thin lines of a thread as ISO 6410 has them (from memory): roots along, the end of the full thread across."""
    assert desk.shape.thread is not None
    end, d, deep = desk.shape.thread
    low = d / 2 - deep
    lines = [[desk.at(0.0, sign * low), desk.at(end, sign * low)] for sign in (1, -1)]
    return [*lines, [desk.at(end, d / 2), desk.at(end, -d / 2)]]


def _end_view(desk: CadDesk, third_angle: bool) -> None:
    """The view on the front or the back face, where the method of projection puts it."""
    seen = desk.rng.choice(("front", "back"))
    side = (1 if seen == "front" else -1) * (1 if third_angle else -1)
    tip = desk.shape.diameter * desk.factor / 2 + 4.0 / desk.k
    lines: Extra = [[[-tip, 0.0], [tip, 0.0]], [[0.0, -tip], [0.0, tip]]] if desk.rng.random() < 0.7 else []
    along = side * (desk.long / 2 + desk.across / 2 + 30 + 8 * desk.rng.randint(3, 6))
    desk.view("End", "end", along, 0.0, extra=lines, **{"from": seen})


def _detail(desk: CadDesk, base: str) -> None:
    rings = desk.shape.of("outside") or desk.shape.rings
    ring = desk.rng.choice(rings)
    times = desk.rng.choice((2, 5))
    s = (ring.near + ring.far) / 2 if ring.where != "face" else ring.floor / 2
    r = ring.floor / 2 if ring.where != "face" else (ring.near + ring.far) / 4
    wide = max(abs(ring.far - ring.near), 2.0 * (1 if desk.shape.units == "mm" else 0.05)) * desk.factor
    radius = wide * desk.rng.uniform(0.9, 1.6)
    along, out = _aside(desk, radius * times * desk.k)
    more = {"base": base, "anchor": desk.at(s, r), "radius": radius}
    x, y = desk.page(along, out)
    desk.view("DetailB", "detail", along, out, **more)
    desk.views[-1]["scale"] = times * desk.k
    if ring.where != "face" and desk.rng.random() < 0.5:  # its width, on the detail
        place = desk.page(0.0, (radius + 4 / desk.k) * times * desk.k)
        land = ring.floor / 2
        a, b = (desk.at(at, land) for at in (ring.near, ring.far))
        base_at = desk.at(s, r)
        a, b = ([p[0] - base_at[0], p[1] - base_at[1]] for p in (a, b))
        desk.dim(
            "DetailB", "DistanceY" if desk.upright else "DistanceX", (a, b), place, _own(desk, ring.far - ring.near)
        )
    said = times * desk.k
    words = f"{said:g}:1" if said >= 1 else f"1:{1 / said:g}"
    desk.write(
        desk.rng.choice((f"DETAIL B ({words})", f"B ({words})", f"DETAIL B  SCALE {words}")),
        x,
        y - radius * times * desk.k - 8,
        5,
    )


def _aside(desk: CadDesk, size: float) -> tuple[float, float]:
    """A free place for a view that belongs to no line of projection, or does by chance."""
    far = desk.long / 2 + desk.across + 80 + size + 60
    return desk.rng.choice(((far, 0.0), (far, -desk.across * 0.7), (-far, desk.across * 0.4), (far, desk.across * 0.9)))


def _dims(desk: CadDesk, view: str, level: int) -> None:
    """Printed sizes: overall, steps, grooves; the more the higher the level."""
    shape, rng = desk.shape, desk.rng
    if level == 0:
        return
    sign = rng.choice(("⌀", "%%c", "⌀", "Ø"))
    beyond = rng.choice((1, -1))
    deepest = max(shape.steps, key=lambda s: s[1])
    for end, d in shape.steps if level > 1 else (deepest,):
        begin = max([e for e, _ in shape.steps if e < end - 1e-9], default=0.0)
        s = begin if beyond == 1 and begin > 0 else end
        s = shape.chamfer if beyond == 1 and begin == 0 else end - shape.chamfer if end == shape.length else s
        tail = rng.choice(("", "", "", " ±0.1", " h6")) if shape.units == "mm" else ""
        desk.diameter_dim(view, s, d, f"{sign}{desk.number(d)}{tail}", beyond)
    mode = rng.choice(("rings", "both", "steps")) if level > 1 else ""
    if mode in ("rings", "both"):
        _ring_dims(desk, view)
    if mode in ("steps", "both"):
        from_back = rng.random() < 0.3
        for end, d in shape.steps[:-1]:
            begin, long = (shape.length, shape.length - end) if from_back else (0.0, end)
            desk.length_dim(view, begin, end, d / 2, _own(desk, long))
    desk.length_dim(view, 0.0, shape.length, shape.steps[-1][1] / 2 - shape.chamfer, _own(desk, shape.length))


def _own(desk: CadDesk, v: float) -> str:
    """The program's own text where it prints the part's unit, else the number typed over it."""
    return "" if desk.factor == 1.0 and desk.shape.units == "mm" and desk.rng.random() < 0.8 else desk.number(v)


def _ring_dims(desk: CadDesk, view: str) -> None:
    rng, seen = desk.rng, 0
    for ring in desk.shape.of("outside"):
        if ring.form not in ("square", "round") or seen >= 3 or rng.random() < 0.3:
            continue
        land = next(d for end, d in desk.shape.steps if ring.near < end)
        seen += 1
        tail = rng.choice(("", "", " +0.1/0", " ±0.05")) if desk.shape.units == "mm" else ""
        words = f"{desk.number(ring.far - ring.near)}{tail}" if tail else _own(desk, ring.far - ring.near)
        desk.length_dim(view, ring.near, ring.far, land / 2, words)
        if rng.random() < 0.6:
            desk.length_dim(view, 0.0, ring.near, land / 2, _own(desk, ring.near))
        if rng.random() < 0.3:
            s = ring.near + (ring.size if ring.form == "round" else 0.0)
            desk.diameter_dim(view, s, ring.floor, f"⌀{desk.number(ring.floor)}", 1)
    if view == "SectionA":
        for ring in desk.shape.of("inside")[:2]:
            if ring.form in ("square", "round"):
                desk.length_dim(view, ring.near, ring.far, ring.floor / 2, _own(desk, ring.far - ring.near))
                s = ring.near + (ring.size if ring.form == "round" else 0.0)
                desk.diameter_dim(view, s, ring.floor, f"⌀{desk.number(ring.floor)}", -1)


def _title(desk: CadDesk, framed: bool, said: str) -> list[tuple[float, float]]:
    """Frame and title block about all that is drawn so far; its words. Without a frame, some of the words alone."""
    rng = desk.rng
    size = max(desk.long, desk.across)
    xs = [v["x"] for v in desk.views]
    ys = [v["y"] for v in desk.views]
    left, right = min(xs) - size * 0.9 - 40, max(xs) + size * 0.9 + 40
    low, high = min(ys) - size * 0.9 - 70, max(ys) + size * 0.9 + 60
    words = [f"SCALE {said}", rng.choice(("MATERIAL: C45", "MATL 42CrMo4", "MATERIAL X5CrNi18-10"))]
    words.append(rng.choice(("GENERAL TOLERANCES ISO 2768-m", "ISO 2768-mK", "TOL. ISO 2768-f")))
    words.append(
        "DIMENSIONS IN INCHES" if desk.shape.units == "in" else rng.choice(("DIMENSIONS IN mm", "ALL DIMENSIONS IN MM"))
    )
    words += [rng.choice(("FIRST ANGLE PROJECTION", "SHEET 1/1", "DRAWN 12.03.")), "SPINDLE PART 4711"]
    if not framed:
        for number, one in enumerate(words[:4] if rng.random() < 0.5 else words[:1]):
            desk.write(one, left + 60, low + 20 + 7 * number)
        return []
    wide, row = 120.0, 9.0
    x0, y0 = right - wide, low
    top = y0 + row * len(words)
    lines = [[[left, low], [right, low]], [[right, low], [right, high]], [[right, high], [left, high]]]
    lines += [[[left, high], [left, low]], [[x0, y0], [x0, top]], [[x0, top], [right, top]]]
    lines += [[[x0, y0 + row * n], [right, y0 + row * n]] for n in range(1, len(words))]
    cx, cy = (left + right) / 2, (low + high) / 2
    desk.views.append({"name": "Frame", "kind": "frame", "lines": lines, "x": cx, "y": cy, "scale": 1.0})
    for number, one in enumerate(words):
        desk.write(one, x0 + wide / 2, y0 + row * number + 3)
    return [(left, low), (right, high)]


def lay_out(family: str, seed: int, habits: bool = False) -> tuple[dict[str, Any], dict[str, Any]]:
    """One sheet: the job that draws it, and its truth. `habits`: with what offices do besides."""
    rng = random.Random(f"{family} {seed}")
    shape = shape_for(rng, family)
    k = (
        rng.choice((2.0, 0.5, 2.0, 5.0))
        if family == "scaled"
        else rng.choice((1.0, 1.0, 1.0, 2.0 if shape.length < 60 else 1.0))
    )
    upright = family == "upright" or (family in ("sheet", "inch", "half") and rng.random() < 0.2)
    desk = CadDesk(rng, family, shape, k, upright, INCH if shape.units == "in" and rng.random() < 0.6 else 1.0)
    if shape.units == "in" and desk.factor == 1.0:
        desk.k = rng.choice((25.4, 50.8))
    view = _main_view(desk)
    third = rng.random() < 0.5
    named = {v["name"] for v in desk.views}
    if "End" not in named and (family in ("end", "sheet") or (family == "cuts") or rng.random() < 0.25):
        _end_view(desk, third)
    base = "SectionA" if "SectionA" in named and rng.random() < 0.4 else desk.views[0]["name"]
    if family == "detail" or (family == "sheet" and rng.random() < 0.7):
        _detail(desk, "Front" if base == "End" else base)
    if family == "picture" or (family == "sheet" and rng.random() < 0.7) or rng.random() < 0.1:
        along, out = _aside(desk, desk.long / 2)
        desk.view("Picture", "iso", along, out, smooth=rng.random() < 0.4)
    level = 2 if family in ("sheet", "scaled", "inch") else rng.choice((0, 1, 2, 2))
    _dims(desk, view, level)
    framed = family == "sheet" or rng.random() < 0.4
    said = f"{k:g}:1" if k >= 1 else f"1:{1 / k:g}"
    worded = framed or rng.random() < 0.5 or shape.units == "in"
    if worded:
        _title(desk, framed, said)
    done = take_up(desk, random.Random(f"habits {family} {seed}"), view) if habits else CadHabits()
    _move(desk, rng.uniform(20, 300), rng.uniform(20, 300))
    return _job(desk, done), _truth(desk, seed, worded, level, done)


def _move(desk: CadDesk, x: float, y: float) -> None:
    """Put the whole page somewhere: views are dragged to their places, not typed."""
    for one in (*desk.views, *desk.texts):
        one["x"], one["y"] = one["x"] + x, one["y"] + y


def _job(desk: CadDesk, done: CadHabits) -> dict[str, Any]:
    shape = _times(desk.shape, desk.factor)
    job = {"shape": shape.data(), "views": desk.views, "dimensions": desk.dimensions, "texts": desk.texts}
    return {**job, "finish": {"pens": done.pens, "exploded": done.exploded, "strokes": done.strokes}}


def _times(shape: CadShape, f: float) -> CadShape:
    """The same part in other units of length."""
    if f == 1.0:
        return shape
    rings = [replace(r, near=r.near * f, far=r.far * f, floor=r.floor * f, size=r.size * f) for r in shape.rings]
    keep = ("kind", "count", "turn", "start")
    cuts = [{n: v if n in keep else v * f for n, v in c.items()} for c in shape.cuts]
    fillets = {f"{float(s) * f:.4f}": v * f for s, v in shape.fillets.items()}
    steps, bores = [(a * f, b * f) for a, b in shape.steps], [(a * f, b * f) for a, b in shape.bores]
    return replace(shape, steps=steps, bores=bores, rings=rings, cuts=cuts, fillets=fillets, chamfer=shape.chamfer * f)


def _ring(ring: CadRing) -> dict[str, Any]:
    if ring.where == "face":
        return {"where": "face", "near": 0.0, "far": -ring.floor, "floor": ring.far, "outer": ring.near}
    return {"where": ring.where, "near": -ring.near, "far": -ring.far, "floor": ring.floor}


def _truth(desk: CadDesk, seed: int, worded: bool, level: int, done: CadHabits) -> dict[str, Any]:
    """What a reader must make of the sheet, and why it may ask."""
    shape = desk.shape
    kinds = {v["kind"] for v in desk.views}
    opened = bool(kinds & {"section", "half", "offset"})
    dashed = any(v.get("hidden") for v in desk.views)
    rings = [r for r in shape.rings if r.where == "outside" or opened or dashed]
    drawn = desk.k * (desk.factor if shape.units == "in" else 1.0)
    ask = []
    printed = {round(math.dist(d["a"], d["b"]), 6) for d in desk.dimensions if d["view"] != "DetailB"}
    if drawn != 1.0 and not (worded and len(printed) >= BORNE_OUT):
        ask.append("scale")
    if shape.units == "in":
        ask.append("units")
    if dashed and done.pens not in ("layers", "entities"):
        ask.append("hidden lines are plain")
    if done.strokes:
        ask.append("letters are lines")
    unknown = drawn != 1.0 and (done.strokes or (not worded and level == 0))
    size = 1.0 if not unknown else drawn
    boxes = []
    for v in desk.views:
        if v["kind"] in ("front", "section", "half", "offset"):
            w, h = desk.page(desk.long / 2, desk.across / 2)
            boxes.append([v["x"] - abs(w), v["y"] - abs(h), v["x"] + abs(w), v["y"] + abs(h)])
    return {
        "family": desk.family,
        "seed": seed,
        "units": shape.units,
        "scale": drawn,
        "unknown_scale": size,
        "front": "top" if desk.upright else "right",
        "length": shape.length,
        "diameter": shape.diameter,
        "grooves": [_ring(r) for r in rings],
        "ask": ask,
        "views": boxes,
        "false": done.false,
        "about": sorted({*kinds, *(c["kind"] for c in shape.cuts), f"dims{level}", *done.about}),
    }


__all__ = ["FAMILIES", "lay_out"]
