"""Words of a bore that say more than its diameter: how deep it is, that it is tapped, tapers, or has a keyway.

Rules: they are held against a bore that was read, and nothing is told where it is drawn so: a step of the bore as deep
from either end, one with the core of the thread, a bore that narrows, lines of a keyway are left to who reads the view.
A caution is all that is told: a hole may be across the part, and what is cut after turning need not be drawn.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Callable, Iterator
from itertools import pairwise

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import BY, NUMBER, normalised
from extractor.late import late
from extractor.sheet import Sheet
from extractor.sizing.lettering.groove_notes import without_item
from extractor.sizing.lettering.pointers import said_anywhere
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import phrases, plain
from extractor.sizing.measured.features import Features

BORE = rf"(?:{phrases('bore_name', 'hole_name')})\b\.?"
SIZE = rf"(?:[^\w.]*Ø?\s*{NUMBER}(?![\d.])(?:\s*[A-Z]{{1,2}}\d{{1,2}}\b)?\s*(?:MM\b)?)?"
DEEP = late(
    rf"\W*(?:(?P<blind>{phrases('blind_bore')})\W*)?{BORE}{SIZE}[\WX]*"
    rf"(?:(?<![\d.])(?P<behind>{NUMBER})\s*(?:MM\b)?\s*(?:{phrases('depth_name')})|(?:{phrases('depth_name')})\W*(?P<size>{NUMBER}))\W*"
    rf"|\W*(?P<sure>{phrases('blind_bore_name')})\b\D*(?P<deep>{NUMBER})(?![\d.])\D*",
    re.I,
)
"""How deep a bore is."""
TAPPED = late(
    rf"\W*(?:(?:{phrases('tapped')})\W+)?{BORE}\W*M\s*(?P<size>{NUMBER})(?:\s*{BY}\s*(?P<pitch>{NUMBER}))?[^\d]*"
    rf"|\W*M\s*(?P<before>{NUMBER})(?:\s*{BY}\s*(?P<step>{NUMBER}))?\W+(?:IN\s+)?(?:THE\s+)?{BORE}\W*",
    re.I,
)
"""A thread in the bore."""
TAPERED = late(
    rf"\W*(?:{phrases('conical')})\W+{BORE}[\W\d]*|\W*{BORE}\W*(?:{phrases('conical')})\b[\W\d]*|\W*{BORE}\W*1\s*:\s*\d+\W*",
    re.I,
)
"""A bore that narrows."""
KEYED = late(rf"(?=.*\b(?:{phrases('keyway_name')}))(?=.*\b{BORE}).*", re.I)
"""A keyway in it."""
CORE = 0.55, 1.4
"""A core lies below the thread's diameter by 1.0825 of its pitch (ISO 68-1, from memory): between these, drawn so or
rounded; without a pitch, which is then coarse, by no more than COARSE of the diameter."""
COARSE = 0.25
"""The coarse pitch of an M1 is a quarter of its diameter, of all larger ones less (ISO 261, from memory)."""


def bore_words(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each such note that the bore does not show."""
    bore = features.part.bore
    if not bore:
        return
    for note in said_anywhere(sheet, lambda words: _of(words) is not None):
        form, found = _of(note.words) or (DEEP, None)
        told = HELD[form](found, features) if found is not None else ""
        if told:
            words = f'The note "{normalised(note.words)}" {told}: see whether it is about this part.'
            yield Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, words, note.tip or note.at)


def _of(words: str) -> tuple[re.Pattern[str], re.Match[str]] | None:
    """The first form that a note has."""
    line = without_item(plain(normalised(words)))
    return next(((form, found) for form in HELD if (found := form.fullmatch(line))), None)


def _deep(found: re.Match[str], features: Features) -> str:
    """What is wrong about a depth: where the bore changes lies that, from either end."""
    size = Printed.of(next(found[name] for name in ("behind", "size", "deep") if found[name]))
    bore, length = features.land_lines[1], features.part.length
    changes = {z for (y, a), (z, b) in pairwise(bore) if not features.near(a, b) for z in (y, z)}
    drawn = [abs(end - z) for z in (*changes, 0.0, -length) for end in (0.0, -length)]
    blind = bool(found["sure"] or found["blind"])
    if features.fits(size, *(d for d in drawn if not blind or d < length - features.snap)):
        return ""
    ends = {z for z, r in bore if r > 0}
    through = min(ends) <= -length + features.snap and max(ends) >= -features.snap
    return f"gives the bore a depth of {size.value:g}, and it was read {'right through' if through else 'otherwise'}"


def _tapped(found: re.Match[str], features: Features) -> str:
    """What is wrong about a thread: a stretch of the bore has its core, or its diameter where there is none."""
    size, pitch = float(found["size"] or found["before"]), found["pitch"] or found["step"]
    low, high = (CORE[0] * float(pitch), CORE[1] * float(pitch)) if pitch else (0.0, COARSE * size)
    unit = features.part.unit
    levels = {2 * r * unit for (_, a), (_, r) in pairwise(features.land_lines[1]) if features.near(a, r)}
    if any(low <= size - level <= high and size > level for level in levels):
        return ""
    return f"names a thread in the bore, of which the drawing shows no core: it measures {max(levels, default=0.0):.6g}"


def _tapered(found: re.Match[str], features: Features) -> str:
    """That a bore does not narrow."""
    pairs = pairwise(features.land_lines[1])
    sloped = any(not features.near(a, b) and abs(a - b) < abs(y - z) for (y, a), (z, b) in pairs)
    return "" if sloped else "lets the bore taper, and it was read straight"


def _keyed(found: re.Match[str], features: Features) -> str:
    """That nothing here reads a keyway in a bore."""
    return "names a keyway in the bore, which was not read"


HELD: dict[re.Pattern[str], Callable[[re.Match[str], Features], str]] = {
    KEYED: _keyed,
    TAPERED: _tapered,
    TAPPED: _tapped,
    DEEP: _deep,
}
"""What is held, and how."""
