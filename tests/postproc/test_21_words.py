"""Text taken apart: words, comments, skip marks, frames; and what has no shape is named with its column."""

import random
import time
import warnings

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extractor.errors import ProgramError
from extractor.finding import Level
from postproc.reading.words import MOST_FINDINGS, Word, parse_program

with warnings.catch_warnings():  # it imports modules that Python will drop
    warnings.simplefilter("ignore")
    import pygcode


def words(text):
    """The words of the first block."""
    return [str(word) for word in parse_program(text).blocks[0].words]


def found(text):
    """Code, line and sentence of each stop."""
    return [(f.code, f.line, f.message) for f in parse_program(text).findings if f.level is Level.STOP]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("G00 X42. Z-13.", ["G00", "X42.", "Z-13."]),
        ("g0x42z-13", ["G0", "X42", "Z-13"]),
        ("  G00\tX 42.  Z - 13.", ["G00", "X42.", "Z-13."]),
        ("N0010G1X-.5F.08", ["G1", "X-.5", "F.08"]),
        ("N10 N20 G0", ["N20", "G0"]),
        ("G01 X+34.000", ["G01", "X+34.000"]),
        ("(start) G00 (to) X1. (here)", ["G00", "X1."]),
        ("G00 X1. ; (not closed", ["G00", "X1."]),
        ("O1234 (RING)", ["O1234"]),
        (":1234", ["O1234"]),
        ("/N10 G00 X1.", ["G00", "X1."]),
        ("/3 G00", ["G00"]),
        ("G96S120M3", ["G96", "S120", "M3"]),
    ],
)
def test_blocks_as_people_write_them(text, wanted):
    assert words(text) == wanted
    assert not parse_program(text).findings


def test_columns_count_from_one():
    block = parse_program("N10  G01 (a) x-.5").blocks[0]
    assert block.words == (Word("G", "01", 6), Word("X", "-.5", 14))
    assert parse_program(" :0100\nM30").blocks[0].words == (Word("O", "0100", 2),)


@pytest.mark.parametrize("text", ["/G00 X1.", "/ G00 X1.", "/1G00X1.", "N5 /G00 X1.", "N5/G00X1."])
def test_block_skip(text):
    block = parse_program(text).blocks[0]
    assert block.skip
    assert [str(w) for w in block.words] == ["G00", "X1."]


@pytest.mark.parametrize(("mark", "told"), [("%", False), ("%;", False), ("% ;", False), ("%; G21", True)])
def test_the_end_of_a_block_may_stand_behind_a_percent_sign(mark, told):
    """Listings of a control show it as a semicolon (common practice, no source)."""
    assert bool(parse_program(f"{mark}\nO1;\nG00 X1.;\nM30;\n{mark}").findings) is told


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_are_counted_alike_whatever_ends_them(end):
    parsed = parse_program(end.join(["%", "O1", "", "G00 X1.", "M30", "%"]))
    assert [block.line for block in parsed.blocks] == [2, 4, 5]
    assert len(parsed.lines) == 6


@pytest.mark.parametrize(
    ("text", "code", "part"),
    [
        (
            "G01 X1,5",
            "unknown-character",
            "X1,5 at column 5 has a comma in place of its decimal point; type X1.5 instead.",
        ),
        (
            "x - 13, f.1",
            "unknown-character",
            "X-13, at column 1 has a comma in place of its decimal point; type X-13. inst",
        ),
        ("G01X34..Z1.", "unknown-character", "X34.. at column 4 has . behind its number; type X34. instead."),
        ("G01 X34,Z1.", "unknown-character", "X34, at column 5 has , behind its number; type X34. or X34 instead."),
        ("G01, X34.", "unknown-character", "G01, at column 1 has a comma in place of its decimal point"),
        ("M03,G01", "unknown-character", "M03, at column 1 has , behind its number; type M03 instead."),
        ("G01 X34. ,", "unknown-character", "Column 10 (,) is not a word of a program"),
        ("G01 X34.'", "unknown-character", "Column 9 (') is not a word of a program"),
        (
            "G01 Z-,5",
            "unknown-character",
            "Z-,5 at column 5 has a comma in place of its decimal point; type Z-.5 instead.",
        ),
        (
            "G01 Z-13,",
            "unknown-character",
            "Z-13, at column 5 has a comma in place of its decimal point; type Z-13. inst",
        ),
        ("X34., F.1", "unknown-character", "X34., at column 1 has , behind its number; type X34. instead."),
        ("X1.2.3", "unknown-character", "Column 5 (.3)"),
        ("X--5", "unknown-character", "Column 1 (X)"),
        ("GO0 X1.", "unknown-character", "The letter O at column 2"),
        ("G00 X", "unknown-character", "Column 5 (X)"),
        ("X4 2.", "unknown-character", "Column 4 (2.)"),
        ("G00 X\u0664\u0662.", "unknown-character", "Column 5"),
        ("G00 \u0425 42.", "unknown-character", "Column 5 (\\u0425)"),
        ("X1.)", "unknown-character", "Column 4 ()"),
        ("G00 X1. $", "unknown-character", "Column 9 ($)"),
        ("{G00}", "unknown-character", "Column 1 ({)"),
        ("G00 X1.%", "unknown-character", "Column 8 (%)"),
        ("(a (b) c)", "comment", "column 1 has another inside it"),
        ("G00 (open", "comment", "column 5 is not closed"),
        ("G00 /X1.", "skip-inside-block", "column 5"),
    ],
)
def test_what_has_no_shape_is_named(text, code, part):
    ((got, line, message),) = found(text + "\nM30")
    assert (got, line) == (code, 1)
    assert part.replace("Column 4 ()", "Column 4 ())") in message


