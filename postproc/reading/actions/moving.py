"""Moves as words name them: straight, along an arc, and to the reference point."""

from typing import Literal

from planner.steps import Cut, Home, Rapid
from postproc.codes import ProgramCode
from postproc.reading.actions.arcing import run_arc
from postproc.reading.actions.corner import leave_out, meet
from postproc.reading.control import Event
from postproc.reading.lathe import Lathe
from postproc.vocabulary.acts import OTHER_AXES, TURN


def rapid(lathe: Lathe, event: Event) -> None:
    """G00, or a place while it is in force."""
    if lathe.words.has_axes:
        straight(lathe, "rapid")


def cut(lathe: Lathe, event: Event) -> None:
    """G01, or a place while it is in force."""
    if lathe.words.has_axes:
        ask_feed_mode(lathe)
        straight(lathe, "feed")


def ask_feed_mode(lathe: Lathe) -> None:
    """Say once that nothing sets the feed mode; lathes start with feed per revolution (common practice)."""
    if not lathe.control.feed.said:
        lathe.control.feed.said = True
        message = (
            "No word before this cut says feed per revolution or per minute; it was read as per revolution, so write "
            "the word."
        )
        lathe.log.caution(ProgramCode.FEED_MODE_NOT_SAID, message)


def straight(lathe: Lathe, kind: Literal["rapid", "feed"]) -> None:
    """A straight move and its step."""
    words, place = lathe.words, lathe.control.place
    has_x, has_z = words.says("X"), words.says("Z")
    told_x, told_z = _told(lathe)
    _ask_first_move(lathe, told_x, has_z)
    x, z = words.target(place)
    meet(lathe, kind, (x, z))
    to_x, to_z = x if has_x else None, z if has_z else None
    lathe.log.step(Rapid(to_x, to_z) if kind == "rapid" else Cut(lathe.control.feed.count or 0, to_x, to_z))
    lathe.move(kind, x, z)
    place.x_known, place.z_known = told_x, told_z
    if kind == "feed":
        _ask_place(lathe)


def _told(lathe: Lathe) -> tuple[bool, bool]:
    """Whether X and Z are known where this move ends; an increment from an unknown place tells none."""
    words, place = lathe.words, lathe.control.place
    absolute = not place.incremental
    return place.x_known or (words.has("X") and absolute), place.z_known or (words.has("Z") and absolute)


def _ask_first_move(lathe: Lathe, told_x: bool, has_z: bool) -> None:
    """Say that the first move goes along Z while nobody knows on which diameter; an increment of X tells none."""
    place = lathe.control.place
    if has_z and not told_x and not place.x_home:
        message = (
            "The first move goes along Z, and no block has said at which X the tool stands: it may run through the "
            "part or the jaws; say X first, or go to the reference point."
        )
        lathe.log.caution(ProgramCode.FIRST_MOVE_ALONG_Z, message)
    # An increment along X before it tells no place.
    place.x_home = place.x_home or has_z


def _ask_place(lathe: Lathe) -> None:
    """Stop at a cut whose place the program never gave: an increment from an unknown place is unknown too."""
    place = lathe.control.place
    if not place.known:
        unknown = [axis for axis, known in (("X", place.x_known), ("Z", place.z_known)) if not known]
        message = (
            f"This cut is made at {' and '.join(unknown)} that the program never gave; give it in an earlier block."
        )
        lathe.log.stop(ProgramCode.PLACE_UNKNOWN, message)


def arc_clockwise(lathe: Lathe, event: Event) -> None:
    """G02, or a place while it is in force."""
    _arc(lathe, clockwise=True)


def arc_counter(lathe: Lathe, event: Event) -> None:
    """G03, or a place while it is in force."""
    _arc(lathe, clockwise=False)


def _arc(lathe: Lathe, clockwise: bool) -> None:
    """An arc by R, or by I (radial) and K (axial) from start to centre, as chords."""
    if lathe.words.has_axes:
        ask_feed_mode(lathe)
        leave_out(lathe)
        told, places = _told(lathe), run_arc(lathe, clockwise)
        _ask_place(lathe)
        for x, z in places:
            lathe.move("feed", x, z)
        lathe.control.place.x_known, lathe.control.place.z_known = told


def home(lathe: Lathe, event: Event) -> None:
    """G28, G30: at rapid through the place named to the reference point, only along the axes named."""
    axes = [axis for axis in "XZ" if lathe.words.says(axis)]
    lathe.words.take("P")
    if not axes and not lathe.words.addresses.isdisjoint({*OTHER_AXES, TURN}):
        return
    if not axes:
        lathe.log.caution(
            ProgramCode.HOME,
            "The way to the reference point names no axis, and the control's manual says which then move; it was "
            "taken as all of them, so write U0 and W0.",
        )
        axes = ["X", "Z"]
    on_axis, place = lathe.words.has("X") and not lathe.control.place.incremental, lathe.control.place
    x, z = lathe.words.target(place)
    if on_axis and x == 0 and not place.known:
        lathe.log.caution(
            ProgramCode.HOME,
            "X0 names a place on the way to the reference point: from where no block has said, the tool goes to the "
            "spindle's axis first; write U0.",
        )
    if (x, z) != (place.x, place.z):
        lathe.move("rapid", x, z)
    _go_home(lathe, axes)


def machine_place(lathe: Lathe, event: Event) -> None:
    """G53: at rapid to a place that only the machine knows."""
    if axes := [axis for axis in "XZ" if lathe.words.take(axis) is not None]:
        _go_home(lathe, axes)


def _go_home(lathe: Lathe, axes: list[str]) -> None:
    """To the reference point along some axes; from there on the program has not said where the tool is."""
    place, (home_x, home_z) = lathe.control.place, lathe.home_at
    x, z = home_x if "X" in axes else place.x, home_z if "Z" in axes else place.z
    lathe.log.step(Home("X" in axes, "Z" in axes))
    lathe.move("rapid", x, z, home=True)
    place.x_known = place.x_known and "X" not in axes
    place.z_known = place.z_known and "Z" not in axes
    place.x_home = place.x_home or "X" in axes
