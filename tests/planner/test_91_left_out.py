"""A recess that the user answers for is left out of the program and of the verdict, and nothing else is."""

from support.parts import part_of

from planner import default_shop, plan_part
from postproc import Heading, compare_program, find_dialect, write_program

PART = part_of([(-10, -13, 36), (-20, -23, 36, {"shape": "tapered"}), (-30, -33, 36)])
SHOP = default_shop("mm")
ACCEPTED = {"recess-not-planned"}


def test_the_others_compare_right():
    plan = plan_part(PART, SHOP, ACCEPTED)
    text = write_program(plan, find_dialect("two-block"), Heading("part.dxf", "0" * 64)).text
    verdict = compare_program(PART, text, SHOP, left_out=plan.left_out)
    assert verdict.agree
    assert [m.drawing for m in verdict.matches] == [1, 3]


def test_without_the_answer_it_is_missing():
    plan = plan_part(PART, SHOP, ACCEPTED)
    text = write_program(plan, find_dialect("two-block"), Heading("part.dxf", "0" * 64)).text
    verdict = compare_program(PART, text, SHOP)
    assert not verdict.agree
    assert [m.drawing for m in verdict.matches if m.state == "missing"] == [2]


def test_another_one_missing_is_still_told():
    plan = plan_part(part_of([(-10, -13, 36)]), SHOP)
    text = write_program(plan, find_dialect("plunge"), Heading("part.dxf", "0" * 64)).text
    verdict = compare_program(PART, text, SHOP, left_out=(2,))
    assert [m.drawing for m in verdict.matches if m.state == "missing"] == [3]
