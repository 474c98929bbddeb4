"""Thousands of one-character mutants of right programs: how many are told, how many cut nothing else.

Run as `python -m pytest tests/bench/mutants.py -s`; prints the figures.
"""

from dataclasses import replace

from support.hands.mutants import Tally, tally
from support.hands.style import HandProgram, hand_programs
from support.tongues import FIVE

from extractor.errors import ProgramError
from planner import plan_part
from postproc import Heading, dialects, write_program


def shown(what: str, found: Tally) -> None:
    """Print the figures of one tally; none may be missed."""
    print(f"\n{what}: {found.told} told, {found.harmless} cut nothing else, {len(found.missed)} missed")
    for code, number in found.codes.most_common(12):
        print(f"  {number:5}  {code}")
    assert found.missed == [], found.missed[0]


def test_five_thousand_mutants():
    shown("5000 mutants", tally(5_000, seed=1))


def in_every_dialect(parts: int) -> list[HandProgram]:
    """Our own programs of some parts in each dialect of ours and of the tests, where it can say them."""
    made = []
    for hand in hand_programs(parts, seed=5):
        for name, dialect in {**dialects(()), **FIVE}.items():
            plan = plan_part(hand.part, hand.shop, cycles=dialect.cycles)
            try:
                text = write_program(plan, dialect, Heading("part.dxf", "0" * 64)).text
            except ProgramError:
                continue
            made.append(replace(hand, text=text, dialect=name, units=plan.increments.units, name=f"{hand.name} {name}"))
    return made


def test_mutants_of_every_dialect():
    known = {**dialects(()), **FIVE}
    shown(
        "2400 mutants in twelve dialects",
        tally(2_400, seed=2, most_moves=20_000, programs=in_every_dialect(8), named=known),
    )
