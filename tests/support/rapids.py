"""Rapids that a setter would strike out: to where the tool is already, or two along one axis in the same direction."""

from collections.abc import Sequence

from planner.steps import Rapid, Step, ToolCall


def needless_rapids(steps: Sequence[Step]) -> list[Step]:
    """Those among the steps; after a tool call nothing is known of the place, because the offset moves it."""
    at: dict[str, int] = {}
    found: list[Step] = []
    way: tuple[str, int] | None = None
    for step in steps:
        if isinstance(step, ToolCall):
            at = {}
        if not isinstance(step, Rapid):
            way = None
        else:
            axis = "x" if step.z is None else "z"
            to, here = getattr(step, axis), at.get(axis)
            going = (axis, 0 if here is None else (to > here) - (to < here))
            if to == here or (way == going and going[1]):
                found.append(step)
            way = going
        for axis in "xz":
            if getattr(step, axis, None) is not None:
                at[axis] = getattr(step, axis)
    return found