def test_a_formula_takes_its_whole_block_out():
    parsed = parse_program("G01 #1=2 X3.\nM30")
    assert [str(w) for b in parsed.blocks for w in b.words] == ["M30"]


def test_characters_that_steer_a_transfer_are_noted_and_left_out():
    parsed = parse_program("\ufeff\x11%\x00\nG00X1.\x13\n%\x1a")
    assert [(f.level, f.code) for f in parsed.findings] == [(Level.NOTE, "tape-character")]
    assert [str(w) for w in parsed.blocks[0].words] == ["G00", "X1."]


def test_a_remark_that_could_be_a_block():
    parsed = parse_program("G00 X40.; Z-13.\nG00 X1. ;end\nM30 ;\n(G00 X0.)")
    assert [(f.code, f.line, f.level) for f in parsed.findings] == [("words-in-remark", 1, Level.CAUTION)]
    assert "column 9" in parsed.findings[0].message


def test_only_what_stands_in_the_frame_is_read():
    parsed = parse_program("%\nO1\nM30\n%\nG00 X0.\n")
    assert [block.line for block in parsed.blocks] == [2, 3]
    assert [(f.code, f.level, f.line) for f in parsed.findings] == [("frame", Level.CAUTION, 5)]
    assert [block.line for block in parse_program("%\nG00 X1. M30\n%\n").blocks] == [2]


def test_words_before_the_frame_are_a_stop():
    assert found("G00 X0.\n%\nM30\n%") == [
        ("frame", 1, "There are words before the first %, which some controls run and others don't; take them out.")
    ]


@pytest.mark.parametrize("text", ["O1\nM30\n%", "%\nO1\nM30", "O1\nM30", "%\n%\nO1\nM30\n%\n"])
def test_half_a_frame_or_none_is_taken(text):
    assert [str(b.words[0]) for b in parse_program(text).blocks] == ["O1", "M30"]
    assert not parse_program(text).findings


@pytest.mark.parametrize("text", ["", "\n\n", "%\n%", "(only a remark)", "\x00\x00", "no program, just prose, really."])
def test_a_text_without_a_word_is_no_program(text):
    with pytest.raises(ProgramError, match="no word of a program"):
        parse_program(text)


def test_a_flood_of_oddities_is_cut_short():
    parsed = parse_program("M30\n" + "G1 X1.?\n" * 500)
    assert len(parsed.findings) == MOST_FINDINGS + 1
    assert "450 more places" in parsed.findings[-1].message


@pytest.mark.parametrize(
    "text",
    [
        "X" + "1" * 100_000 + "?",
        "X1." + "2" * 5_000,
        "X" + " " * 100_000 + "?",
        ":" + "1" * 5_000,
        "G1" * 20_000,
        "X -" * 20_000,
        "(" * 50_000,
        "#" * 50_000,
        "%" * 50_000,
    ],
)
def test_a_long_line_of_nonsense_takes_no_time_and_is_told(text):
    begin = time.process_time()
    parsed = parse_program(f"M30\n{text}\n" + "G01 X34. F0.08\n" * 10_000)
    assert time.process_time() - begin < 5
    assert parsed.findings or parsed.blocks[1].macro or parsed.blocks[1].words[0].address == "G" or text[0] == "%"


@given(st.text())
def test_any_text_is_taken_apart_or_refused(text):
    try:
        parsed = parse_program(text)
    except ProgramError:
        return
    assert all(1 <= block.line <= len(parsed.lines) for block in parsed.blocks)


PLAIN = st.lists(
    st.tuples(
        st.sampled_from("GMXZUWIKRPQFST"),
        st.one_of(
            st.integers(0, 9_999).map(str),
            st.integers(-99_999, 99_999).map(lambda n: f"{n / 1000:.3f}"),
            st.integers(-9_999, 9_999).map(lambda n: f"{n}."),
        ),
    ),
    min_size=1,
    max_size=8,
)


