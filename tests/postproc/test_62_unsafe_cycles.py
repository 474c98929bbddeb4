"""Calls of the grooving cycle: where they start, how they peck and shift, relief at the floor."""

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of, row
from support.programs import run_of

from postproc import compare_program, judge
from postproc.verdict import Verdict

HEAD = "G21 G99\nT0303\nG50 S3000\nG96 S120 M03\nG00 X200. Z-13.\n"
TAIL = "G00 X200.\nM30\n"


def cycle(start: str = "X42. Z-13.", first: str = "G75 R0.5", second: str = "", **fields) -> str:
    words = {"X": "34.", "Z": "-28.", "P": "1000", "Q": "5000", "F": "0.08"} | fields
    spelt = " ".join(f"{letter}{value}" for letter, value in words.items() if value)
    return f"{HEAD}G00 {start}\n{first}\nG75 {spelt}{second}\n{TAIL}"


def verdict(text: str, part=None, *tools, **machine) -> Verdict:
    run = run_of(text)
    return judge(part or part_of(row(4, -10, 5, 3, 34)), run, shop(*(tools or (tool(),)), **machine))


def codes(found: Verdict, level: str = "stop") -> set[tuple[str, int | None]]:
    return {(f.code, f.line) for f in found.findings if f.level.value == level}


CALL = 8


def test_a_right_call_is_right():
    found = verdict(cycle())
    assert found.agree
    assert [m.program.lines for m in found.matches] == [(CALL,)] * 4


def test_it_starts_below_the_land():
    found = verdict(cycle(start="X39."))
    assert ("start-below-land", CALL) in codes(found)
    assert ("rapid-into-material", CALL) not in codes(found)


def test_it_starts_on_the_land():
    assert ("no-clearance", CALL) in codes(verdict(cycle(start="X40.")), "caution")


@pytest.mark.parametrize(
    ("start", "said"),
    [("X42.", ()), ("X48.", ()), ("X52.", "6 above the metal: 6 pecks"), ("X200.", "80 above the metal: 80 pecks")],
)
def test_a_start_far_above_the_metal_pecks_air(start, said):
    found = verdict(cycle(start=start))
    assert found.agree
    told = [f for f in found.findings if f.code == "cycle-in-air"]
    assert [(f.level.value, f.line) for f in told] == ([("caution", CALL)] if said else [])
    assert all(said in f.message for f in told)


@pytest.mark.parametrize(
    ("floor", "told"), [("34.", False), ("39.99", False), ("40.", True), ("41.", True), ("50.", True)]
)
def test_a_floor_above_all_metal_meets_none_even_where_the_groove_is_cut_already(floor, told):
    """The sign or a digit of X is wrong; the same call once more is a finishing pass and fine."""
    found = verdict(cycle().replace(TAIL, f"G75 X{floor} Z-28. P1000 Q5000 F0.08\n{TAIL}"))
    assert found.agree
    assert [(f.line, f.level.value) for f in found.findings if f.code == "cycle-in-air"] == [(9, "caution")] * told
    text = cycle(X=floor)
    (message,) = [f.message for f in verdict(text).findings if f.code == "cycle-in-air"] or [""]
    assert message.startswith("The cycle goes from X42 to X") is told


@pytest.mark.parametrize(("floor", "told"), [("44.", False), ("38.01", False), ("38.", True), ("30.", True)])
def test_a_floor_inside_that_meets_no_metal(floor, told):
    part = part_of([(-10, -13, 44, {"where": "inside", "mouth_diameter": 38.0})], diameter=80, bore=38.0)
    text = (
        cycle(start="X36.", X=floor, Z="", Q="").replace("X200. Z-13.", "X36. Z5.").replace("G00 X36.\n", "G00 Z-13.\n")
    )
    found = verdict(text.replace(TAIL, f"G00 Z5.\n{TAIL}"), part, tool(where="inside"))
    assert ("cycle-in-air" in {f.code for f in found.findings}) is told


