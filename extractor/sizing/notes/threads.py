"""Threads by their designations, held against the land that a leader touches or a dimension measures.

Rules: a thread's nominal diameter is that of its land (ISO 6410-1, from memory); in a bore its core may be drawn
instead. How long it is stands behind its designation, and its land is no shorter. Metric threads, pipe threads by the
size of their pipe (ISO 228-1), and threads in inches by diameter and threads per inch (ASME B1.1, from memory). A bare
`G1` is none where another such name stands on the sheet: they are labels then.
"""

import math
import re
from itertools import pairwise
from typing import NamedTuple

from extractor import grammar
from extractor.finding import Finding
from extractor.grammar import BY, NUMBER, fractions, normalised
from extractor.part import INCH, Groove, Part
from extractor.sheet import Dimension, Sheet
from extractor.shipped import shipped
from extractor.sizing.lettering.groove_notes import without_item
from extractor.sizing.lettering.pointers import PointedNote, led
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import plain
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import tie_of
from extractor.sizing.notes.note_places import led_to

PIPES: dict[str, list[float]] = shipped("extractor.sizing.tolerances", "standards")["iso228"]
LENGTH = (
    rf"(?:\s*(?:{BY}|-)\s*(?P<long>{NUMBER})\s*(?:MM\b\s*)?(?:LONG|LG|LANG|LUNG\w*|LARGO|LONGU\w*)?\b\.?"
    rf"|\s+(?P<worded>{NUMBER})\s*(?:MM\s+)?(?:LONG|LG|LANG)\b\.?)?"
)
THREAD = re.compile(
    rf"(?:{grammar.THREAD}(?:\s*-?\s*(?:\d[e-h]){{1,2}})?"
    rf"|{grammar.THREAD_IN_INCHES})(?:\s*-?\s*LH)?{LENGTH}"
)
"""A thread and nothing else; a fit such as 6g is that of an external one (ISO 965-1, from memory)."""
LABEL = re.compile(r"G\s?\d")
"""A pipe thread of whole inches, which is also how labels are written."""
TURNED = 0.95, 1.01
"""Shares of a thread's nominal diameter between which its land may be drawn: it is turned below it by its tolerance
(M3 to 4.2 %, ISO 965-1, from memory)."""
CORE, CORE_OF_PIPE = 1.2, 1.4
"""Pitches by which the core of a thread in a bore lies below the nominal diameter, at most: by 1.08 in the standard
(ISO 724, from memory), and by 1.28 that of a pipe (ISO 228-1, from memory)."""
COARSE = 0.75
"""The least share that the core has of the nominal diameter where no pitch is printed: of M1.6 it is 0.76."""
TAPPED = 0.75
"""A thread smaller than this share of the land that it points to may be tapped in a hole across it."""
MOST_PITCH = 8.0
"""The greatest pitch of a metric thread (ISO 262, from memory): what stands behind the size and is more is a length."""
NUMBERED = 0.06, 0.013
"""The diameter of a thread #0 in inches, and how much more each number has."""


class ThreadSize(NamedTuple):
    """A thread in millimetres: its nominal diameter, its pitch and its length, where they are printed."""

    size: float
    pitch: float | None
    long: str | None


def thread_of(found: re.Match[str]) -> ThreadSize | None:
    """The thread that a designation is, None for a pipe of no such size."""
    long = found["long"] or found["worded"]
    if found["size"]:
        pitch = float(found["pitch"]) if found["pitch"] else None
        if pitch is not None and pitch > MOST_PITCH:
            return ThreadSize(float(found["size"]), None, long or found["pitch"])
        return ThreadSize(float(found["size"]), pitch, long)
    if found["inch"]:
        first, each = NUMBERED
        size = first + each * int(found["inch"][1:]) if found["inch"][0] == "#" else _inches(found["inch"])
        return ThreadSize(INCH * size, INCH / int(found["per"]), long)
    pipe = PIPES.get(" ".join((found["pipe"] or found["before"]).split()))
    return None if pipe is None else ThreadSize(pipe[0], INCH / pipe[1], long)


def _inches(words: str) -> float:
    """A size in inches, in fractions or decimals."""
    return float(fractions(words)[0])


