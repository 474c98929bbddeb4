"""What is said of a note: that it contradicts the drawing, or that it was not held against it."""

from collections.abc import Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.part import Groove
from extractor.sizing.notes.note_faults import COUNTS

NOT_KEPT = "; the drawn size is cut, and its printed limits are not kept"
"""What becomes of the limits of a size that contradicts, for one who answers for it."""


def note_stop(words: str, faults: Sequence[str], groove: Groove | None, at: Point, *, limited: bool = False) -> Finding:
    """The stop for a note that contradicts the drawing; `limited` if tolerances stand in it."""
    counted = all(fault.startswith(COUNTS) for fault in faults)
    where, number = ("", None) if groove is None else (f" (groove {groove.id})", groove.id)
    lost = NOT_KEPT if limited else ""
    message = f'The note "{words}" {" and ".join(faults)}{where}: ask which is meant{lost}.'
    if counted:
        return Finding(Level.STOP, DrawingCode.COUNT_DIFFERS, message, at, groove=number)
    return Finding(Level.STOP, DrawingCode.NOTE_CONTRADICTS, message, at, groove=number)


def note_unread(words: str, at: Point, groove: Groove | None = None) -> Finding:
    """The caution for a note that was not held against the drawing."""
    where, number = ("", None) if groove is None else (f" at groove {groove.id}", groove.id)
    message = f'The note "{words}"{where} is not understood, so it was not held against the drawing: read it yourself.'
    return Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, message, at, groove=number)


def words_unread(words: str, at: Point) -> Finding:
    """The caution for a note of which the sizes were read, behind words that nobody here knows."""
    message = f'The sizes in the note "{words}" were read, and its other words are not understood: read them yourself.'
    return Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, message, at)


def tolerance_unread(words: str, at: Point) -> Finding:
    """The caution for a note of which a tolerance is applied to no groove."""
    message = f'The note "{words}" gives grooves a tolerance that was not applied: read it yourself.'
    return Finding(Level.CAUTION, DrawingCode.TOLERANCE_UNREAD, message, at)


def note_nowhere(words: str, at: Point) -> Finding:
    """The caution for a note that points to a place without a groove."""
    message = f'The note "{words}" points to {place_words(at)}, where no groove was read; check what it refers to.'
    return Finding(Level.CAUTION, DrawingCode.NOTE_WITHOUT_GROOVE, message, at)
