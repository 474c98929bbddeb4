"""Right programs of other hands agree; a wrong digit, a block left out or exchanged is told wherever it cuts otherwise.

Contours with arcs, walls finished down and across, zigzags, layers, rows by W, subprograms by increments, two inserts.
Outside check: the slow simulation with polygons (shapely) says whether it matters. Hands: common practice.
"""

import random
import re
from collections import Counter
from collections.abc import Callable

import pytest
from shapely import Polygon, box
from support.journeymen import Made, journeyman_programs
from support.programs import run_of
from support.slow_cut import crashes, left_over

from extractor.finding import stopped
from extractor.part import Part
from postproc import compare_program, find_dialect
from postproc.reading.run import Run

PROGRAMS = tuple(journeyman_programs(48, seed=17))
# What some of these hands do on purpose: switches of their machine, one start above all lands, side cuts off a thin
# wall, deep plunges in one go.
REMARKS = {"own-switch", "cycle-in-air", "sideways-in-solid", "no-pecks"}
COMMENT = re.compile(r"\([^)]*\)|;.*")
MITRE = {"cap_style": "square", "join_style": "mitre"}


def test_no_false_alarm():
    for made in PROGRAMS:
        found = compare_program(made.part, made.text, made.shop)
        assert found.agree, (made.name, made.text, found)
        # And one tool dry beside another that has coolant.
        wet, tools = len(re.findall(r"(?i)M0?8\b", made.text)), len(re.findall(r"(?i)T\d{4}", made.text))
        meant = REMARKS | {"coolant-off"} if 0 < wet < tools else REMARKS
        assert {f.code for f in found.findings} <= meant, (made.name, made.text, found.findings)


def test_every_way_is_met():
    ways = Counter(way for made in PROGRAMS for way in made.ways)
    assert len(ways) == 9
    assert min(ways.values()) >= 3


def one_digit(text: str, rng: random.Random) -> str:
    """A text with one digit of one word exchanged; block numbers and remarks stay as they are."""
    masked = COMMENT.sub(lambda m: " " * len(m.group()), text)
    masked = re.sub(r"(?i)[no]\s*\d+", lambda m: " " * len(m.group()), masked)
    at = rng.choice([n for n, c in enumerate(masked) if c.isdigit()])
    return text[:at] + rng.choice([d for d in "0123456789" if d != text[at]]) + text[at + 1 :]


def apart(one: Polygon, other: Polygon, part: Part, by: float) -> bool:
    """True if two pieces of metal differ by more than so much along the drawn part."""
    along = box(-part.length, 0.0, 0.0, 10_000.0)
    one, other = one.intersection(along), other.intersection(along)
    gone, standing = other.difference(one.buffer(by, **MITRE)), one.difference(other.buffer(by, **MITRE))
    return bool(gone.area + standing.area > 1e-9)


def read(made: Made, text: str) -> Run:
    return run_of(text, made.dialect, made.part.units)


def edited(text: str, rng: random.Random) -> str:
    """A block behind the first tool left out, or two neighbours exchanged."""
    lines = text.split("\n")
    first = next(n for n, line in enumerate(lines) if re.search(r"(?i)T\d{4}", line))
    at = rng.randrange(first + 1, len(lines) - 2)
    if rng.random() < 0.5:
        del lines[at]
    else:
        lines[at], lines[at + 1] = lines[at + 1], lines[at]
    return "\n".join(lines)


@pytest.mark.parametrize(("spoilt", "count", "least"), [(one_digit, 36, 7), (edited, 32, 6)])
def test_a_wrong_digit_or_block_is_told_where_it_matters(
    spoilt: Callable[[str, random.Random], str], count: int, least: int
) -> None:
    rng, mattered, told = random.Random(23), 0, 0
    for n in range(count):
        made = PROGRAMS[n % len(PROGRAMS)]
        text, tolerance = spoilt(made.text, rng), made.shop.machine.tolerance
        run = read(made, text)
        found = compare_program(made.part, text, made.shop, find_dialect(made.dialect))
        told += stopped(found.findings) or not found.agree
        if run.units != made.part.units or len(run.motions) > 3_000:
            assert not found.agree
            continue
        otherwise = apart(left_over(made.part, run, made.shop), left_over(made.part, read(made, made.text), made.shop),
                          made.part, 1.02 * tolerance)  # fmt: skip
        hurt = crashes(made.part, run, made.shop, 1.05 * tolerance)
        mattered += otherwise or bool(hurt)
        if otherwise or hurt:
            assert not found.agree, (made.name, text, hurt, found)
    assert mattered > least
    assert told >= mattered