def thread_fault(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the diameter of a thread, or its length, "" for nothing."""
    return "" if note.tip is None else off_land(found, led(note.words, note.tip, note.at), features)


def is_label(words: str, sheet: Sheet) -> bool:
    """True for a `G1` beside a `G2`: names of things on the sheet."""
    if LABEL.fullmatch(words) is None:
        return False
    texts = (*(text.text for text in sheet.everywhere), *(d.text or "" for d in sheet.dimensions))
    return len({one.strip() for one in texts if LABEL.fullmatch(one.strip())}) > 1


def threaded(found: re.Match[str], note: PointedNote, features: Features) -> Groove | None:
    """The groove into which a thread as large as its land is led, and not to that land."""
    groove, thread = led_to(note, features), thread_of(found)
    own = () if groove is None or thread is None else (*groove.beside, groove.floor_diameter)
    if groove is None or note.tip is None or not any(thread and _turned_for(thread, d, features) for d in own):
        return None
    tie = tie_of(led(note.words, note.tip, note.at), features)
    return None if tie is not None and tie.field == "land_diameter" else groove


def _turned_for(thread: ThreadSize, land: float, features: Features) -> bool:
    """True for a land that may be turned for a thread outside."""
    return TURNED[0] * thread.size <= land * features.part.unit <= TURNED[1] * thread.size


def off_land(found: re.Match[str], dimension: Dimension, features: Features) -> str:
    """What is wrong about a thread on a dimension, or a leader, of a land."""
    tie, part, thread = tie_of(dimension, features), features.part, thread_of(found)
    if tie is None or thread is None or tie.field != "land_diameter":
        return ""
    size, land = thread.size, tie.true * part.unit
    depth = CORE_OF_PIPE if found["pipe"] or found["before"] else CORE
    core = size - depth * thread.pitch if thread.pitch else COARSE * size
    in_bore, outside = (
        min((abs(2 * r - tie.true) for _, r in line or ()), default=math.inf) for line in (part.bore, part.lands)
    )
    least = core if in_bore < outside else TURNED[0] * size
    if least <= land <= TURNED[1] * size:
        return "" if in_bore < outside or thread.long is None else _too_long(thread.long, dimension, tie.true, features)
    return "" if size < TAPPED * land else f"is a thread of {size:g} where the drawing measures {land:.6g}"


def _too_long(printed: str, dimension: Dimension, across: float, features: Features) -> str:
    """That a thread is longer than the land at its leader's tip with its grooves, "" if it is not."""
    z, part = features.frame.on_part(dimension.points[0])[0], features.part
    lands = sorted(((b[0], a[0]) for a, b in pairwise(part.lands) if a[1] == b[1] == across / 2), reverse=True)
    others = [a[0] for a, b in pairwise(part.lands) if a[1] == b[1] != across / 2]
    runs: list[list[float]] = []
    for low, high in lands:
        if runs and not any(high < other <= runs[-1][0] for other in others):
            runs[-1][0] = low
        else:
            runs.append([low, high])
    long = next((high - low for low, high in runs if low - features.snap <= z <= high + features.snap), 0.0)
    figure = Printed.of(printed)
    too_long = long and figure.value > long * part.unit and not features.fits(figure, long)
    return f"is a thread {figure.value:g} long where the drawing measures {long * part.unit:.6g}" if too_long else ""


def roots_of_threads(sheet: Sheet, part: Part, lines: Finding) -> bool:
    """True if what is told of lines along the axis is of roots of threads: each lies under a land so named."""
    words = (*(text.text for text in sheet.texts), *(d.text or "" for d in sheet.dimensions))
    found = (THREAD.fullmatch(without_item(plain(normalised(one)))) for one in words)
    sizes = [thread.size for one in found if one and (thread := thread_of(one))]
    places = [part.frame.on_part(at) for at in (lines.at, *lines.spots) if at and part.frame] if sizes else []
    return bool(places) and all(
        any(
            TURNED[0] * size <= 2 * a[1] * part.unit <= TURNED[1] * size
            and COARSE * size <= 2 * abs(r) * part.unit < size
            for a, b in pairwise(part.lands)
            for size in sizes
            if a[1] == b[1] and b[0] <= z <= a[0]
        )
        for z, r in places
    )
