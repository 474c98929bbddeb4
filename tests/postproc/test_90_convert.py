"""Programs in strange hands carried over between dialects; a reader that shares no code holds what they do equal."""

import re
from collections import Counter

import pytest
from support.hands.style import hand_programs
from support.journeymen import journeyman_programs
from support.plain_reader import Lost, deeds
from support.programs import run_of
from support.tongues import FIVE

from postproc import find_dialect
from postproc.converting.carry import Means
from postproc.converting.convert import convert
from postproc.converting.proof import difference
from postproc.dialects import read_dialect

EIGHT = {**{name: find_dialect(name) for name in ("two-block", "one-block", "plunge")}, **FIVE}
RETRACT = {"mm": 0.5, "in": 0.02}
HOME = {"mm": (200_000, 100_000), "in": (80_000, 40_000)}


def strange_programs(hands, others):
    """Right programs of two kinds of hands, each with its dialect and units."""
    made = [(p.name, p.text, p.dialect, p.units) for p in hand_programs(hands, seed=15)]
    made += [(p.name, p.text, p.dialect, p.part.units) for p in journeyman_programs(others, seed=15)]
    return made


def means(units):
    per_unit = 1_000 if units == "mm" else 10_000
    return Means(round(RETRACT[units] * per_unit), HOME[units])


def carried(text, source, target, units):
    return convert(text, EIGHT[source], EIGHT[target], means(units), units)


def names_a_word(reason, text):
    """True if a refusal gives a line of the program, and a word that stands in it."""
    told = re.match(r"line (\d+): ", reason)
    if told is None:
        return False
    line, said = (re.sub(r"[\s+]", "", one) for one in (text.upper().split("\n")[int(told[1]) - 1], reason.upper()))
    return any(word in said for word in re.findall(r"[A-Z]-?[\d.]+", line))


def outcomes(programs, targets):
    """How many are equal, refused or lost to the oracle, and why; each program goes to so many targets in turn."""
    came, lacking = Counter(), Counter()
    for number, (name, text, source, units) in enumerate(programs):
        others = [target for target in EIGHT if target != source]
        before = None
        for turn in range(min(targets, len(others))):
            target = others[(number * targets + turn) % len(others)]
            made = carried(text, source, target, units)
            if made.program is None:
                came["refused"] += 1
                lacking[re.sub(r"line \d+", "line", made.refusals[0])[:90]] += 1
                assert all(names_a_word(reason, text) for reason in made.refusals), made.refusals
                continue
            try:
                before = before or deeds(text, source, units, RETRACT[units])
                after = deeds(made.program.text, target, units, RETRACT[units])
            except Lost as lost:
                came["lost"] += 1
                lacking[f"lost: {lost}"] += 1
                continue
            assert after == before, (name, source, target, made.notes)
            came["equal"] += 1
    return came, lacking


def test_programs_in_strange_hands_do_the_same_in_other_dialects():
    came, lacking = outcomes(strange_programs(64, 16), 1)
    total = sum(came.values())
    assert total == 80
    assert came["equal"] >= 0.85 * total, (came, lacking)
    assert came["lost"] <= 0.02 * total, (came, lacking)
    # Each refusal names a word of the program that the other dialect, or any other machine, has not.
    assert all(re.match(r"line: ", reason) for reason in lacking), lacking


HEAD = "O7\nG21 G99\nT0303\nG50 S2500\nG96 S120 M03\nM08\nG00 X42. Z-13.\n"
TAIL = "G00 X150.\nM09\nM30\n"
TWO_GEARS = read_dialect('[switches]\ngear = ["M40", "M41"]\n', "two-gears")
REFUSED = [
    # blocks between head and tail, target, what the refusal says
    ("M21", "one-block", "line 8: M21 can't be carried over"),
    ("G41 G01 X40. F.1\nG40", "plunge", "line 8: G41 can't be carried over: radius compensation"),
    ("G53 X0. Z0.", "one-block", "machine's own coordinates"),
    (
        "G28 U0. W0.",
        "plunge",
        "line 8: G28 U0. W0. can't be carried over: plunge has no word for the reference point; give",
    ),
    (
        "G00 X44.\nG50 X44. Z-13.",
        "stored-groove",
        "line 9: G50 X44. Z-13. can't be carried over: stored-groove has no word for spindle clamp or program zero, "
        "which G50 needs",
    ),
    (
        "M41\nM45",
        "two-gears",
        "line 9: M45 can't be carried over: two-gears has no word for gear of the spindle 6, which",
    ),
    ("G76 X30. Z-20. P600 F1.5", "one-block", "of another kind of tool"),
    ("G01 X40.\nG99", "one-block", ""),
    ("G50 X150. Z100.", "one-block", "line 8"),
    ("G00 X41.999\nG01 X40. F.1", "two-points", None),
    ("G00 X42.001", "half-widths", None),
    ("G75 R.5\nG75 X34. P300000 F.1", "turned-tools", None),
]


