"""Like grooves of which only one carries the tolerance: drafters dimension one of five.

Rules: grooves are alike on one side, in one form, of one drawn width and floor. The deviations of a size go over to
the like grooves that no dimension gives that size; one that has a size of its own keeps it. Two different tolerances
of one size among like grooves leave open which is meant for the rest. Places are never carried. Common practice; ISO
129-1 asks for `n x` instead (from memory).
"""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import Deviation, Groove
from extractor.sheet import Dimension, Flags
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import middle
from extractor.sizing.tolerances.tolerance import FILE_ROUNDING, as_printed

SAME = 1e-4
"""Relative difference within which two grooves have one size."""
CARRIED = ("width", "floor_diameter", "mouth_diameter", "depth", "corner_radius")
"""Sizes that like grooves share."""
SETTLE = {"floor_diameter": "depth", "depth": "floor_diameter"}
"""Of a groove outside or inside either of the two settles the other."""
ONE_WIDTH = frozenset({"rectangular", "relief", "vee", "round"})
"""Shapes with one width that a note can mean: between two walls, or at the mouth of a form with no floor of its own."""


def same(a: float, b: float) -> bool:
    """True for one size, within what a file of four decimals rounds."""
    return abs(a - b) <= max(SAME * max(abs(a), abs(b)), FILE_ROUNDING)


def alike(one: Groove, two: Groove) -> bool:
    """True for grooves on one side, in one form, of one drawn width and floor; of face grooves also one depth."""
    return (one.where, one.shape) == (two.where, two.shape) and all(
        same(getattr(one, field), getattr(two, field)) for field in _form(one)
    )


def _form(groove: Groove) -> tuple[str, ...]:
    """The sizes in which a groove and those like it are one."""
    return ("width", "floor_diameter") if groove.side.axial else ("mouth_diameter", "floor_diameter", "depth")


def _with_same(groove: Groove, fields: Iterable[str], features: Features) -> Flags:
    """Which of all grooves are on the side of one and have the same sizes."""
    match: Flags = features.column("where") == groove.where
    for field in fields:
        own, all_of_them = float(getattr(groove, field)), features.column(field)
        slack = np.maximum(SAME * np.maximum(np.abs(all_of_them), abs(own)), FILE_ROUNDING)
        match &= np.abs(all_of_them - own) <= slack
    return match


def _all_like(groove: Groove, features: Features) -> Flags:
    """Which of all grooves are like one, as `alike` tells of two."""
    same_form: Flags = features.column("shape") == groove.shape
    return same_form & _with_same(groove, _form(groove), features)


def _those(which: Flags, features: Features) -> list[Groove]:
    """Grooves by a flag for each."""
    return [features.part.grooves[k] for k in np.flatnonzero(which).tolist()]


def carry(
    features: Features, tolerances: dict[int, dict[str, Deviation]], sized: Mapping[int, set[str]]
) -> Iterable[Finding]:
    """Give like grooves the deviations printed at one of them, in `tolerances`; returns what was done, in words.

    `sized` has the fields that dimensions give each groove, with deviations or without.
    """
    for field in CARRIED:
        grooves = features.part.grooves
        left = [g for g in grooves if field in tolerances.get(g.id, {}) and field in sized.get(g.id, ())]
        while left:
            kin = _those(_all_like(left[0], features) & _with_same(left[0], [field], features), features)
            numbers = {g.id for g in kin}
            givers = [g for g in left if g.id in numbers]
            left = [g for g in left if g.id not in numbers]
            takers = [g for g in kin if not _has_own(g, field, tolerances.get(g.id, {}), sized.get(g.id, set()))]
            if not takers:
                continue
            feature, (first, *_), (taker, *_) = field.replace("_", " "), givers, takers
            if len({tolerances[g.id][field] for g in givers}) > 1:
                words = (
                    f"{_numbers(givers).capitalize()} print different tolerances of the {feature}, and "
                    f"{_numbers(takers)}, drawn alike, none: it was given none; read it yourself."
                )
                yield Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, groove=taker.id)
                continue
            for groove in takers:
                tolerances.setdefault(groove.id, {})[field] = tolerances[first.id][field]
            words = (
                f"The tolerance printed for the {feature} of groove {first.id} also counts for {_numbers(takers)}, "
                "drawn alike and without one."
            )
            yield Finding(Level.NOTE, DrawingCode.LIKE_GROOVES, words, groove=first.id)


