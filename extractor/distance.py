"""Printed distances between places of a part, which say where a groove lies, with or without deviations.

A distance is positive and measured along the groove's bottom: along z for grooves outside and inside, along the radius
for a face groove. A size of one groove (width, floor, depth) is no distance; it stands in the groove's `tolerances`.
ISO 129-1 and ISO 14405-2 (from memory): a distance says how far apart two places lie, whichever way z runs.
"""

from typing import Literal

from extractor.values import dataclass

Spot = Literal["front", "back", "axis", "near", "far", "centre"]
"""`front`, `back`: the part's ends. `axis`: the turning axis. `near`, `far`, `centre`: a groove's walls and its middle;
of a face groove `near` is the outer wall and `far` the inner one."""
Source = Literal["dimension", "class", "shop"]
"""Where limits come from: printed beside the size, by the sheet's general tolerances, or the shop's own."""


@dataclass(frozen=True, kw_only=True)
class Place:
    """An end of the part, the axis (`groove` 0), or a wall or the middle of a groove (its number)."""

    groove: int
    spot: Spot

    def __post_init__(self) -> None:
        """Refuse a wall without a groove and an end that names one."""
        if (self.groove == 0) != (self.spot in ("front", "back", "axis")):
            raise ValueError(f"no such place: {self.spot} of groove {self.groove}")


@dataclass(frozen=True, kw_only=True)
class Distance:
    """A printed distance from one place to another, in drawing units.

    `deviations` of the distance itself, lower and upper, are None where neither dimension nor class gives any: the
    distance then still says which places keep their nominal.
    """

    start: Place
    end: Place
    nominal: float
    deviations: tuple[float, float] | None = None
    source: Source = "shop"

    def __post_init__(self) -> None:
        """Refuse a distance of nothing, deviations the wrong way round, or a source that doesn't fit them."""
        if self.nominal <= 0 or self.start == self.end:
            raise ValueError("a distance lies between two places")
        if self.deviations is not None and self.deviations[0] > self.deviations[1]:
            raise ValueError("deviations of a distance are the wrong way round")
        if (self.deviations is None) != (self.source == "shop"):
            raise ValueError("deviations are given by a dimension or a class, never by the shop")


@dataclass(frozen=True, kw_only=True)
class Placing:
    """Where one wall or the middle of a groove should lie, worked out from the printed distances.

    `aim` is a place along u in the frame of the groove's side. `deviations` from it are None where none is given.
    `relative`: the distance starts at another groove, not at an end of the part, so the place moves with that groove.
    """

    spot: Spot
    aim: float
    deviations: tuple[float, float] | None = None
    source: Source = "shop"
    relative: bool = False
