"""Call-outs of standard grooves, held against the groove at their leader: `DIN 509`, `DIN 76`, `DIN 471`, `DIN 472`.

DIN 509: the first number is the corner radius, not the width. Source: two published extracts of it (1998 and older),
which agree on r x t1 and on f where both have it; tolerances r +-0.1, t1 +0.1/0, f +0.2/0 from one of them. DIN 471
and 472 name the ring: shaft or bore d1 by thickness s. Source: an open library's data file and an open fastener
library, which agree on the rows kept here; the width m is s and 0.1 or 0.15 more in all rows of both (H13). Of other
diameters the width is held and the floor is not. DIN 76-1, external threads: from memory; the pitch isn't called out,
so any row's may be meant.
"""

import re
from collections.abc import Callable
from functools import partial

from extractor.grammar import NUMBER, normalised
from extractor.late import late
from extractor.part import Groove, Part
from extractor.shipped import shipped
from extractor.side import INSIDE, OUTSIDE
from extractor.sizing.lettering.note_words import RING_NAME, UNDERCUT
from extractor.sizing.lettering.sheet_words import folded, phrases
from extractor.sizing.sentences.could_size import could_be
from extractor.sizing.tolerances.iso286 import tolerance_grade

Faults = Callable[[Groove, Part], tuple[str, ...]]
SHAFT = r"(?:WELLE|SHAFT|ARBRE|ALBERO|EJE|BOHRUNG|BORE|ALESAGE|FORO|ALOJAMIENTO)"
SIZES = rf"Ø?\s*(?P<{{0}}>{NUMBER})\s*[X×]\s*Ø?\s*(?P<{{1}}>{NUMBER})"
RING = late(
    rf"(?:\bDIN\s*(?P<before>471|472)|\b{RING_NAME}(?:E[NS]?|S)?)\b\D{{0,24}}?"
    rf"(?:{SIZES.format('one', 'other')}|\b{SHAFT}\W*(?P<shaft>{NUMBER})|(?<=47\d)[\s:-]*(?P<alone>{NUMBER})\s*$)"
    rf"|{SIZES.format('first', 'second')}[\s,-]*\bDIN\s*(?P<behind>471|472)\s*$",
    re.I,
)
"""A ring by its standard, or by its name alone: then it is that of the shaft or the bore that the groove is in.

Behind it stands the shaft by the thickness, the groove's width by its floor, or the shaft alone.
"""
_SUITED = rf"(?:(?:{phrases('to_suit', 'for_a_fellow')})\s+)"
_RINGED = rf"\W*(?:\d+\s*[x\u00d7]?\s*)?(?:(?:{phrases('groove_name').lower()}|{phrases('groove_bent')})\W+)?"
CORD = late(
    rf"{_RINGED}(?:{_SUITED}?(?:{phrases('o_ring')})\W*\u00d8?\s*({NUMBER})\s*[x\u00d7]\s*\u00d8?\s*({NUMBER})"
    rf"|{_SUITED}(?:{phrases('o_ring')})\W*\u00d8?\s*(?P<alone>\d(?:\.\d+)?))\W*"
)
"""An O-ring in a folded line, with the name of its groove or without, and nothing else.

Its diameter stands by that of its cord, either first, or the cord's alone, which is never 10 or more.
"""
FOR_SHAFT = late(rf"{_RINGED}{_SUITED}(?:{phrases('ring_name').lower()})\W*\u00d8?\s*({NUMBER})\W*")
"""A groove for a retaining ring by the diameter of its shaft or bore, in a folded line."""
RING_SIZES = ("one", "other", "first", "second", "shaft", "alone")
THREAD = re.compile(r"\bDIN\s*76(?:-1)?(?:\s*-?\s*([AB])(?![^\W\d_]))?\s*(?=$|[^\d]+$)", re.I)
"""The undercut of a thread; behind it stands at most where."""
RING_SHARES = 0.7, 1.4
"""Shares of the diameter of a floor or a mouth between which that of its O-ring lies, inner or outer."""
PART_NUMBER = 1000.0
"""A figure behind a ring's name that is as large as this, mm, is no diameter but the number of an article."""
TABLES = shipped("extractor.sizing.tolerances", "standards")
FLOORS = {standard: dict(rows) for standard, rows in TABLES["rings"].items()}
"""Diameter d2 of the groove's floor by d1, mm, by the standard of its ring."""
GRADES = (10.0, 10), (22.0, 11), (100.0, 12), (1000.0, 13)
"""The grade of d2 up to each d1: it lies off its nominal toward the groove's bottom by no more."""
THICK = 1.75
"""A ring thicker than this, mm, has more room."""
ROOM = {False: 0.1, True: 0.15}
"""By how much a ring's groove is wider than it, mm."""
BESIDE = 0.25
"""How far a land's diameter may lie from the ring's, mm: more than a shaft or bore is toleranced there."""
REACH = {form: {pitch: row for pitch, *row in rows} for form, rows in TABLES["thread_undercuts"].items()}
"""By form and pitch how far the floor lies below the thread's diameter, and the least and the greatest width."""
ABOUT = 0.05
"""How far off values may be that are rounded in the table, mm."""


