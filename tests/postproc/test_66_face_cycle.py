"""The cycle along Z (G74): what it moves, worked out by hand, and face grooves that it cuts held against the drawing.

It is the grooving cycle with its axes exchanged: the word that pecks across shifts here, and the one that shifts pecks
(common practice, no source).
"""

import pytest
from support.moves import shop, tool
from support.parts import part_of
from support.programs import codes, run_of

from planner.steps import GrooveCycle
from postproc import compare_program, explain, find_dialect

HEAD = "G21 G99\nT0707\nG50 S2500\nG97 S900 M03\nG00 X24. Z2.\n"
FACE = tool(station=7, offset=7, where="face", max_depth=12.0)
PART = part_of([(0, -4, 24, {"where": "face", "mouth_diameter": 30.0})], length=60)
WIDE = part_of([(0, -4, 24, {"where": "face", "mouth_diameter": 34.0})], length=60)


def moves(text, dialect="two-block"):
    run = run_of(f"{HEAD}{text}\nM30", dialect)
    return run, [(m.kind, m.x1 / 1000, m.z1 / 1000) for m in run.motions[1:]]


def compared(text, part=PART):
    return compare_program(part, f"{HEAD}{text}\nG00 Z50.\nX150.\nM30", shop(FACE))


PECKED = [
    ("feed", 24, -1),
    ("rapid", 24, -0.5),
    ("feed", 24, -4),
    ("rapid", 24, 2),
]


@pytest.mark.parametrize(
    ("dialect", "text"),
    [
        ("two-block", "G74 R.5\nG74 Z-4. Q3000 F.08"),
        ("two-block", "G74 R.5\nG74 X24. Z-4. P1000 Q3000 F.08"),
        ("two-block", "G74 R.5\nG74 W-6. Q3000 R0 F.08"),
    ],
)
def test_pecks_go_along_z_and_back_to_the_start(dialect, text):
    run, found = moves(text, dialect)
    assert found == PECKED
    assert not run.findings
    assert not any(isinstance(step, GrooveCycle) for step in run.steps)


def test_the_one_block_form_leaves_the_retract_to_the_control():
    assert moves("G74 Z-4. K3. F.08", "one-block")[1] == [("feed", 24, -1), ("feed", 24, -4), ("rapid", 24, 2)]


def test_it_shifts_across_by_the_radial_word_and_the_last_shift_is_what_remains():
    _, found = moves("G74 R.5\nG74 X29. Z-4. P1000 Q9000 F.08")
    assert [x for kind, x, _ in found if kind == "feed"] == [24, 26, 28, 29]
    assert found[-1] == ("rapid", 24, 2)
    _, inward = moves("G74 R.5\nG74 X20. Z-4. P1000 Q9000 F.08")
    assert [x for kind, x, _ in inward if kind == "feed"] == [24, 22, 20]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("G74 R.5\nG74 X30. P1000 F.08", "cycle-word-missing"),
        ("G74 R.5\nG74 X30. Z-4. Q1000 F.08", "cycle-word-missing"),
        ("G74 R.5\nG74 Z-4. Q1.5 F.08", "point-in-whole-word"),
        ("G74 R.5\nG74 Z-4. Q-1500 F.08", "signed-amount"),
        ("G74 R.5\nG74 Z-4. Q1500 R.1 F.08", "relief-at-floor"),
        ("G74 R-.5\nG74 Z-4. Q1500 F.08", "negative-retract"),
        ("G74 R.5\nG74 X90. Z-4. P1 Q1500 F.08", "runaway"),
    ],
)
def test_what_is_wrong_with_a_call_is_told(text, code):
    assert code in [c for c, _ in codes(moves(text)[0])]


def test_a_start_that_nobody_said_is_told():
    run = run_of("G21 G99\nT0707\nG97 S900 M03\nG00 Z2.\nG74 R.5\nG74 Z-4. Q3000 F.08\nM30")
    assert codes(run) == [("first-move-along-z", 4), ("cycle-start-unknown", 6)]


