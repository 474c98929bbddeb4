"""Random recesses that no plain plunge makes, in shops with plain inserts: how many are cut, how, and how true.

Run as `PYTHONPATH=.:tests python tests/bench/followed_recesses.py [first] [last]`. Each program is judged, and by brute
force held against the true line; what is planned and judged wrong, or off by more than the tolerance, is printed.
"""

import random
import sys
from collections import Counter, defaultdict
from statistics import median

from support import dense_cut
from support.hollows import KINDS, drawn
from support.recorder import run_of

from planner import parse_shop, plan_part
from postproc import judge

SCALE = {"mm": 1.0, "in": 1 / 25.4}


def shop_for(rng, units, where):
    """One to three inserts, square and now and then round."""
    k = SCALE[units]
    lines = [f'units = "{units}"', "[machine]", f"stick_out = {500 * k}"]
    for station in range(1, rng.randint(1, 3) + 1):
        lines += ["[[tools]]", f"station = {station}", f'where = "{where}"', f"max_depth = {20 * k}"]
        lines += [f"width = {rng.choice([0.5, 1.0, 1.5, 2.0, 3.0]) * k}"]
        lines += [f"corner_radius = {rng.choice([0.1, 0.2, 0.2, 0.4]) * k / 2}", f"peck = {rng.choice([0, 1]) * k}"]
        lines += [f'edge = "{rng.choice(["square"] * 4 + ["round"])}"', f'reference = "{rng.choice(["near", "far"])}"']
    return parse_shop("\n".join(lines), "shop", units)


def main(first, last):
    """Plan, judge and measure one job for every number."""
    what, blocks, worst = Counter(), defaultdict(list), defaultdict(float)
    for seed in range(first, last):
        rng = random.Random(seed)
        kind, units = list(KINDS)[seed % len(KINDS)], rng.choice(["mm", "mm", "in"])
        where = rng.choice(["outside", "outside", "inside"])
        job = drawn([KINDS[kind](rng)] * rng.choice([1, 1, 2, 3]), 25.0, units, where)
        if job.part is None or not job.part.grooves:
            what[kind, "not read"] += 1
            continue
        shop = shop_for(rng, units, where)
        plan = plan_part(job.part, shop)
        if plan.stopped:
            what[kind, "refused", *sorted({f.code for f in plan.findings if f.stops})] += 1
            continue
        path = any("finishing path" in why for o in plan.operations for why in o.why)
        way = "followed" if path else "plain"
        verdict = judge(job.part, run_of(plan), shop)
        what[kind, way, "agrees" if verdict.agree else "DIFFERS"] += 1
        radius = max(o.tool.corner_radius if o.tool.edge == "square" else 0.0 for o in plan.operations)
        line = job.left_true(radius)
        z, left = dense_cut.left_by(plan, line, where)
        off = dense_cut.off_by(z, left, line, where, dense_cut.GRID[units]) / shop.machine.tolerance
        worst[kind, way] = max(worst[kind, way], off)
        blocks[kind, way].append(sum(len(o.steps) for o in plan.operations) / len(job.part.grooves))
        if not verdict.agree or (path and off > 1):
            stops = [f.message for f in verdict.findings if f.stops]
            print(seed, kind, where, units, f"{off:.2f} of the tolerance off", verdict.agree, stops)
    for key in sorted(what, key=str):
        print(f"{what[key]:5} {' '.join(key)}")
    for key, found in sorted(blocks.items()):
        print(
            f"{' '.join(key)}: {min(found):.0f} to {max(found):.0f} steps a groove, {median(found):.0f} in the middle;",
            end=" ",
        )
        print(f"{worst[key]:.2f} of the tolerance off the true line at most")


if __name__ == "__main__":
    main(*([int(word) for word in sys.argv[1:3]] or [0, 300]))
