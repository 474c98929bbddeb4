"""Where a program parts the piece off: by a way straight in behind it, in pecks or at once, from its land to its hole.

What is parted off lies in the tray: nothing stands there any more, and only the bar behind it is left in the chuck.
"""

from collections.abc import Sequence

from postproc.cutting.stock import Bench
from postproc.motion import Motion


class Parting:
    """Keeps up with the moves until the piece is off; `last` is then the move that parted it."""

    def __init__(self, bench: Bench) -> None:
        """Nothing is parted yet."""
        part, count = bench.part, bench.increments.count
        self.back = count(-part.length)
        self._high = count(2 * max(radius for z, radius in part.lands if z == part.lands[-1][0]))
        self._hole = count(2 * part.bore[-1][1]) if part.bore else 0
        self._entered: tuple[int, int] | None = None
        self.last: Motion | None = None

    def look(self, motion: Motion) -> None:
        """Keep a way straight in behind the part in mind, and whether it goes right through."""
        if motion.kind == "feed" and motion.z0 == motion.z1 <= self.back:
            at = motion.station, motion.z1
            if motion.x0 >= self._high:
                self._entered = at
            if motion.x1 <= self._hole and at == self._entered:
                self.last = motion


def parted_after(motions: Sequence[Motion], bench: Bench) -> int:
    """How many moves are made until the piece is off, the last of them parting it; all of them where none does."""
    parting = Parting(bench)
    back = parting.back
    for made in [made for made, motion in enumerate(motions, 1) if motion.z1 <= back]:
        parting.look(motions[made - 1])
        if parting.last is not None:
            return made
    return len(motions)


def behind(motion: Motion, z: int) -> Motion | None:
    """The share of a move behind the place z where the piece was parted off, None for a move that stays before it."""
    if min(motion.z1, motion.z0 if motion.z0_known else motion.z1) >= z:
        return None
    if max(motion.z0, motion.z1) <= z:
        return motion
    x = motion.x0 + round((motion.x1 - motion.x0) * (z - motion.z0) / (motion.z1 - motion.z0))
    return motion._replace(x0=x, z0=z) if motion.z0 > z else motion._replace(x1=x, z1=z)
