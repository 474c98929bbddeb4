"""Motions: the straight moves that a program asks of the tool, as the interpreter works them out."""

from typing import Literal, NamedTuple

from postproc.vocabulary.acts import THREAD_ACTS

THREADS = frozenset(act.value for act in THREAD_ACTS)
"""Cycles that cut a thread, as `Motion.foreign` names them."""


class Motion(NamedTuple):
    """One straight move of the tool's reference point, in whole least increments.

    A plain tuple, since a program has many and a dataclass takes ten times as long to build.

    `x` values are diameters, `z` along the axis, of the point that the offset sets (the insert's reference edge).
    `feed` is in feed counts per revolution (per minute where `per_minute`), None at rapid and where the program gave
    none. `speed` is what the spindle was told, by `surface` as m/min or ft/min, else rev/min; `clamp` the highest
    rev/min or None; `turning` is False while the spindle stands. `line` is the program line, from 1; `offset` 0 means
    that no offset is in force. `cycle` counts the grooving cycle in `Run.cycles` that makes this move, from 0.
    `x0_known` and `z0_known` are False where the program never said on which diameter or at which z the move begins
    (power-up, reference point); the value is then the home given to the interpreter, else `interpreter.FAR_HOME`.
    `home` is True where it ends at the reference point, along one axis or both: that end is then no place to name.
    `spin_line` is the line whose S rules how fast the spindle may turn here, None where there is none. `compensated`:
    radius compensation is in force, and the edge goes beside the places by a nose radius that only the machine knows.
    `foreign` names the turning, threading or drilling cycle that makes this move. `followed` is False where the way is
    not that of the control: it may go elsewhere between the places named.
    `reverse`: the spindle turns counter-clockwise (M04). `wet`: the coolant is on, None where no word has said.
    """

    kind: Literal["rapid", "feed"]
    x0: int
    z0: int
    x1: int
    z1: int
    line: int
    station: int
    offset: int
    feed: int | None = None
    speed: float = 0.0
    surface: bool = False
    clamp: int | None = None
    per_minute: bool = False
    turning: bool = True
    cycle: int | None = None
    x0_known: bool = True
    z0_known: bool = True
    home: bool = False
    spin_line: int | None = None
    compensated: bool = False
    foreign: str = ""
    reverse: bool = False
    wet: bool | None = None
    followed: bool = True

    @property
    def placed(self) -> bool:
        """False for a move along one axis alone where the program never said where it stands on the other."""
        return (self.x0_known or self.x0 != self.x1) and (self.z0_known or self.z0 != self.z1)

    @property
    def sure(self) -> "Motion":
        """What is sure of the way: all of it, or the end alone where it slopes from a place never said."""
        if (self.x0_known and self.z0_known) or self.x0 == self.x1 or self.z0 == self.z1:
            return self
        return self._replace(x0=self.x1, z0=self.z1)

    @property
    def thread(self) -> bool:
        """True for a pass along a thread, which cuts below the land and no groove."""
        return self.kind == "feed" and self.foreign in THREADS


IN_FORCE = Motion._fields.index("station")
"""From here on a move holds what is in force, not where it goes."""
