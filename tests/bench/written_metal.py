"""Random parts in random shops: what each dialect's program leaves of the metal, by the oracle's own reading and cut.

Run as `PYTHONPATH=.:tests python tests/bench/written_metal.py [--count N] [--first SEED]`. Each written program must
leave the drawing, corners as round as the insert's apart, with no rapid and no holder in the metal; prints each that
doesn't, or that the judge doesn't agree with, and how many were written.
"""

import argparse
import math
import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry
from support.metal_oracle import HAIR, Reader
from support.parts import part_of
from support.second_opinion import FAR_OUT, swept_out

from extractor.part import Part
from planner import parse_shop, plan_part
from planner.shop import Shop, Tool
from postproc import Heading, compare_program, dialects, write_program
from postproc.dialect import Dialect

HEADING = Heading("part.dxf", "0" * 64)
BEHIND = 40.0
UNIT = {"mm": 1.0, "in": 1 / 25.4}


def random_part(rng: random.Random, units: str) -> Part:
    """A stepped shaft, perhaps with a bore, and rows of plain, chamfered and round-cornered grooves."""
    k, digits = UNIT[units], 2 if units == "mm" else 3
    steps, place = [(0.0, rng.uniform(24, 90))], 0.0
    for _ in range(rng.choice([0, 0, 1, 2])):
        place -= rng.uniform(12, 50)
        steps.append((place, rng.uniform(24, 90)))
    bore = rng.choice([0.0, 0.0, rng.uniform(0.3, 0.55) * min(across for _, across in steps)])
    spots, at = [], -rng.uniform(2, 9)
    for _ in range(rng.randint(1, 4)):
        width, deep = rng.choice([rng.uniform(1.5, 12), 2, 3, 3.15, 4, 5, 6.3, 8]), rng.uniform(0.4, 7)
        extra = rng.choice([{}, {}, *({"edge_chamfer": 0.3 * k} for _ in range(deep > 0.8)), _round(width, deep, k)])
        pitch = width + rng.uniform(1, 9)
        for _ in range(rng.choice([1, 1, 2, 3, 5])):
            land = [across for start, across in steps if start > at][-1]
            clear = not any(at - width - 0.5 <= start <= at + 0.5 for start, _ in steps[1:])
            if clear and land - 2 * deep > bore + 3:
                spots.append((at, at - width, land - 2 * deep, extra))
            at -= pitch
        at -= rng.uniform(1, 6)
    if bore:
        spots.append((-8, -8 - rng.choice([2, 3, 5.5]), bore + 3, {"where": "inside"}))
    spots = spots or [(-5, -9, steps[0][1] - 4, {})]
    scaled = [(*(round(k * value, digits) for value in spot[:3]), spot[3]) for spot in spots]
    shaft = [(round(k * start, digits), round(k * across, digits)) for start, across in steps]
    return part_of(
        scaled, steps=shaft, length=round(k * (12 - at), digits), units=units, bore=round(k * bore, digits) or None
    )


def _round(width: float, deep: float, k: float) -> dict[str, object]:
    """Drawn corners that an insert with a smaller radius has to follow."""
    return {"corner_radius": 0.8 * k, "bent": True} if min(width / 2, deep) > 1.2 else {}


def random_shop(rng: random.Random, units: str, dialect: Dialect) -> Shop:
    """A lathe with up to three inserts outside and one inside, and any of the settings that change what is written."""
    k = UNIT[units]
    lines = [
        f'units = "{units}"',
        "[machine]",
        f'dialect = "{dialect.name}"',
        "max_rpm = 3000",
        f"stick_out = {400 * k}",
    ]
    lines += [f"clearance = {rng.choice([0.5, 1, 2]) * k}", f"tolerance = {0.02 * k}", f"home_x = {300 * k}"]
    choices = {"prefer": ["time", "blocks", "tools"], "block_numbers": ["none", "operation", "all"]}
    choices |= {"retreat": ["place", "reference"]} if "home" in dialect.blocks else {}
    choices |= {"form": ["cycle", "plunges"]} if dialect.cycle else {}
    lines += [f'{key} = "{rng.choice(values)}"' for key, values in choices.items()]
    lines += [f"optional_stops = {rng.choice(['true', 'false'])}", f"work_offset = {rng.choice([0, 1, 3])}"]
    for station, where in enumerate(["outside"] * rng.choice([1, 2, 3]) + ["inside"], 1):
        width = rng.choice([1, 1.5, 2] if station == 1 or where == "inside" else [2.5, 3, 4])
        lines += ["[[tools]]", f"station = {station}", f"width = {width * k}", f'where = "{where}"']
        lines += [f"corner_radius = {rng.choice([0, 0.1, 0.2]) * k}", f"max_depth = {rng.choice([8, 15, 25]) * k}"]
        lines += [f'reference = "{rng.choice(["near", "far"])}"', f"peck = {rng.choice([0, 0.5, 1, 2]) * k}"]
        lines += [f"retract = {rng.choice([0.2, 0.5]) * k}", f"finish = {rng.choice([0, 0, 0.1]) * k}"]
        lines += [f"holder_near = {rng.choice([0, 2, 5]) * k}", f"holder_far = {rng.choice([0, 2]) * k}"]
    return parse_shop("\n".join(lines), "random shop", units)


