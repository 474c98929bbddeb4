"""A run counted in other increments: an inch program held against a drawing in millimetres, or the other way round."""

from dataclasses import replace
from typing import Any

from planner.increment import Increments
from postproc.motion import Motion
from postproc.reading.run import CycleCall, Run

MM_PER_INCH = 25.4
M_PER_FOOT = 0.3048
LENGTHS = ("start_x", "start_z", "floor_x", "end_z", "peck", "shift", "retract", "relief")


def in_increments(run: Run, wanted: Increments) -> Run:
    """The run in the increments wanted; places are rounded to them, speeds turned into their unit.

    1 inch is 25.4 mm, 1 foot 0.3048 m (exact, international yard and pound).
    """
    if run.increments == wanted:
        return run
    to_mm = wanted.units == "mm"
    same = run.increments.units == wanted.units
    inch = 1.0 if same else MM_PER_INCH if to_mm else 1 / MM_PER_INCH
    foot = 1.0 if same else M_PER_FOOT if to_mm else 1 / M_PER_FOOT
    along = inch * wanted.per_length / run.increments.per_length
    feed = inch * wanted.per_feed / run.increments.per_feed
    return replace(
        run,
        increments=wanted,
        motions=tuple(_motion(motion, along, feed, foot) for motion in run.motions),
        cycles=tuple(_cycle(call, along, feed) for call in run.cycles),
    )


def _motion(motion: Motion, along: float, feed: float, foot: float) -> Motion:
    """One motion, scaled."""
    return motion._replace(
        x0=round(motion.x0 * along),
        z0=round(motion.z0 * along),
        x1=round(motion.x1 * along),
        z1=round(motion.z1 * along),
        feed=None if motion.feed is None else round(motion.feed * feed),
        speed=motion.speed * foot if motion.surface else motion.speed,
    )


def _cycle(call: CycleCall, along: float, feed: float) -> CycleCall:
    """One call of the cycle, scaled."""
    values = {name: getattr(call, name) for name in LENGTHS}
    scaled: dict[str, Any] = {name: None if value is None else round(value * along) for name, value in values.items()}
    return replace(call, **scaled, feed=None if call.feed is None else round(call.feed * feed))
