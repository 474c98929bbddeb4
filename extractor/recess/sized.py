"""Wide recesses that the sheet sizes as it sizes grooves: their width from wall to wall, and their floor's diameter.

A journal is placed by lengths from the ends, and its diameter is printed as well; who prints the width between two
walls and the floor between them asks for a groove (common practice, no source), and so does who leads the call-out of a
standard groove to it. A recess that holds others is left: its width and floor are those of the low land that they stand
in.
"""

from collections.abc import Callable

import numpy as np

from extractor.finding import Finding, same_key
from extractor.grammar import normalised
from extractor.late import late
from extractor.part import ReadOptions
from extractor.recess.milled import told_flats
from extractor.recess.recognise import Found, with_grooves
from extractor.recess.shapes import Measured
from extractor.sheet import DimensionKind, Flags, Floats, Sheet
from extractor.sizing.lettering.groove_notes import groove_note
from extractor.sizing.lettering.note_words import NO_GROOVE
from extractor.sizing.lettering.pointers import said
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import phrases, plain
from extractor.sizing.notes.callouts import called_out
from extractor.viewing.alike import ROUNDED
from extractor.viewing.evidence import says_diameter
from extractor.viewing.outline import Folded

PICKED = 5e-4
"""Share of the view's size by which a size's end may lie off the wall or floor that it is picked at."""

ACROSS = (DimensionKind.LINEAR, DimensionKind.ALIGNED)
"""The kinds of sizes that may lie across a floor."""

RINGED = late(rf"\b(?:{phrases('groove_round', 'ring_name')})(?:E?S|E?N|E)?\b")
"""A groove that goes round by its name, one or several, or the ring in it."""

Wanted = Callable[[Measured], bool]
"""Which low lands are wanted as grooves."""


def none_wanted(_: Measured) -> bool:
    """Takes no low land for a groove."""
    return False


def all_wanted(_: Measured) -> bool:
    """Takes every low land for a groove."""
    return True


def sized_as_grooves(sheet: Sheet, folded: Folded) -> Wanted:
    """The low lands whose width and floor are both measured, as drawn, or that a groove of a standard is led to."""
    near = max(folded.close, PICKED * folded.view.size)
    picked = [d.points[:2] for d in sheet.dimensions if d.kind in ACROSS and len(d.points) > 1]
    pairs = folded.axis.fold(np.array(picked).reshape(-1, 2)).reshape(-1, 2, 2)
    called = said(sheet, lambda words: called_out(words) is not None)
    tips = folded.axis.fold(np.array([note.tip for note in called if note.tip is not None]).reshape(-1, 2)).tolist()
    return lambda m: (
        not m.inner
        and (
            (len(pairs) > 0 and bool(_widths(pairs, m, near).any() and _floors(pairs, m, near).any()))
            or any(_holds(m, z, abs(r), near) for z, r in tips)
        )
    )


def with_rings(
    sheet: Sheet, folded: Folded, found: Found, scale: float, options: ReadOptions
) -> tuple[Found, list[Finding]]:
    """The part with those recesses without edges that the sheet or the user says are grooves, and what is said."""
    if not found.milled:
        return found, []
    sized, accepted = _sized_as_rings(sheet, folded, scale), frozenset(map(same_key, options.accept))
    rings, told, called = list[Measured](), list[Finding](), _called_grooves(sheet, folded)
    for one in found.milled:
        ring = sized(one.recess)
        stop = told_flats(folded, found.side, one, asked=True)
        if ring and not one.marked:
            rings.append(one.recess)
        elif options.grooved and accepted.isdisjoint({stop.code, stop.key}):
            rings.append(one.recess)
            told.append(told_flats(folded, found.side, one, ring="as --grooved says"))
        elif one.sure and not ring and not called(one.recess):
            told.append(told_flats(folded, found.side, one))
        else:
            told.append(stop)
    return with_grooves(found, rings), told


def _sized_as_rings(sheet: Sheet, folded: Folded, scale: float) -> Wanted:
    """The recesses with a diameter across their floor or led to it, or with the call-out of a groove that goes round.

    Flats have no diameter; `scale` is the drawn length of one true unit.
    """
    near = max(folded.close, PICKED * folded.view.size)
    signed = [d.points[:2] for d in sheet.dimensions if d.kind in ACROSS and says_diameter(d.text or "")]
    pairs = folded.axis.fold(np.array([two for two in signed if len(two) > 1]).reshape(-1, 2)).reshape(-1, 2, 2)
    led = [
        note for note in said(sheet, lambda words: says_diameter(words) or names_ring(words)) if note.tip is not None
    ]
    tips = folded.axis.fold(np.array([note.tip for note in led]).reshape(-1, 2)).tolist()

    def ring(words: str, m: Measured) -> bool:
        """Whether words call a recess a ring, or give its floor a diameter."""
        floor = 2 * m.floor / scale
        sizes = parse(words).sizes if says_diameter(words) else ()
        return names_ring(words) or any(abs(size - floor) <= ROUNDED * floor for size in sizes)

    return lambda m: (
        (len(pairs) > 0 and bool(_floors(pairs, m, near).any()))
        or any(_holds(m, z, abs(r), near) and ring(n.words, m) for n, (z, r) in zip(led, tips, strict=True))
    )


def _called_grooves(sheet: Sheet, folded: Folded) -> Wanted:
    """The recesses into which a note is led that sizes a groove, as `12 x 5`."""
    near = max(folded.close, PICKED * folded.view.size)
    notes = said(sheet, lambda words: groove_note(words) is not None)
    tips = folded.axis.fold(np.array([n.tip for n in notes if n.tip is not None]).reshape(-1, 2)).tolist()
    return lambda m: any(_holds(m, z, abs(r), near) for z, r in tips)


def names_ring(words: str) -> bool:
    """True for words that call out a groove that goes round, or the ring in it.

    >>> names_ring("CIRCLIP GROOVE 4 x 3"), names_ring("2 Einstiche 4x3"), names_ring("SW 32"), names_ring("NUT 8")
    (True, True, False, False)
    """
    line = plain(normalised(words)).upper()
    return called_out(words) is not None or (RINGED.search(line) is not None and NO_GROOVE.search(line) is None)


def _holds(m: Measured, z: float, r: float, near: float) -> bool:
    """True for a place in a recess, on its floor or between its walls."""
    low, high = sorted((m.floor, m.mouth))
    return m.z_far - near <= z <= m.z_near + near and low - near <= r <= high + near


def _widths(pairs: Floats, m: Measured, near: float) -> Flags:
    """Which sizes are from one wall of a recess to the other, bool (n,); ends float (n, 2, 2) as (z, height)."""
    z, heights = np.sort(pairs[..., 0], axis=1), np.abs(pairs[..., 1])
    at_walls = (np.abs(z[:, 0] - m.z_far) <= near) & (np.abs(z[:, 1] - m.z_near) <= near)
    found: Flags = at_walls & (heights >= min(m.floor, m.mouth) - near).all(axis=1)
    return found


def _floors(pairs: Floats, m: Measured, near: float) -> Flags:
    """Which sizes are across the axis from one side of a recess's floor to the other, bool (n,)."""
    z, (one, other) = pairs[..., 0], pairs[..., 1].T
    across = (np.abs(one + other) <= near) & (np.abs(np.abs(one) - m.floor) <= near)
    found: Flags = across & ((m.z_far - near <= z) & (z <= m.z_near + near)).all(axis=1)
    return found
