"""Right programs with one character or one word wrong, and whether what they cut otherwise is told."""

import random
import re
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from extractor.errors import ProgramError
from postproc import find_dialect, guess_dialect, interpret, judge, parse_as, parse_program
from postproc.dialect import Dialect
from postproc.reading.run import Run
from support.hands.style import HandProgram, hand_programs
from support.slow_cut import differs

CHARACTERS = "0123456789.-+GXZUWFPQRIKSTMNO/ ();%\n"
WORD = re.compile(r"(?i)([a-z])\s*([-+]?)(\d*\.?\d+|\d+\.)")
OTHER = {"X": "ZU", "Z": "XW", "U": "X", "W": "Z", "P": "Q", "Q": "P", "I": "K", "K": "I"}
"""Addresses that are written for one another by mistake (common practice, no source)."""
CODES = {"0": "1", "1": "0", "98": "99", "99": "98", "20": "21", "21": "20", "3": "5", "4": "3"}
"""The same for the numbers of G and M words."""
SLACK = 1.02
"""The slow check forgives this much more than the tolerance, so that no last digit decides."""


@dataclass
class Tally:
    """How many mutants were told, how many cut nothing else and passed, and those that were missed.

    `left_out` counts those with more moves than asked for: a peck of one increment makes hundreds of thousands.
    """

    told: int = 0
    left_out: int = 0
    harmless: int = 0
    missed: list[str] = field(default_factory=list)
    codes: Counter[str] = field(default_factory=Counter)


def mutated(text: str, rng: random.Random) -> str:
    """A text with one character left out, put in or exchanged."""
    at, how = rng.randrange(len(text)), rng.randrange(3)
    new = "" if how == 0 else rng.choice(CHARACTERS)
    return text[:at] + new + text[at + (how != 1) :]


def slipped(text: str, rng: random.Random) -> str:
    """A text with one slip of a setter's: a word left out or wrong, a block left out, two blocks exchanged."""
    lines = text.split("\n")
    at = rng.choice([n for n, line in enumerate(lines[:-1]) if re.search(r"(?i)[xzuw]\s*[-+]?\.?\d", line)])
    words = [found for found in WORD.finditer(lines[at].split("(")[0]) if found[1].upper() not in "NO"]
    how = rng.randrange(8) if words else rng.choice([6, 7])
    if how == 7:
        lines[at], lines[at + 1] = lines[at + 1], lines[at]
    elif how == 6:
        del lines[at]
    else:
        word = rng.choice(words)
        lines[at] = lines[at][: word.start()] + _wrong(word, how, rng) + lines[at][word.end() :]
    return "\n".join(lines)


def _wrong(word: re.Match[str], how: int, rng: random.Random) -> str:
    """One word left out, or with another address, code, sign, size or place of the point."""
    letter, sign, digits = word.groups()
    if how == 0:
        return ""
    if letter.upper() in "GM":
        return f"{letter}{sign}{CODES.get(digits.lstrip('0') or '0', digits)}"
    if how == 1:
        return f"{rng.choice(OTHER.get(letter.upper(), letter))}{sign}{digits}"
    if how == 2:
        return f"{letter}{'' if sign else '-'}{digits}"
    if how == 3:
        return f"{letter}{sign}{digits.replace('.', '') or '0'}"
    factor = rng.choice([0.1, 0.5, 2, 10, 100]) if how == 4 else 1 + rng.choice([-1, 1]) * rng.uniform(0.001, 0.02)
    return f"{letter}{sign}{float(digits) * factor:.4f}" if "." in digits else f"{letter}{sign}{digits}0"


def run_of(program: HandProgram, text: str, named: Mapping[str, Dialect]) -> Run:
    """A text run in the dialect named, or in the one that it seems to be in; ProgramError where it can't be read."""
    if program.dialect in named:
        return interpret(parse_as(text, named[program.dialect]), named[program.dialect], program.units)
    parsed = parse_program(text)
    return interpret(parsed, guess_dialect(parsed) or find_dialect(program.shop.machine.dialect), program.units)


def tally(
    count: int,
    seed: int,
    content: bool = False,
    most_moves: int = 1_000_000,
    programs: Sequence[HandProgram] = (),
    named: Mapping[str, Dialect] | None = None,
    change: Callable[[str, random.Random], str] = mutated,
) -> Tally:
    """Try so many mutants; `content` leaves the verdict out, to show that the check can fail.

    Of `programs`, else of those in many hands; those of a dialect that is `named` are read in it. `change` spoils one.
    """
    rng, found = random.Random(seed), Tally()
    programs = programs or tuple(hand_programs(60, seed=seed + 40))
    for _ in range(count):
        program = rng.choice(programs)
        text = change(program.text, rng)
        try:
            run = run_of(program, text, named or {})
        except ProgramError:
            found.told += 1
            continue
        if len(run.motions) > most_moves:
            found.left_out += 1
            continue
        if not content:
            verdict = judge(program.part, run, program.shop)
            if not verdict.agree:
                found.told += 1
                found.codes.update({f.code for f in verdict.findings if f.stops})
                continue
        # A program in the other units is scaled by the verdict; here it can only be one that cuts nothing near.
        same_units = run.units == program.part.units
        if not same_units or differs(program.part, run, program.shop, SLACK * program.shop.machine.tolerance):
            found.missed.append(f"{program.name}:\n{text}")
        else:
            found.harmless += 1
    return found
