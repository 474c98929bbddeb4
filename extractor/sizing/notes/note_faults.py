"""What in a note doesn't fit a groove, reading by reading, in words."""

from dataclasses import replace
from itertools import groupby

from extractor.part import Groove
from extractor.side import Where
from extractor.sizing.lettering.groove_notes import GrooveNote
from extractor.sizing.lettering.note_meanings import Meaning
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import like, sizes_drawn, steps

COUNTS = "counts"
"""How a fault of a count begins."""
WHERE = {"outside": "outside", "inside": "inside", "face": "in an end face"}
NAMES = {"floor_diameter": "floor diameter", "across": "diameter", "mouth_diameter": "diameter", "along": "length"}
"""The sizes whose name is not that of their field."""


def hold(note: GrooveNote, groove: Groove, features: Features) -> tuple[str, ...]:
    """What in a note doesn't fit a groove, in words; empty if one of its readings fits."""
    tried = [faults_of(meaning, groove, features) for meaning in note.meanings]
    both = [(m, dict(m.sizes)) for m in note.meanings if {"width", "depth"} <= {name for name, _ in m.sizes}]
    # Depth by width instead of width by depth.
    turned = next((one for one in both if not faults_of(_reversed(*one), groove, features)), None)
    # `2x4` is no count of two where two grooves happen to be 4 wide and 2 deep: it is written as width by depth is.
    small = all(len(m.sizes) == 1 for m, faults in zip(note.meanings, tried, strict=True) if not faults)
    reverse = turned is not None and turned[0] is note.meanings[0] and bool(tried[0]) and small
    if not all(tried) and not reverse:
        return ()
    if not groove.side.axial and any(
        m.where in (None, groove.where) and _of_a_face(m, groove, features, named=note.sure) for m in note.meanings
    ):
        return ()
    if turned is not None:
        width, depth = turned[1]["width"].value, turned[1]["depth"].value
        return (f"is {width:g} wide and {depth:g} deep, and the drawing shows {depth:g} wide and {width:g} deep",)
    least = min(tried, key=len)
    counted = next((faults[0] for faults in tried if faults[0].startswith(COUNTS)), least[0])
    # Of `3 x 2` nobody can tell whether 3 is a count or a width: both are said.
    return least if counted == least[0] else (*least[:-1], f"{least[-1]}, or {counted}")


def _of_a_face(meaning: Meaning, groove: Groove, features: Features, *, named: bool) -> bool:
    """True for sizes that a groove in a face has under other names: either wall or its middle, and a bare depth.

    `named`: words say which is the width and which the depth.
    """
    walls = groove.mouth_diameter, groove.floor_diameter
    across, along = (*walls, sum(walls) / 2), (groove.width, groove.depth)
    wide, deep = (along[:1], along[1:]) if named else (along, along)
    drawn = {"floor_diameter": across, "across": across, "width": wide, "depth": deep}
    return meaning.count is None and all(features.fits(figure, *drawn.get(name, ())) for name, figure in meaning.sizes)


def count_hid(sizes: GrooveNote, groove: Groove, features: Features) -> str:
    """What is wrong about a count that is as large as a size by chance, so that the note fits; "" for nothing.

    `3x Ø25` fits a groove 3 wide, and counts where there are several on that side; what stands behind a size, only if
    so many are as wide, or stand there at all.
    """
    first, beside = sizes.meanings[0], [g for g in features.part.grooves if g.where == groove.where]
    before = len(beside) > 1 and parse(sizes.words).count == first.count
    if first.count is None or not (before or first.count in like(groove, ["width"], features) | {len(beside)}):
        return ""
    return next((fault for fault in faults_of(first, groove, features) if fault.startswith(COUNTS)), "")


def _reversed(meaning: Meaning, sizes: dict[str, Printed]) -> Meaning:
    """Depth by width instead of width by depth."""
    return replace(meaning, sizes=tuple({**sizes, "width": sizes["depth"], "depth": sizes["width"]}.items()))


def off_side(where: Where, groove: Groove) -> str:
    """That a note speaks of a groove on another side of the part."""
    return f"is about a groove {WHERE[where]} where the drawing shows one {WHERE[groove.where]}"


def faults_of(meaning: Meaning, groove: Groove, features: Features) -> tuple[str, ...]:
    """What in one reading doesn't fit a groove."""
    if meaning.where not in (None, groove.where):
        return (off_side(meaning.where, groove),)
    found = []
    for name, figure in meaning.sizes:
        drawn = sizes_drawn(name, groove, features)
        # Between sloping walls there are all widths, as that of a belt at its pitch: one with its tolerance is told.
        # Without a level floor nobody can tell where a width is taken.
        untold = name == "width" and bool(drawn) and (figure.limited or not min(drawn))
        between = untold and min(drawn) < figure.value < max(drawn)
        if drawn and not between and not features.fits(figure, *drawn):
            found.append(f"prints {NAMES.get(name, name)} {figure.value:g} where the drawing measures {drawn[0]:.6g}")
    if meaning.count is not None and not found:
        counts = like(groove, [name for name, _ in meaning.sizes], features)
        found += _miscounted(meaning.count, counts, dict(meaning.sizes).get("pitch"), groove, features)
    return tuple(found)


def count_words(count: int | str, read: int) -> str:
    """That a note counts so many where others were read."""
    return f"{COUNTS} {count} where {read} such {'groove was' if read == 1 else 'grooves were'} read"


def counts_all(sizes: GrooveNote, features: Features) -> bool:
    """True for a note whose count is that of all grooves which have its sizes, outside, inside and in the faces."""
    plain = [(m.count, replace(m, count=None)) for m in sizes.meanings if m.count is not None]
    return any(
        count == sum(not faults_of(meaning, groove, features) for groove in features.part.grooves)
        for count, meaning in plain
        if "pitch" not in dict(meaning.sizes)
    )


def _miscounted(
    count: int, counts: set[int], pitch: Printed | None, groove: Groove, features: Features
) -> tuple[str, ...]:
    """That a count is none of those that it may be; of a pitch it is that of grooves in a row which have it."""
    told = count_words(count, max(counts))
    if pitch is None:
        return () if count in counts else (told,)
    each = groupby(steps(groove, features), lambda step: features.fits(pitch, step))
    rows = {1 + len(list(row)) for fits, row in each if fits} or {1}
    if count in rows or (count in counts and count <= max(rows)):
        return ()
    return (f"{COUNTS} {count} where {max(rows)} grooves in a row have that pitch" if count in counts else told,)
