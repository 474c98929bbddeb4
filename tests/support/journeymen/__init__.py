"""Right programs by hands that know their trade: contours with arcs, finished walls, zigzags, rows by increments.

    for made in journeyman_programs(200, seed=1): ...

A part is drawn first (lands, grooves, some with rounded floor corners), then for each groove or row a way to cut it,
then the hand that writes it down. Right by construction: every way ends above all metal, and each was worked out here
from the drawing's numbers. Ways and habits: common practice, no source. Shares nothing with `support.hands.style` or
the tool's own writer.
"""

import random
from collections.abc import Iterator
from dataclasses import dataclass

from extractor.part import Part, Units
from planner.shop import Shop
from support.journeymen.parts import Bench, drawn, part_of, shop_of
from support.journeymen.pen import Pen
from support.journeymen.ways import Journey


@dataclass(frozen=True)
class Made:
    """A right program with what it was written for; `ways` are those that it uses."""

    name: str
    text: str
    dialect: str
    part: Part
    shop: Shop
    ways: frozenset[str]


def journeyman_programs(count: int, seed: int) -> Iterator[Made]:
    """So many programs."""
    for n in range(count):
        yield journeyman_program(seed * 100_057 + n)


def journeyman_program(seed: int) -> Made:
    """The program of a seed."""
    rng = random.Random(seed)
    units: Units = rng.choice(["mm", "mm", "in"])
    per_length = 1_000 if units == "mm" else 10_000
    mm = 1_000 if units == "mm" else 400
    bench = Bench(
        units,
        per_length,
        rng.choice([3, 4, 5]) * mm,
        rng.choice([3, 4]) * mm // 2,
        rng.random() < 0.5,
        rng.choice([0, mm // 5, mm // 5]),
    )
    lands, cuts, length = drawn(rng, bench)
    dialect = rng.choice(["two-block", "two-block", "one-block", "plunge"])
    pen = Pen.random(rng, per_length, 10_000 if units == "mm" else 100_000)
    journey = Journey(bench, dialect, pen, rng, max(across for _, across in lands))
    text = journey.write(cuts)
    part, shop = part_of(bench, lands, cuts, length), shop_of(bench, length, dialect)
    return Made(f"journeyman-{seed}", text, dialect, part, shop, frozenset(journey.ways))