@pytest.mark.parametrize(("blocks", "target", "told"), REFUSED)
def test_what_cant_be_said_is_refused_with_its_line_or_put_otherwise(blocks, target, told):
    made = convert(f"{HEAD}{blocks}\n{TAIL}", EIGHT["two-block"], EIGHT.get(target) or TWO_GEARS, Means())
    if told is None:
        assert made.program is not None
    else:
        assert made.program is None
        assert any(told in reason for reason in made.refusals), made.refusals
        assert all(names_a_word(reason, f"{HEAD}{blocks}\n{TAIL}") for reason in made.refusals), made.refusals


def test_a_last_short_shift_becomes_a_groove_of_its_own():
    text = f"{HEAD}G75 R.5\nG75 X34. Z-25. P1000 Q5000 F.08\n{TAIL}"
    made = convert(text, EIGHT["two-block"], EIGHT["stored-groove"], Means())
    calls = [line for line in made.program.text.split("\n") if "P9075" in line]
    assert calls[0].startswith("M98 P9075 FLOOR=34. LAST=-23. DEEP=2. STEP=5.")
    assert calls[1] == "M98 P9075 FLOOR=34. DEEP=2. BACK=1. FEED=0.08"
    assert any("last short shift" in note for note in made.notes)
    assert deeds(made.program.text, "stored-groove", "mm", 0) == deeds(text, "two-block", "mm", 0)


def test_the_call_of_a_stored_cycle_is_no_subprogram_written_out():
    text = f"{HEAD.replace('G50 S2500', 'VMAX=2500')}M98 P9075 FLOOR=34. DEEP=2. BACK=1. FEED=0.08\n{TAIL}"
    made = convert(text.replace("G96 S120", "G96 VCUT=120"), EIGHT["stored-groove"], EIGHT["two-block"], Means())
    assert "G75 X34. P1000 F0.08" in made.program.text
    assert not [note for note in made.notes if "subprogram" in note]


def test_another_reference_point_becomes_the_first_and_is_listed():
    made = convert(f"{HEAD}G30 U0. W0.\n{TAIL}", EIGHT["two-block"], EIGHT["one-block"], Means())
    assert "G28 U0. W0." in made.program.text
    assert "line 8: G30 became the way to the first reference point: see that it is clear" in made.notes


def program_of(ways):
    return "O1\nG21 G99\nT0303\nG97 S500 M03\nG00 X60. Z-13.\n" + ways + "G01 X34. F.1\nG00 X60.\nG00 Z5.\nM30\n"


@pytest.mark.parametrize(
    ("ways", "equal"),
    [("G00 X50.\nG00 X42.\n", True), ("G00 X20.\nG00 X42.\n", False), ("G00 X41.\nG00 X42.\n", False)],
)
def test_rapids_along_x_are_one_only_where_they_run_one_way(ways, equal):
    runs = [run_of(program_of(text), "plunge") for text in ("G00 X42.\n", ways)]
    assert (difference(*runs, homeless=False) == "") is equal


def test_waits_and_the_sense_are_carried_over():
    blocks = "M01\nG04 P250\nG97 S500 M04\nG54\nM41\nG28 U0."
    made = convert(f"{HEAD}{blocks}\n{TAIL}", EIGHT["two-block"], EIGHT["half-widths"], Means())
    lines = made.program.text.split("\n")
    for line in ("M01", "G04 X0.2500", "G97 S500 M04", "G54", "M41", "G28 U0.0000"):
        assert line in lines


def test_a_skipped_block_stays_one():
    made = convert(f"{HEAD}/M00\n/G00 X44.\n{TAIL}", EIGHT["two-block"], EIGHT["turned-tools"], Means())
    text = made.program.text
    assert "/M00" in text
    assert "/G00 X44." in text


def test_a_retract_that_nobody_says_is_asked_for():
    text = f"{HEAD}G75 X34. I1. F.08\n{TAIL}"
    made = convert(text, EIGHT["one-block"], EIGHT["two-block"], Means())
    assert "line 8: G75 X34. I1. F.08 can't be carried over: the program leaves the retract" in made.refusals[0]
    assert "G75 R0.5" in convert(text, EIGHT["one-block"], EIGHT["two-block"], Means(500)).program.text


