"""A program file against a drawing, both from disk; and what in an inbox is a program."""

import pytest
from support.drawings import draw_ring
from support.forms import make_drawing

from extractor.codes import DrawingCode
from extractor.errors import DrawingError, ProgramError
from extractor.part import ReadOptions
from rillwright import check
from rillwright.check import compare_files, comparison_svg, comparison_text, looks_like_program, read_program
from rillwright.settings import Settings


@pytest.fixture
def ring(tmp_path):
    path = draw_ring(tmp_path / "ring.dxf")
    make_drawing(path, None, Settings())
    return path


PROGRAMS = [
    "%\nO0001\nG21\nT0303\nG0 X42. Z-13.\nG75 R.5\nG75 X34. Z-23. P1000 Q10000 F.08\nM30\n%\n",
    "g0x42z-13\ng1x34f.08\ng0x42\nm30\n",
    "N10 G00 X42.0 Z-13.0 (start)\n/N20 G01 X34.0 F0.08 ; cut\nN30 G00 X42.0\n",
    ": 1\nG0 X1.\nG1 Z-1. F.1\n",
]
OTHERS = [
    "",
    "\n\n\n",
    "Dear setter,\nplease make ten of these.\n",
    "name,width,floor\na,1,2\n",
    "[machine]\nmax_rpm = 3000\n",
    "0\nSECTION\n2\nENTITIES\n0\nENDSEC\n0\nEOF\n",
    "X1 Y2\n",
    "10\n20\n30\n",
]


@pytest.mark.parametrize("text", PROGRAMS, ids=range(len(PROGRAMS)))
def test_programs_are_told_by_what_is_in_them(text):
    assert looks_like_program(text)
    assert looks_like_program(text.replace("\n", "\r\n"))


@pytest.mark.parametrize("text", OTHERS, ids=range(len(OTHERS)))
def test_anything_else_is_none(text):
    assert not looks_like_program(text)


def test_our_own_program_is_one(ring):
    assert looks_like_program(read_program(ring.with_suffix(".nc")))


@pytest.mark.parametrize("data", [b"G0 X1.\0G1", b"\x7fELF\0\1"])
def test_a_file_of_bytes_is_no_program(tmp_path, data):
    (tmp_path / "x.nc").write_bytes(data)
    with pytest.raises(ProgramError, match="not text"):
        read_program(tmp_path / "x.nc")


def test_punched_tape_leader_is_no_fault(tmp_path):
    (tmp_path / "x.nc").write_bytes(b"\0\0\0%\nG0 X1.\n%\n\0\0")
    assert read_program(tmp_path / "x.nc") == "%\nG0 X1.\n%\n"


def test_the_mark_that_an_editor_puts_before_a_text_is_a_character_that_the_control_skips(tmp_path):
    """EF BB BF, the byte order mark of UTF-8 (RFC 3629); it is told as other tape characters are."""
    (tmp_path / "x.nc").write_bytes(b"\xef\xbb\xbf%\nG0 X1.\n%\n")
    assert read_program(tmp_path / "x.nc") == "\ufeff%\nG0 X1.\n%\n"
    (tmp_path / "x.nc").write_bytes(b"%\n(\xef\xbb\xbf)\n%\n")
    assert read_program(tmp_path / "x.nc") == "%\n(\xef\xbb\xbf)\n%\n"


def test_a_huge_file_is_not_read(tmp_path, monkeypatch):
    monkeypatch.setattr(check, "MOST_BYTES", 10)
    (tmp_path / "x.nc").write_bytes(b"G0 X1.\nG0 X2.\n")
    with pytest.raises(ProgramError, match="too big"):
        read_program(tmp_path / "x.nc")


def test_a_drawing_and_its_program_agree(ring):
    made = compare_files(ring, ring.with_suffix(".nc"), Settings())
    assert made.verdict.agree
    assert comparison_text(made).splitlines()[-1].startswith("Agree")
    assert comparison_svg(made).startswith("<svg")


def test_a_drawing_without_a_part_can_not_be_compared(ring, tmp_path):
    (tmp_path / "no.dxf").write_text("no drawing")
    with pytest.raises(DrawingError):
        compare_files(tmp_path / "no.dxf", ring.with_suffix(".nc"), Settings())
    bare = draw_ring(tmp_path / "bare.dxf", insunits=0)
    with pytest.raises(DrawingError, match="--units"):
        compare_files(bare, ring.with_suffix(".nc"), Settings())
    assert compare_files(bare, ring.with_suffix(".nc"), Settings(ReadOptions(units="mm"))).verdict.agree