def tip(tool: Tool) -> Polygon:
    """An insert with its corners in chords, its programmed point at (0, 0)."""
    low, r = 0.0 if tool.reference == "far" else -tool.width, tool.corner_radius
    sign = -1 if tool.where == "inside" else 1
    quarter = [math.pi / 16 * step for step in range(9)] if r else [0.0]
    far = [(low + r - r * math.cos(a), sign * (r - r * math.sin(a))) for a in quarter]
    near = [(low + tool.width - r + r * math.sin(a), sign * (r - r * math.cos(a))) for a in quarter]
    return Polygon([*far, *near, (low + tool.width, 2 * sign * FAR_OUT), (low, 2 * sign * FAR_OUT)])


def body(tool: Tool) -> Polygon:
    """The holder above the reach of an insert, a hair smaller than it is."""
    low, hair = 0.0 if tool.reference == "far" else -tool.width, tool.width / 1000
    left, right = low - (tool.holder_far or 0) + hair, low + tool.width + (tool.holder_near or 0) - hair
    heights = sorted((-1 if tool.where == "inside" else 1) * height for height in (tool.max_depth + hair, 2 * FAR_OUT))
    return box(left, heights[0], right, heights[1])


def half_section(part: Part, drawn: bool) -> BaseGeometry:
    """What the drawing leaves, or the metal before it is grooved, on the bar behind."""
    line, back = part.outline if drawn else part.lands, -part.length - BEHIND
    metal = Polygon([*line, (back, line[-1][1]), (back, 0), (line[0][0], 0)])
    metal = metal.difference(box(back, 0, BEHIND, part.bore[0][1] if part.bore else 0))
    for groove in part.grooves if drawn else ():
        if groove.where == "inside":
            metal = metal.difference(box(groove.z_far, 0, groove.z_near, groove.floor_diameter / 2))
    return metal


def faults(part: Part, shop: Shop, text: str, iso: bool) -> Iterator[str]:
    """What is wrong with the metal that a written program leaves."""
    legs, k = Reader(text, iso=iso).run().legs, UNIT[part.units]
    left, crashes = swept_out(
        half_section(part, False), legs, {t.station: tip(t) for t in shop.tools}, 20 * HAIR * k * k
    )
    yield from (f"line {leg.line}: a rapid through {area:.5f} of metal" for leg, area in crashes)
    as_rapids = [replace(leg, kind="rapid") for leg in legs]
    struck = [
        (leg, swept_out(left, [leg], {t.station: body(t) for t in shop.tools}, 200 * HAIR * k * k)[1])
        for leg in as_rapids
    ]
    yield from (f"line {leg.line}: the holder is in the metal" for leg, hits in struck if hits)
    drawn, thin = half_section(part, True), 0.75 * shop.machine.tolerance
    rounds = 1.1 * max([tool.corner_radius for tool in shop.tools] + [groove.corner_radius for groove in part.grooves])
    for what, off in (("gone", drawn.difference(left)), ("left", left.difference(drawn))):
        wrong = off.buffer(-thin, join_style="mitre")
        for piece in getattr(wrong, "geoms", [wrong]):
            z0, r0, z1, r1 = piece.bounds or (0, 0, 0, 0)
            if max(z1 - z0, r1 - r0) > rounds:
                yield f"metal is {what} at Z{z1:.3f} to Z{z0:.3f}, radius {r0:.3f} to {r1:.3f}"


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--count", type=int, default=50)
    ask.add_argument("--first", type=int, default=0)
    given = ask.parse_args()
    counts = Counter[str]()
    for seed in range(given.first, given.first + given.count):
        units = random.Random(seed).choice(["mm", "mm", "in"])
        part = random_part(random.Random(seed), units)
        for name, dialect in dialects().items():
            shop = random_shop(random.Random(seed), units, dialect)
            spoken = replace(dialect, cycle=None) if shop.machine.form == "plunges" else dialect
            shop = replace(shop, grid=spoken.grid(units))
            plan = plan_part(part, shop, cycles=spoken.cycles)
            if plan.stopped:
                counts[next(f"refused: {f.code}" for f in plan.findings if f.stops)] += 1
                continue
            text = write_program(plan, spoken, HEADING).text
            wrong = list(faults(part, shop, text, name not in ("two-block", "one-block")))
            if not compare_program(part, text, shop, spoken).agree:
                wrong.append("the judge doesn't agree")
            counts["wrong" if wrong else "as drawn"] += 1
            for fault in wrong:
                print(seed, name, fault, flush=True)
    for what, count in counts.most_common():
        print(f"{count:6} {what}")


if __name__ == "__main__":
    main()
