"""A program in plain sentences, with the numbers worked out."""

import re
from itertools import islice
from random import Random

import pytest
from support.hands.style import hand_programs
from support.programs import EVERY_KIND, INSERT, plan_of

from extractor.errors import ProgramError
from postproc import Heading, dialects, explain, find_dialect, write_program
from postproc.explaining import explain as explain_module

INCH = "%\nO1 (RING)\nG20 G99\nT0101\nG97 S400 M03\nG00 X1.6 Z-.225\nG75 R.02\nG75 X1.3 Z-.425 P400 Q2000 F.004\nM30\n%"


def sentences(text, **how):
    """Sentence of each line."""
    return {block.line: block.sentence for block in explain(text, **how).blocks}


def test_a_row_in_two_blocks():
    said = sentences(INCH)
    assert said[2] == "Program number 1 begins."
    assert said[3] == "Lengths are in inches; feeds are per revolution of the spindle."
    assert said[4] == "Turret to station 1, with offset 1."
    assert said[5] == "Fixed spindle speed; 400 rev/min; spindle on, clockwise."
    assert said[6] == "At rapid to diameter 1.6000 in and to 0.2250 in behind the front face."
    assert said[7] == "For the grooving cycle that follows: back off 0.0200 in after each peck, measured on the radius."
    assert said[8] == (
        "Grooving cycle from X1.6 Z-0.225: 2 plunges at Z-0.225, Z-0.425, to a floor of diameter 1.3000 in; "
        "P400: 0.0400 in deeper each peck, measured on the radius: 4 pecks to the floor; "
        "Q2000: 0.2000 in from plunge to plunge; feed 0.004 in/rev; at the end back to the start."
    )
    assert said[9] == "End of the program."


def test_the_sentence_of_a_peck():
    text = "G21 G99\nT0303\nG97 S800 M03\nG00 X40. Z-13.\nG75 R.5\nG75 X34. P1000 F.08\nM30"
    words = explain(text).blocks[5].words
    assert [(w.column, w.text, w.meaning) for w in words] == [
        (1, "G75", "grooving cycle: peck a groove, or a row of grooves"),
        (5, "X34.", "floor at diameter 34.000 mm"),
        (10, "P1000", "1.000 mm deeper each peck, measured on the radius: 3 pecks to the floor"),
        (16, "F.08", "feed 0.08 mm/rev"),
    ]


@pytest.mark.parametrize(
    ("block", "sentence"),
    [
        ("G01 X34. F.08", "At feed 0.08 mm/rev to diameter 34.000 mm: 4.000 mm inward, measured on the radius."),
        ("G01 U-8. F.08", "At feed 0.08 mm/rev to diameter 34.000 mm: 4.000 mm inward, measured on the radius."),
        ("G01 W-2. F.08", "At feed 0.08 mm/rev to 15.000 mm behind the front face: 2.000 mm toward the chuck."),
        ("G01 X34.", "At no feed is in force to diameter 34.000 mm: 4.000 mm inward, measured on the radius."),
        ("G00 Z2.", "At rapid to 2.000 mm ahead of the front face."),
        ("G00 Z0", "At rapid to the front face."),
        ("G00", "From here on move at rapid."),
        ("G28 U0 W0", "To the reference point of the machine."),
        ("G28", "To the reference point of the machine."),
        ("G28 U0", "To the reference point of the machine along X alone."),
        ("G28 W2.", "To the reference point of the machine along Z alone, over the place named."),
        ("G28 X60. Z5.", "To the reference point of the machine, over the place named."),
        ("G28 U2. W0", "To the reference point of the machine, over the place named."),
        ("G50 S2500", "The spindle turns never faster than 2500 rev/min."),
        ("G97 S120", "Fixed spindle speed; 120 rev/min."),
        ("G04 P250", "Stand still for 0.25 s."),
        ("G04 X.25", "Stand still for 0.25 s."),
        ("G04 F2.", "Stand still for 2 s."),
        ("G04 F2", "Stand still for 0.002 s."),
        ("G04 P250 F.1", "Stand still for 0.25 s; feed 0.1 mm/rev."),
        ("M98 P1000 L4", "Subprogram 1000 runs, 4 times."),
        ("/M08", "Unless block skip is on, coolant on."),
        ("M01", "The program waits for the operator where optional stop is on."),
        ("M00", "The program waits for the operator."),
        ("T0300", "Turret to station 3, its offset cancelled."),
        ("(CHECK IT.)", "A remark, not run: CHECK IT."),
        ("()", "A remark, not run."),
        ("N10", "Nothing in this block is run."),
        ("(A (B) C)", "Nothing in this block is run."),
        ("#100=5", "Variable #100 becomes 5."),
        ("E5", "No word of this block is understood."),
        ("F.1", "Feed 0.1 mm/rev."),
        ("S900", "900 rev/min."),
        ("G98 F100", "Feeds are per minute; feed 100 mm/min."),
    ],
)  # fmt: skip
def test_single_blocks(block, sentence):
    head = "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\n"
    assert sentences(f"{head}{block}\nM30\nO1000\nM99")[5] == sentence.replace("At no feed is in force", "With no feed")