def test_pecks_in_air_are_counted_over_the_highest_metal_between_the_ends_and_need_pecks():
    part = part_of([(-10, -13, 34), (-30, -33, 34)], steps=[(0, 40), (-18, 50), (-25, 40)])
    found = verdict(cycle(start="X52.", Z="-33.", Q="20000"), part, tool(max_depth=15.0))
    assert ("cycle-in-air", CALL) not in codes(found, "caution")
    assert ("cycle-in-air", CALL) not in codes(verdict(cycle(start="X200.", P="83000")), "caution")


def test_a_shoulder_between_first_and_last_groove_counts():
    part = part_of([(-10, -13, 34), (-30, -33, 34)], steps=[(0, 40), (-18, 50), (-25, 40)])
    found = verdict(cycle(Z="-33.", Q="20000"), part, tool(max_depth=15.0))
    assert ("start-below-land", CALL) in codes(found)


def test_a_span_of_no_whole_number_of_shifts():
    found = verdict(cycle(Q="4900"))
    assert ("span-not-whole", CALL) in codes(found)
    assert "comes only 0.3 after the one before" in next(
        f.message for f in found.findings if f.code == "span-not-whole"
    )
    assert not found.agree


def test_a_span_from_a_place_that_nobody_said_is_none():
    """What stands in for that place is no number of the program."""
    head = "G21 G99\nG28 U0 W0\nT0303\nG50 S3000\nG96 S120 M03\nG00 X42.\n"
    text = head + "G75 R0.5\nG75 X34. Z-33. P1000 Q7000 F0.08\nM30\n"
    found = compare_program(part_of([(-10, -13, 34)]), text, shop(tool()))
    assert {f.code for f in found.findings} >= {"cycle-start-unknown"}
    assert "span-not-whole" not in {f.code for f in found.findings}


def test_a_last_shift_that_is_meant_is_a_caution():
    """Common practice, no source: the last shift is what remains."""
    part = part_of([(-10, -13, 34), (-18, -21, 34), (-26, -29, 34), (-30, -33, 34)])
    found = verdict(cycle(Z="-33.", Q="8000"), part)
    assert found.agree
    assert codes(found, "caution") == {("span-not-whole", CALL)}


def test_a_last_shift_that_is_meant_is_none_the_worse_for_another_mistake():
    part = part_of([(-10, -13, 34), (-18, -21, 34), (-26, -29, 34), (-30, -33, 34), (-40, -43, 34)])
    found = verdict(cycle(Z="-33.", Q="8000"), part)
    assert not found.agree
    assert codes(found) == set()
    assert codes(found, "caution") == {("span-not-whole", CALL)}


def test_a_wide_groove_is_shifted_by_less_than_the_insert():
    """Common practice, no source: plunges overlap, the last shift is what remains."""
    found = verdict(cycle(Z="-20.", Q="2500"), part_of([(-10, -20, 34)]))
    assert found.agree
    assert not found.findings


@pytest.mark.parametrize("width", [2.4, 2.5])
def test_a_shift_wider_than_the_insert_leaves_ribs(width):
    found = verdict(cycle(Z="-20.", Q="2500"), part_of([(-10, -20, 34)]), tool(width=width))
    assert ("floor-uneven", None) in codes(found) or width == 2.5


@pytest.mark.parametrize(
    ("peck", "level", "code"),
    [
        ("1000", "", ""),
        ("500", "", ""),
        ("2500", "", ""),
        ("10000", "stop", "peck-out-by-ten"),
        ("100", "stop", "peck-out-by-ten"),
        ("10", "stop", "peck-out-by-ten"),
    ],
)
def test_a_peck_out_by_ten(peck, level, code):
    found = verdict(cycle(P=peck))
    assert {(f.level.value, f.code, f.line) for f in found.findings} == ({(level, code, CALL)} if code else set())