def test_at_a_control_said_to_have_no_cycle_it_is_a_drills_and_goes_straight_to_its_end():
    """Where no cycle grooves, the number is known for drilling alone (common practice, no source)."""
    text = f"{HEAD}G74 Z-4. Q1500 F.08\nG00 Z50.\nX150.\nM30"
    assert compare_program(PART, text, shop(FACE), find_dialect("plunge")).agree
    across = text.replace("Z-4.", "X26. Z-4. P1000")
    assert not compare_program(PART, across, shop(FACE), find_dialect("plunge")).agree


def test_a_face_groove_cut_by_it_agrees_and_one_digit_is_told():
    right = "G74 R.5\nG74 Z-4. Q1500 F.08"
    assert compared(right).agree
    assert compared(right.replace("Z-4.", "Z-3.")).matches[0].state.value == "depth"
    assert not compared(right.replace("Z-4.", "Z-4. X26. P1000")).agree
    wide = "G74 R.5\nG74 X28. Z-4. P1000 Q1500 F.08"
    assert compared(wide, WIDE).agree
    assert compared(wide.replace("X28.", "X27."), WIDE).matches[0].state.value == "width"


def test_a_control_without_cycles_is_no_other_reading_of_a_program_with_this_one():
    """G90 and G94 alone would leave it open whether the control has cycles; G74 with amounts says that it has."""
    text = f"{HEAD}G74 R.5\nG74 X28. Z-4. P1000 Q1500 F72.\nG00 Z50.\nX150.\nM30".replace("G99", "G90 G94").replace(
        "G50 S2500\n", ""
    )
    verdict = compare_program(WIDE, text, shop(FACE))
    assert verdict.agree, verdict.findings
    assert not {f.code for f in verdict.findings} & {"tongue-unclear"}
    assert not compare_program(WIDE, text.replace("Z-4.", "Z-3."), shop(FACE)).agree


def test_it_is_explained_with_its_numbers():
    told = explain(f"{HEAD}G74 R.5\nG74 X28. Z-4. P1000 Q1500 F.08\nM30")
    sentence = told.blocks[6].sentence
    assert "Z-4.: to 4.000 mm behind the front face" in sentence
    assert "P1000: 1.000 mm from plunge to plunge, measured on the radius" in sentence
    assert "Q1500: 1.500 mm deeper each peck, along Z" in sentence
    assert "back off 0.500 mm after each peck" in told.blocks[5].sentence


