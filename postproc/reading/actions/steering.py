"""The actions that steer the run: calls of subprograms, returns from them, and the end."""

from collections.abc import Mapping

from postproc.codes import ProgramCode
from postproc.reading.control import Event, ModalCall
from postproc.reading.lathe import Lathe
from postproc.reading.run import ENDS, STARTS_OVER, Indexing
from postproc.reading.words import Word
from postproc.vocabulary.acts import VARIABLES, Switch

COUNTED = frozenset("DHMST")
"""Letters whose values are whole numbers, with no thought of a point (common practice, from memory)."""


def call(lathe: Lathe, event: Event) -> None:
    """M98: into a subprogram of the same file, a given number of times."""
    _enter(lathe)


def call_with_values(lathe: Lathe, event: Event) -> None:
    """G65: into a program with variables of its own, which begin with the values of the words, by their letters."""
    _enter(lathe, _given(lathe))


def call_after_moves(lathe: Lathe, event: Event) -> None:
    """G66: into such a program after each block that moves, from the next one on, until G67."""
    words, given = lathe.words, _given(lathe)
    found = lathe.course.sections.called(words.take("P"), words.take("L"))
    if isinstance(found, str):
        lathe.log.stop(ProgramCode.SUBPROGRAM, found)
    else:
        lathe.course.called.add(found[0])
        lathe.control.called = ModalCall(*found, given, len(lathe.course.callers))


def call_no_more(lathe: Lathe, event: Event) -> None:
    """G67."""
    lathe.control.called = None


def after_move(lathe: Lathe) -> None:
    """Into the program that runs after each move, unless the move is its own or that of another one called."""
    modal = lathe.control.called
    if modal is not None and len(lathe.course.callers) == modal.depth:
        _run(lathe, modal.first, modal.times, modal.given)


def _given(lathe: Lathe) -> Mapping[int, float]:
    """The values of the words of a call, by the variables that get them."""
    words, given = lathe.words, dict[int, float]()
    for word in words.leftovers():
        number = VARIABLES.get(word.address)
        if number is not None and words.take(word.address) is not None:
            given[number] = word.value if word.pointed or word.address in COUNTED else _length(lathe, word)
    return given


def call_local(lathe: Lathe, event: Event) -> None:
    """M97, M98 H: into the blocks of the same program from the one that P or H numbers, L times, up to a return."""
    words, course = lathe.words, lathe.course
    number, often = words.take("P") or words.take("H"), words.take("L")
    first = None if number is None or number.whole is None else course.numbered(number.whole)
    times = 1 if often is None else often.whole
    if first is None or times is None:
        message = f"No block of this program is called by {number or 'no P'} {often or ''}".rstrip()
        lathe.log.stop(
            ProgramCode.SUBPROGRAM, f"{message}; give the number of a block, and how often in whole numbers."
        )
    else:
        _run(lathe, first, times)


def _length(lathe: Lathe, word: Word) -> float:
    """The value of a word without a point, which is a length of its address."""
    return (lathe.words.amount(word) or 0) / lathe.increments.per_length


def _enter(lathe: Lathe, given: Mapping[int, float] | None = None) -> None:
    """Into the program that P names, L times; `given` are the values of its own variables, None: it has none."""
    words, course = lathe.words, lathe.course
    found = course.sections.called(words.take("P"), words.take("L"))
    if isinstance(found, str):
        lathe.log.stop(ProgramCode.SUBPROGRAM, found)
    else:
        _run(lathe, *found, given)


def _run(lathe: Lathe, first: int, times: int, given: Mapping[int, float] | None = None) -> None:
    """What begins at a block so often, unless that is already running."""
    if fault := lathe.course.endless(first):
        lathe.log.stop(ProgramCode.SUBPROGRAM, fault)
    else:
        lathe.course.enter(first, times, given)


def go_back(lathe: Lathe, event: Event) -> None:
    """M99 in a subprogram: round again, or back to the caller."""
    _alone(lathe)
    lathe.course.leave()


def start_over(lathe: Lathe, event: Event) -> None:
    """M99 in the main program: back to the start, for ever."""
    back = _alone(lathe)
    message = f"{back} in the main program starts it over without end; one pass was followed."
    lathe.log.caution(ProgramCode.ENDLESS, message)
    stand(lathe, STARTS_OVER)


def _alone(lathe: Lathe) -> str:
    """The word of a return, and a stop where P stands beside it."""
    back = lathe.dialect.written(Switch.RETURN)
    if (to := lathe.words.take("P")) is not None:
        # A block of the caller on most controls, how often the program runs on others (common practice).
        message = f"{to} beside {back} sends the program to another block, which is not followed; write {back} alone."
        lathe.log.stop(ProgramCode.UNKNOWN_WORD, message)
    return back


def end(lathe: Lathe, event: Event) -> None:
    """M02, M30."""
    stand(lathe, ENDS)


def stand(lathe: Lathe, what: str) -> None:
    """Note where the tool stands after one pass, for the hand that takes the part out."""
    log, known = lathe.log, lathe.control.place.known
    log.halt(what.removeprefix("program "))
    log.indexings.append(Indexing(log.line, len(log.motions), known, what))
