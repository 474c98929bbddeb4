"""Grooving cycles in forms of their own, and single words of them, with every move worked out by hand.

A row said by its number, a depth from the start, start points in the call, a cycle that stands till a word ends it:
what each does is said in the dialect itself, and no control is meant by any of them.
"""

import pytest
from support.programs import run_of
from support.tongues import FIVE

from extractor.finding import Level
from planner.steps import GrooveCycle
from postproc import find_dialect, interpret
from postproc.dialects import read_dialect
from postproc.reading.renaming import parse_as

COUNTED = read_dialect(
    '[words]\ngroove = "G87"\n[cycle]\n'
    'blocks = ["{g} X{floor} C{count} K{shift:signed}? D{peck} E{retract} F{feed}"]\n',
    "counted",
)
LENGTHS = {
    sign: read_dialect(
        '[words]\ngroove = "G87"\n[cycle]\n'
        f'blocks = ["{{g}} X{{floor}} L{{length{sign}}}? D{{peck}} K{{shift}}? E{{retract}} F{{feed}}"]\n',
        "lengths",
    )
    for sign in ("", ":plus")
}
RADIUS = read_dialect(
    '[words]\ngroove = "G87"\n[cycle]\nblocks = ["{g} X{floor:radius} Z{end}? D{peck} K{shift}? E{retract} F{feed}"]\n',
    "radius",
)
POINTLESS = read_dialect('base = "two-block"\n[numbers.R]\npoint = "optional"\n', "pointless")
HEAD = "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\n"


def run(text, dialect, head=HEAD):
    """The run of a call behind the usual head; it begins on line 5."""
    return interpret(parse_as(f"{head}{text}\nM30\n", dialect), dialect, "mm")


def floors(found):
    """Where the last feed into each groove ends."""
    return {m.z1 / 1000: m.x1 / 1000 for m in found.motions if m.kind == "feed" and m.z0 == m.z1}


def moves(found, skip=1):
    return [(m.kind, m.x1 / 1000, m.z1 / 1000) for m in found.motions[skip:]]


def stops(found):
    return [(str(f.code), f.line) for f in found.findings if f.level is Level.STOP]


@pytest.mark.parametrize(
    ("words", "places"),
    [
        ("C1 K-5.", [-13]),
        ("C2 K-5.", [-13, -18]),
        ("C4 K-5.", [-13, -18, -23, -28]),
        ("C3 K5.", [-13, -8, -3]),
    ],
)
def test_a_row_said_by_how_many_grooves_it_has(words, places):
    found = run(f"G87 X34. {words} D1. E.5 F.08", COUNTED)
    assert floors(found) == dict.fromkeys(places, 34)
    assert list(floors(found)) == places
    assert not found.findings
    assert found.cycles[0].end_z == 1000 * places[-1]


@pytest.mark.parametrize("number", ["C0", "C2.5"])
def test_a_row_of_no_whole_number_of_grooves_is_a_stop_and_taken_as_one(number):
    found = run(f"G87 X34. {number} K-5. D4. E.5 F.08", COUNTED)
    assert floors(found) == {-13: 34}
    assert stops(found) == [("cycle-word-missing", 5)]
    assert found.findings[0].message == f"{number} is not a number of grooves; write a whole number."


@pytest.mark.parametrize(
    ("row", "places", "stopped"),
    [
        ("#103=-5 #104=3", [-13, -18, -23, -28], False),
        ("#103=-5 #104=1", [-13, -18], False),
        ("#103=-5 #104=0", [-13], False),
        ("#103=5 #104=2", [-13, -8, -3], False),
        ("#103=-5 #104=1.5", [-13], True),
    ],
)
def test_a_row_said_by_how_many_more_grooves_it_has(row, places, stopped):
    found = run(f"#101=-4 #102=4\n{row}\n#105=0.5\nG87 F0.08", FIVE["numbered-values"])
    assert floors(found) == dict.fromkeys(places, 34)
    assert bool(stops(found)) is stopped
    # It ends above the last groove.
    assert (found.motions[-1].x1, found.motions[-1].z1) == (42_000, 1000 * places[-1])


@pytest.mark.parametrize(("depth", "floor"), [("-4", 34), ("-0.5", 41), ("4", 50), ("0", 42)])
def test_a_depth_is_from_the_start_on_the_radius(depth, floor):
    found = run(f"#101={depth} #102=4\n#103=-5 #104=0\n#105=0.5\nG87 F0.08", FIVE["numbered-values"])
    assert found.cycles[0].floor_x == 1000 * floor
    assert stops(found) == ([("cycle-without-motion", 8)] if depth == "0" else [])


