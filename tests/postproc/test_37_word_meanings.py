"""What single words mean, as the listing shows them on hover; and the places that a program cuts by itself."""

import ast
import re
from dataclasses import replace
from pathlib import Path

import pytest
from support.hand_plans import PLANS
from support.programs import INSERT, run_of

import postproc
from planner import parse_shop
from postproc import compare_program, explain, find_dialect
from postproc.dialects import read_dialect
from postproc.explaining.explain_cuts import cut_grooves, plunges

DOCUMENTED = (ast.Module, ast.ClassDef, ast.FunctionDef)
WORD = re.compile(r"\b[GM]\d\d\b")
HEAD = "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\n"


def meanings(block, dialect="two-block", head=HEAD):
    """The meaning of each word of a block behind a head."""
    told = explain(f"{head}{block}\nM30", find_dialect(dialect))
    line = head.count("\n") + 1
    return {word.text: word.meaning for word in next(b for b in told.blocks if b.line == line).words}


@pytest.mark.parametrize(
    ("block", "word", "meaning"),
    [
        ("G00 X34.", "G00", "move at rapid"),
        ("G00 X34.", "X34.", "to diameter 34.000 mm"),
        ("G00 Z-20.", "Z-20.", "to 20.000 mm behind the front face"),
        ("G00 Z5.", "Z5.", "to 5.000 mm ahead of the front face"),
        ("G00 Z0", "Z0", "to the front face"),
        ("G00 U-8.", "U-8.", "4.000 mm inward, measured on the radius"),
        ("G00 U8.", "U8.", "4.000 mm outward, measured on the radius"),
        ("G00 W-5.", "W-5.", "5.000 mm toward the chuck"),
        ("G00 W5.", "W5.", "5.000 mm away from the chuck"),
        ("G28 U0 W0", "U0", "along X, no distance at all"),
        ("G28 U0 W0", "W0", "along Z, no distance at all"),
        ("G01 X34. F.08", "F.08", "feed 0.08 mm/rev"),
        ("G01 X34. F8", "F8", "feed 0.0008 mm/rev"),
        ("G98 F100", "F100", "feed 100 mm/min"),
        ("G96 S120", "S120", "cutting speed of 120 m/min"),
        ("G97 S800", "S800", "800 rev/min"),
        ("G50 S2500", "S2500", "never faster than 2500 rev/min"),
        ("T0305", "T0305", "turret to station 3, with offset 5"),
        ("T0300", "T0300", "turret to station 3, its offset cancelled"),
        ("T.5", "T.5", "not known"),
        ("G04 P250", "P250", "for 0.25 s"),
        ("G04 X.25", "X.25", "for 0.25 s"),
        ("G04 F1.5", "F1.5", "for 1.5 s"),
        ("G04 X.25 F.1", "F.1", "feed 0.1 mm/rev"),
        ("M98 P7 L4", "P7", "subprogram 7"),
        ("M98 P7 L4", "L4", "4 times"),
        ("M08", "M08", "coolant on"),
        ("G40", "G40", "no compensation for the nose radius"),
        ("G49", "G49", "a setting that moves no grooving tool"),
        ("G42", "G42", "the tool goes beside the places by the nose radius kept at the machine"),
        ("M41", "M41", "a switch that moves no grooving tool"),
        ("G31 Z-5.", "G31", "not known"),
        ("G33 Z-5.", "G33", "one cut along a thread"),
        ("M77", "M77", "a switch of this machine's own, not checked"),
        ("G54", "G54", "places count from a work offset, which is set at the machine"),
        ("G54.1 P3", "P3", "the work offset of number 3"),
        ("G04 S3", "S3", "for 3 turns of the spindle"),
        ("M98 P1", "M98", "run a subprogram"),
        ("M198", "M198", "not known"),
        ("E5", "E5", "not known"),
        ("G02 X40. Z-14. R2. F.1", "R2.", "radius 2.000 mm"),
        ("G02 X40. Z-14. I-1. K0", "I-1.", "centre -1.000 mm from the start along X (radius)"),
        ("G02 X40. Z-14. I-1. K2.", "K2.", "centre 2.000 mm from the start along Z"),
        ("G75 R.5", "R.5", "back off 0.500 mm after each peck, measured on the radius"),
        ("G75 X34. Z-23. P1000 Q5000 R.1 F.1", "R.1", "step 0.100 mm aside at the floor"),
        ("G75 X34. Z-23. P1000 Q5000 R0 F.1", "R0", "no step aside at the floor"),
        ("G75 X34. Z-23. P1000 Q5000 F.1", "Z-23.", "last plunge at Z-23."),
        ("G75 X34. Z-23. P1000 Q5000 F.1", "Q5000", "5.000 mm from plunge to plunge"),
        ("G75 U-8. W-10. P1000 Q5000 F.1", "U-8.", "floor at diameter 34.000 mm"),
        ("G75 U-8. W-10. P1000 Q5000 F.1", "W-10.", "last plunge at Z-23."),
        ("G75 X34. P4000 F.1", "P4000", "4.000 mm deeper each peck, measured on the radius: 1 peck to the floor"),
    ],
)
def test_words(block, word, meaning):
    assert meanings(block)[word] == meaning