@given(PLAIN, st.integers(0, 2**32))
def test_plain_blocks_split_as_an_independent_library_splits_them(pairs, seed):
    # Oracle: pygcode 0.2.1, splitting of plain ISO blocks into words (no plus sign, no macro).
    pairs = [(a, t.lstrip("-").split(".")[0] if a in "GMPQST" else t) for a, t in pairs]
    rng = random.Random(seed)
    text = "".join(rng.choice(["", " ", "  "]) + a + t for a, t in pairs).strip()
    theirs = [(w.letter, float(w.value)) for w in pygcode.words.text2words(text)]
    ours = [(w.address, w.value) for w in parse_program(text).blocks[0].words]
    assert ours == theirs == [(a, float(t)) for a, t in pairs]


@pytest.mark.parametrize("seed", range(20))
def test_whole_lines_split_as_an_independent_library_splits_them(seed):
    # Oracle: pygcode's Line, with block number and comments; the words a trade lathe and ISO share.
    rng = random.Random(seed)
    for n in range(50):
        body = " ".join(
            [rng.choice(["G00", "G01"]), f"X{rng.uniform(-99, 99):.3f}", f"Z{rng.uniform(-99, 99):.3f}", "F0.08"]
        )
        line = pygcode.Line(f"{body} (remark {n})")
        theirs = [(w.letter, float(w.value)) for w in line.block.words]
        block = parse_program(f"N{n} {body} (remark {n})").blocks[0]
        assert [(w.address, w.value) for w in block.words] == theirs
        assert block.comments == (f"remark {n}",)


@pytest.mark.parametrize(
    ("text", "macro"),
    [
        ("#100=5 (five)", "#100=5"),
        ("G00 X#100", "G00 X#100"),
        ("N10 WHILE [#1 LT 3] DO1", "N10 WHILE [#1 LT 3] DO1"),
        ("END1", "END1"),
        ("GOTO 10 ; on", "GOTO 10"),
        ("/#1=2.", " #1=2."),
    ],
)
def test_a_line_with_variables_is_kept_whole_till_it_runs(text, macro):
    parsed = parse_program(text + "\nM30")
    assert parsed.findings == ()
    assert parsed.blocks[0].macro == macro
    assert parsed.blocks[0].words == ()
    assert parsed.blocks[0].number == (10 if text[0] == "N" else None)
    assert parsed.blocks[0].skip is (text[0] == "/")


@given(
    st.lists(
        st.sampled_from(["g01", "X-.5", "Z12.", "N20", "F0.08", "+X1", "X", "(A)", "", "M3", "I1.5"]),
        min_size=1,
        max_size=6,
    )
)
def test_words_parted_by_one_blank_are_those_parted_by_two(tokens):
    def read(blank):
        try:
            parsed = parse_program("G00 X1.\n" + blank.join(tokens))
        except ProgramError as error:
            return str(error)
        return [[[(w.address, w.text) for w in b.words], b.number, b.comments] for b in parsed.blocks]

    assert read(" ") == read("  ")


def test_a_word_tells_its_column_however_the_line_is_spaced():
    rows = [
        [word.column for word in block.words]
        for block in parse_program("G01 X5. Z-2.\nG01  X5.Z-2.\nN1 G01 X5.").blocks
    ]
    assert rows == [[1, 5, 9], [1, 6, 9], [4, 8]]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("G1.0 X4.", ["G1", "X4."]),
        ("G01. X4.0", ["G01", "X4.0"]),
        ("g 28.00 U0 (HOME)", ["G28", "U0"]),
        ("G54.1 P3", ["G54.1", "P3"]),
        ("G1.01", ["G1.01"]),
        ("M3.0", ["M3.0"]),
        ("N1.0 G0 X1.0", ["N1.0", "G0", "X1.0"]),
    ],
)
def test_a_g_number_with_a_point_and_nothing_behind_it_is_whole(line, said):
    assert words(line) == said


@pytest.mark.parametrize(
    ("block", "told"),
    [
        ("GO X34.", "The letter O at column 2 stands where a figure belongs; type 0."),
        ("G0 XO.", "The letter O at column 5 stands where a figure belongs; type 0."),
        ("G0 X3O.", "The letter O at column 6 stands where a figure belongs; type 0."),
        ("G0 Z-4l.", "The letter l at column 7 stands where a figure belongs; type 1."),
        ("G0 X34. $", "Column 9 ($) is not a word of a program; correct it or take it out."),
        ("G X34.", "Column 1 (G) is not a word of a program; correct it or take it out."),
    ],
)
def test_a_letter_typed_for_a_figure_is_named(block, told):
    assert told in [finding.message for finding in parse_program(block).findings]
