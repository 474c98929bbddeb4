"""The sides of a part that grooves are cut into: the only place that knows which axis and sign each has.

On every side a groove is a bottom and two walls in (u, h): u runs along the bottom, h is the height over it, and metal
lies below h. The tool comes from above, the land is high and the floor is low.

    side      u               h                 a length along u counts   in h counts
    outside   z               diameter          once                      twice
    inside    z               diameter, minus   once                      twice
    face      diameter        z                 twice                     once

        outside            h |            inside: the same, with h the diameter's negative;
     ____      ____ land     |            face: u the diameter, h the z of the metal seen from the front
         |    |              |
     far |____| near         +------ u    `far` is the wall of lower u: nearer the chuck, on a face the inner one
          floor                           `near` is that of higher u: nearer the front, on a face the outer one
"""

from collections.abc import Mapping
from functools import cached_property
from typing import Literal

from extractor.values import dataclass

Where = Literal["outside", "inside", "face"]
Axis = Literal["X", "Z"]


@dataclass(frozen=True, kw_only=True)
class Side:
    """One side's frame.

    `far`, `near` and `bottom` are a groove's fields that hold its walls along u and its floor; `land` holds its mouth.
    `along` and `up` are how often a length counts along u and in h; `sign` turns h into the field's value and back.
    `place` says in words where a groove of this side lies, `name` is the side in words.
    """

    where: Where
    far: str
    near: str
    bottom: str
    land: str
    along: int
    up: int
    sign: int
    place: str
    name: str

    @cached_property
    def axial(self) -> bool:
        """True if the bottom runs along the turning axis, so that the tool comes along X."""
        return self.along == 1

    @cached_property
    def hollow(self) -> bool:
        """True if the tool works in the bore."""
        return self.sign < 0

    @property
    def axis(self) -> Axis:
        """The axis that u runs along."""
        return "Z" if self.axial else "X"

    @property
    def infeed(self) -> Axis:
        """The axis that the tool comes down along."""
        return "X" if self.axial else "Z"

    def frame(self, x: int, z: int) -> tuple[int, int]:
        """A place on the machine, X diameter and Z, as u and h."""
        return (z, self.sign * x) if self.axial else (x, z)

    def machine(self, u: int, h: int) -> tuple[int, int]:
        """A place u and h as X diameter and Z on the machine."""
        return (self.sign * h, u) if self.axial else (u, h)


OUTSIDE = Side(
    where="outside",
    far="z_far",
    near="z_near",
    bottom="floor_diameter",
    land="mouth_diameter",
    along=1,
    up=2,
    sign=1,
    place="",
    name="the outside",
)
INSIDE = Side(
    where="inside",
    far="z_far",
    near="z_near",
    bottom="floor_diameter",
    land="mouth_diameter",
    along=1,
    up=2,
    sign=-1,
    place="in the bore",
    name="the bore",
)
FACE = Side(
    where="face",
    far="floor_diameter",
    near="mouth_diameter",
    bottom="z_far",
    land="z_near",
    along=2,
    up=1,
    sign=1,
    place="in a face",
    name="the face",
)
SIDES: Mapping[Where, Side] = {side.where: side for side in (OUTSIDE, INSIDE, FACE)}
"""Every side by its name."""