@pytest.mark.parametrize(
    ("sign", "length", "places"),
    [
        ("", "L-10. K5.", [-13, -18, -23]),
        ("", "L10. K5.", [-13, -8, -3]),
        ("", "L-.001 K5.", [-13, -13.001]),
        (":plus", "L10. K5.", [-13, -18, -23]),
        (":plus", "L.001 K5.", [-13, -13.001]),
        *((sign, words, [-13]) for sign in ("", ":plus") for words in ("L0. K5.", "")),
    ],
)
def test_a_length_of_a_row_has_a_sign_or_goes_toward_the_chuck(sign, length, places):
    found = run(f"G87 X34. {length} D4. E.5 F.08", LENGTHS[sign])
    assert list(floors(found)) == places
    assert found.cycles[0].end_z == round(1000 * places[-1])


STARTED = "G21 G99\nT0303\nG97 S800 M03\nG00 X60000 Z5000\n"
"""For two-points, in which no number but F has a point."""


@pytest.mark.parametrize(("words", "end"), [("L10000 E-5000", -23), ("L0 E-5000", -13), ("E-5000", -13), ("", -13)])
def test_a_call_goes_to_the_start_that_it_names_and_from_there_toward_the_chuck(words, end):
    found = run(f"G86 A42000 B-13000 X34000 {words} D4000 R500 F0.08", FIVE["two-points"], STARTED)
    assert moves(found)[:3] == [("rapid", 42, -13), ("feed", 34, -13), ("rapid", 42, -13)]
    assert found.cycles[0].end_z == 1000 * end
    assert not stops(found)


def test_a_call_that_names_its_start_on_the_axis_begins_there():
    """In a bore from the axis out: pecks of 10 on the radius end on 20 and 40."""
    found = run("G86 A0 B-13000 X40000 D10000 R500 F0.08", FIVE["two-points"], STARTED)
    assert moves(found) == [
        ("rapid", 0, -13),
        ("feed", 20, -13),
        ("rapid", 19, -13),
        ("feed", 40, -13),
        ("rapid", 0, -13),
    ]


def test_a_call_that_names_no_start_begins_where_the_tool_stands():
    head = STARTED.replace("X60000 Z5000", "X42000 Z-13000")
    found = run("G86 X34000 D4000 R500 F0.08", FIVE["two-points"], head)
    assert moves(found) == [("feed", 34, -13), ("rapid", 42, -13)]


def test_a_cycle_that_stands_cuts_once_more_at_each_place_and_at_nothing_else():
    text = "G86 A42000 B-13000 X34000 D4000 R500 F0.08\nM08\nZ-20000\nF0.1\nG80"
    found = run(text, FIVE["two-points"], STARTED)
    one = [("feed", 34), ("rapid", 42)]
    assert moves(found) == [
        ("rapid", 42, -13),
        *((kind, x, -13) for kind, x in one),
        ("rapid", 42, -20),
        *((kind, x, -20) for kind, x in one),
    ]
    assert not stops(found)
    assert len(found.cycles) == 2


def test_a_retract_with_its_point_left_out_counts_as_the_dialect_has_it():
    """1 is a millimetre where a point may be left out, and a count where it is needed."""
    texts = "G75 R1\nG75 X34. P1000 F.08", "G75 R1.\nG75 X34. P1000 F.08"
    assert [run(text, POINTLESS).cycles[0].retract for text in texts] == [1000, 1000]
    assert [run(text, find_dialect("two-block")).cycles[0].retract for text in texts] == [1, 1000]


@pytest.mark.parametrize(("end", "number"), [("-113.", "Q100000"), ("-112.999", "Q100")])
def test_a_length_is_meant_that_just_fits_into_the_way(end, number):
    """Q100. from -13 to -113 is one shift of 100 mm; a count less of way leaves room for one of 100 counts alone."""
    found = run_of(f"{HEAD}G75 R.5\nG75 X34. Z{end} P4000 Q100. F.08\nM30")
    (message,) = [f.message for f in found.findings]
    assert f"write {number} if" in message


@pytest.mark.parametrize(("end", "told"), [("-1013.", False), ("-1013.001", True)])
def test_more_than_a_million_grooves_are_a_slip(end, told, monkeypatch):
    monkeypatch.setattr("postproc.reading.log.MOST_MOTIONS", 50)
    found = run_of(f"{HEAD}G75 R.5\nG75 X34. Z{end} P4000 Q1 F.08\nM30")
    assert any("more than 1000000 grooves" in f.message for f in found.findings) is told


@pytest.mark.parametrize("words", ["K-5.", "C3", ""])
def test_a_row_with_no_number_or_no_shift_ends_where_it_begins(words):
    found = run(f"G87 X34. {words} D4. E.5 F.08", COUNTED)
    assert floors(found) == {-13: 34}
    assert found.cycles[0].end_z == -13_000