def test_the_sentence_names_the_word():
    (finding,) = verdict(cycle(P="10000")).findings
    assert finding.message.startswith("P10000 is 10 each peck")
    assert finding.message.endswith("without a point it counts least increments, on the radius.")
    assert finding.stops
    assert not finding.code.acceptable


def test_the_sentence_says_nothing_of_counts_where_the_peck_has_a_point():
    text = f"{HEAD}G00 X42. Z-13.\nG75 X34. Z-28. I10. K5. F0.08\n{TAIL}"
    found = judge(part_of(row(4, -10, 5, 3, 34)), run_of(text, "one-block"), shop(tool()))
    (told,) = [f.message for f in found.findings if f.code == "peck-out-by-ten"]
    assert told.startswith("I10. is 10 each peck")
    assert told.endswith("it is measured on the radius.")


def test_a_point_in_the_peck_is_told_by_the_reader():
    found = verdict(cycle(P="1000."))
    assert not found.agree
    assert CALL in {f.line for f in found.findings}


@pytest.mark.parametrize(("peck", "depth", "cautions"), [("3000", 3.0, False), ("0", 4.0, True), ("5000", 4.0, True)])
def test_no_pecks_where_the_groove_is_deeper_than_wide(peck, depth, cautions):
    part = part_of(row(4, -10, 5, 3, 40 - 2 * depth))
    found = verdict(cycle(P=peck, X=f"{40 - 2 * depth:.1f}"), part)
    assert (("no-pecks", CALL) in codes(found, "caution")) is cautions
    assert found.agree


def test_what_the_shop_chose_is_no_caution():
    # A tool with no peck in the shop file, or no retract: whoever wrote that wants it so.
    part = part_of(row(4, -10, 5, 3, 32))
    for chosen, words in (({"peck": 0.0}, {"P": "0"}), ({"retract": 0.0}, {"first": "G75 R0"})):
        for tools, told in (((tool(**chosen),), 0), ((tool(),), 1)):
            found = verdict(cycle(X="32.", **words), part, *tools)
            assert len(codes(found, "caution")) == told, found.findings
            assert found.agree


def test_relief_at_the_floor():
    found = verdict(cycle(R="0.2"))
    assert ("relief-at-floor", CALL) in codes(found)


@pytest.mark.parametrize("retract", ["0", "50.", ".02"])
def test_an_odd_retract_is_a_caution(retract):
    assert ("retract-unusual", CALL) in codes(verdict(cycle(first=f"G75 R{retract}")), "caution")


def test_a_wrong_unit_word():
    found = verdict(cycle().replace("G21", "G20"))
    assert not found.agree
    assert ("units-differ", 1) in codes(found)
    assert "The program is in inches, the drawing in millimetres" in {
        f.message.split(";")[0] for f in found.findings if f.code == "units-differ"
    }
    assert (codes(found), found.matches) == ({("units-differ", 1)}, ()), "what comes of it would only lead astray"


def test_one_wrong_groove_of_a_converted_program_is_still_told():
    text = "G20 G99\nT0303\nG50 S3000\nG96 S400 M03\nG00 X1.65\nZ-.5118\nG01 X1.3386 F.003\nG00 X1.65\nM30\n"
    found = verdict(text, part_of([(-10, -13, 34), (-20, -23, 34)]))
    assert [match.state.value for match in found.matches] == ["matches", "missing"]


def test_a_program_converted_to_inches_agrees_with_a_caution():
    text = (
        "G20 G99\nT0303\nG50 S3000\nG96 S400 M03\nG00 Z-.5118\nX1.65\nG75 R.02\nG75 X1.3386 P400 F.003\nG00 X8.\nM30\n"
    )
    found = verdict(text, part_of([(-10, -13, 34)]))
    assert found.agree, found
    assert codes(found, "caution") == {("units-differ", 1), ("first-move-along-z", 5)}


