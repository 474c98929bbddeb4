"""Programs that ask about a variable which only the control could have a value of."""

import pytest
from support.moves import shop, tool
from support.parts import part_of

from postproc import compare_program

SHOP = shop(tool())
PART = part_of([(-10, -13, 34)])
CUT = "G00 X42. Z-13.\nG01 X34. F0.08\nG00 X42.\n"
HOME = "G00 X80. Z50.\n"


def judged(body: str, behind: str = "") -> tuple[bool, list[tuple[str, str]]]:
    """Whether a program agrees, and what is said of its variables."""
    text = f"G21 G99\nT0303\nG97 S900 M03\n{body}{HOME}M30\n{behind}"
    verdict = compare_program(PART, text, SHOP)
    return verdict.agree, [(str(f.level), f.message) for f in verdict.findings if f.code == "macro-variable"]


@pytest.mark.parametrize(
    ("body", "behind", "agrees", "level", "words"),
    [
        # Either answer makes the same cuts.
        (f"IF[#500 EQ #0]GOTO 5\nN5{CUT}", "", True, "note", "either answer makes the same cuts"),
        (f"IF[#500 EQ #0]THEN #500=0.\n{CUT}", "", True, "note", "either answer makes the same cuts"),
        (f"IF[#1000 EQ 1]GOTO 5\nN5{CUT}", "", True, "note", "either answer makes the same cuts"),
        # One of them ends in an alarm, whichever it is.
        (f"IF[#500 EQ #0]GOTO 9\n{CUT}", "N9 #3000=1 (NOT SET)\n", True, "note", "one answer ends in an alarm"),
        (f"IF[#500 NE #0]GOTO 5\n#3000=1\nN5{CUT}", "", True, "note", "one answer ends in an alarm"),
        (f"IF[#500 NE #0]GOTO 5\nG00 X34.\n#3000=1\nN5{CUT}", "", False, "stop", "what is cut hangs on it"),
        # Both agree, one of them by another feed.
        (f"{CUT}IF[#500 GT 3.]GOTO 5\nG01 X44. F.2\nN5 ", "", True, "caution", "not the same in all else"),
        # What is cut hangs on it, whichever answer is the right one.
        (f"IF[#500 EQ 1]GOTO 5\n{CUT}N5 ", "", False, "stop", "what is cut hangs on it"),
        (f"IF[#500 NE 1]GOTO 5\n{CUT}N5 ", "", False, "stop", "what is cut hangs on it"),
        (f"IF[#500 EQ #0]THEN #500=0.\n{CUT.replace('Z-13.', 'Z[#500-13.]')}", "", False, "stop", "gives #500 a value"),
        # Two such questions have four answers, and a way back may be gone any number of times.
        (f"IF[#500 EQ #0]GOTO 4\nN4 IF[#501 EQ #0]GOTO 5\nN5{CUT}", "", False, "stop", "gives #501 a value"),
        (f"N4{CUT}IF[#500 GT 1]GOTO 4\n", "", False, "stop", "gives #500 a value"),
    ],
)
def test_a_question_about_a_variable_that_nothing_sets(body, behind, agrees, level, words):
    agree, ((said, message),) = judged(body, behind)
    assert (agree, said) == (agrees, level)
    assert words in message


@pytest.mark.parametrize(("asked", "agrees"), [("#500 NE #0", True), ("#500 LT #2", False)])
def test_a_question_asked_again_has_the_same_answer_only_of_a_variable_that_is_vacant(asked, agrees):
    """The second one compares with a value that changes from round to round."""
    body = f"#2=0\nN1 #2=#2+1\nIF[{asked}]GOTO 2\nN2 IF[#2 LT 3]GOTO 1\n{CUT}"
    assert judged(body)[0] is agrees
