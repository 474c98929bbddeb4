"""What a reader makes of words at the edge of each rule: just so, and just not."""

from dataclasses import replace

import pytest
from support.programs import run_behind, run_of
from support.tongues import FIVE

from planner.increment import Increments
from planner.steps import Gear
from postproc import find_dialect, parse_program
from postproc.motion import Motion
from postproc.reading.events import _same
from postproc.reading.guess import _grooves
from postproc.reading.log import Log
from postproc.reading.renaming import Renaming
from postproc.reading.run import ZeroSetting
from postproc.reading.values import BlockWords
from postproc.reading.zeros import _slip
from postproc.vocabulary.pattern import Gap

HEAD = "G21 G99\nG97 S500 M03\nT0303\nG00 X60. Z5.\n"
TWO_BLOCK = find_dialect("two-block")


def words_of(line):
    return parse_program(line).blocks[0].words


@pytest.mark.parametrize(("word", "same"), [("G80", True), ("G080", True), ("M80", False), ("G81", False)])
def test_a_word_is_the_one_named_however_many_zeros_it_has(word, same):
    assert _same(words_of(word)[0], "G80") is same


def test_an_offset_that_names_none_is_no_other_one():
    run = run_of(f"G54.1\n{HEAD}G54\nX50.\nM30\n")
    assert [f.code for f in run.findings] == ["unknown-word"]


def test_a_gear_is_found_among_the_other_switches_of_its_block():
    assert [one.number for one in run_behind(HEAD, "S600 M03 M42").steps if isinstance(one, Gear)] == [3]


def test_which_numbers_of_an_address_a_program_uses():
    assert parse_program("G03 M08 T0404\nM30").uses("M", {3, 8, 4}) == {8}


@pytest.mark.parametrize(
    ("line", "mine"), [("M98 P9075 FEED=0.1", 2), ("M98 P9076", 0), ("M08 P9075", 0), ("G01 X3.", 0)]
)
def test_a_call_without_a_g_word_has_all_of_its_words(line, mine):
    tongue = FIVE["stored-groove"]
    words = parse_program(line, tongue.assigned).blocks[0].words
    assert len(Renaming(tongue).calling(words)) == mine
    assert Renaming(TWO_BLOCK).calling(words) == frozenset()


@pytest.mark.parametrize(
    ("across", "measure", "times"),
    [(True, "", 1), (True, "diameter", 1), (True, "radius", 2), (False, "", 2), (False, "diameter", 1)],
)
def test_a_radius_counts_twice_and_a_diameter_once(across, measure, times):
    words = BlockWords(replace(TWO_BLOCK, diameter_x=across), Increments.of("mm"), Log(), None, False)
    assert words.times(Gap("x", "X", measure=measure)) == times
    assert words.times(Gap("z", "Z", measure=measure)) == 1


def back(*places):
    return [Motion(kind="rapid", line=1, x0=0, z0=0, x1=x, z1=z, station=3, offset=3) for x, z in places]


@pytest.mark.parametrize(
    ("setting", "place", "slip"),
    [
        ((123_456, 50_000), (123_456, 150_000), None),
        ((123_456, 50_000), (123_456, 500_000), "Z"),
        ((123_456, 50_000), (1_234_560, 50_000), "X"),
        ((123_456, 50_000), (123_456, 50_000), None),
        ((123_456, 50_000), (90_000, 500_000), None),
        ((123_456, 50_000), (123_456, 77_000), None),
        ((None, 50_000), (123_456, 500_000), None),
        ((123_456, None), (1_234_560, 50_000), None),
    ],
)
def test_a_place_come_back_to_is_a_slip_of_the_one_said_in_one_axis_alone(setting, place, slip):
    assert _slip(ZeroSetting(1, 0, *setting), back(place)) == slip


@pytest.mark.parametrize(("fields", "slip"), [({}, None), ({"kind": "feed"}, "Z"), ({"home": True}, "Z")])
def test_only_rapids_that_do_not_go_home_come_back_to_a_place(fields, slip):
    moves = back((123_456, 50_000), (123_456, 500_000))
    assert _slip(ZeroSetting(1, 0, 123_456, 50_000), [moves[0]._replace(**fields), moves[1]]) == slip
    assert _slip(ZeroSetting(1, 0, 123_456, 50_000), [moves[1]._replace(**fields)]) == (None if fields else "Z")


@pytest.mark.parametrize(("line", "mine"), [("G75", True), ("M75", False), ("G01", False)])
def test_the_word_of_a_grooving_cycle_is_a_g_word_with_its_number(line, mine):
    assert _grooves(words_of(line)[0], TWO_BLOCK) is mine


@pytest.mark.parametrize("sides", ["#1 EQ #0", "#0 EQ #1"])
def test_a_variable_with_a_value_is_not_the_empty_one(sides):
    run = run_behind(HEAD, f"#1=5\nIF[{sides}]GOTO10\nG00 X70.\nN10 G00 X80.")
    assert [one.x1 for one in run.motions[1:]] == [70_000, 80_000]
    assert not [one for one in run.findings if one.stops]
