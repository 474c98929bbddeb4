"""Details drawn larger: held against the view at the ring that they enlarge, and their dimensions applied there.

Rules: a heading names a detail's letter and scale (`DETAIL Z (5:1)`), the same letter stands at a ring round a place of
the view, which may be an oval by hand (ISO 128-3, from memory), or a leader to a groove names the detail (`SEE DETAIL
Z`). The outline within the ring must be in the detail, that
many times as large; where no scale is printed, so many times as the one usual scale says that fits. Then what is
dimensioned there is dimensioned at the view; a detail that shows something else is another drawing of the same place,
so one of the two is wrong.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.part import Groove
from extractor.sheet import Dimension, DimensionKind, Segments, Sheet, Text
from extractor.sizing.details.enlarged import (
    REACH,
    USUAL,
    Detail,
    DetailRing,
    edge_lines,
    in_ring,
    on_the_view,
    round_groove,
)
from extractor.sizing.details.headings import HEADING, LETTER, LETTERED, NAMED, led_letter, titled
from extractor.sizing.details.like_none import like_none
from extractor.sizing.details.same_shape import SHORT
from extractor.sizing.details.unheaded import is_drawn_otherwise, is_true, shows_a_recess, unheaded
from extractor.sizing.lettering.pointers import NO_LEADER, PointedNote, said
from extractor.sizing.lettering.sheet_words import folded
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.led_words import led_texts

LIKELY = 5.0
"""The scale by which a recess is looked for beside a letter that has none: one in the middle of the usual."""

LETTER_AT = 3.0
"""Letter heights beyond its rim within which a ring's letter stands, at most."""

SMOOTH = 42.0
"""Degrees by which the line of a ring turns at each of its points, at most: a frame of eight corners is none."""


def heard_at_the_view(sheet: Sheet, features: Features) -> tuple[Sheet, tuple[Finding, ...]]:
    """The sheet with what is printed at its details brought to the view, and the details that contradict it."""
    every = [*_details(sheet, titled(sheet.texts), features)]
    held = [detail for detail in every if len(detail.ways) == 1]
    unlike = [*_unlike(sheet, features, every)]
    findings = [*(odd for detail in held for odd in detail.corners_unlike()), *unlike]
    held += [d for d in unheaded(sheet, features, held) if not any(d.has(at) for f in unlike for at in f.spots)]
    findings += like_none(sheet, features, held, unlike)
    loose = [(text, led) for text, led in led_texts(sheet) if not NAMED.fullmatch(folded(text.text))]
    led = [(text, moved) for text, d in loose for moved in _at_the_view(d, held) if moved is not d]
    used, titles = [text for text, _ in led], {detail.heading.at for detail in held}
    letters = {detail.letter for detail in held if detail.letter}
    texts = tuple(t for t in sheet.texts if not (t in used or t.at in titles or led_letter(t.text) in letters))
    own = [d for d in sheet.dimensions if d.kind is not DimensionKind.LEADER or led_letter(d.text or "") not in letters]
    dimensions = [moved for d in own for moved in _at_the_view(d, held)]
    return replace(sheet, dimensions=(*dimensions, *(moved for _, moved in led)), texts=texts), tuple(findings)


def _unlike(sheet: Sheet, features: Features, every: Sequence[Detail]) -> Iterator[Finding]:
    """What is told of details that are drawn otherwise than the view, and of headings of which none was held."""
    headings = titled(sheet.texts)
    lost = _letters_lost(sheet, headings, features)
    bare = _bare_letters(sheet, features)
    headed = (
        t
        for t in headings
        if _is_headed(t, sheet, features, lost)
        or (t in bare and shows_a_recess(t, LIKELY / features.frame.scale, sheet, features))
    )
    unheard = {t.at: " ".join(t.text.split()) for t in headed}
    for detail in every:
        other = "" if detail.ways else detail.other
        unheard[detail.heading.at] = " ".join(detail.heading.text.split())
        if other or len(detail.ways) == 1:
            unheard.pop(detail.heading.at)
        if other:
            at = detail.ring.centre
            words = (
                f"Detail {detail.letter}, by its heading {detail.times:.4g} times as large as the view, {other} "
                f"the view within its ring at {place_words(at)}{detail.sizes_apart}: ask which of the two is meant."
            )
            yield Finding(Level.STOP, DrawingCode.DETAIL_DIFFERS, words, at, spots=(detail.heading.at,))
    told = {detail.letter for detail in every if detail.heading.at not in unheard}
    for note, _ in _led(sheet, features) if told else ():
        if led_letter(note.words) in told:
            unheard.pop(note.at, None)  # what a leader says is no heading of its own
    for at in [t.at for t in headings if t.at in unheard and is_true(t, sheet, features)]:
        unheard.pop(at)
    for at, heading in unheard.items():
        words = (
            f'"{heading}" could not be matched with a place on the view, so no size at it was read: compare the groove '
            "with it, and read its tolerances yourself."
        )
        yield Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, at, spots=(at,))