def test_a_place_after_a_call_that_is_none_cuts_nothing():
    found = run("G86 A42000 B-13000 D4000 R500 F0.08\nZ-20000", FIVE["two-points"], STARTED)
    assert moves(found) == []
    assert stops(found) == [("cycle-word-missing", 5), ("unknown-word", 6)]


@pytest.mark.parametrize(("text", "number"), [("Q1000.", "Q1000000"), ("Q1001.", "Q1001")])
def test_a_shift_with_no_row_to_hold_it_to_is_no_longer_than_a_metre(text, number):
    (message,) = [f.message for f in run_of(f"{HEAD}G75 R.5\nG75 X34. P4000 {text} F.08\nM30").findings]
    assert f"write {number} if" in message


@pytest.mark.parametrize(("retract", "told"), [("R49", True), ("R50", False), ("R1", True), ("R0", False)])
def test_a_retract_below_fifty_counts_with_no_point_is_told(retract, told):
    found = run_of(f"{HEAD}G75 {retract}\nG75 X34. P4000 F.08\nM30")
    assert [str(f.code) for f in found.findings] == ["small-retract"] * told


@pytest.mark.parametrize(
    ("text", "shift", "feed"),
    [("G75 X34. Z-28. P4000 F.08", 0, 800), ("G75 X34. Z-28. P4000 Q5000", 5000, 0), ("G75 X34. P4000", 0, 0)],
)
def test_the_step_of_a_call_has_nothing_that_nobody_said(text, shift, feed):
    (step,) = [s for s in run_of(f"{HEAD}G75 R.5\n{text}\nM30").steps if isinstance(s, GrooveCycle)]
    assert (step.shift, step.feed, step.peck, step.retract) == (shift, feed, 4000, 500)


@pytest.mark.parametrize(
    ("text", "ways"),
    [
        ("G74 R.5\nG74 Z-14. F.08", [("feed", 42, -14), ("rapid", 42, -13)]),
        ("G74 Z-14. Q500 F.08", [("feed", 42, -13.5), ("feed", 42, -14), ("rapid", 42, -13)]),
    ],
)
def test_along_z_without_a_peck_or_a_retract(text, ways):
    assert moves(run_of(f"{HEAD}{text}\nM30")) == ways


@pytest.mark.parametrize(("more", "told"), [("1000000", False), ("1000001", True), ("9000000", True)])
def test_a_row_of_more_than_a_million_more_grooves_is_a_slip(more, told, monkeypatch):
    monkeypatch.setattr("postproc.reading.log.MOST_MOTIONS", 50)
    text = f"#101=-4 #102=4\n#103=-.001 #104={more}\n#105=0.5\nG87 F0.08"
    found = run(text, FIVE["numbered-values"])
    assert any("more than 1000000 grooves" in f.message for f in found.findings) is told


def test_a_floor_said_as_a_radius_is_twice_that_across():
    found = run("G87 X17. Z-18. D4. K5. E.5 F.08", RADIUS)
    assert floors(found) == {-13: 34, -18: 34}
    assert not found.findings


@pytest.mark.parametrize(("text", "number"), [("P2500.", "P2500"), ("P2501.", "P2501000")])
def test_a_way_from_plunge_to_plunge_fits_into_the_way_across_on_the_radius(text, number):
    """From 42 to 37 across are 2.5 on the radius."""
    found = run_of(f"{HEAD}G74 R.5\nG74 X37. Z-14. {text} Q1000 F.08\nM30")
    (message,) = [f.message for f in found.findings if f.stops]
    assert f"write {number} if" in message


def test_the_step_of_a_call_without_a_peck_has_none():
    found = run_of(f"{HEAD}G75 R.5\nG75 X34. F.08\nM30")
    assert [s for s in found.steps if isinstance(s, GrooveCycle)] == [
        GrooveCycle(floor_x=34_000, end_z=-13_000, peck=0, shift=0, retract=500, feed=800)
    ]


def test_the_step_of_one_groove_has_no_shift():
    found = run_of(f"{HEAD}G75 R.5\nG75 X34. P4000 Q5000 F.08\nM30")
    assert [s for s in found.steps if isinstance(s, GrooveCycle)] == [
        GrooveCycle(floor_x=34_000, end_z=-13_000, peck=4_000, shift=0, retract=500, feed=800)
    ]