class TestTheCurveOfAFaceInsert:
    """A 3 wide insert whose curve fits from 30 to 80 across at its outer edge."""

    def told(self, text, part=PART, **limits):
        usual = {"station": 7, "offset": 7, "where": "face", "max_depth": 12.0, "face_min": 30.0, "face_max": 80.0}
        program = f"{HEAD}{text}\nG00 Z50.\nX150.\nM30"
        verdict = compare_program(part, program, shop(tool(**usual | limits)))
        assert verdict.agree is not any(f.code == "face-curve" for f in verdict.findings)
        return [f.message for f in verdict.findings if f.code == "face-curve"]

    DOWN = "G00 X24.\nG01 Z-2. F.08\nG00 Z-1.5\nG01 Z-4. F.08\nG00 Z2."

    @pytest.mark.parametrize(
        ("limits", "fits"),
        [
            *(({}, True), ({"face_min": 30.003}, True), ({"face_min": 30.004}, False), ({"face_max": 29.997}, True)),
            *(({"face_max": 29.996}, False), ({"face_min": 0.0, "face_max": 0.0}, True)),
            ({"face_min": 31.0, "face_max": 0.0}, False),
        ],
    )
    def test_where_it_fits(self, limits, fits):
        limits = {"face_min": 0.0} | limits if "face_max" in limits else limits
        found = self.told(self.DOWN, **limits)
        assert len(found) == (0 if fits else 1)
        assert fits or "with its outer edge on 30 across" in found[0]

    def test_its_outside_at_an_outer_wall_and_its_inside_at_an_inner_one(self):
        outer, inner = "G00 X28.\nG01 Z-4. F.08\nG00 Z2.", "G00 X24.\nG01 Z-4. F.08\nG00 Z2."
        # From the outer wall in, the second plunge has none outside it; from the inner wall out, none inside it.
        assert self.told(f"{outer}\n{inner}", WIDE, face_min=34.0) == []
        assert self.told(f"{inner}\n{outer}", WIDE, face_min=0.0, face_max=30.0) == []
        (small,) = self.told(f"{inner}\n{outer}", WIDE, face_min=34.0)
        assert "on 30 across, and its curve fits 34 to 80" in small
        (large,) = self.told(f"{outer}\n{inner}", WIDE, face_min=0.0, face_max=30.0)
        assert "on 34 across, and its curve fits 0 to 30" in large

    @pytest.mark.parametrize(("left", "told"), [(1.99, 0), (2.01, 1)])
    def test_a_low_rest_beside_it_is_no_wall(self, left, told):
        # The inner part is cut first and left so high; then the insert comes down 4 deep at the outer wall.
        inner = f"G00 X24.\nG01 Z-{4 - left:.2f} F.08\nG00 Z2.\n"
        outer = "G00 X28.\nG01 Z-4. F.08\nG00 Z2.\nG00 X24.\nG01 Z-4. F.08\nG00 Z2."
        assert len(self.told(inner + outer, WIDE, face_min=0.0, face_max=33.0)) == told

    def test_a_cut_in_air_is_none(self):
        twice = self.DOWN + "\n" + self.DOWN
        assert len(self.told(twice, face_min=40.0)) == 1, "told once a tool"


@pytest.mark.parametrize(("across", "told"), [("4.002", False), ("4.", True)])
def test_it_plunges_ten_thousand_times_at_most(across, told):
    # From 24 mm in steps of a count on the radius: 9,999 of them make ten thousand plunges.
    run, _ = moves(f"G74 R.5\nG74 X{across} Z-.01 P1 Q9000 F.1")
    assert ("runaway" in {code for code, _ in codes(run)}) is told


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("G74 R.5\nG74 Z-4. Q1000 F.08", []),
        ("G74 R.5\nG74 Z-4. F.08", [("peck-not-said", "has no Q, the depth of a peck")]),
        ("G74 Z-4. Q1000 F.08", [("retract-not-said", "sets the retract")]),
        ("G74 R.5\nG74 Z-4. Q99 F.08", [("peck-out-by-ten", "goes only 0.099 deeper each peck")]),
        ("G74 R.5\nG74 Z-4. Q3 F.08", [("peck-out-by-ten", "goes only 0.003 deeper each peck; check the digits of Q")]),
        ("G74 R.5\nG74 Z-4. Q100 F.08", []),
        ("G74 R.5\nG74 Z1.95 Q50 F.08", []),
    ],
)
def test_its_peck_and_its_retract_are_asked_for_as_those_of_the_cycle_across(text, told):
    run, _ = moves(text)
    assert [str(f.code) for f in run.findings] == [code for code, _ in told]
    assert all(words in f.message for f, (_, words) in zip(run.findings, told, strict=True))


def test_a_short_stroke_after_the_deep_one_leaves_the_floor_as_it_is():
    """The round corners of an insert are cut for the deepest stroke at a place, wherever a later one begins."""
    text = (
        "G21 G99\nT0707\nG97 S800 M03\nG00 X24. Z5.\nZ1.\nG01 Z-4. F.05\nG00 Z-1.5\nG01 Z-2.\nG00 Z5.\nG28 U0 W0\nM30\n"
    )
    insert = tool(station=7, offset=7, where="face", max_depth=12.0, corner_radius=0.2)
    found = compare_program(PART, text, shop(insert, sharp_corner=0.2))
    assert found.agree, found.findings
