"""A recording post-processor: what a plan makes the tool do, as motions, with no program text between.

The plan's steps are written out in single moves and each becomes a `Motion` whose line is its number in the list.
"""

from planner.arcs import by_radius
from planner.plan import Plan
from planner.steps import Arc, Cut, Rapid, Spindle, SpindleClamp, Step, ToolCall
from postproc import find_dialect, lower
from postproc.motion import Motion
from postproc.reading.run import Run


def moves_of(plan: Plan) -> list[Step]:
    """All steps of a plan with the cycles written out move by move."""
    return list(lower(plan.steps, find_dialect("plunge")))


def motions_of(plan: Plan) -> tuple[Motion, ...]:
    """The motions of a plan from the first place on that both axes are known."""
    found: list[Motion] = []
    state: dict[str, object] = {"station": 0, "offset": 0, "speed": 0.0, "surface": False, "clamp": None}
    x: int | None = None
    z: int | None = None
    for line, step in enumerate(moves_of(plan), start=1):
        state |= _changed(step)
        if isinstance(step, Arc) and x is not None and z is not None:
            for x1, z1 in by_radius((x, z), (step.x, step.z), step.radius, step.clockwise):
                found.append(Motion(kind="feed", x0=x, z0=z, x1=x1, z1=z1, line=line, feed=step.feed, **state))  # type: ignore[arg-type]
                x, z = x1, z1
        if isinstance(step, Rapid | Cut):
            x1, z1 = x if step.x is None else step.x, z if step.z is None else step.z
            if None not in (x, z):
                feed = step.feed if isinstance(step, Cut) else None
                kind = "rapid" if feed is None else "feed"
                found.append(Motion(kind=kind, x0=x, z0=z, x1=x1, z1=z1, line=line, feed=feed, **state))  # type: ignore[arg-type]
            x, z = x1, z1
    return tuple(found)


def _changed(step: Step) -> dict[str, object]:
    """What a step changes of tool and spindle."""
    match step:
        case ToolCall(station, offset):
            return {"station": station, "offset": offset}
        case Spindle(mode, speed):
            return {"speed": float(speed), "surface": mode == "surface"}
        case SpindleClamp(rpm):
            return {"clamp": rpm}
    return {}


def run_of(plan: Plan) -> Run:
    """The plan as if a program had been read back."""
    return Run(dialect="plunge", units=plan.increments.units, increments=plan.increments, motions=motions_of(plan))