def without_rings(sheet: Sheet, features: Features, findings: Sequence[Finding]) -> list[Finding]:
    """Findings but those for closed lines that were left out and are the ring of a detail that is held."""
    if not any(f.code == DrawingCode.LEFT_OUT for f in findings):
        return list(findings)
    rings = [d.ring for d in _details(sheet, titled(sheet.texts), features) if len(d.ways) == 1]
    return [
        f
        for f in findings
        if f.code != DrawingCode.LEFT_OUT or f.at is None or not any(in_ring(f.at, r) for r in rings)
    ]


def _at_the_view(dimension: Dimension, held: Sequence["Detail"]) -> list[Dimension]:
    """A dimension of a detail as it would stand at each ring of the detail that it lies in; others as they are."""
    own = min(held, key=lambda detail: detail.off(dimension), default=None)
    if own is None or own.off(dimension) > REACH:
        return [dimension]
    return [detail.moved(dimension) for detail in held if detail.heading.at == own.heading.at]


def _is_headed(text: Text, sheet: Sheet, features: Features, lost: bool) -> bool:
    """True for the heading of a detail: by its word, or by its scale if its letter stands at the view alone.

    Or nowhere, where a recess like none of the part is drawn beside it, or the letter of a ring is `lost`: that of no
    heading.
    """
    line = folded(text.text)
    scaled = HEADING.fullmatch(line)
    if scaled is None or NAMED.fullmatch(line):
        return NAMED.fullmatch(line) is not None
    top, bottom = (float(number.replace(",", ".")) for number in scaled.groups()[1:])
    if top <= bottom * features.frame.scale:
        return False
    own = [t for t in sheet.texts if folded(t.text) == scaled[1]]
    if own:
        return any(on_the_view(t.at, LETTER_AT * t.height, features) for t in own)
    return lost or is_drawn_otherwise(text, top / bottom / features.frame.scale, sheet, features)


def _letters_lost(sheet: Sheet, headings: Sequence[Text], features: Features) -> bool:
    """True if a letter at a ring on the view is that of no heading on a sheet that has some."""
    lines = [folded(text.text) for text in headings]
    named = [found[1].upper() for line in lines if (found := HEADING.fullmatch(line) or NAMED.fullmatch(line))]
    return bool(named) and any(
        note.words.strip().upper() not in named and any(_at_ring(note, ring) for ring in _rings(sheet, features))
        for note in _letters(sheet)
    )


def _bare_letters(sheet: Sheet, features: Features) -> list[Text]:
    """The texts that are nothing but a letter, stand at no ring on the view, and whose letter stands at one."""
    lone = [t for t in sheet.texts if LETTER.fullmatch(folded(t.text))]
    if len(lone) < 2:
        return []
    rings = _rings(sheet, features)
    at_rings = {n.at: folded(n.words) for n in _letters(sheet) if any(_at_ring(n, ring) for ring in rings)}
    return [t for t in lone if t.at not in at_rings and folded(t.text) in at_rings.values()]


def _letters(sheet: Sheet) -> tuple[PointedNote, ...]:
    """The texts that may be the letter of a ring."""
    return said(sheet, lambda words: LETTER.fullmatch(words.strip()) is not None)


def _rings(sheet: Sheet, features: Features) -> list[DetailRing]:
    """The rings on the view, ovals by hand last."""
    round_ones = (DetailRing(c.centre, c.radius, c.radius) for c in sheet.circles)
    ovals = _ovals(sheet.segments, features.snap * features.frame.scale)
    return [c for c in (*round_ones, *ovals) if on_the_view(c.centre, c.outer, features)]


