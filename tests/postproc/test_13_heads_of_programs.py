"""The head and the end of a program in every dialect: safe words, the spindle's sense, the way to change, the clamp."""

import pytest
from support.hand_plans import PLANS

from extractor.errors import ProgramError
from planner import parse_shop, plan_part
from postproc import Heading, compare_program, dialects, write_program

HEADING = Heading("a.dxf", "0" * 64)
TONGUES = pytest.mark.parametrize("name", dialects())
HAND = next(hand for hand in PLANS if hand.name == "three in a bore")
ROW = next(hand for hand in PLANS if hand.name == "four alike")


def written(hand, name, *changes):
    dialect = dialects()[name]
    plan = plan_part(hand.part, parse_shop(hand.shop, "s", "mm", changes), cycles=dialect.cycles)
    text = write_program(plan, dialect, HEADING).text
    return text, compare_program(hand.part, text, plan.shop, dialect), plan


def blocks(text):
    return [line for line in text.splitlines() if line and line[0] not in "%(O"]


@TONGUES
def test_safe_words_come_first_and_the_offset_is_cancelled_last(name):
    text, verdict, _ = written(ROW, name)
    assert blocks(text)[0] == "G18 G40 G80"
    assert blocks(text)[-2:] == ["T0200", "M30"]
    assert verdict.agree
    assert not [f for f in verdict.findings if f.level == "caution"]


@TONGUES
def test_the_turret_is_free_before_it_turns_and_leaves_a_bore_along_z(name):
    lines = blocks(written(HAND, name)[0])
    first = lines.index("T0505")
    assert lines[first - 2 : first] == ["G00 X200.", "G00 Z100."]
    away = [line for line in lines[first:] if line in ("G00 X200.", "G00 Z100.")]
    assert away == ["G00 Z100.", "G00 X200."]


@TONGUES
@pytest.mark.parametrize(("said", "word", "other"), [("cw", "M03", "M04"), ("ccw", "M04", "M03")])
def test_the_sense_is_written_said_and_judged(name, said, word, other):
    text, verdict, plan = written(ROW, name, f"tools.2.spindle={said}")
    assert sum(block.endswith(word) for block in blocks(text)) == 1
    assert f"T0202 SPINDLE {'COUNTER-' if said == 'ccw' else ''}CLOCKWISE" in text
    assert verdict.agree
    assert "spindle-reverse" not in {f.code for f in verdict.findings}
    turned = text.replace(f" {word}", f" {other}")
    again = compare_program(ROW.part, turned, plan.shop, dialects()[name])
    (found,) = [f for f in again.findings if f.code == "spindle-reverse"]
    assert found.stops
    assert other in found.message


@TONGUES
def test_nobody_said_the_sense(name):
    """Neither the shop file nor, in the second program, the heading, which is held against its own program."""
    text, _, plan = written(ROW, name)
    turned = text.replace(" M03", " M04")
    for said, levels in ((turned, ["caution", "stop"]), (turned.replace(" SPINDLE CLOCKWISE", ""), ["caution"])):
        again = compare_program(ROW.part, said, plan.shop, dialects()[name])
        assert sorted(f.level for f in again.findings if f.code == "spindle-reverse") == levels


@TONGUES
def test_to_the_reference_point_where_the_dialect_has_a_word_for_it(name):
    if not dialects()[name].blocks.get("home"):
        with pytest.raises(ProgramError, match=r"home|reference"):
            written(ROW, name, "retreat=reference")
        return
    text, verdict, _ = written(ROW, name, "retreat=reference", "work_offset=2")
    assert blocks(text).count("G28 U0.") == 2
    assert blocks(text).count("G28 W0.") == 2
    assert "G55" in blocks(text)
    assert verdict.agree, verdict.findings


@TONGUES
def test_the_clamp_is_written_as_high_as_it_need_be(name):
    # n = 1000 vc / (pi D) with 120 m/min on 35: 1091 rev/min, rounded up to ten.
    assert any(block.endswith("S1100") for block in blocks(written(ROW, name)[0]))
