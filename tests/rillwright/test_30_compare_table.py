"""What compare prints: rows, words, the closing sentence; and its JSON."""

from dataclasses import replace

import pytest
from support.forms import form
from support.moves import Moves, shop, tool
from support.parts import part_of, row

from extractor.finding import Finding, Level
from postproc import judge
from postproc.codes import ProgramCode
from postproc.verdict import CutGroove, Match, State, Verdict
from rillwright.codes import JobCode
from rillwright.compare import closing_sentence, difference_in_words, print_verdict, verdict_rows
from rillwright.records.recording import verification

PART = part_of(row(4, -10, 5, 3, 34))


def moves(*plunges: tuple[float, float]) -> Moves:
    made = Moves()
    for z, floor in plunges:
        made.plunge(z, floor)
    return made


RIGHT = moves((-13, 34), (-18, 34), (-23, 34), (-28, 34))
WRONG = moves((-13, 34), (-17.9, 34), (-28, 34.2), (-41, 33))


def printed(capsys, part, verdict) -> str:
    print_verdict(part, verdict, "ring.dxf", "old.nc")
    return capsys.readouterr().out


def test_all_right(capsys):
    text = printed(capsys, PART, judge(PART, RIGHT.run(), shop()))
    assert text.splitlines()[0] == "old.nc against ring.dxf (lengths in mm, floors are diameters)"
    assert text.splitlines()[-1] == "Agree: all 4 grooves match and no move is unsafe."
    assert text.count("matches") == 4
    two = part_of([(-10, -13, 34), (-15, -18, 34)])
    text = printed(capsys, two, judge(two, moves((-13, 34), (-18, 34)).run(), shop()))
    assert text.splitlines()[-1] == "Agree: both grooves match and no move is unsafe."
    assert max(map(len, text.splitlines())) <= 120


def test_what_is_off_stands_in_its_row(capsys):
    lines = printed(capsys, PART, judge(PART, WRONG.run(), shop())).splitlines()
    rows = {line.split()[0]: " ".join(line.split()) for line in lines[2:7]}
    assert rows["1"].endswith("none matches 2")
    assert rows["2"].endswith("Z-14.9 to Z-17.9, floor 34 0.1 too far to the front position 5")
    assert rows["3"].endswith("not cut missing -")
    assert rows["4"].endswith("0.2 too shallow on the diameter depth 8")
    assert rows["-"].endswith("not drawn extra 11")
    assert lines[-1].startswith("Differ: grooves 2 to 4 of 4 not as drawn; 1 cut in no drawing")


def test_words_carry_the_answer_without_colour(capsys):
    text = printed(capsys, PART, judge(PART, WRONG.run(), shop()))
    assert "\x1b" not in text


def test_an_unsafe_program_names_its_lines(capsys):
    bad = Moves(clamp=None)
    for z in (-13, -18, -23, -28):
        bad.plunge(z, 34)
    text = printed(capsys, PART, judge(PART, bad.run(), shop()))
    assert text.splitlines()[-1].startswith("Unsafe: 1 stop (line 2)")
    assert text.count("no-clamp line") == 1


def test_many_alike_findings_are_counted(capsys):
    bad, part = Moves(), part_of(row(10, -5, 5, 3, 34))
    for i in range(10):
        bad.rapid(42, -8 - 5 * i).rapid(34).rapid(42)
    text = printed(capsys, part, judge(part, bad.run(), shop()))
    assert text.count("rapid-into-material line") == 4
    assert "rapid-into-material: 6 more like these" in text


def test_a_long_row_that_matches_is_one_row():
    part = part_of(row(40, -10, 5, 3, 34), length=250)
    made = Moves()
    for i in range(40):
        made.plunge(-13 - 5 * i + (0.1 if i == 20 else 0), 34)
    rows = verdict_rows(part, judge(part, made.run(), shop(stick_out=None)))
    assert [(r.groove, r.state.value) for r in rows] == [
        ("1 to 20", "matches"),
        ("21", "position"),
        ("22 to 40", "matches"),
    ]
    assert rows[0].lines == "2, 5, 8, 11 ..."


