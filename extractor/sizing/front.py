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
answer: that end may be Z0, or the end already done and now held. At the end taken they change nothing; if only at the
other, they are a stop.
"""

from collections.abc import Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.front import END_WORDS, Front, FrontBy
from extractor.sizing.ends import EndMark, Ends
from extractor.sizing.front_lengths import Begins
from extractor.values import dataclass


@dataclass(frozen=True, kw_only=True)
class FrontAnswer:
    """Whether the reading must be turned round, what says which end is the front, and the findings on it."""

    turn: bool
    by: FrontBy
    findings: tuple[Finding, ...] = ()


def not_understood(ends: Ends, strange: Sequence[EndMark]) -> Finding | None:
    """The caution for words at an end that may say which is the front, where nothing else does; None without any."""
    if not strange:
        return None
    words = (
        f"{_quoted(strange[0])} and was not understood; the {END_WORDS[ends.taken]} of the drawn part was taken for "
        f"the front face, Z0, as is usual; --front {ends.other} turns it round."
    )
    return Finding(Level.CAUTION, DrawingCode.FRONT_ASSUMED, words, strange[0].at)


def decide_front(ends: Ends, marks: Sequence[EndMark], lengths: Begins, given: FrontBy | None) -> FrontAnswer:
    """Weigh all evidence; `given` is how the user named the end taken, None if they did not."""
    finished, marks = [m for m in marks if not m.sure], [m for m in marks if m.sure]
    against = [m for m in marks if not m.taken]
    if given is not None:
        return FrontAnswer(turn=False, by=given, findings=tuple(_overridden(ends, m) for m in against[:1]))
    agreeing = [m for m in marks if m.taken]
    if against and agreeing:
        return FrontAnswer(turn=False, by="assumed", findings=(_two_words(ends, agreeing[0], against[0]),))
    if marks:
        wrong_end = lengths.all_at == ("taken" if against else "other")
        if wrong_end:
            return FrontAnswer(turn=False, by="words", findings=(_words_against_lengths(ends, marks[0], lengths),))
        return FrontAnswer(turn=bool(against), by="words", findings=tuple(_turned(ends, m) for m in against[:1]))
    if finished and not any(m.taken for m in finished):
        return FrontAnswer(turn=False, by="assumed", findings=(_finished(ends, finished[0]),))
    if lengths.all_at == "taken":
        return FrontAnswer(turn=False, by="dimensions")
    findings = (_assumed(ends, lengths),) if lengths.all_at == "other" else ()
    return FrontAnswer(turn=False, by="assumed", findings=findings)


def _meant(ends: Ends, mark: EndMark) -> Front:
    """The end that a mark makes the front."""
    return ends.taken if mark.taken else ends.other


def _quoted(mark: EndMark) -> str:
    """A mark's words and the end that they are at."""
    return f'"{mark.words}" is at the {END_WORDS[mark.spot]}'


def _turned(ends: Ends, mark: EndMark) -> Finding:
    words = f"{_quoted(mark)}, so Z0 is the {END_WORDS[_meant(ends, mark)]} of the drawn part."
    return Finding(Level.NOTE, DrawingCode.FRONT_BY_WORDS, words, mark.at)


def _overridden(ends: Ends, mark: EndMark) -> Finding:
    words = f"Z0 is the {END_WORDS[ends.taken]} as told, although {_quoted(mark)}; check which is meant."
    return Finding(Level.CAUTION, DrawingCode.FRONT_OVERRIDDEN, words, mark.at)


def _two_words(ends: Ends, one: EndMark, two: EndMark) -> Finding:
    words = f"{_quoted(one)} and {_quoted(two)}: they can't both be right; {_question(ends)}"
    return Finding(Level.STOP, DrawingCode.FRONT_CONFLICT, words, two.at)


def _finished(ends: Ends, mark: EndMark) -> Finding:
    words = (
        f"{_quoted(mark)}: Z0 may be there, or that end is already finished and is held in the jaws; {_question(ends)}"
    )
    return Finding(Level.STOP, DrawingCode.FRONT_CONFLICT, words, mark.at)


def _words_against_lengths(ends: Ends, mark: EndMark, lengths: Begins) -> Finding:
    side = ends.taken if lengths.all_at == "taken" else ends.other
    words = f"{_quoted(mark)}, but all lengths begin at the {END_WORDS[side]}; {_question(ends)}"
    return Finding(Level.STOP, DrawingCode.FRONT_CONFLICT, words, mark.at)


def _assumed(ends: Ends, lengths: Begins) -> Finding:
    words = (
        f"All lengths begin at the {END_WORDS[ends.other]} of the drawn part, but the {END_WORDS[ends.taken]} was "
        f"taken for the front face, Z0, as is usual; --front {ends.other} turns it round."
    )
    return Finding(Level.CAUTION, DrawingCode.FRONT_ASSUMED, words, lengths.other[0])


def _question(ends: Ends) -> str:
    """What to do."""
    return f"give --front {ends.taken} or --front {ends.other}, whichever is the finished front face."
