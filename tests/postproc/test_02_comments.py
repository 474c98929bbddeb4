"""Whatever a drawing is called, its name stays inside its comment."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from postproc.reading.words import parse_program
from postproc.vocabulary.forms import WIDTH, ProgramFrame
from postproc.writing.comments import comment_lines, comment_texts, safe_text

FRAME = ProgramFrame()

NASTY = [
    "a) G00 X0 (.dxf",
    "%",
    "ring\n%\nM30",
    "x;G01X0.",
    "(((", ")))",
    "a\x00b\x07\x1b[31m",
    "Ø34 h11 – Kolben größe",
    "図面.dxf",
    "\u202egnp.exe",
    "e\u0301tage",
    "[#100]=1",
    "\r\nG28U0",
    "",
    "   ",
]  # fmt: skip


@pytest.mark.parametrize("text", NASTY)
def test_nasty_names_are_one_comment(text):
    for line in comment_lines(text, FRAME):
        _is_one_comment(line)


@given(st.text(max_size=200))
def test_any_text_is_comments_only(text):
    lines = comment_lines(text, FRAME)
    assert lines
    for line in lines:
        _is_one_comment(line)
    parsed = parse_program("\n".join([*lines, "M30"]))
    assert [str(w) for block in parsed.blocks for w in block.words] == ["M30"]
    assert not parsed.findings


def _is_one_comment(line):
    assert line[0] == "("
    assert line[-1] == ")"
    inside = line[1:-1]
    assert inside.isascii()
    assert inside.isprintable()
    assert inside == inside.upper()
    assert not set(inside) & set("()%;[]#:!@$\"'<>?\\^`{|}~&")
    assert 0 < len(inside) <= WIDTH


@given(st.text(max_size=100))
def test_safe_text_is_safe_again_as_it_is(text):
    assert safe_text(safe_text(text)) == safe_text(text)


def test_the_drawing_can_still_be_told():
    assert safe_text("Sprengring-Nut_Größe 20 (Rev. B).dxf") == "SPRENGRING-NUT_GROESSE 20 -REV. B-.DXF"


def test_words_are_kept_whole_where_a_comment_folds():
    texts = comment_texts("one two three " * 12, FRAME)
    assert len(texts) > 1
    assert " ".join(texts) == " ".join(["ONE TWO THREE"] * 12)