@pytest.mark.parametrize(
    ("state", "near", "far", "floor", "words"),
    [
        (State.POSITION, 0.5, 0.5, 0.0, "0.5 too far to the front"),
        (State.POSITION, -0.5, -0.4, 0.0, "0.4 too far to the chuck"),
        (State.WIDTH, 0.5, 0.0, 0.0, "0.5 too wide at the front wall"),
        (State.WIDTH, 0.0, 0.5, 0.0, "0.5 too narrow at the chuck wall"),
        (State.WIDTH, -0.1, 0.1, 0.0, "0.2 too narrow at both walls"),
        (State.DEPTH, 0.0, 0.0, 0.3, "0.3 too shallow on the diameter"),
        (State.DEPTH, 0.0, 0.0, -0.3, "0.3 too deep on the diameter"),
        (State.DEPTH, 0.0, 0.0, 0.0, "floor not as drawn"),
        (State.MATCHES, 0.01, 0.0, 0.0, "front wall +0.01, allowed"),
        (State.MATCHES, 0.01, 0.0, -0.065, "floor -0.065, allowed"),
        (State.MATCHES, 0.0, 0.0, 0.0, "none"),
    ],
)
def test_differences_in_words(state, near, far, floor, words):
    difference = {"z_near": near, "z_far": far, "floor_diameter": floor}
    match = Match(
        drawing=1, program=CutGroove(z_near=-10.0, z_far=-13.0, floor_diameter=34.0), state=state, difference=difference
    )
    assert difference_in_words(match, PART.grooves[0]) == words


@pytest.mark.parametrize(
    ("state", "far", "floor", "words"),
    [
        (State.DEPTH, 0.0, -0.004, "0.001 too shallow on the diameter"),
        (State.DEPTH, 0.0, -0.012, "0.012 too deep on the diameter"),
        (State.DEPTH, 0.0, 0.004, "0.004 too shallow on the diameter"),
        (State.WIDTH, -0.1, 0.0, "0.1 too narrow at the chuck wall"),
        (State.WIDTH, -0.45, 0.0, "0.45 too wide at the chuck wall"),
        (State.WIDTH, 0.1, 0.0, "0.1 too narrow at the chuck wall"),
    ],
)
def test_where_both_limits_lie_on_one_side_of_the_drawn_size_the_words_go_by_them(state, far, floor, words):
    """Floor 34 -0.005/-0.01, width 3 +0.4/+0.2: by hand."""
    limits = {"floor_diameter": (-0.01, -0.005), "width": (0.2, 0.4)}
    difference = {"z_near": 0.0, "z_far": far, "floor_diameter": floor}
    cut = CutGroove(z_near=-10.0, z_far=-13.0 + far, floor_diameter=34.0 + floor)
    match = Match(drawing=1, program=cut, state=state, difference=difference)
    assert difference_in_words(match, replace(PART.grooves[0], tolerances=limits)) == words


def test_an_inside_floor_is_shallow_the_other_way():
    part = part_of([(-10, -13, 26, {"where": "inside", "mouth_diameter": 20.0})], bore=20.0)
    match = Match(
        drawing=1,
        program=CutGroove(z_near=-10, z_far=-13, floor_diameter=25.8),
        state=State.DEPTH,
        difference={"z_near": 0.0, "z_far": 0.0, "floor_diameter": -0.2},
    )
    assert difference_in_words(match, part.grooves[0]) == "0.2 too shallow on the diameter"


@pytest.mark.parametrize(
    ("verdict", "sentence"),
    [
        (Verdict(()), "Agree: the drawing has no groove and no move is unsafe."),
        (
            Verdict((), (Finding(Level.CAUTION, ProgramCode.WORK_OFFSET, "b."),)),
            "Agree: the drawing has no groove and no move is unsafe; 1 caution to look at.",
        ),
        (
            Verdict((), (Finding(Level.CAUTION, JobCode.GROOVE_LEFT_OUT, "b.", groove=1),)),
            "Agree in part: 0 of 1 groove match and no move is unsafe; 1 caution to look at.",
        ),
        (
            Verdict((), (Finding(Level.STOP, ProgramCode.LAND_CUT, "b."),)),
            "Unsafe: 1 stop. Don't run this program as it is.",
        ),
        (
            Verdict((Match(drawing=1, program=None, state=State.MISSING, difference={}),)),
            "Differ: groove 1 of 1 not as drawn. Don't run this program as it is.",
        ),
    ],
)
def test_closing_sentences(verdict, sentence):
    assert closing_sentence(verdict) == sentence


