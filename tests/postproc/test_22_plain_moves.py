"""Runs of plain moves made in one go against the same blocks run one by one by the table: no difference anywhere.

Oracle: the interpreter with the short way taken from it, which the tests of every word hold to values by hand.
"""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.steps import Cut, Rapid
from postproc import find_dialect, interpret, parse_program
from postproc.dialects import read_dialect
from postproc.motion import Motion
from postproc.reading import interpreter
from postproc.reading.plain_moves import PlainMoves

DIALECTS = [find_dialect(name) for name in ("two-block", "one-block", "plunge", "one-block-iso", "two-block-mixed")]
HEAD = "G21 G18 G40 G99\nG50 S2000\nT0303\nG96 S120 M03\nG00 X36. Z2.\n"


def step_by_step(monkeypatch):
    monkeypatch.setattr(PlainMoves, "make", lambda self, at, end, mode: (0, mode))


def both_ways(text, dialect, **options):
    """The run as it is, and the run block by block."""
    parsed = parse_program(text)
    short = interpret(parsed, dialect, "mm", **options)
    with pytest.MonkeyPatch.context() as patched:
        step_by_step(patched)
        return short, interpret(parsed, dialect, "mm", **options)


NUMBERS = st.one_of(
    st.integers(-60_000, 60_000).map(lambda n: f"{n / 1000:.3f}"),
    st.sampled_from(
        ["36.", "-.5", "+2.", "0.", "-0.", "5", "1.00050", "1.0005", "-0.33333", "99999.999", "100000.", "."]
    ),
).filter(lambda text: text != ".")
FEEDS = st.sampled_from(["0.08", "0.05", ".1", "0.", "-0.1", "8", "0.00001", "0.123456"])
PLACES = st.builds("{}{}".format, st.sampled_from("XXXZZZUW"), NUMBERS)
WORDS = st.one_of(PLACES, PLACES, FEEDS.map("F{}".format), st.sampled_from(["G00", "G1", "G01", "G0", "G001", "G1."]))
PLAIN = st.lists(WORDS, min_size=1, max_size=4).map(" ".join)
ODD = st.sampled_from(
    """
    G91|G90|G98|G99|G20|G28 U0 W0|G28 U0|G50 X40. Z5.|G50 X36. Z2.|G54|G41|G40|M03|M05|M00|M08|S150|G97 S500|T0505|T0300
    G02 X30. Z-2. R3.|X30. K1.|X30. I0.5|X30. C1.|X30. Z-3. R1.|X30. Y2.|X30. X31.|X30. U1.|G00 G01 X30.
    (a remark)|G90 X30. Z-5. F0.1|X20. (with a remark)|/ X30. Z-5.|N10 G01 X33. F0.1|N20 X34.|#1=5|X[#1+20.]
    G04 P500|G01 F0.1|G00|F0.07
    G75 R0.5|G75 X30. Z-9. P1000 Q3000 F0.08|G75 X30. Z-9. I1. K3. F0.08|X34.|Z-9.|G70 P10 Q20|M98 P2|M99|M30|O2
    """.replace("\n", "|").split("|")
)
PROGRAMS = st.tuples(
    st.sampled_from(
        [
            HEAD,
            HEAD + "G01 X35. F0.1\n",
            "",
            "G00 X36.\n",
            "G50 X40. Z5.\nG01 X35. F0.1\n",
            "G00 Z5.\nG99 G01 Z2. F.1\n",
        ]
    ),
    st.lists(st.one_of(PLAIN, PLAIN, PLAIN, ODD), min_size=1, max_size=25),
).map(lambda parts: parts[0] + "\n".join([*parts[1], "X31."]))


@pytest.mark.parametrize("dialect", DIALECTS, ids=lambda d: d.name)
@settings(max_examples=60, deadline=None)
@given(PROGRAMS, st.booleans(), st.sampled_from([None, "units", "increments"]))
def test_in_one_go_and_one_by_one_are_the_same(dialect, text, skip, whole):
    short, long = both_ways(text, dialect, skip=skip, whole_numbers=whole)
    assert short == long


def made_in_one_go(monkeypatch, text, dialect=DIALECTS[0]):
    """How many moves of a program are made in one go."""
    made, own = [], PlainMoves.make

    def counted(*given):
        made.append(own(*given))
        return made[-1]

    monkeypatch.setattr(PlainMoves, "make", counted)
    run = interpret(parse_program(text), dialect)
    return sum(number for number, _ in made), run


def test_moves_by_hand(monkeypatch):
    """Worked out by hand: ends, feeds, lines, what is in force; a feed beside a rapid is in force behind it."""
    text = HEAD + "G01 X30. F0.08\nF0.05\nF0.08\nG00 U1.5 F0.05\nG01 W-2.\nZ-3.25 X28.\n"
    number, run = made_in_one_go(monkeypatch, text)
    assert number == 3
    in_force = {"station": 3, "offset": 3, "speed": 120.0, "surface": True, "clamp": 2000, "spin_line": 2}
    assert run.motions[1:] == (
        Motion("feed", 36_000, 2_000, 30_000, 2_000, 6, feed=800, **in_force),
        Motion("rapid", 30_000, 2_000, 31_500, 2_000, 9, **in_force),
        Motion("feed", 31_500, 2_000, 31_500, 0, 10, feed=500, **in_force),
        Motion("feed", 31_500, 0, 28_000, -3_250, 11, feed=500, **in_force),
    )
    assert run.steps[-4:] == (Cut(800, 30_000, None), Rapid(31_500, None), Cut(500, None, 0), Cut(500, 28_000, -3_250))
    assert run.step_lines[-4:] == (6, 9, 10, 11)
    assert run.step_motions[-4:] == (1, 2, 3, 4)