def test_one_groove_more_in_each_form():
    assert explain(INCH).changes == (
        "Line 8: for 3 grooves instead of 2 change Z-.425 to Z-0.625; nothing else changes "
        "(check first that the place is on the part and clear of the jaws); "
        "if the insert is wider than 0.2000 in it is one wide groove.",
    )
    head = "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\n"
    (by_step,) = explain(f"{head}G75 X34. W-15. I1. K5. F.08\nM30").changes
    assert "for 5 grooves instead of 4 change W-15. to W-20." in by_step
    (single,) = explain(f"{head}G75 R.5\nG75 X34. P1000 F.08\nM30").changes
    assert (
        "add Z with the place of that groove and Q with the distance between the grooves in least increments" in single
    )
    (early,) = explain(f"{head}G75 R.5\nG75 X34. Z-27. P1000 Q5000 F.08\nM30").changes
    assert "Z-27. is not a whole number of shifts" in early
    assert "Z-28. would put it a whole shift after the one before" in early
    (repeats,) = explain(f"{head}M98 P7 L4\nM30\nO7\nG01 X34. F.08\nG00 X42.\nW-5.\nM99").changes
    assert "change L4 to L5" in repeats
    (written,) = explain(f"{head}G01 X34. F.08\nG00 X42.\nM30").changes
    assert "write the blocks of one groove again" in written
    assert explain("G21\nG00 X42.\nM30").changes == ()


def test_rows_that_are_cut_side_by_side_change_together():
    head = "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\n"
    calls = "G75 R.5\nG75 X34. Z-25. P1000 Q6000 F.08\nG00 Z-13.5\nG75 X34. W-12. P1000 Q6000 F.08\n"
    (both,) = explain(f"{head}{calls}M30").changes
    assert both.startswith(
        "Lines 6 and 8 cut one row side by side: for 4 grooves instead of 3 change Z-25. to Z-31. in line 6 and "
        "W-12. to W-18. in line 8; nothing else changes"
    )