def test_a_cycle_of_an_unknown_tool_is_no_crash():
    found = verdict(cycle().replace("T0303", "T0909"))
    assert {f.code for f in found.findings} == {"tool-unknown"}


def test_moves_of_nothing():
    found = judge(part_of([(-10, -13, 34)]), Moves().run(), shop())
    assert [f.code for f in found.findings] == ["no-moves"]


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        # 1 mm pecks of the shop's tool, nine times out; a plunge of 1.5 of them and a little more.
        ({"P": "8999"}, "peck-out-by-ten", False),
        ({"P": "9000"}, "peck-out-by-ten", True),
        ({"P": "112"}, "peck-out-by-ten", False),
        ({"P": "111"}, "peck-out-by-ten", True),
        ({"P": "9000", "X": "37."}, "peck-out-by-ten", False),
        ({"P": "9000", "X": "36.998"}, "peck-out-by-ten", True),
        # The whole way of 12 as one peck, up to the next hundredth, in a groove 3 wide.
        ({"P": "12010", "X": "36.", "start": "X60. Z-13."}, "peck-out-by-ten", False),
        ({"P": "12011", "X": "36.", "start": "X60. Z-13."}, "peck-out-by-ten", True),
        ({"P": "11999", "X": "36.", "start": "X60. Z-13."}, "peck-out-by-ten", True),
        # Shifts of 5 % of the insert's 3 mm; twenty of them.
        ({"Z": "-20.", "Q": "150"}, "shift-out-by-ten", False),
        ({"Z": "-20.", "Q": "149"}, "shift-out-by-ten", True),
        ({"Z": "-14.9", "Q": "100"}, "shift-out-by-ten", False),
        ({"Z": "-15.", "Q": "100"}, "shift-out-by-ten", True),
    ],
)
def test_the_digits_of_a_cycle_are_judged_to_the_count(words, code, told):
    assert (code in {f.code for f in verdict(cycle(**words)).findings}) is told


@pytest.mark.parametrize(("retract", "told"), [("4.4", False), ("4.401", True)])
def test_a_retract_of_more_than_four_times_the_tools_own_is_a_caution(retract, told):
    found = verdict(cycle(first=f"G75 R{retract}"), None, tool(retract=1.1))
    assert (("retract-unusual", CALL) in codes(found, "caution")) is told


@pytest.mark.parametrize(
    ("start", "peck", "told"),
    [
        ("X50.", "1000", False),  # 5 mm above the metal, and a little more
        ("X50.002", "1000", True),
        ("X52.", "2001", False),  # two pecks of 6 mm, and three
        ("X52.", "2000", True),
    ],
)
def test_a_start_is_too_far_above_from_five_millimetres_and_three_pecks(start, peck, told):
    assert (("cycle-in-air", CALL) in codes(verdict(cycle(start=f"{start} Z-13.", P=peck)), "caution")) is told


@pytest.mark.parametrize(("dialect", "word"), [("two-block", "P0"), ("one-block", "I0."), ("one-block", "I0")])
def test_a_peck_of_nothing_is_told_in_a_groove_no_deeper_than_wide_too(dialect, word):
    """Some controls take it as no pecks, others stop with an alarm (common practice, no source)."""
    first = "G75 R0.5\n" if dialect == "two-block" else ""
    text = f"{HEAD}G00 X42. Z-13.\n{first}G75 X34. {word} F0.08\n{TAIL}"
    run = run_of(text, dialect)
    found = judge(part_of([(-10, -13, 34)]), run, shop(tool()))
    (told,) = [f for f in found.findings if f.code == "no-pecks"]
    assert told.level.value == "caution"
    assert told.message.startswith(f"{word} is a peck of no depth")
    assert "no-pecks" not in {f.code for f in judge(part_of([(-10, -13, 34)]), run, shop(tool(peck=0.0))).findings}
