"""Roughing and finishing along a contour that the program's own blocks give: G71, G72, G73 and G70 with P and Q.

The blocks from P to Q are run once to learn the contour, and their moves are undone; then the cycle is cut. The
finishing runs them for good (common practice: depth and retract in a block before, allowances beside P and Q).
"""

from collections.abc import Iterator

from extractor.part import Units
from postproc.codes import ProgramCode
from postproc.reading.actions.contours import Corner, Way, X, Z, along, beside, deepest, passes, rises, shifted
from postproc.reading.actions.foreign import starts
from postproc.reading.control import Event, RoughSettings
from postproc.reading.lathe import Lathe
from postproc.vocabulary.acts import Act

MOST_MOVES = 20_000
"""Of one cycle; more passes are a slip of the finger."""
DEEPEST: dict[Units, float] = {"mm": 10.0, "in": 0.4}
"""No turning tool of a common lathe bears more in one pass: edges are 16 long (common practice, no source)."""


def rough(lathe: Lathe, event: Event) -> None:
    """G71, G72, G73: their settings, or with P and Q the cycle."""
    first, last = lathe.words.take("P"), lathe.words.take("Q")
    if first is None and last is None:
        _set_up(lathe, event)
        return
    lathe.control.cycles.called(event)
    if first is None or last is None:
        _no_contour(lathe, "roughing")
        return
    if not starts(lathe, event):
        return
    settings = _in_one_block(lathe, event)
    allowance = _allowance(lathe)
    start = lathe.control.place.x, lathe.control.place.z
    traced = lathe.trace(first, last, False)
    if not traced:
        return
    bare = [Corner(motion.x1, motion.z1, motion.kind == "rapid") for motion in traced]
    contour = shifted(bare, allowance)
    if event is Act.ROUGHING_BESIDE:
        _cut(lathe, event, beside(start, contour, settings.aside, settings.times))
        return
    axis = X if event is Act.ROUGHING else Z
    _weigh(lathe, settings, deepest(start, contour, axis, settings.depth), rises(contour, start, axis))
    _cut(lathe, event, passes(start, contour, axis, settings.depth, settings.back))


def _weigh(lathe: Lathe, settings: RoughSettings, deep: int, rising: bool) -> None:
    """What controls take differently, and a pass `deep` counts deep that breaks the tool."""
    if not settings.depth:
        message = (
            "No block gives the depth of a pass, so the control uses what it has stored; give it before the cycle."
        )
        lathe.log.caution(ProgramCode.DEPTH_NOT_SAID, message)
    if (depth := lathe.increments.length(deep)) > (most := DEEPEST[lathe.increments.units]):
        message = (
            f"The cycle takes {depth:g} {lathe.increments.units} in one pass, and turning tools bear {most:g} at most; "
            "check the depth of a pass and its decimal point."
        )
        lathe.log.caution(ProgramCode.DEPTH_UNUSUAL, message)
    if not rising:
        message = (
            "The contour goes back toward the axis on its way; some controls cut such a hollow pass by pass, some "
            "in one cut, and some stop with an alarm: look up what yours does."
        )
        lathe.log.caution(ProgramCode.CONTOUR_TURNS_BACK, message)


def finish(lathe: Lathe, event: Event) -> None:
    """G70: along the contour at its own feeds, and back to the start."""
    first, last = lathe.words.take("P"), lathe.words.take("Q")
    start = lathe.control.place.x, lathe.control.place.z
    for address in "UW":
        lathe.words.take(address)
    if first is None or last is None:
        _no_contour(lathe, "finishing")
    elif starts(lathe, event) and lathe.trace(first, last, True):
        _cut(lathe, event, along(start, ()))


def _no_contour(lathe: Lathe, cycle: str) -> None:
    """A stop where a cycle doesn't say both ends of its contour."""
    message = f"The {cycle} cycle doesn't say where its contour stands; give P and Q."
    lathe.log.stop(ProgramCode.CONTOUR_MISSING, message)
    lathe.words.drop()


def _set_up(lathe: Lathe, event: Event) -> None:
    """The block before the cycle."""
    lathe.control.cycles.waiting[event, len(lathe.log.motions)] = lathe.log.line
    amounts = {a: lathe.words.amount(lathe.words.take(a)) for a in "UW"}
    retract = lathe.words.take("R")
    deep = amounts["W" if event is Act.ROUGHING_ACROSS else "U"]
    if event is Act.ROUGHING_BESIDE:
        # The number of passes is whole; with a point, a few controls count it in thousands (common practice).
        times = round(abs(retract.value)) if retract is not None else 1
        aside = 2 * (amounts["U"] or 0), amounts["W"] or 0
        lathe.control.cycles.rough[event] = RoughSettings(aside=aside, times=max(1, times))
        return
    lathe.control.cycles.rough[event] = RoughSettings(abs(deep or 0), back=abs(lathe.words.amount(retract) or 0))


def _in_one_block(lathe: Lathe, event: Event) -> RoughSettings:
    """The settings in force, with D of a cycle in one block over them."""
    settings = lathe.control.cycles.rough.get(event, RoughSettings())
    if (depth := lathe.words.amount(lathe.words.take("D"), whole=True)) is not None:
        settings = RoughSettings(abs(depth), back=settings.back)
    lathe.words.take("R")
    return settings


def _allowance(lathe: Lathe) -> tuple[int, int]:
    """What is left on the contour, x on the diameter."""
    factor = 1 if lathe.dialect.diameter_x else 2
    across, lengthwise = (lathe.words.amount(lathe.words.take(address)) or 0 for address in "UW")
    return factor * across, lengthwise


def _cut(lathe: Lathe, event: Event, ways: Iterator[Way]) -> None:
    """Make the moves of a cycle."""
    for number, (kind, x, z) in enumerate(ways):
        if number > MOST_MOVES:
            message = "This cycle has more passes than any part needs; check the depth of a pass."
            lathe.log.stop(ProgramCode.RUNAWAY, message)
            return
        if (x, z) != (lathe.control.place.x, lathe.control.place.z):
            lathe.move(kind, x, z, foreign=str(event))
