"""How fast programs are cut in simulation: 100,000 moves, ten times the moves, and one usual program.

Run by hand: `python tests/bench/simulation_rates.py`. Prints rates and ratios; asserts nothing about time.
"""

import random
import time

from support.moves import Moves, shop, tool
from support.parts import part_of, row

from planner.increment import Increments
from postproc import cut_profile, judge

MM = Increments.of("mm")


def seconds(work):
    """Processor seconds of one run."""
    begin = time.process_time()
    work()
    return time.process_time() - begin


def scattered(count, length):
    """Plunges at random depths along a long bar, every one overlapping fifty others."""
    rng, moves = random.Random(1), Moves(42.0, 0.0)
    for i in range(count // 2):
        moves.rapid(42.0, -length * i * 2 / count).feed(rng.randrange(30_000, 40_000) / 1000)
    return moves


def pecked(grooves, pecks):
    """Grooves with ever so many pecks."""
    moves = Moves()
    for i in range(grooves):
        moves.rapid(42, -13 - 5 * i)
        for n in range(pecks):
            moves.feed(40 - 6 * (n + 1) / pecks).rapid(41.5)
        moves.rapid(42)
    return moves


def main():
    """Print the rates."""
    bar = part_of([], length=20_000)
    for count in (10_000, 100_000):
        moves = scattered(count, 6_000)
        spent = seconds(lambda moves=moves: cut_profile(moves.motions, [tool()], bar, MM))
        print(f"cut_profile: {count} scattered moves, {spent:.2f} s, {count / spent / 1000:.0f} k moves/s")
    part, lathe = part_of(row(40, -10, 5, 3, 34), length=250), shop(stick_out=None)
    run = pecked(40, 1250).run()
    spent = seconds(lambda: judge(part, run, lathe))
    print(f"judge: {len(run.motions)} moves, {spent:.2f} s, {len(run.motions) / spent / 1000:.0f} k moves/s")
    usual = pecked(40, 4).run()
    spent = seconds(lambda: judge(part, usual, lathe))
    print(f"judge: a usual program of {len(usual.motions)} moves, {1000 * spent:.0f} ms")


if __name__ == "__main__":
    main()
