"""Which end of the drawn part is the finished front face: words, lengths and the user's own answer weighed.

Rules: words turn the reading, lengths alone never do. Words that disagree with one another or with all lengths are a
stop that only `--front` answers; if `--front` is given it decides, and words against it are a caution.

    words      lengths begin    read as         by            finding
    -          nowhere, both    end taken       assumed       -
    -          at end taken     end taken       dimensions    -
    -          at the other     end taken       assumed       caution front-assumed
    strange    nowhere, both    end taken       assumed       caution front-assumed
    one end    not all against  that end        words         note front-by-words where that turned the reading
    one end    all against      end taken       words         stop front-conflict
    both ends  any              end taken       assumed       stop front-conflict

Strange words are those at an end face that are not understood: they may name it. Words for a finished face are no
answer: that end may be Z0, or the end already done and now held. Nor are words that stand far off in line with an end,
which may be the name of a view, or that say more of an end than its name where no leader touches it. At the end taken
such words change nothing; if only at the other, they are a stop. Words that refer to an end from elsewhere say nothing.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.front import END_WORDS, FrontBy
from extractor.sizing.ends.ends import Begins, EndMark, Ends
from extractor.values import dataclass


@dataclass(frozen=True, kw_only=True)
class FrontAnswer:
    """Whether the reading must be turned round, what says which end is the front, and the findings on it."""

    turn: bool
    by: FrontBy
    findings: tuple[Finding, ...] = ()


def not_understood(ends: Ends, strange: Sequence[EndMark], why: str) -> Finding | None:
    """The caution for words at an end that may say which is the front; `why` the other one was taken. None without."""
    if not strange:
        return None
    words = (
        f"{strange[0].quoted} and may mean the front face, Z0; the {END_WORDS[ends.taken]} of the drawn part was taken "
        f"for it, {why}; --front {ends.other} turns it round."
    )
    return Finding(Level.CAUTION, DrawingCode.FRONT_ASSUMED, words, strange[0].at)


def decide_front(ends: Ends, marks: Sequence[EndMark], lengths: Begins, given: FrontBy | None) -> FrontAnswer:
    """Weigh all evidence; `given` is how the user named the end taken, None if they did not."""
    unsure, sure = ([m for m in marks if m.sure is kind] for kind in (False, True))
    agreeing, against = ([m for m in sure if m.taken is kind] for kind in (True, False))
    taken, other = END_WORDS[ends.taken], END_WORDS[ends.other]
    question = f"give --front {ends.taken} or --front {ends.other}, whichever is the finished front face."
    conflict = partial(_told, Level.STOP, DrawingCode.FRONT_CONFLICT)
    if given is not None:
        words = "Z0 is the {} as told, although {}; check which is meant."
        told = [(words.format(taken, m.quoted), m.at) for m in against[:1]]
        return _told(Level.CAUTION, DrawingCode.FRONT_OVERRIDDEN, told, given)
    if against and agreeing:
        words = f"{agreeing[0].quoted} and {against[0].quoted}: they can't both be right; {question}"
        return conflict([(words, against[0].at)], "assumed")
    if sure and lengths.all_at == ("taken" if against else "other"):
        words = f"{sure[0].quoted}, but all lengths begin at the {taken if against else other}; {question}"
        return conflict([(words, sure[0].at)], "words")
    if sure:
        told = [(f"{m.quoted}, so Z0 is the {other} of the drawn part.", m.at) for m in against[:1]]
        answer = _told(Level.NOTE, DrawingCode.FRONT_BY_WORDS, told, "words")
        return replace(answer, turn=bool(against))
    if unsure and not any(m.taken for m in unsure):
        doubt = (
            "it may be meant for something else"
            if unsure[0].far or unsure[0].more
            else "that end is already finished and held"
        )
        words = f"Z0 may be at the {other}, or {doubt}; {question}"
        return conflict([(f"{unsure[0].quoted}: {words}", unsure[0].at)], "assumed")
    words = (
        f"All lengths begin at the {other} of the drawn part, but the {taken} was taken for the front face, Z0, as is "
        f"usual: if Z0 is where the lengths begin, all grooves would be cut from the wrong end; give --front "
        f"{ends.other} then, else --front {ends.taken}."
    )
    told = [(words, lengths.other[0])] if lengths.all_at == "other" else []
    by: FrontBy = "dimensions" if lengths.all_at == "taken" else "assumed"
    return _told(Level.CAUTION, DrawingCode.FRONT_ASSUMED, told, by)


def _told(level: Level, code: DrawingCode, told: Sequence[tuple[str, Point]], by: FrontBy) -> FrontAnswer:
    """The end taken as the answer, with a finding for each sentence and its place."""
    return FrontAnswer(turn=False, by=by, findings=tuple(Finding(level, code, words, at) for words, at in told))