@pytest.mark.parametrize(("said", "blocks"), [("increments", "G00 X44000\nZ-13000"), ("units", "G00 X44\nZ-13")])
def test_lengths_without_a_point_are_carried_over_as_the_shop_says_they_count(said, blocks):
    """The least increment is 0.001 mm (common practice, no source)."""
    text = f"{HEAD}{blocks}\n{TAIL}"
    unsaid = convert(text, EIGHT["two-block"], EIGHT["one-block"], Means())
    assert unsaid.program is None
    assert any("no decimal point" in reason for reason in unsaid.refusals)
    made = convert(text, EIGHT["two-block"], EIGHT["one-block"], Means(whole_numbers=said))
    assert "G00 X44.\nG00 Z-13.\n" in made.program.text


def test_remarks_and_numbers_are_listed():
    text = f"{HEAD}N10 G00 X44. (KEEP OFF)\nG18\n{TAIL}"
    made = convert(text, EIGHT["two-block"], EIGHT["one-block"], Means())
    assert made.notes[0] == "the N word of one block is not kept"
    remark = "the remark of one line is not kept; give an insert that only a remark tells of with --shop from here on"
    assert remark in made.notes
    assert "line 9: G18 is left out: it cancels or sets what is so without it" in made.notes
    several = convert(f"{HEAD}G18 G40\nG80\n{TAIL}", EIGHT["two-block"], EIGHT["one-block"], Means())
    told = "lines 8, 9: G18, G40, G80 are left out: they cancel or set what is so without them"
    assert [note for note in several.notes if "left out" in note] == [told]


def with_own(base, table):
    return read_dialect(f'base = "{base}"\n[own_switches]\n{table}\n', f"own-{base}")


OWN = with_own("two-block", 'M68 = "Chuck clamps"\nM69 = "chuck opens"')
OTHER = with_own("one-block", 'M10 = "chuck  clamps"\nM11 = "steady down"\nM41 = "chuck opens"')


def test_a_switch_of_the_machine_is_carried_over_where_both_sides_say_the_same_of_it():
    # Clamping before the spindle starts, opening after it stands: common practice, no source.
    text = f"{HEAD}G01 X40. F.1\n{TAIL}".replace("G50", "M68\nG50").replace("M30", "M05\nM69\nM30")
    made = convert(text, OWN, OTHER, Means())
    lines = made.program.text.split("\n")
    assert lines.index("T0303") < lines.index("M10") < lines.index("G50 S2500")
    assert lines[lines.index("M05") : lines.index("M05") + 3] == ["M05", "M41", "M30"]
    assert "line 4: M68 became M10, which both sides call 'chuck clamps'" in made.notes
    assert "line 13: M69 became M41, which both sides call 'chuck opens'" in made.notes


@pytest.mark.parametrize(
    ("block", "source", "target", "told"),
    [
        ("M68", "two-block", OTHER, "say what it does by own_switches in a dialect file of each control"),
        ("M11", OTHER, OWN, "own-two-block has no word in own_switches for 'steady down', which M11 needs"),
        ("M68", OWN, "one-block", "one-block has no word in own_switches for 'chuck clamps', which M68 needs"),
        ("G00 X44. M68", OWN, OTHER, "beside other words"),
        ("M05 M69", OWN, OTHER, "beside other words"),
    ],
)
def test_a_switch_of_the_machine_that_one_side_does_not_say_is_refused(block, source, target, told):
    given = [EIGHT.get(one, one) if isinstance(one, str) else one for one in (source, target)]
    made = convert(f"{HEAD}{block}\n{TAIL}", *given, Means())
    assert made.program is None
    assert told in made.refusals[0]
    assert names_a_word(made.refusals[0], f"{HEAD}{block}\n{TAIL}")


def test_the_proof_sees_a_switch_of_the_machine_at_another_place():
    texts = (f"{HEAD}M68\nG01 X40. F.1\n{TAIL}", f"{HEAD}G01 X40. F.1\nM68\n{TAIL}", f"{HEAD}G01 X40. F.1\n{TAIL}")
    was, moved, without = [run_of(text, OWN) for text in texts]
    assert not difference(was, was, homeless=False)
    assert difference(was, moved, homeless=False)
    assert difference(was, without, homeless=False)


def test_the_oracle_sees_what_differs():
    text = f"{HEAD}G75 R.5\nG75 X34. P1000 F.08\n{TAIL}"
    was = deeds(text, "two-block", "mm", 0)
    for old, new in (("F.08", "F.09"), ("P1000", "P1001"), ("X34.", "X34.001"), ("M03", "M04"), ("S120", "S121"),
                     ("S2500", "S2600"), ("T0303", "T0304"), ("R.5", "R.4"), ("M09", "")):  # fmt: skip
        assert deeds(text.replace(old, new), "two-block", "mm", 0) != was, old
