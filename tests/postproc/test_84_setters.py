"""Programs as twenty setters write them, right and with slips, against a control and a height field of their own.

The oracle is `support.setters`: a control from ISO 6983 and common practice, metal in cells of 0.005 mm. What it finds
right must agree; what it finds wrong or unsafe must be told.
"""

import random
import tempfile
from functools import cache
from pathlib import Path

import pytest
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
from postproc import compare_program, explain

SEEDS = tuple(range(9000, 9016))
SPOILT = SEEDS[:4]
# What right programs may be told beside their agreement.
REMARKS = {"no-pecks", "units-not-said", "code-systems-mixed", "span-not-whole", "edge-broken", "sideways-in-solid"}
# The shop's own limits and the control's habits, which the oracle doesn't know.
MORE_THAN_METAL = {
    "peck-out-by-ten",
    "shift-out-by-ten",
    "feed-too-great",
    "into-jaws",
    "index-near-part",
    "sideways-in-solid",
}
# A place in what a G word leaves in force, or from where nobody knows: a control may take it as meant.
UNSAID = {"no-motion-word", "cycle-start-unknown", "place-unknown", "no-return", "no-feed", "too-far", "unknown-word"}


def names(seed):
    return list(TWENTY)[seed % len(TWENTY)]


@cache
def made(seed):
    """(shaft, the part as it is read from its sheet, shop, habits, blocks) of a seed."""
    shaft = random_shaft(seed)
    habits = TWENTY[names(seed)] if seed % 3 else mixed(random.Random(f"habits {seed}"))
    with tempfile.TemporaryDirectory() as folder:
        sheet = Path(folder) / "shaft.dxf"
        draw(shaft, sheet)
        part = read_drawing(sheet, ReadOptions(grooved=True)).part
    shop = parse_shop(shop_text(shaft), "shop.toml", shaft.units)
    return shaft, part, shop, habits, blocks_of(shaft, habits, seed)


def oracle(shaft, text):
    """(alarms, dangers, fields) of a program in the other control."""
    control = Control(shaft.control, shaft.units).run(text)
    fields, dangers = cut_all(shaft, control)
    return control.alarms, dangers, fields


@pytest.mark.parametrize("seed", SEEDS)
def test_what_setters_write_agrees(seed):
    shaft, part, shop, habits, blocks = made(seed)
    text, _ = spell(blocks, habits)
    alarms, dangers, fields = oracle(shaft, text)
    assert not alarms
    assert not dangers
    assert not off(shaft, fields), text
    found = compare_program(part, text, shop)
    assert found.agree, (text, found)
    assert {f.code for f in found.findings if f.level != "note"} <= REMARKS, text


@pytest.mark.parametrize("seed", SPOILT)
def test_a_slip_is_told_where_it_harms_and_only_there(seed):
    shaft, part, shop, habits, blocks = made(seed)
    rng = random.Random(f"slips {seed}")
    for name in rng.sample(sorted(SLIPS), 8):
        spoilt = SLIPS[name](blocks, rng)
        if spoilt is None:
            continue
        text, _ = spell(spoilt[0], habits)
        alarms, dangers, fields = oracle(shaft, text)
        found = compare_program(part, text, shop)
        told = {f.code for f in found.findings if f.level != "note"}
        if alarms or dangers or off(shaft, fields, 1.4):
            assert not found.agree or told & {"spindle-reverse", "no-end", "endless"}, (name, text)
        elif not off(shaft, fields, 0.7):
            assert found.agree or told & (MORE_THAN_METAL | UNSAID), (name, text, found)


def test_the_oracle_can_tell_and_be_told():
    """Neither side of the comparison is blind: many slips harm, many don't, and both sides say so."""
    harmed = harmless = 0
    for seed in SPOILT[:4]:
        shaft, _, _, habits, blocks = made(seed)
        rng = random.Random(f"both {seed}")
        for name in rng.sample(sorted(SLIPS), 10):
            spoilt = SLIPS[name](blocks, rng)
            if spoilt is not None:
                alarms, dangers, fields = oracle(shaft, spell(spoilt[0], habits)[0])
                wrong = bool(alarms or dangers or off(shaft, fields))
                harmed, harmless = harmed + wrong, harmless + (not wrong)
    assert harmed > 10
    assert harmless > 3


@pytest.mark.parametrize("seed", SEEDS[:10])
def test_explain_names_the_plunges_that_the_other_control_makes(seed):
    shaft, _, _, habits, blocks = made(seed)
    text, _ = spell(blocks, habits)
    control = Control(shaft.control, shaft.units).run(text)
    told = explain(text)
    assert all(block.sentence.endswith(".") for block in told.blocks)
    lines = {move.line for move in control.moves if not move.rapid}
    assert {line for plunge in told.plunges for line in plunge.lines} <= lines
    assert told.plunges