WIDTHS = {(radius, deep): width for radius, deep, width in TABLES["undercuts"]["widths"]}
"""Width f by radius r and depth t1, mm."""
DEEPER, WIDER, ROUNDER = 0.1, 0.2, 0.1
"""Tolerances of t1 (upward), of f (upward) and of r (both ways), mm."""
LEVEL = 1e-6
"""Share of the part's diameter by which places of its outline that are the same may be computed apart."""
SLACK = 0.006
"""What a drawing of two decimals rounds off, mm."""


def called_out(text: str) -> Faults | None:
    """The check of a groove against a call-out, which gives what doesn't fit in words; None for any other text.

    >>> called_out("DIN 471 - 50x2") is None, called_out("4 WIDE") is None
    (False, True)
    """
    words = normalised(text)
    if undercut := UNDERCUT.search(words):
        return partial(_undercut_faults, undercut["form"].upper(), float(undercut["radius"]), float(undercut["deep"]))
    if ring := RING.search(words):
        called, sizes = ring["before"] or ring["behind"] or "", [float(one) for one in ring.group(*RING_SIZES) if one]
        own = not called and len(sizes) > 1 and sizes[0] < sizes[1]
        return partial(_ring_faults, called, max(sizes), [0.0, *sorted(sizes)][-2], own)
    if cord := CORD.fullmatch(folded(words)):
        sizes = sorted(float(one) for one in cord.groups() if one)
        return partial(_cord_faults, sizes[0], sizes[-1] if len(sizes) > 1 else 0.0)
    if (ring_for := FOR_SHAFT.fullmatch(folded(words))) and float(ring_for[1]) < PART_NUMBER:
        return partial(_ring_faults, "", float(ring_for[1]), 0.0, False)
    thread = THREAD.search(words)
    return partial(_thread_faults, (thread[1] or "A").upper()) if thread else None


def _undercut_faults(form: str, radius: float, deep: float, groove: Groove, part: Part) -> tuple[str, ...]:
    """What of an undercut's form, radius r and depth t1 isn't so, lengths in mm."""
    depth, drawn, corner = (one * part.unit for one in (groove.depth, groove.width, corner_drawn(groove, part)))
    found, width = [], WIDTHS.get((radius, deep))
    if not deep - SLACK <= depth <= deep + DEEPER + SLACK:
        found.append(f"is {deep:g} deep where the drawing measures {depth:.4g}")
    if width is None:
        found.append("is not in that standard's table")
    elif form in "EF" and not width - SLACK <= drawn <= width + WIDER + SLACK:
        found.append(f"is {width:g} wide where the drawing measures {drawn:.4g}")
    if corner and abs(corner - radius) > ROUNDER + SLACK:
        found.append(f"has the radius {radius:g} where the drawing measures {corner:.4g}")
    return tuple(found)


