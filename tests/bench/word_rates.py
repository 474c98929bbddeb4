"""How fast programs are read and run: words a second beside an independent library, and 100,000 moves.

Run by hand: `python tests/bench/word_rates.py`. Prints rates and ratios; asserts nothing about time.
"""

import random
import time
import warnings

from postproc import find_dialect, interpret, parse_program

with warnings.catch_warnings():  # it imports modules that Python will drop
    warnings.simplefilter("ignore")
    from pygcode.words import text2words

BLOCKS = 100_000


def program(blocks):
    """Rapids and cuts with three words a block."""
    rng = random.Random(1)
    body = [f"G0{n % 2} X{rng.uniform(1, 99):.3f} Z-{rng.uniform(1, 99):.3f}" for n in range(blocks)]
    return "\n".join(["G21 G99", "G97 S800 M03", "G01 F0.1", *body, "M30"])


def best(work, times=3):
    """Shortest of a few runs, in seconds."""
    spent = []
    for _ in range(times):
        begin = time.perf_counter()
        work()
        spent.append(time.perf_counter() - begin)
    return min(spent)


def main():
    """Print the rates."""
    text = program(BLOCKS)
    words = sum(len(block.words) for block in parse_program(text).blocks)
    few = text.split("\n")[: BLOCKS // 5]
    ours = best(lambda: parse_program(text))
    theirs = best(lambda: [list(text2words(line)) for line in few])
    their_rate = 3 * len(few) / theirs
    print(f"reading: {words / ours / 1000:.0f} k words/s; pygcode's words {their_rate / 1000:.0f} k words/s; ", end="")
    print(f"ratio {words / ours / their_rate:.2f}")
    parsed, dialect = parse_program(text), find_dialect("two-block")
    print(f"running: {BLOCKS / best(lambda: interpret(parsed, dialect, 'mm')) / 1000:.0f} k moves/s")


if __name__ == "__main__":
    main()