def limited_in_part(
    shared: Iterable[tuple[Dimension, str, Sequence[int]]], tolerances: Mapping[int, Mapping[str, Deviation]]
) -> Iterable[Finding]:
    """A caution for each dimension that gives several grooves one bare size of which some have a tolerance.

    `shared` has the dimension, the field, and the numbers of the grooves.
    """
    for dimension, field, numbers in {(one.text, field): (one, field, to) for one, field, to in shared}.values():
        limited = [n for n in numbers if field in tolerances.get(n, {})]
        if limited and len(limited) < len(numbers):
            one = f"groove{'s' * (len(limited) > 1)} {listed([str(n) for n in limited])}"
            words = (
                f'"{as_printed(dimension)}" gives grooves {listed([str(n) for n in sorted(numbers)])} the '
                f"{field.replace('_', ' ')} without a tolerance, and the sheet gives {one} one: it was given to no "
                "other; ask whether it is meant for all."
            )
            yield Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, middle(dimension), groove=limited[0])


def carry_depths(features: Features, sized: dict[int, set[str]]) -> None:
    """Let like grooves be measured by their depth where one of them is, in `sized`, and nothing says their floor."""
    for giver in [g for g in features.part.grooves if _measured_by(sized, g) == {"depth"}]:
        for groove in _those(_all_like(giver, features) & _with_same(giver, ["depth"], features), features):
            if not _measured_by(sized, groove):
                sized.setdefault(groove.id, set()).add("depth")


def carry_unread(features: Features, unread: dict[int, set[str]], sized: Mapping[int, set[str]]) -> None:
    """Let what was printed of a groove and not read be open at the like ones too that no dimension gives that size."""
    left = [g for g in features.part.grooves if g.id in unread]
    while left:
        kin = {g.id for g in _those(_all_like(left[0], features), features)}
        fields = {field for number in kin for field in unread.get(number, ()) if field in CARRIED}
        for number in kin:
            unread.setdefault(number, set()).update(fields - sized.get(number, set()))
        left = [g for g in left if g.id not in kin]


def _measured_by(sized: Mapping[int, set[str]], groove: Groove) -> set[str]:
    """Which of the two sizes that settle one another are given."""
    return sized.get(groove.id, set()) & SETTLE.keys()


def _has_own(groove: Groove, field: str, given: Mapping[str, Deviation], sized: set[str]) -> bool:
    """True if a dimension or a tolerance of the groove itself settles a size."""
    if field in sized or field in given:
        return True
    if field == "width" and groove.side.axial:
        return {"z_near", "z_far"} <= given.keys()
    return groove.side.axial and SETTLE.get(field) in sized


def _numbers(grooves: Sequence[Groove]) -> str:
    """Groove numbers with their noun: `groove 2`, `grooves 2, 3 and 5`."""
    return f"groove{'s' * (len(grooves) > 1)} {listed([str(g.id) for g in grooves])}"


def listed(words: Sequence[str]) -> str:
    """Words as a list in a sentence: `2, 3 and 5`."""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def along_axis(groove: Groove) -> str:
    """The size of a groove that lies along the axis."""
    return "width" if groove.side.axial else "depth"


def sizes_drawn(name: str, groove: Groove, features: Features) -> list[float]:
    """The sizes of a groove that a printed one may be; none where that can't be told."""
    if name == "along":
        name = along_axis(groove)
    if name == "width" and groove.shape == "tapered" and groove.side.axial and not groove.corner_radius:
        return [groove.width, features.floor_width(groove)]
    if name == "width":
        return [groove.width] if groove.shape in ONE_WIDTH else []
    if name == "floor_diameter":
        return [groove.floor_diameter]
    if name == "pitch":
        return steps(groove, features)
    lands = groove.beside if groove.side.axial else ()
    if name == "across":
        return [groove.floor_diameter, groove.mouth_diameter, *lands]
    if name == "mouth_diameter":
        return [groove.mouth_diameter, *lands]
    return [groove.depth, *(abs(d - groove.floor_diameter) / 2 for d in lands)]


def kin_of(groove: Groove, fields: list[str], features: Features) -> tuple[list[Groove], list[Groove], list[Groove]]:
    """The grooves that share the sizes named with one; those like it altogether; those with no note of their own."""
    fields = [name for name in fields if hasattr(groove, name)]
    equal = _with_same(groove, fields, features)
    those = _those(equal, features)
    free = [g for g in those if g.id == groove.id or g.id not in features.called]
    return those, _those(equal & _all_like(groove, features), features), free


def like(groove: Groove, fields: list[str], features: Features) -> set[int]:
    """How many grooves a count may mean that stands by such sizes."""
    return {len(kin) for kin in kin_of(groove, fields, features)}


def steps(groove: Groove, features: Features) -> list[float]:
    """The distances from groove to groove of those as wide as one."""
    beside = (g.z_near for g in features.part.grooves if g.where == groove.where and same(g.width, groove.width))
    return [a - b for a, b in pairwise(sorted(beside, reverse=True))]