def corner_drawn(groove: Groove, part: Part) -> float:
    """How far the floor stops short of the wall at the higher land: its corner's radius, 0 for a sharp one."""
    radius, near = groove.floor_diameter / 2, LEVEL * part.outer_diameter
    floor = [z for z, r in part.outline if abs(r - radius) <= near and groove.z_far - near <= z <= groove.z_near + near]
    if not floor or groove.side != OUTSIDE:
        return 0.0
    far = groove.far_land_diameter >= groove.near_land_diameter
    return min(floor) - groove.z_far if far else groove.z_near - max(floor)


def _cord_faults(thick: float, across: float, groove: Groove, part: Part) -> tuple[str, ...]:
    """That a cord so thick is too thick for a groove, or its ring so large across, 0 for untold, not near it; mm."""
    width, *rounds = (one * part.unit for one in (groove.width, groove.floor_diameter, groove.mouth_diameter))
    found = (f"has a cord of {thick:g} where the drawing measures the width {width:.4g}",) * (thick > width + SLACK)
    if across and not could_be(across, *rounds, shares=RING_SHARES):
        found += (f"is of a ring {across:g} across where the drawing measures {rounds[0]:.6g}",)
    return found


def _ring_faults(called: str, across: float, thick: float, own: bool, groove: Groove, part: Part) -> tuple[str, ...]:
    """What isn't so of a ring's groove: its standard or "", the diameter d1 of shaft or bore and its thickness, mm.

    Without a thickness, 0, that is not held; and the two may be the width and the floor's diameter of the groove, or
    without a standard its width and its depth. `own`: the lesser stands first, as of a groove; rings have it behind.
    """
    sides = {"471": OUTSIDE, "472": INSIDE}
    side = sides.get(called, groove.side)
    lands = [d * part.unit for d in groove.beside]
    drawn, wide = groove.floor_diameter * part.unit, groove.width * part.unit
    if abs(drawn - across) <= SLACK and abs(wide - thick) <= SLACK:
        return ()
    pair = sorted((wide, groove.depth * part.unit), reverse=True)
    if not called and max(abs(pair[0] - across), abs(pair[1] - thick)) <= SLACK:
        return ()
    if own and not any(abs(d - across) <= BESIDE for d in lands):
        rows = ("width", thick, wide), ("floor diameter", across, drawn)
        return tuple(
            f"asks for the {what} {asked:g} where the drawing measures {has:.6g}"
            for what, asked, has in rows
            if abs(asked - has) > SLACK
        )
    if groove.side != side or not any(abs(d - across) <= BESIDE for d in lands):
        what = "shaft" if side == OUTSIDE else "bore"
        measured = f"{min(lands, key=lambda d: abs(d - across)):.6g}" if lands else "none"
        return (f"is for a {what} of {across:g} where the drawing measures {measured}",)
    found, width = [], thick + ROOM[thick > THICK]
    if thick and not width - SLACK <= wide <= width + (tolerance_grade(width, 13) or 0.0) + SLACK:
        found.append(f"asks for the width {width:g} where the drawing measures {wide:.6g}")
    standard = next((name for name, one in sides.items() if one == side), "")
    floor = FLOORS.get(standard, {}).get(round(across, 3))
    if floor is not None:
        grade = next(grade for most, grade in GRADES if across <= most)
        if not -SLACK <= side.sign * (floor - drawn) <= (tolerance_grade(floor, grade) or 0.0) + SLACK:
            found.append(f"asks for the floor diameter {floor:g} where the drawing measures {drawn:.6g}")
    return tuple(found)


def _thread_faults(form: str, groove: Groove, part: Part) -> tuple[str, ...]:
    """What of a thread's undercut isn't so: it must be that of some pitch of the table."""
    if groove.side != OUTSIDE or not groove.beside:
        return ()
    floor, width, across = (one * part.unit for one in (groove.floor_diameter, groove.width, min(groove.beside)))
    for below, least, most in REACH[form].values():
        lower = tolerance_grade(across - below, 13) or 0.0
        if -ABOUT <= across - below - floor <= lower + ABOUT and least - ABOUT <= width <= most + ABOUT:
            return ()
    return (f"fits no pitch at diameter {across:g} where the drawing measures {width:.4g} wide and {floor:.6g} across",)
