"""Programs that ask about a variable which nothing in them sets: judged with the answer yes and with the answer no.

Such a value stays in the control from one program to the next (common practice), so nobody knows it here.
"""

from dataclasses import replace

from extractor.finding import Finding, Level
from postproc.codes import ProgramCode
from postproc.verdict import Verdict


def either_way(no: Verdict, yes: Verdict, line: int, text: str) -> Verdict:
    """The verdict of a program that asks once about a variable without a value, from those with either answer.

    Where one answer only stops the control with an alarm, the other counts; where both cut the same, either. Else the
    one that does not agree, with a stop unless both do.
    """
    what = f"{text[:60]} asks for a variable that nothing in the program sets"
    known = yes if _only_halts(no, yes) else no if _only_halts(yes, no) else None
    worse = yes if no.agree else no
    if known is not None:
        said = f"{what}; one answer ends in an alarm, so the other was judged."
        told = Finding(Level.NOTE, ProgramCode.MACRO_VARIABLE, said, line=line)
    elif any(one.code == ProgramCode.MACRO_VARIABLE for one in worse.findings):
        return worse
    elif (no.matches, no.findings) == (yes.matches, yes.findings) and cuts(no) == cuts(yes):
        said = f"{what}; either answer makes the same cuts."
        told = Finding(Level.NOTE, ProgramCode.MACRO_VARIABLE, said, line=line)
    elif no.agree and yes.agree:
        said = f"{what}; both answers agree with the drawing and are not the same in all else; see which is meant."
        told = Finding(Level.CAUTION, ProgramCode.MACRO_VARIABLE, said, line=line)
    else:
        said = f"{what}, and what is cut hangs on it: give it a value before, or write the numbers out."
        told = Finding(Level.STOP, ProgramCode.MACRO_VARIABLE, said, line=line)
    known = known or worse
    return replace(known, findings=(*known.findings, told))


def _only_halts(one: Verdict, other: Verdict) -> bool:
    """True if a program ends in an alarm by one answer, with no move before it that it would not make by the other."""
    if one.run is None or other.run is None or one.run.alarm is None or other.run.alarm is not None:
        return False
    return one.run.motions[: one.run.alarm] == other.run.motions[: one.run.alarm]


def cuts(verdict: Verdict) -> list[tuple[object, ...]]:
    """Every move that goes anywhere, with its feed and speed."""
    motions = verdict.run.motions if verdict.run else ()
    moves = [m for m in motions if (m.x0, m.z0) != (m.x1, m.z1)]
    return [(*m[:5], m.feed, m.per_minute, m.speed, m.surface, m.clamp, m.reverse) for m in moves]