def test_a_drawing_that_contradicts_itself_agrees_with_nothing(ring, monkeypatch):
    from dataclasses import replace

    from extractor.finding import Finding, Level

    real = check.read_drawing
    stop = Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, "The drawing says 65 and is 60 long.")
    monkeypatch.setattr(check, "read_drawing", lambda *args: replace(real(*args), findings=(stop,)))
    made = compare_files(ring, ring.with_suffix(".nc"), Settings())
    assert not made.verdict.agree
    assert stop in made.verdict.findings


def test_the_dialect_may_be_told(ring, tmp_path):
    make_drawing(ring, tmp_path / "out", Settings(dialect="one-block"))
    program = tmp_path / "out" / "ring.nc"
    assert compare_files(ring, program, Settings()).verdict.agree
    assert compare_files(ring, program, Settings(dialect="one-block")).verdict.agree


def test_a_groove_that_may_be_missing_and_is_is_never_passed_over(tmp_path):
    import ezdxf

    doc = ezdxf.new("R2000", setup=True)
    doc.header["$INSUNITS"] = 4
    line = [(0, 0), (0, 20), (-10, 20), (-10, 17), (-13, 17), (-13, 20), (-30, 20), (-33, 17), (-36, 20), (-60, 20)]
    doc.modelspace().add_lwpolyline([*line, (-60, 0)])
    doc.modelspace().add_line((5, 0), (-65, 0), dxfattribs={"linetype": "CENTER"})
    drawing = tmp_path / "vee.dxf"
    doc.saveas(drawing)
    settings = Settings(ReadOptions(accept=frozenset({"recess-not-planned"})))
    record = make_drawing(drawing, tmp_path, settings)
    assert record["plan"]["left_out"] == [2]
    made = compare_files(drawing, tmp_path / "vee.nc", settings)
    assert made.verdict.agree
    assert [f.groove for f in made.verdict.findings if f.code == "groove-left-out"] == [2]
    assert "Agree in part: 1 of 2 grooves matches and no move is unsafe" in comparison_text(made)
    alone = compare_files(drawing, tmp_path / "vee.nc", Settings())
    assert not alone.verdict.agree
    assert [f for f in alone.verdict.findings if f.code == "groove-left-out"] == []


CYCLE = {
    "two-block": "G21 G99\nT0303\nG50 S3000\nG97 S800 M03\nG00 X42. Z-13.\nG75 R.5\nG75 X34. P1000 F.08\nM30\n",
    "one-block": "G21 G99\nT0303\nG50 S3000\nG97 S800 M03\nG00 X42. Z-13.\nG75 X34. I1. F.08\nM30\n",
    "two-block-iso": "G71 G95\nT0303\nG92 S3000\nG97 S800 M03\nG00 X42. Z-13.\nG75 R.5\nG75 X34. P1000 F.08\nM30\n",
}


@pytest.mark.parametrize("named", ["two-block", "one-block", "two-block-iso", "plunge"])
@pytest.mark.parametrize("written", CYCLE)
def test_a_program_plainly_in_another_dialect_than_the_one_named_tells_which(ring, written, named):
    """Its words for units, feeds and clamp, and the amounts of its cycle, are those of one alone."""
    path = ring.with_name("hand.nc")
    path.write_text(CYCLE[written])
    found = compare_files(ring, path, Settings(dialect=named)).verdict.findings
    notes = [f.message for f in found if f.code == "dialect-guessed"]
    reads = "unknown-word" not in [f.code for f in found]
    assert len(notes) == (not reads)
    assert all(f"give --dialect {written} if" in note for note in notes)
    assert reads or named != written


def test_a_word_that_means_nothing_anywhere_tells_no_other_dialect(ring):
    path = ring.with_name("hand.nc")
    path.write_text(CYCLE["two-block"].replace("M30", "G999\nM30"))
    for named in ("two-block", "one-block"):
        found = compare_files(ring, path, Settings(dialect=named)).verdict.findings
        assert "dialect-guessed" not in [f.code for f in found]