def _details(sheet: Sheet, headings: Sequence[Text], features: Features) -> Iterator["Detail"]:
    """Every detail whose letter stands at a ring on the view, and that is drawn larger; at several, if it fits all.

    Where the letter stands nowhere, it may be drawn as lines: its ring is the only one without that the detail fits.
    """
    on_view = _rings(sheet, features) if headings else []
    letters = _letters(sheet) if headings else ()
    led = _led(sheet, features) if headings else []
    bare = [c for c in on_view if c.radius == c.outer and not any(_at_ring(note, c) for note in letters)]
    lines, lone = edge_lines(sheet), _bare_letters(sheet, features)
    for text in headings:
        scaled, named = HEADING.fullmatch(folded(text.text)), NAMED.fullmatch(folded(text.text))
        found = scaled or named or (LETTERED.fullmatch(folded(text.text)) if text in lone else None)
        if found is None or any(note.at == text.at for note, _ in led):
            continue
        letter, scales = found[1].upper(), [*USUAL]
        if scaled is not None:
            top, bottom = (float(number.replace(",", ".")) for number in scaled.groups()[1:])
            scales = [top / bottom if bottom > 0 else 0.0]
        own = [note for note in letters if note.words.strip().upper() == letter]
        rings = [c for c in on_view if any(_at_ring(t, c) for t in own)]
        rings += {c: None for note, c in led if led_letter(note.words) == letter and c not in rings}
        rings = rings or [c for note in own for c in _led_to(note, features)]
        clear = [c for c in (rings if own or rings else bare) if not on_the_view(text.at, c.radius, features)]
        larger = [times for scale in scales if (times := scale / features.frame.scale) > 1]
        made = [Detail(features, text, letter, times, ring, lines) for times in larger for ring in clear]
        made = made if (own or rings) and scaled else [detail for detail in made if len(detail.ways) == 1]
        each = len({detail.ring for detail in made}) == len(made) == len(rings or made)
        if each and (len(made) == 1 or (rings and all(len(detail.ways) == 1 for detail in made))):
            yield from made


def _led(sheet: Sheet, features: Features) -> list[tuple[PointedNote, DetailRing]]:
    """The notes that name a detail by a leader to a groove, each with the ring that it stands for."""
    notes = said(sheet, lambda words: bool(led_letter(words)))
    return [(note, ring) for note in notes for ring in _led_to(note, features)]


def _led_to(note: PointedNote, features: Features) -> list[DetailRing]:
    """The ring that the leader of a note stands for, where it ends in a groove."""
    at = features.frame.on_part(note.tip) if note.tip is not None else None
    held = [g for g in features.part.grooves if at and _holds(g, at, features.snap)][:1]
    return [round_groove(g, features, at[1]) for g in held if at]


def _holds(groove: Groove, at: Point, near: float) -> bool:
    """True if a place (z, radius) lies between the walls of a groove and its mouth and floor, or on one of them."""
    low, high = sorted((groove.mouth_diameter / 2, groove.floor_diameter / 2))
    near_it = groove.z_far - near <= at[0] <= groove.z_near + near
    return near_it and low - near <= abs(at[1]) <= high + near


def _ovals(drawn: Segments, near: float) -> Iterator[DetailRing]:
    """Every smooth line that is drawn in one and closes: a ring by hand, an ellipse."""
    starts = np.flatnonzero(np.diff(drawn.source, prepend=-1))
    counts = np.diff(starts, append=len(drawn))
    for first, count in zip(starts[counts > 2].tolist(), counts[counts > 2].tolist(), strict=True):
        own = slice(first, first + count)
        start, end = drawn.ends[own].view(np.complex128).T
        half = np.exp(2j * np.arctan(drawn.bulge[own]))
        turns = np.angle(np.roll((end - start) / half, -1) * np.conj((end - start) * half), deg=True)
        if np.abs(np.roll(start, -1) - end).max() <= near and np.abs(turns).max() <= SMOOTH:
            middle = complex(start.mean())
            off = np.abs(start - middle)
            if drawn.sources[drawn.source[first]].owner not in NO_LEADER:
                yield DetailRing((middle.real, middle.imag), float(off.min()), float(off.max()))


def _at_ring(note: PointedNote, ring: DetailRing) -> bool:
    """True for a letter at a ring, or one that is led to it."""
    reach = max(LETTER_AT * note.height, SHORT * ring.radius)
    away = [math.dist(at, ring.centre) for at in (note.at, note.tip or note.at)]
    return any(ring.radius - reach <= off <= ring.outer + reach for off in away)