@pytest.mark.parametrize("seed", range(4))
def test_of_many_rows_those_side_by_side_are_found_as_by_looking_at_each(seed):
    """Each row against every head before it: the first of as many grooves, a shift apart, that begins within one."""
    random = Random(seed)
    rows = [(random.randrange(-60, -5), random.choice((3, 5)), random.choice((2, 3, 3.5))) for _ in range(60)]
    calls = [f"G00 Z{z}.\nG75 X34. Z{z - shift * (n - 1):.1f} P1000 Q{shift}000 F.08" for z, shift, n in rows]
    told = explain("G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z2.\nG75 R.5\n" + "\n".join(calls) + "\nM30").changes
    groups: list[list[int]] = []
    for at, (z, shift, n) in enumerate(rows):
        heads = (rows[group[0]] for group in groups)
        near = [
            h[1] == shift and int(-(-h[2] // 1)) == -(-n // 1) and h[2] % 1 == 0 and abs(h[0] - z) < shift
            for h in heads
        ]
        if any(near):
            groups[near.index(True)].append(at)
        else:
            groups.append([at])
    lines = [" and ".join(str(7 + 2 * at) for at in group) for group in groups]
    assert [re.match(r"Lines? ((?:\d+(?: and )?)+)", sentence)[1].strip() for sentence in told] == lines


def test_a_block_is_explained_when_its_turn_comes(monkeypatch):
    asked = []
    monkeypatch.setattr(explain_module, "sentence", lambda scene: asked.append(scene.block.line) or "")
    blocks = explain("G21\nG00 X42.\nM30").blocks
    assert (asked, len(blocks)) == ([], 3)
    assert [block.line for block in blocks] == [1, 2, 3]
    assert not any(block.sentence for block in islice(blocks, 2))
    assert asked == [1, 2]


def test_with_the_insert_known_one_wide_groove_is_told_from_a_row():
    head = "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\nG75 R.5\n"
    (wide,) = explain(f"{head}G75 X34. Z-18. P1000 Q2500 F.08\nM30", tools=[INSERT]).changes
    assert wide.startswith("Line 6: 3 plunges side by side make one groove 8.000 mm wide; ")
    (row,) = explain(f"{head}G75 X34. Z-18. P1000 Q5000 F.08\nM30", tools=[INSERT]).changes
    assert row == (
        "Line 6: for 3 grooves instead of 2 change Z-18. to Z-23.; nothing else changes "
        "(check first that the place is on the part and clear of the jaws)."
    )


@pytest.mark.parametrize("name", list(dialects(())))
def test_the_grooves_it_would_cut(name):
    text = write_program(plan_of(EVERY_KIND[:11]), find_dialect(name), Heading("ring.dxf", "0" * 64)).text
    told = explain(text, tools=[INSERT])
    assert [(p.z, p.floor_diameter) for p in told.plunges] == [(-13, 34), (-18, 34), (-23, 34), (-28, 34)]
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in told.grooves[:4]] == [
        (-10, -13, 34),
        (-15, -18, 34),
        (-20, -23, 34),
        (-25, -28, 34),
    ]
    assert explain(text).grooves == told.grooves, "the heading names the insert"
    bare = "\n".join(line for line in text.splitlines() if not line.startswith("(T"))
    assert explain(bare).grooves == ()
    assert told.dialect == name


def test_a_block_of_a_subprogram_is_told_as_it_runs_first():
    said = sentences("O1\nG21 G99\nG00 X42. Z-8.\nM98 P2 L4\nM30\nO2\nG00 W-5.\nG01 X34. F.1\nG00 X42.\nM99")
    assert said[7] == "At rapid to 13.000 mm behind the front face."
    assert said[8] == "At feed 0.1 mm/rev to diameter 34.000 mm: 4.000 mm inward, measured on the radius."


def test_arcs_are_told_by_their_end():
    told = explain("G21 G99\nG00 X40. Z-10.\nG02 X36. Z-12. R2. F.1\nG00 X50.\nM30")
    assert told.blocks[2].sentence == (
        "At feed 0.1 mm/rev to diameter 36.000 mm and to 12.000 mm behind the front face on an arc, "
        "clockwise seen with X up and Z to the right: radius 2.000 mm."
    )
    assert told.blocks[2].words[3].meaning == "radius 2.000 mm"
    assert told.blocks[3].sentence == "At rapid to diameter 50.000 mm."


def test_every_line_with_words_or_remarks_is_explained():
    for program in hand_programs(60, seed=3):
        told = explain(program.text)
        for block in told.blocks:
            assert block.sentence.endswith(".")
            assert not block.sentence.endswith("..")
            assert block.sentence[0].isupper()
            assert "not known" not in {word.meaning for word in block.words}, (block, program.text)
        assert {b.line for b in told.blocks} >= {m.line for m in told.run.motions}


def test_words_that_are_not_known_say_so_and_come_with_their_findings():
    told = explain("G21\nG31 Z-5. E2\nM30")
    assert {word.text: word.meaning for word in told.blocks[1].words}["E2"] == "not known"
    assert [finding.code for finding in told.findings] == ["unknown-word"]


def test_what_is_no_program_is_refused():
    with pytest.raises(ProgramError):
        explain("nothing here")


UNKNOWN = "G21 G99\nT0303\nG97 S900 M3\n{}\nM30"


@pytest.mark.parametrize(
    ("blocks", "says"),
    [
        ("G75 X10. P1000 F.1", "from a place that no block has said: 1 plunge there, to a floor of diameter 10.000 mm"),
        ("G00 X42.\nG75 X34. Z-28. P1000 Q5000 F.1", "from X42. and a Z that no block has said: plunges from there to"),
        ("G00 Z-13.\nG75 X34. Z-28. P1000 Q5000 F.1", "from Z-13. and an X that no block has said: 4 plunges at Z-13."),
        ("G75 U-8. W-5. P1000 Q5000 F.1", "plunges from there on, to a floor 4.000 mm further in"),
        ("G28 U0 W0\nG00 U-5.", "At rapid 2.500 mm inward, measured on the radius, from an X that no block has said."),
        ("G28 U0 W0\nG01 W-5. F.1", "5.000 mm toward the chuck from a Z that no block has said."),
        ("G28 U0\nG00 Z-5.", "At rapid to 5.000 mm behind the front face."),
    ],
)
@pytest.mark.parametrize("tools", [(), (INSERT,)])
def test_no_figure_is_made_up_for_a_place_that_no_block_has_said(blocks, says, tools):
    made = explain(UNKNOWN.format(blocks), tools=tools)
    assert any(says in block.sentence for block in made.blocks)
    told = [b.sentence for b in made.blocks] + [w.meaning for b in made.blocks for w in b.words]
    told += [*made.changes, *(f.message for f in made.findings)]
    assert not any("1000" in text.replace("P1000", "") or "999" in text for text in told)
    assert not made.grooves
    assert all(plunge.floor_diameter < 100 and plunge.z < 100 for plunge in made.plunges)


def test_a_floor_said_by_diameter_is_kept_where_the_way_to_it_was_not():
    made = explain(UNKNOWN.format("G00 Z-13.\nG01 X34. F.1\nG01 U-2."))
    assert [(p.z, p.floor_diameter) for p in made.plunges] == [(-13, 32)]


def test_no_unit_is_made_up_either():
    made = explain("T0303\nG96 S120 M3\nG00 X42. Z-13.\nG01 X34. F.08\nM30")
    assert not made.units_known
    told = " ".join(block.sentence for block in made.blocks)
    assert "mm" not in told.replace("m/min or ft/min", "")
    assert "to diameter 42.000 and" in told
    assert "Feed" not in told
    assert "feed 0.08 per rev" in told
    assert "mm/rev" in explain("G21\nG00 X42. Z-13.\nG01 X34. F.08\nM30").blocks[2].sentence


def test_a_cycle_whose_word_is_missing_is_explained_as_it_was_read():
    told = explain("G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\nG75 R.5\nX34. Z-23. P1000 Q5000 F.1\nM30")
    block = told.blocks[5]
    assert block.sentence.startswith("Grooving cycle from X42. Z-13.: 3 plunges")
    assert {word.text: word.meaning for word in block.words}["Q5000"] == "5.000 mm from plunge to plunge"


@pytest.mark.parametrize(
    ("call", "said", "changed"),
    [
        ("M98 P40002", "Subprogram 2 runs, 4 times.", "P40002 to P50002"),
        ("M98 P0040002", "Subprogram 2 runs, 4 times.", "P0040002 to P50002"),
        ("M98 P10002", "Subprogram 2 runs.", None),
        ("M98 P2 L4", "Subprogram 2 runs, 4 times.", "L4 to L5"),
        ("M98 P2", "Subprogram 2 runs.", None),
        ("M98 P0002", "Subprogram 0002 runs.", None),
        # A program of the file has that number, so it is no count.
        ("M98 P50003", "Subprogram 50003 runs.", None),
    ],
)
def test_a_call_with_the_repeats_before_the_number_is_told_as_it_runs(call, said, changed):
    """Where no program has all of P for its number, the last four figures are it (common practice)."""
    plunge = "G00 W-5.\nG01 X34. F.08\nG00 X42.\nM99\n"
    text = f"O1\nG21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-8.\n{call}\nM30\nO2\n{plunge}O50003\n{plunge}"
    made = explain(text)
    assert [block.sentence for block in made.blocks if block.line == 6] == [said]
    assert [change.split("change ")[1].split(";")[0] for change in made.changes if " change " in change] == (
        [changed] if changed else []
    )