def test_words_of_the_one_block_cycle():
    said = meanings("G75 X34. Z-23. I1.5 K5. F.1", "one-block")
    assert said["I1.5"] == "1.500 mm deeper each peck, measured on the radius: 3 pecks to the floor"
    assert said["K5."] == "5.000 mm from plunge to plunge"


def test_places_and_distances_by_g90_and_g91():
    head = "G71 G95\nG00 X42. Z-13.\nG91\n"
    assert meanings("G01 X-8. F.1", "plunge", head)["X-8."] == "4.000 mm inward, measured on the radius"
    assert meanings("G01 Z-8. F.1", "plunge", head)["Z-8."] == "8.000 mm toward the chuck"
    assert meanings("G90 X34.", "plunge", head)["X34."] == "to diameter 34.000 mm"


def test_inches_are_told_to_their_last_increment():
    said = meanings("G01 X1.35 F.004", head="G20 G99\nG00 X1.6 Z-.225\n")
    assert said["X1.35"] == "to diameter 1.3500 in"
    assert said["F.004"] == "feed 0.004 in/rev"


def test_plunges_are_the_deepest_at_each_place():
    run = run_of(f"{HEAD}G01 X38. F.1\nG00 X39.\nG01 X34.\nG00 X42.\nZ-5.\nG01 X40.\nG00 X42.\nZ-13.\nG01 X36.\nM30")
    assert [(p.z, p.floor_diameter, p.lines) for p in plunges(run)] == [(-5, 40, (10,)), (-13, 34, (5, 7, 13))]


def test_tools_are_kept_apart():
    run = run_of(f"{HEAD}G01 X38. F.1\nG00 X42.\nT0404\nG01 X36.\nM30")
    assert [(p.station, p.floor_diameter) for p in plunges(run)] == [(3, 38), (4, 36)]


def test_grooves_join_what_overlaps_and_what_is_fed_sideways():
    text = f"{HEAD}G01 X36. F.1\nG00 X42.\nZ-15.\nG01 X36.\nZ-13.\nG00 X42.\nZ-30.\nG01 X34.\nG00 X42.\nM30"
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in cut_grooves(run_of(text), [INSERT])] == [
        (-10, -15, 36),
        (-27, -30, 34),
    ]


def test_the_reference_edge_decides_the_walls():
    near = replace(INSERT, reference="near")
    (groove,) = cut_grooves(run_of(f"{HEAD}G01 X36. F.1\nM30"), [near])
    assert (groove.z_near, groove.z_far) == (-13, -16)


@pytest.mark.parametrize("text", ["G00 X30.", "T0909\nG01 X36. F.1", "G01 X42. F.1"])
def test_nothing_cut_is_no_groove(text):
    assert cut_grooves(run_of(f"{HEAD}{text}\nM30"), [INSERT]) == ()
    assert cut_grooves(run_of(f"{HEAD}{text}\nM30"), []) == ()


def test_grooves_in_the_bore_and_in_the_face_are_listed_with_where():
    # By hand: an insert 3 wide, Z set to its chuck side edge, inside; on the face X set to its inner edge.
    inside = replace(INSERT, station=5, offset=5, where="inside")
    face = replace(INSERT, station=7, offset=7, where="face")
    text = (
        "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\nG01 X34. F.1\nG00 X42.\nG00 Z5.\n"
        "T0505\nG00 X19.\nG00 Z-13.\nG01 X26. F.1\nG00 X19.\nG00 Z5.\n"
        "T0707\nG00 X24.\nG01 Z-4. F.1\nG00 Z5.\nG00 X40.\nG01 Z-2.\nG00 Z5.\nM30"
    )
    found = [
        (g.where, g.z_near, g.z_far, g.floor_diameter, g.mouth_diameter, g.lines)
        for g in cut_grooves(run_of(text), [INSERT, inside, face])
    ]
    assert found == [
        ("outside", -10, -13, 34, None, (5,)),
        ("inside", -10, -13, 26, None, (11,)),
        ("face", 0, -2, 40, 46, (19,)),
        ("face", 0, -4, 24, 30, (16,)),
    ]
    assert [g.where for g in cut_grooves(run_of(text), [inside])] == ["inside"]


def test_no_sentence_of_a_judge_has_a_word_that_is_the_dialects():
    told = []
    for path in (Path(postproc.__file__).parent / "judging").glob("*.py"):
        tree = ast.parse(path.read_text("utf-8"))
        owners = [node for node in ast.walk(tree) if isinstance(node, DOCUMENTED) and ast.get_docstring(node)]
        docs = {id(node.body[0].value) for node in owners}
        texts = [node for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)]
        told += [(path.name, node.value) for node in texts if id(node) not in docs and WORD.search(node.value)]
    assert told == []


def test_a_sentence_names_the_word_of_the_dialect():
    own = read_dialect('base = "two-block"\n[words]\nsurface = "G196"\n', "own")
    text = "G21 G99\nT0303\nG196 S120 M03\nG00 X42. Z-13.\nG01 X34. F0.08\nG00 X42.\nM30\n"
    hand = next(hand for hand in PLANS if hand.name == "at odd places")
    said = compare_program(hand.part, text, parse_shop(hand.shop, "s", "mm"), own).findings
    assert [f.message for f in said if f.code == "no-clamp"] == [
        "Constant surface speed (G196) is in force with no spindle clamp; give the highest speed before G196."
    ]