def test_the_json_is_the_contracts():
    document = form(verification(judge(PART, WRONG.run(), shop())))
    assert document["schema"] == 1
    assert document["agree"] is False
    assert [g["state"] for g in document["grooves"]] == ["matches", "position", "missing", "depth", "extra"]
    second = document["grooves"][1]
    assert second["drawing"] == 2
    assert (second["program"]["z_near"], second["program"]["z_far"]) == (-14.9, -17.9)
    assert second["difference"] == {"z_near": 0.1, "z_far": 0.1, "floor_diameter": 0.0}
    assert document["grooves"][2]["program"] is None
    assert document["grooves"][4]["drawing"] is None


def test_the_json_of_findings_has_the_line():
    bad = Moves(clamp=None).plunge(-13, 34)
    found = form(verification(judge(part_of([(-10, -13, 34)]), bad.run(), shop(tool()))))["findings"]
    assert [(f["level"], f["code"], f["line"]) for f in found] == [("stop", "no-clamp", 2)]


def test_names_are_printed_on_one_line_and_as_they_are(capsys):
    print_verdict(PART, judge(PART, RIGHT.run(), shop()), "[red]ring\n.dxf", "a\x1b[2J.nc")
    first = capsys.readouterr().out.splitlines()[0]
    assert first == "a [2J.nc against [red]ring .dxf (lengths in mm, floors are diameters)"


def test_many_cuts_of_one_cause_share_a_row():
    cuts = [CutGroove(z_near=-30.0 - 5 * n, z_far=-33.0 - 5 * n, floor_diameter=34.0, lines=(12,)) for n in range(9000)]
    other = Match(
        drawing=None,
        program=CutGroove(z_near=-1.0, z_far=-4.0, floor_diameter=20.0, lines=(20,)),
        state=State.EXTRA,
        difference={},
    )
    verdict = Verdict((*(Match(drawing=None, program=cut, state=State.EXTRA, difference={}) for cut in cuts), other))
    rows = verdict_rows(part_of([(-10, -13, 34)]), verdict)
    assert [(row.program, row.lines) for row in rows] == [
        ("9000 cuts, Z-30 to Z-45028, floor 34", "12"),
        ("Z-1 to Z-4, floor 20", "20"),
    ]
    assert {row.difference for row in rows} == {"not drawn"}


@pytest.mark.parametrize(
    ("difference", "words"),
    [
        ({"z_far": -1.0}, "1 too deep"),
        ({"z_far": 0.5}, "0.5 too shallow"),
        ({"floor_diameter": 4.0}, "inner wall 4 too large on the diameter"),
        ({"mouth_diameter": -2.0, "z_far": -0.1}, "outer wall 2 too small on the diameter, 0.1 too deep"),
        ({}, "not as drawn"),
    ],
)
def test_a_face_groove_is_off_at_its_walls_and_its_floor(difference, words):
    groove = part_of([(0, -3, 20, {"where": "face", "mouth_diameter": 30.0})]).grooves[0]
    cut = CutGroove(z_near=0.0, z_far=-3.0, floor_diameter=20.0, lines=(), mouth_diameter=30.0)
    assert difference_in_words(Match(drawing=1, program=cut, state=State.DEPTH, difference=difference), groove) == words


def test_many_extra_cuts_of_one_cause_share_a_row(capsys):
    made = moves((-13, 34), (-18, 34), (-23, 34), (-28, 34))
    for i in range(5, 400):
        made.rapid(42, -8 - 5 * i, line=9).feed(34, line=9).rapid(42, line=9)
    made.plunge(-2200, 33)
    verdict = judge(PART, made.run(), shop(stick_out=None))
    rows = verdict_rows(PART, verdict)
    assert [(r.program, r.state.value, r.lines) for r in rows[1:]] == [
        ("395 cuts, Z-30 to Z-2003, floor 34", "extra", "9"),
    ]
    assert "395 cuts in no drawing" in closing_sentence(verdict)
    assert len(printed(capsys, PART, verdict).splitlines()) < 12
