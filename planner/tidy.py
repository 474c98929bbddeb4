"""No needless rapids: none to where the tool is already, and one instead of two along an axis in the same direction.

The operation that moves off goes all the way, so that each still ends with its own retreat. Where a tool stands after
it was called is not known: its offset moves it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from planner.steps import Arc, Cut, Home, Rapid, Step, ToolCall

Parts = Sequence[tuple[Step, ...]]
"""The steps before the operations, of each of them, and after."""


@dataclass
class _Kept:
    """The steps kept so far with the part that each belongs to, and where the tool is; None where that isn't known."""

    kept: list[tuple[int, Step]] = field(default_factory=list)
    x: int | None = None
    z: int | None = None
    before: int | None = None

    def take(self, part: int, step: Step) -> None:
        """Keep a step, or merge it into the last one, or leave it out."""
        if isinstance(step, Rapid) and (step.x is None) != (step.z is None):
            self._rapid(part, step)
            return
        self.kept.append((part, step))
        if isinstance(step, ToolCall):
            self.x = self.z = None
        if isinstance(step, Home):
            self.x, self.z = None if step.x else self.x, None if step.z else self.z
        if isinstance(step, Rapid | Cut | Arc):
            self.x = self.x if step.x is None else step.x
            self.z = self.z if step.z is None else step.z

    def _rapid(self, part: int, step: Rapid) -> None:
        """A rapid along one axis."""
        along_x = step.x is not None
        at, to = (self.x, step.x) if along_x else (self.z, step.z)
        if at == to or to is None:
            return
        last = self.kept[-1] if self.kept else None
        if last and self._goes_on(last[1], along_x, at, to):
            self.kept[-1] = (last[0], step)
        else:
            self.kept.append((part, step))
            self.before = at
        self.x, self.z = (to, self.z) if along_x else (self.x, to)

    def _goes_on(self, last: Step, along_x: bool, at: int | None, to: int) -> bool:
        """True if the last step was a rapid along the same axis in the same direction."""
        if not isinstance(last, Rapid) or at is None or self.before is None:
            return False
        alone = last.z is None if along_x else last.x is None
        return alone and (at - self.before) * (to - at) > 0


def tidied(parts: Parts) -> list[tuple[Step, ...]]:
    """The same lists of steps without needless rapids."""
    walk = _Kept()
    for number, steps in enumerate(parts):
        for step in steps:
            walk.take(number, step)
    return [tuple(step for number, step in walk.kept if number == part) for part in range(len(parts))]