@pytest.mark.parametrize(
    ("start", "pecks", "places"),
    [
        ("X42. Z-13.", [40, 38, 36, 34], [-13, -18, -23, -28]),
        ("X42.", [34], [-28]),
        ("Z-13.", [34], [-13, -18, -23, -28]),
    ],
)
def test_from_a_place_never_said_neither_pecks_nor_grooves_are_counted(start, pecks, places):
    found = run_of(f"G21 G99\nT0303\nG97 S800 M03\nG00 {start}\nG75 R.5\nG75 X34. Z-28. P1000 Q5000 F.08\nM30")
    feeds = [(m.z1 / 1000, m.x1 / 1000) for m in found.motions if m.kind == "feed"]
    assert feeds == [(z, x) for z in places for x in pecks]


@pytest.mark.parametrize(("words", "other"), [("A42000", "B"), ("B-13000", "A")])
def test_a_call_that_names_one_place_of_its_start_alone_stops(words, other):
    """The other one is where the tool stands, never nought."""
    found = run(f"G86 {words} X34000 D4000 R500 F0.08", FIVE["two-points"], STARTED)
    assert stops(found) == [("cycle-word-missing", 5)]
    assert f"not the other, {other}; give both" in found.findings[0].message
    assert (found.cycles[0].start_x, found.cycles[0].start_z) == ((42000, 5000) if other == "B" else (60000, -13000))


@pytest.mark.parametrize(
    ("words", "stop"), [("C3", True), ("C2", True), ("C1", False), ("K-5.", False), ("C2 K-5.", False)]
)
def test_grooves_by_their_number_need_a_shift(words, stop):
    found = run(f"G87 X34. {words} D4. E.5 F.08", COUNTED)
    assert stops(found) == [("cycle-word-missing", 5)] * stop
    if stop:
        assert f"has {words} and no K, the distance between grooves; give it" in found.findings[0].message


@pytest.mark.parametrize(
    ("measure", "depth", "floor"),
    [
        (":diameter", "4.", 38),
        (":diameter", "-4.", 38),
        (":diameter:signed", "4.", 46),
        (":diameter:signed", "-4.", 38),
        ("", "4.", 34),
        (":radius", "-4.", 34),
        (":signed", "4.", 50),
        (":signed", "-4.", 34),
    ],
)
def test_a_depth_is_measured_and_signed_as_the_dialect_says(measure, depth, floor):
    """From 42: 4 on the diameter end on 38 or 46, 4 on the radius on 34 or 50."""
    block = f"{{g}} A{{depth{measure}}} Z{{end}}? D{{peck}} K{{shift}}? E{{retract}} F{{feed}}"
    deep = read_dialect(f'[words]\ngroove = "G87"\n[cycle]\nblocks = ["{block}"]\n', "deep")
    found = run(f"G87 A{depth} D9. E.5 F.08", deep)
    assert moves(found) == [("feed", floor, -13), ("rapid", 42, -13)]
    assert not found.findings


@pytest.mark.parametrize(("text", "number"), [("Q1000.", "Q1000"), ("Q1001.", "Q1001000")])
def test_a_peck_along_z_fits_into_the_way_to_the_floor(text, number):
    """From -13 to -14 are 1000 counts."""
    (message,) = [f.message for f in run_of(f"{HEAD}G74 R.5\nG74 Z-14. {text} F.08\nM30").findings if f.stops]
    assert f"write {number} if" in message


@pytest.mark.parametrize(
    ("sign", "word", "said"),
    [
        ("", "D4.", None),
        ("", "D-4.", "D-4. has a sign; the cycle takes D without one."),
        (":minus", "D-4.", None),
        (":minus", "D4.", "D4. has no sign; the cycle takes D with a minus."),
    ],
)
def test_a_peck_has_the_sign_that_the_dialect_gives_it(sign, word, said):
    block = f"{{g}} X{{floor}} Z{{end}}? D{{peck{sign}}} K{{shift}}? E{{retract}} F{{feed}}"
    own = read_dialect(f'[words]\ngroove = "G87"\n[cycle]\nblocks = ["{block}"]\n', "own")
    found = run(f"G87 X34. {word} E.5 F.08", own)
    assert found.cycles[0].peck == 4000
    assert [f.message for f in found.findings] == ([] if said is None else [said])


@pytest.mark.parametrize(("word", "stop"), [("", False), ("P0", False), ("P1", True), ("P500", True)])
def test_a_wait_at_the_floor_within_the_cycle_stops(word, stop):
    """Any wait that is not 0: common practice, no source, has it in milliseconds."""
    block = "{g} X{floor} Z{end}? D{peck} K{shift}? P{wait}? E{retract} F{feed}"
    own = read_dialect(f'[words]\ngroove = "G87"\n[cycle]\nblocks = ["{block}"]\n', "own")
    found = run(f"G87 X34. D9. {word} E.5 F.08", own)
    assert stops(found) == [("dwell-in-cycle", 5)] * stop
