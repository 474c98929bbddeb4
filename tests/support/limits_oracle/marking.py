"""Which sizes of a piece a drafter prints, and with which deviations: enough to make it, none twice."""

import itertools
import random
from collections.abc import Callable, Sequence

from .spots import Spot, line_of, spots_of
from .values import Mark, Measure, Piece, Recess, measure
from .wording import Deviation, Word, bare, fitted, toleranced

KINDS = ("+/-", "+/+", "-/-", "0/-", "+/0", "plus-minus")
FITS = {"width": ("H13", "H12", "H14"), "floor": ("h10", "h11", "h12", "js13", "JS13"), "near": ("h11", "H12", "js12")}


class Marker:
    """Puts dimensions on a piece, one group of like grooves after the other."""

    def __init__(self, piece: Piece, rng: random.Random, dressed: float = 0.75) -> None:
        self.piece, self.rng, self.dressed = piece, rng, dressed
        self.marks: list[Mark] = []

    def deviation(self, most: float) -> Deviation:
        """Deviations of one of the six kinds, in whole hundredths or thousandths of an inch, `most` at the most."""
        step = 0.01 if self.piece.units == "mm" else 0.001
        counts = max(2, round(most / step))
        low, high = sorted(self.rng.sample(range(1, counts + 1), 2)) if counts > 2 else (1, 2)
        low, high = low * step, high * step
        kinds = {"+/-": (-low, high), "+/+": (low, high), "-/-": (-high, -low), "0/-": (-high, 0.0), "+/0": (0.0, high)}
        pair = kinds.get(self.rng.choice(KINDS), (-low, low))
        return round(pair[0], 6), round(pair[1], 6)

    def word(self, name: str, size: float, most: float, before: str) -> Word:
        """What is printed for a size."""
        most *= 1.0 if self.piece.units == "mm" else 1 / 25.4
        if self.rng.random() > self.dressed:
            return bare(self.rng, self.piece.units, size, before)
        if name in FITS and self.piece.units == "mm" and self.rng.random() < 0.2:
            return fitted(self.rng, size, self.rng.choice(FITS[name]), before)
        return toleranced(self.rng, self.piece.units, size, self.deviation(most), before)

    def put(self, name: str, measures: Sequence[Measure], spot: Spot, most: float, before: str = "") -> None:
        """One dimension; `most` is the greatest deviation in mm."""
        size = round(measures[0].value(self.piece.state()), 6)
        word = self.word(name, size, most, before)
        # Where the points are a whole row apart, the measured size is not the one printed: the figure is typed.
        while spot.drawn and abs(spot.drawn - size) > 1e-9 and (word.variables or "<>" in (word.text or "<>")):
            word = self.word(name, size, most, before)
        self.marks.append(
            Mark(
                measures=tuple(measures),
                first=spot.first,
                second=spot.second,
                line=line_of(spot, self.piece, len(self.marks)),
                angle=spot.angle,
                text=word.text,
                variables=word.variables,
                decimals=word.decimals,
                drawn=round(size if not spot.drawn else spot.drawn, 6),
            )
        )

    def group(self, members: list[int]) -> None:
        """All that is printed for one groove, or for like ones at one pitch."""
        first, before = members[0], f"{len(members)}x " if len(members) > 1 else ""
        recess = self.piece.recesses[first]
        self.across(members, before)
        if recess.where == "face" or self.rng.random() < 0.6:
            name, most = ("floor", 0.15) if recess.where == "face" or self.rng.random() < 0.7 else ("depth", 0.08)
        else:
            name, most = "floor", 0.2
        sign = "%%c" if name == "floor" and recess.where != "face" else ""
        self.put(name, self.each(name, members), spots_of(self.piece, name, first), most, before + sign)
        if len(members) > 1:
            self.row(members)
        if recess.corner:
            self.corner(members, before)

    def each(self, name: str, members: Sequence[int]) -> list[Measure]:
        return [measure(self.piece, name, i) for i in members]

    def across(self, members: list[int], before: str) -> None:
        """Width and place, or both walls."""
        first, rng = members[0], self.rng
        recess, sign = self.piece.recesses[first], ""
        ways = [("width", "near"), ("width", "far"), ("width", "centre"), ("width", "near from back")]
        ways += [("width", "far from back"), ("width", "near"), ("width", "far")]
        ways += [("near", "far")] if len(members) == 1 else []
        behind = self.behind(first)
        if recess.where == "face":
            ways, sign = [("width", "near"), ("width", "far"), ("near", "far"), ("near", "far")], "%%c"
        elif behind is not None:
            ways += [("width", "land"), ("width", "pitch"), ("width", "far pitch"), ("width", "centre pitch")]
        for name in rng.choice(ways):
            if name == "width":
                self.put(name, self.each(name, members), spots_of(self.piece, name, first), 0.14, before)
            elif name == "land" or name.endswith("pitch"):
                spot = spots_of(self.piece, name, behind, first)
                self.put(name, [measure(self.piece, name, behind, first)], spot, 0.2)
            else:
                self.put(name, self.each(name, [first]), spots_of(self.piece, name, first), 0.2, sign)

    def behind(self, first: int) -> int | None:
        """The groove in front of this one on the same side, if any."""
        where = self.piece.recesses[first].where
        return first - 1 if first and self.piece.recesses[first - 1].where == where else None

    def row(self, members: list[int]) -> None:
        """The pitch: on each space, on the first one for all, or over the row for each."""
        pairs = list(itertools.pairwise(members))
        name = self.rng.choice(("pitch", "pitch", "far pitch", "centre pitch"))
        listed = [measure(self.piece, name, i, j) for i, j in pairs]
        style = self.rng.choice(("each", "first", "over"))
        if style == "each" or len(pairs) == 1:
            for (i, j), one in zip(pairs, listed, strict=True):
                self.put(name, [one], spots_of(self.piece, name, i, j), 0.15)
            return
        last = pairs[-1][1] if style == "over" else pairs[0][1]
        self.put(name, listed, spots_of(self.piece, name, members[0], last), 0.15, f"{len(pairs)}x ")

    def corner(self, members: list[int], before: str) -> None:
        """The radius of the floor's corners, with or without a deviation."""
        first, units, rng = members[0], self.piece.units, self.rng
        radius, spot = self.piece.recesses[first].corner, spots_of(self.piece, "corner", first)
        most = 0.1 if units == "mm" else 0.004
        styles: list[Callable[[], Word]] = [
            lambda: toleranced(
                rng, units, radius, rng.choice(((-most, most), (0.0, most), (-most, 0.0))), f"{before}R"
            ),
            lambda: Word(f"{before}R{bare(rng, units, radius).text or '<>'}", {}, 2 if units == "mm" else 3),
        ]
        word = rng.choice((styles[0], styles[0], styles[1]))()
        self.marks.append(
            Mark(
                measures=tuple(self.each("corner", members)),
                first=spot.first,
                second=spot.second,
                line=spot.second,
                radius=True,
                text=word.text,
                variables=word.variables,
                decimals=word.decimals,
                drawn=radius,
            )
        )


def like(one: Recess, other: Recess) -> bool:
    return (
        all(
            abs(a - b) < 1e-9
            for a, b in (
                (one.far - one.near, other.far - other.near),
                (one.floor, other.floor),
                (one.land, other.land),
                (one.corner, other.corner),
            )
        )
        and one.where == other.where
    )


def groups(piece: Piece) -> list[list[int]]:
    """Like grooves next to each other at one pitch belong together."""
    listed: list[list[int]] = []
    for i, recess in enumerate(piece.recesses):
        last = listed[-1] if listed else []
        pitch = recess.near - piece.recesses[i - 1].near if i else 0.0
        even = len(last) < 2 or abs(pitch - piece.recesses[i - 1].near + piece.recesses[i - 2].near) < 1e-9
        if last and like(piece.recesses[last[-1]], recess) and even:
            last.append(i)
        else:
            listed.append([i])
    return listed


def marks_of(piece: Piece, seed: int, dressed: float = 0.75) -> list[Mark]:
    """The dimensions that a drafter of that seed puts on the piece."""
    marker = Marker(piece, random.Random(f"marks {seed}"), dressed)
    for members in groups(piece):
        marker.group(members)
    return marker.marks