@pytest.mark.parametrize(
    ("block", "number"),
    [
        ("X33.", 1),
        ("X33. X34.", 0),
        ("X33. U1.", 0),
        ("X33.0001", 0),
        ("X33.0010", 1),
        ("X33", 0),
        ("X99999.999", 1),
        ("X100000.", 0),
        ("F0.07", 0),
        ("G01", 0),
        ("X33. F0.07", 0),
        ("X33. F0.1", 1),
        ("X33. C1.", 0),
        ("G02 X33. R9.", 0),
        ("G91", 0),
        ("X33. M08", 0),
        ("/X33.", 0),
        ("G00 G01 X33.", 0),
        ("G01 G01 X33.", 0),
        ("G0.5 X33.", 0),
        ("X33. F0.1 F0.1", 0),
    ],
)
def test_only_what_nothing_is_to_be_said_of_is_plain(monkeypatch, block, number):
    """A feed that was not met before is looked at once by the table."""
    assert made_in_one_go(monkeypatch, HEAD + "G01 X35. F0.1\n" + block)[0] == number


@pytest.mark.parametrize(
    ("head", "number"),
    [
        (HEAD + "G01 X35. F0.1\n", 2),
        (HEAD + "G01 X35. F0.1\nG28 U0\n", 1),
        (HEAD, 2),
        ("G21\nG00 X36. Z2.\n", 0),
        ("G21 G99\nG50 X40. Z5.\nG00 X36.\n", 0),
        ("G21 G99\nG50 X40. Z5.\nG00 Z2.\n", 2),
        ("G21 G99 G97 S500 M03\nG00 X36.\nG01 X35. F0.1\n", 0),
        ("G00 X36. Z2.\nG01 X35. F0.1\n", 2),
        ("G00 X36. Z2.\nG01 X35. F0.1\nM30\n", 0),
        ("G99 G00 X36. Z2.\nG02 X35. Z1. R20. F0.1\n", 0),
    ],
)
def test_where_something_is_still_to_be_said_no_move_is_plain(monkeypatch, head, number):
    """Without a feed mode the first cut asks for one; without a place along Z every move does."""
    assert made_in_one_go(monkeypatch, head + "X34.\nX33.")[0] == number


def test_where_places_are_increments_no_move_is_plain(monkeypatch):
    iso = find_dialect("one-block-iso")
    head = "G21 G90 G95\nG00 X36. Z2.\nG01 X35. F0.1\n"
    assert made_in_one_go(monkeypatch, head + "X34.\nX33.", iso)[0] == 2
    assert made_in_one_go(monkeypatch, head + "G91\nX34.\nX33.", iso)[0] == 0


TONGUES = sorted((Path(__file__).parents[1] / "support" / "tongues").glob("*.toml"))
UNLIKE = {path.stem: read_dialect(path.read_text(), path.stem) for path in TONGUES}
"""Dialects with addresses of their own, X in radius, or points of their own."""


@pytest.mark.parametrize("dialect", UNLIKE.values(), ids=UNLIKE)
def test_in_dialects_that_count_otherwise_no_move_is_plain(monkeypatch, dialect):
    text = HEAD + "G01 X35. F0.1\nX34.\nX33."
    assert made_in_one_go(monkeypatch, text)[0] == 2
    assert made_in_one_go(monkeypatch, text, dialect)[0] == 0


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        (HEAD + "G01 X35.\nX34.\nX33.", set()),
        (HEAD + "G01 X35. F0.1\nX34. F0.\nX33. F0.\nX32.", {"no-feed"}),
        ("G00 X0. Z0.\nG99 G01 X0.\nX5.\nX6.\nG21", {"units-late"}),
        (HEAD + "G75 R0.5\nG75 X30. P1000 F0.08\nX35.\nX34.", {"bare-place"}),
    ],
)
def test_what_is_told_beside_plain_moves_is_told(text, codes):
    short, long = both_ways(text, find_dialect("two-block"))
    assert short == long
    assert codes <= {str(finding.code) for finding in short.findings}


def test_a_contour_that_only_a_cycle_follows_is_not_run_again():
    roughing = "G71 U1. R0.5\nG71 P10 Q20 U0.2 W0.1 F0.1\n"
    text = HEAD + "G01 X35. F0.1\nX34.\n" + roughing + "X33.\nN10 G00 X30.\nG01 Z-5.\nN20 X35.\nX36.\n"
    short, long = both_ways(text, find_dialect("two-block"))
    assert short == long
    assert {motion.line for motion in short.motions} == {5, 6, 7, 9, 10, 14}


def test_limits_of_blocks_and_moves_are_the_same():
    text = HEAD + "G01 X35. F0.1\n" + "X34.\nX33.\n" * 20
    for name, module, values in (("MOST_BLOCKS", interpreter, (9, 10, 11)), ("MOST_MOTIONS", None, (4, 5, 6))):
        for most in values:
            with pytest.MonkeyPatch.context() as patched:
                if module is None:
                    patched.setattr("postproc.reading.log.MOST_MOTIONS", most)
                    patched.setattr("postproc.reading.plain_moves.MOST_MOTIONS", most)
                else:
                    patched.setattr(module, name, most)
                short, long = both_ways(text, find_dialect("two-block"))
            assert short == long
            assert any(finding.code == "runaway" for finding in short.findings)
            assert len(short.motions) == (most if module is None else most - 4)
