"""Which end is Z0 is said on terminal, record, sheet and program head; and compare tries the other end."""

from dataclasses import replace

import pytest
from support.draw import Cut, Turned, full_outline, side_view, write_dxf
from support.forms import make_drawing, typed

from extractor.front import OPPOSITE, FrontEnd
from extractor.part import ReadOptions
from postproc.vocabulary.forms import WIDTH, ProgramFrame
from postproc.writing.comments import comment_texts
from rillwright import console
from rillwright.check import compare_files
from rillwright.jobsheet.figures import tiles
from rillwright.records.record_part import RecordedPart
from rillwright.settings import Settings

FROM_LEFT = Settings(ReadOptions(front="left"))


@pytest.fixture
def ring(tmp_path):
    """A drawing whose grooves lie toward its right-hand end."""
    part = Turned(((60.0, 40.0),), tuple(Cut(-10.0 - 8 * k, 3.0, 34.0) for k in range(3)))
    return write_dxf(side_view(part), tmp_path / "ring.dxf")


def other_end(made):
    """What the verdict says of the other end."""
    return [f.message for f in made.verdict.findings if f.code == "other-end-matches"]


def test_record_and_program_say_which_end_is_z0_and_why(ring):
    record = make_drawing(ring, None, FROM_LEFT)
    assert record["part"]["front"] == {"end": "left", "by": "option"}
    assert "(Z0 IS THE LEFT-HAND END AS DRAWN, AS TOLD.)" in ring.with_suffix(".nc").read_text("ascii")
    assert ("Z0", "left-hand end", "of the drawn part, as told") in tiles(typed(record))


def test_the_program_says_which_stops_the_user_answered_for(tmp_path):
    """Lines in the end face that may be the walls of a groove there."""
    ink = full_outline(Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),)))
    ink.solid += [(0.0, r, -3.0, r, 0.0) for r in (13.0, 10.0, -10.0, -13.0)] + [(-3.0, -13.0, -3.0, 13.0, 0.0)]
    drawing = write_dxf(ink, tmp_path / "disc.dxf")
    make_drawing(drawing, None, Settings(ReadOptions(accept=frozenset({"face-unclear"}))))
    assert "(THE USER ACCEPTED FACE-UNCLEAR.)" in drawing.with_suffix(".nc").read_text("ascii")


@pytest.mark.parametrize("by", ["assumed", "words", "dimensions", "option", "answer"])
@pytest.mark.parametrize("end", ["right", "left", "top", "bottom"])
def test_the_sentence_fits_one_comment(end, by):
    (line,) = comment_texts(f"Z0 IS {FrontEnd(end, by).words}.", ProgramFrame())
    assert len(line) <= WIDTH


def test_read_says_it(capsys):
    part = {
        "drawing": {"file": "ring.dxf"}, "units": "mm", "outer_diameter": 40.0, "length": 60.0, "grooves": [],
        "sets": [], "findings": [], "front": {"end": "right", "by": "assumed"},
    }  # fmt: skip
    console.print_part(typed(part, RecordedPart))
    assert "Z0 is the right-hand end as drawn, assumed\n" in capsys.readouterr().out


def test_compare_tries_the_other_end_and_says_so(ring):
    make_drawing(ring, None, FROM_LEFT)
    program = ring.with_suffix(".nc")
    wrong, right = compare_files(ring, program, Settings()), compare_files(ring, program, FROM_LEFT)
    assert (wrong.verdict.agree, right.verdict.agree) == (False, True)
    (words,) = other_end(wrong)
    assert "It matches with --front left" in words
    assert other_end(right) == []


def test_a_program_that_fits_neither_end_gets_no_such_hint(ring):
    make_drawing(ring, None, FROM_LEFT)
    program = ring.with_suffix(".nc")
    program.write_text(program.read_text("ascii").replace("X34.", "X33."), "ascii")
    assert other_end(compare_files(ring, program, Settings())) == []
    assert not compare_files(ring, program, FROM_LEFT).verdict.agree


def test_the_hint_stands_also_where_the_wrong_end_was_told(ring):
    make_drawing(ring, None, Settings())
    told = replace(FROM_LEFT, options=ReadOptions(front="left"))
    assert "--front right" in other_end(compare_files(ring, ring.with_suffix(".nc"), told))[0]


def test_every_end_has_its_opposite():
    assert all(OPPOSITE[OPPOSITE[end]] == end != OPPOSITE[end] for end in OPPOSITE)
