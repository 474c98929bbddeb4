"""Bytes of any kind at every door of the tool: an answer, or a refusal of one sentence.

The cases are the smallest of all that ever fell over, and some that any reader of such files should bear. New ones come
from tests/bench/fuzz.py.
"""

import json

import pytest
from support.fuzz_targets import TARGETS, home, planned, seeds, sentence

from extractor.errors import InternalFault, ProgramError
from extractor.finding import Finding, Level
from postproc import compare_program
from postproc.codes import ProgramCode

DRAWING = b"0\nSECTION\n2\nENTITIES\n%s0\nENDSEC\n0\nEOF\n"
SQUARE = b"0\nLWPOLYLINE\n8\n0\n90\n4\n70\n1\n10\n0\n20\n0\n10\n60\n20\n0\n10\n60\n20\n40\n10\n0\n20\n40\n"
VERSION = b"0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\n%s\n"
HEAD = b"G21 G18 G40 G99\nT0303\nG97 S900 M03\nG00 X42. Z-13.\n"
ANYWHERE = [
    b"",
    b"\0",
    b"\xff\xfe",
    b"\xef\xbb\xbf",
    b"[" * 3000,
    b"{" * 3000,
    b"(" * 3000,
    b"9" * 5000,
    b"\x1b[2J\x9b1m\x7f\n",
]
CASES = {
    "dxf": [
        DRAWING % b"",
        DRAWING % SQUARE,
        DRAWING % (SQUARE + b"0\nLINE\n10\nnan\n20\n0\n11\ninf\n21\n1\n"),
        DRAWING % (SQUARE + b"0\nINSERT\n2\nNOWHERE\n10\n1e308\n20\n0\n41\n0\n"),
        DRAWING % (SQUARE + b"0\nTEXT\n10\n0\n20\n0\n40\n2.5\n1\n\x1b[31m%%%%c40\x7f\n"),
        DRAWING % (SQUARE + b"0\nSPLINE\n71\n3\n72\n2\n73\n1\n40\n0\n40\n0\n10\n0\n20\n0\n"),
        (DRAWING % SQUARE)[:-12],
        # A record of model space among the entities, and a layout there that its own table names.
        VERSION % b"AC1015"
        + b"0\nSECTION\n2\nTABLES\n0\nBLOCK_RECORD\n5\n17\n2\n*Model_Space\n0\nBLOCK_RECORD\n2\n_CLOSEDFILLED\n"
        + b"0\nSECTION\n2\nENTITIES\n0\nBLOCK_RECORD\n5\n17\n2\n*Model_Space\n0\nEOF\n",
        VERSION % b"AC1021"
        + b"0\nSECTION\n2\nENTITIES\n0\nLAYOUT\n5\n1E\n0\nSECTION\n2\nOBJECTS\n0\nDICTIONARY\n3\nACAD_LAYOUT\n"
        + b"350\nD\n0\nDICTIONARY\n5\nD\n3\nModel\n350\n1E\n0\nEOF\n",
    ],
    "program": [
        b"O0001\x0e\n" + HEAD + b"G01 X34. F0.08\nM30\n",
        HEAD + b"G75 R0.\nG75 X34. Z-1e9 P1 Q1 F0.08\nM30\n",
        HEAD + b"WHILE[1EQ1]DO1\nEND1\nM30\n",
        HEAD + b"M98 P0001\nM30\nO0001\nM98 P0001\nM99\n",
        HEAD + b"G02 X34. Z-13. R0.\nG01 X99999999999999999999. F-1.\nM30\n",
        HEAD + b"#1=1/0\nG01 X#1 F#1\nM30\n",
        b"(" + b"A" * 5000 + b")\nM30\n",
        HEAD + b"(T\x11212 \x1b[31m)\nM30\n",
        HEAD + b"#1=5 (A\x11B)\n#2=\x1b1\nM30\n",
    ],
    "shop": [
        b"units = 1\n",
        b'units = "mm"\n[machine]\nmax_rpm = nan\njaw_gap = inf\n',
        b'units = "mm"\n[[tools]]\nstation = 1e400\nwidth = -0.0\n',
        b'units = "mm"\ntools = 3\nmachine = []\n',
        b'units = "mm"\n[machine]\nname = "\\u001b[31m"\n"\\u0007" = 1\n',
    ],
    "dialect": [
        b"[words]\nG00 = []\n",
        b'[cycle]\nblocks = ["{", "}", "{x", "{{x}}", "X{floor}?"]\n',
        b'base = "base"\n[numbers]\ndecimals = -1\nleast = 0\n',
        b"[numbers]\ndigits = 99999999999999999999\n",
    ],
    "answers": [
        b"at = [nan, inf]\n",
        b"scale = true\naccept = [[]]\n",
        b"drawing = 1\nunits = {}\n",
        b'front = "\\u001b[31m"\n"\\u009b" = 1\n',
    ],
    "record": [
        b"[]",
        b"null",
        b'{"schema": 1, "status": "made", "part": {}}',
        b'{"schema": 1, "status": "refused", "part": {"grooves": 3}}',
        b'{"schema": 1, "status": 3, "part": {"grooves": [{"id": 1e999}], "outer_diameter": NaN}}',
        b'{"schema": "\\u001b[31m", "status": "made", "part": {}}',
    ],
}


@pytest.fixture(autouse=True)
def _short_patience(monkeypatch):
    monkeypatch.setattr("postproc.reading.log.MOST_MOTIONS", 3_000)
    monkeypatch.setattr("postproc.reading.interpreter.MOST_BLOCKS", 3_000)


@pytest.mark.parametrize("name", TARGETS)
def test_an_answer_or_one_sentence(name):
    for data in (*ANYWHERE, *CASES[name]):
        TARGETS[name](data)


@pytest.mark.parametrize("name", [name for name in TARGETS if name not in ("dxf", "dialect")])
def test_what_is_whole_is_taken_too(name, request):
    for data in seeds(name, request.config.rootpath):
        TARGETS[name](data)


def test_a_record_cut_short_or_holed_anywhere_is_refused_in_one_sentence(request):
    whole = json.loads(seeds("record", request.config.rootpath)[0])
    for key in whole:
        for value in (None, [], {}, 3, "x"):
            TARGETS["record"](json.dumps(whole | {key: value}).encode())


def test_the_check_can_fail():
    for words in ("", "two\nlines", "\x1b[31m", "This is our fault: x."):
        with pytest.raises(AssertionError):
            sentence(ProgramError(words))
    with pytest.raises(AssertionError):
        sentence(InternalFault("a fault"))


def test_nothing_that_steers_a_terminal_stands_in_a_sentence():
    steering = "a\x1b[31mb\x7fc\x9bd\u202ee"
    assert Finding(Level.STOP, ProgramCode.COMMENT, steering).message == "a [31mb c d e"
    part, shop, _ = planned()
    found = compare_program(part, "O1\x0e\nG00 X42.\nM30\n", shop).findings
    assert all(f.message.isprintable() for f in found)
    assert home().is_dir()
