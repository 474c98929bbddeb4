"""How compare judges programs of invented setters, right ones and slips, beside a control of its own; prints counts.

python tests/bench/setter_rates.py [--count N] [--first SEED] [--slips N] [--show]
"""

import argparse
import collections
import random
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[2]))

from support.setters.control import Control
from support.setters.field import cut_all, off
from support.setters.habits import TWENTY, mixed
from support.setters.hands import blocks_of
from support.setters.pen import spell
from support.setters.shafts import random_shaft, shop_text
from support.setters.sheets import draw
from support.setters.slips import SLIPS

from extractor import ReadOptions, read_drawing
from planner import parse_shop
from postproc import compare_program


def weigh(shaft, part, shop, text):
    """(word, what the tool told): "right agreed", "false alarm", "harm told", "harm missed" or "doubtful"."""
    control = Control(shaft.control, shaft.units).run(text)
    fields, dangers = cut_all(shaft, control)
    found = compare_program(part, text, shop)
    told = sorted({f.code for f in found.findings if f.level != "note"})
    if control.alarms or dangers or off(shaft, fields, 1.4):
        return ("harm told" if not found.agree else "harm told as a caution" if told else "harm MISSED"), told
    if off(shaft, fields, 0.7):
        return "doubtful", told
    return ("right agreed" if found.agree else "no harm in the metal, stop"), told


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--count", type=int, default=20)
    ask.add_argument("--first", type=int, default=0)
    ask.add_argument("--slips", type=int, default=10)
    ask.add_argument("--show", action="store_true")
    given = ask.parse_args()
    right, slipped, stops = (collections.Counter[str]() for _ in range(3))
    began = time.process_time()
    for seed in range(given.first, given.first + given.count):
        shaft, rng = random_shaft(seed), random.Random(f"rates {seed}")
        habits = list(TWENTY.values())[seed % len(TWENTY)] if seed % 3 else mixed(rng)
        with tempfile.TemporaryDirectory() as folder:
            draw(shaft, Path(folder) / "shaft.dxf")
            part = read_drawing(Path(folder) / "shaft.dxf", ReadOptions(grooved=True)).part
        shop, blocks = parse_shop(shop_text(shaft), "shop.toml", shaft.units), blocks_of(shaft, habits, seed)
        word, told = weigh(shaft, part, shop, spell(blocks, habits)[0])
        right[word] += 1
        if word != "right agreed":
            print(f"  {seed} right program: {word} {told}", flush=True)
        for name in rng.sample(sorted(SLIPS), given.slips):
            spoilt = SLIPS[name](blocks, rng)
            if spoilt is None:
                continue
            word, told = weigh(shaft, part, shop, spell(spoilt[0], habits)[0])
            slipped[word] += 1
            stops.update(told if word.startswith("no harm") else ())
            if word == "harm MISSED" or given.show:
                print(f"  {seed} {name}: {word} {told}", flush=True)
    print("right programs:", dict(right))
    print("slips:", dict(slipped))
    print("told where the metal is right:", dict(stops.most_common()))
    print(f"{time.process_time() - began:.0f} s")


if __name__ == "__main__":
    main()
