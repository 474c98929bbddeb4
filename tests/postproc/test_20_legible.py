"""What is no program at all is refused in one sentence; a program with odd words in it is not."""

import ezdxf
import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.programs import EVERY_KIND, plan_of

from extractor.errors import ProgramError
from postproc import Heading, dialects, explain, parse_program, write_program
from postproc.reading.legible import MOST_STRANGE, strangeness

ROW = "O1\nG21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\nG75 R.5\nG75 X34. Z-28. P1000 Q5000 F.08\nG00 X100.\nM30\n"

NO_PROGRAMS = {
    "letter": "Dear setter,\nplease run 5 pieces of ring 12 on machine 3 at S120, G1 quality.\nThe floor is 34 dia.\n",
    "list of places": "no,x,z,width\n1,42.0,-13.0,3\n2,42.0,-18.0,3\n3,42.0,-23.0,3\n",
    "settings": '[machine]\ndialect = "two-block"\nmax_rpm = 3000\n[[tools]]\nstation = 3\nwidth = 3.0 # G1 X3.\n',
    "record": '{"schema": 1, "status": "made", "units": "mm", "grooves": [{"id": 1, "z_near": -10.0}]}\n',
    "page": "<html><body><p>G75 X34. <b>is the floor</b></p><script>let x = 3;</script></body></html>\n",
    "source": "def cut(x, z):\n    return [m for m in moves if m.x > x and m.z < z]\n\nprint(cut(3, 4))\n",
}


@pytest.mark.parametrize("name", NO_PROGRAMS)
@pytest.mark.parametrize("read", [parse_program, explain])
def test_what_is_no_program_is_refused_in_one_sentence(name, read):
    with pytest.raises(ProgramError) as refused:
        read(NO_PROGRAMS[name])
    assert str(refused.value).endswith(("give the file of the program.", "give the file of a lathe program."))
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
@pytest.mark.parametrize("remark", ["", "999\nsaved by hand\n"])
def test_a_drawing_is_named_as_one(tmp_path, version, remark):
    # DXF files of an independent library (ezdxf), which writes the group codes.
    drawing = ezdxf.new(version)
    drawing.modelspace().add_line((0, 0), (60, 20))
    drawing.saveas(tmp_path / "ring.dxf")
    for end in ("\n", "\r\n"):
        text = (remark + (tmp_path / "ring.dxf").read_text()).replace("\n", end)
        with pytest.raises(ProgramError, match="This is a DXF drawing, not a lathe program"):
            parse_program(text)


ODD = [
    "GROOVE RING, MATERIAL C45, SECOND SIDE",
    "G00 X$ Z?",
    "X40,5 Z-3,2",
    "* * * * *",
    "N10 G01 X34.,Z-3.",
    "L X+10 R0 FMAX",
    "CHECK THE TOOL FIRST !!!",
]


@pytest.mark.parametrize("odd", ODD)
def test_a_program_with_odd_words_stays_one_and_they_are_named(odd):
    parsed = parse_program(odd + "\n" + ROW)
    assert any(f.code == "unknown-character" and f.line == 1 for f in parsed.findings)
    assert len(parsed.blocks) > 5


def test_all_of_them_at_once():
    assert parse_program("\n".join([*ODD, ROW])).findings


@pytest.mark.parametrize("odd", ["G1 X3. ?", "GO0 X1.", "{G00}", "HELLO G1 X3."])
def test_short_texts_too(odd):
    assert parse_program(odd + "\nM30").findings


def test_comments_macros_and_open_remarks_count_neither_way():
    assert strangeness(["(Dear setter, this is long)", "#100=5", "; and more words", "(open", "G1"]) == 0


def test_our_own_programs_have_nothing_strange():
    for dialect in dialects().values():
        text = write_program(plan_of(EVERY_KIND), dialect, Heading("ring.dxf", "0" * 64)).text
        assert strangeness(text.replace("%", "").splitlines()) == 0


@given(st.text(max_size=200))
def test_whatever_stands_in_it_a_whole_program_is_no_letter(text):
    parsed = parse_program(ROW * 10 + "(" + text.replace("%", "") + "\n" + ROW * 10)
    assert len(parsed.blocks) > 100


@given(st.text(alphabet=st.characters(blacklist_characters="()#[]=;:/%", max_codepoint=127), min_size=30))
def test_what_is_read_is_mostly_words(text):
    try:
        parsed = parse_program(text)
    except ProgramError:
        return
    assert strangeness(parsed.lines) <= MOST_STRANGE


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("%\nG01 X34.\n&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&\n%\n", False),
        ("&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&\n%\nG01 X34. &\n%\n", True),
    ],
)
def test_only_what_a_control_reads_is_weighed(text, read):
    """Between the two marks."""
    if read:
        assert len(parse_program(text).blocks) == 1
    else:
        with pytest.raises(ProgramError):
            parse_program(text)
