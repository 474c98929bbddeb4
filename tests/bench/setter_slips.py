"""Every slip of a list in each right program of a setter: told, harmless, or missed, by the oracle's own metal.

Run as `PYTHONPATH=.:tests python tests/bench/setter_slips.py [--share S] [--seed N] [--only NAME]`. Prints what was
missed (the metal is wrong, or a rapid goes through it, and the program agrees) and, by code, what was stopped though
the metal is right: of each of these a person should be able to say why it is unsafe all the same.
"""

import argparse
import random
import re
from collections import Counter
from collections.abc import Iterator

from support.metal_oracle import LOST, Metal
from support.setters import PROGRAMS

from extractor.errors import RillwrightError
from postproc import compare_program

WORD = re.compile(r"([A-Za-z])([-+]?)(\d*\.?\d+|\d+\.)")
OTHER = {"X": "UZ", "Z": "WX", "U": "X", "W": "Z", "P": "Q", "Q": "P", "I": "K", "K": "I"}
CODES = {
    "G": {0: [1, 2], 1: [0, 3], 75: [1], 99: [98], 98: [99], 96: [97], 97: [96], 20: [21], 21: [20], 40: [41, 42]},
    "M": {3: [4, 5], 98: [99], 99: [30]},
}
BY = (1, 0.1, 0.5, 4, 10)
"""How far a figure is off: an insert's width, a pitch, a digit."""


def slips(text: str) -> Iterator[tuple[str, str]]:
    """Each slip in words, and what it makes of the text."""
    lines = text.split("\n")
    for at, line in enumerate(lines):
        if not line.strip() or line[0] in "%":
            continue
        for told, new in _of_line(lines, at):
            yield f"line {at + 1}: {told}", "\n".join([*lines[:at], *new])


def _of_line(lines: list[str], at: int) -> Iterator[tuple[str, list[str]]]:
    line, rest = lines[at], lines[at + 1 :]
    yield f"{line} left out", rest
    yield f"{line} twice", [line, line, *rest]
    if rest and rest[0]:
        yield f"{line} after {rest[0]}", [rest[0], line, *rest[1:]]
    for found in WORD.finditer(line.split("(")[0]):
        for new in _of_word(*found.groups()):
            changed = line[: found.start()] + new + line[found.end() :]
            yield f"{line} -> {changed}", [changed, *rest]


def _of_word(letter: str, sign: str, digits: str) -> Iterator[str]:
    address = letter.upper()
    yield ""
    if address in CODES:
        yield from (f"{letter}{code:02d}" for code in CODES[address].get(int(float(digits)), []))
    elif address == "T":
        yield from ("T0606", "T0202", f"T{digits[:2]}00", f"T{digits[:2]}09")
    elif address in "XZUWPQIKRF":
        yield f"{letter}{'' if sign else '-'}{digits}"
        yield from (f"{other}{sign}{digits}" for other in OTHER.get(address, ""))
        if "." not in digits:
            yield from (f"{letter}{sign}{digits}0", f"{letter}{sign}{digits[:-1]}")
            return
        yield f"{letter}{sign}{digits.replace('.', '')}"
        value = float(digits)
        others = [value * 2, value / 2, value * 10, value / 10, *(value + d for d in BY), *(value - d for d in BY)]
        yield from (f"{letter}{sign}{other:.4f}" for other in others if other >= 0)


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--share", type=float, default=0.2)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--only", default="")
    given = ask.parse_args()
    rng, counts, alarms = random.Random(given.seed), Counter[str](), Counter[str]()
    for name, (work, right) in PROGRAMS.items():
        metal = Metal(work)
        for told, text in slips(right) if given.only in name else ():
            if text == right or rng.random() > given.share:
                continue
            try:
                verdict = compare_program(work.part, text, work.shop)
                faults = list(metal.faults(text))
            except (RillwrightError, *LOST):
                counts["not to be followed"] += 1
                continue
            counts[f"metal {'wrong' if faults else 'right'}, {'agrees' if verdict.agree else 'told'}"] += 1
            if faults and verdict.agree:
                print(f"MISSED in {name}, {told}: {faults[0]}", [str(f.code) for f in verdict.findings])
            elif not faults:
                alarms.update({str(f.code) for f in verdict.findings if f.stops})
    for what, count in [*sorted(counts.items()), *alarms.most_common()]:
        print(f"{count:6} {what}")


if __name__ == "__main__":
    main()
