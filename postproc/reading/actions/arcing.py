"""Reading an arc, by R or by its centre: the chords in which it is run, its step, and what is wrong with it."""

from extractor.part import Units
from planner.arcs import ArcFault, by_centre, by_radius, half_turn_radius, joins, off_circle
from planner.increment import Increments
from planner.steps import Arc
from postproc.codes import ProgramCode
from postproc.reading.lathe import Lathe
from postproc.reading.log import Log

Places = tuple[tuple[int, int], ...]

BESIDE: dict[Units, int] = {"mm": 20, "in": 8}
"""Counts by which an end may lie beside its circle: controls take what a hand rounded, by a parameter of their own
(common practice)."""
UNSEEN = 2
"""Counts of it that come of whole increments alone."""


def run_arc(lathe: Lathe, clockwise: bool) -> Places:
    """The places (x, z) that an arc goes through, its end last; only the end where it begins nowhere or is none."""
    words, place, log = lathe.words, lathe.control.place, lathe.log
    start, end = (place.x, place.z), words.target(place)
    radius, centre = words.radius(), words.centre(start)
    if not place.known:
        return (end,)
    try:
        if radius is not None and centre == (None, None):
            chords = by_radius(start, end, radius, clockwise)
            _weigh_radius(start, end, radius, log)
        elif radius is None and centre != (None, None):
            offset = (centre[0] or 0, centre[1] or 0)
            chords = by_centre(start, end, offset, clockwise, BESIDE[lathe.increments.units])
            radius = half_turn_radius(start, end, offset, clockwise)
            _weigh_centre(off_circle(start, end, offset), lathe.increments, log)
        else:
            raise ArcFault("it needs either R or I and K")
    except ArcFault as fault:
        log.stop(ProgramCode.ARC, f"This arc can't be cut, because {fault}; correct its end or its R.")
        return (end,)
    if radius is not None:
        log.step(Arc(feed=lathe.control.feed.count or 0, x=end[0], z=end[1], radius=radius, clockwise=clockwise))
    return chords


def _weigh_radius(start: tuple[int, int], end: tuple[int, int], radius: int, log: Log) -> None:
    """A radius a hair too short, which some controls take."""
    if not joins(start, end, radius):
        log.caution(
            ProgramCode.ARC_RADIUS_SHORT,
            "The ends of this arc are a hair further apart than twice its R; some controls cut half a turn and "
            "others stop with an alarm, so make R a little longer.",
        )


def _weigh_centre(beside: float, increments: Increments, log: Log) -> None:
    """An end beside the circle about the centre, which some controls take."""
    if beside > UNSEEN:
        shown = f"{increments.length(round(beside)):g} {increments.units}"
        log.caution(
            ProgramCode.ARC_OFF_CIRCLE,
            f"The end of this arc lies {shown} off the circle about its centre; some controls take that and others "
            "alarm, so give I and K more digits, or R.",
        )
