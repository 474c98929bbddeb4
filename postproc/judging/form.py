"""Grooves whose walls are not upright (vee, round, tapered): held against the drawn profile itself.

Mouth and floor are measured on both profiles in the same way; then the cut must lie everywhere within the tolerance of
the drawn line, along u or in height, whichever is nearer.
"""

from dataclasses import replace

import numpy as np

from extractor.finding import Finding, Level
from postproc.judging.measure import Measured, state_of
from postproc.judging.overlay import Overlay, Stretch
from postproc.judging.target import Band, Target
from postproc.verdict import State


def measure_form(target: Target, cut: Overlay, drawn: Overlay, window: Stretch, drop: int, corner: int = 0) -> Measured:
    """Measure the recess within a window against the drawn outline.

    `cut` and `drawn` lie over the same lands; `drop` is the tolerance, in h counts and along u. `corner` is how far
    the corner radius of a square insert reaches along u: so near to the ends of a level floor metal may stand.
    """
    mouth = _mouth(drawn, (target.u0 - drop, target.u1 + drop), drop) or (target.u0, target.u1)
    found = _mouth(cut, window, drop) or window
    u0, u1 = target.u0 + found[0] - mouth[0], target.u1 + found[1] - mouth[1]
    floor = target.floor + cut.range(window)[0] - drawn.range(mouth)[0]
    difference = target.differences(u0, u1, floor)
    state = state_of(_by_walls(target), difference)
    if state is not State.MATCHES:
        return Measured(u0, u1, floor, state, difference)
    spared = _ends(drawn, mouth, drop) if corner else ()
    off = _off(cut, drawn, (min(window[0], mouth[0]), max(window[1], mouth[1])), drop, spared, corner)
    if off is None:
        return Measured(u0, u1, floor, state, difference)
    return Measured(u0, u1, floor, State.DEPTH, difference, (_finding(target, off),))


def _by_walls(target: Target) -> Target:
    """The target with each wall's place held for itself where the drawing gives no width.

    Where walls slope, a hair of depth or of nose radius moves both of them apart; each may be off by the tolerance.
    """
    if "width" in target.groove.tolerances:
        return target
    return replace(target, width=Band(-2 * target.loose, 2 * target.loose))


def _mouth(profile: Overlay, window: Stretch, drop: int) -> Stretch | None:
    """From where to where a profile lies below the land within a window."""
    found = profile.below_land(drop, window)
    return (found[0][0], found[-1][1]) if found else None


def _ends(drawn: Overlay, mouth: Stretch, drop: int) -> tuple[int, ...]:
    """Both ends of the drawn floor."""
    floor = drawn.below(drawn.range(mouth)[0] + drop, mouth)
    return (floor[0][0], floor[-1][1]) if floor else ()


def _off(
    cut: Overlay, drawn: Overlay, window: Stretch, drop: int, spared: tuple[int, ...] = (), corner: int = 0
) -> tuple[int, int] | None:
    """Where the cut lies farthest outside the band round the drawn line, and by how much; None where it is inside.

    Within `corner` of the spared places only what is cut too deep counts.
    """
    shifted = [drawn.u - drop, drawn.u, drawn.u + drop, cut.u]
    places = np.unique(np.concatenate(shifted))
    places = places[(places > window[0]) & (places < window[1])]
    worst: tuple[int, int] | None = None
    for place in places:
        u = int(place)
        low, high = drawn.range((u - drop, u + drop), clip=True)
        least, most = cut.range((u - 1, u + 1), clip=True)
        in_corner = any(abs(u - end) <= corner + drop for end in spared)
        off = low - most if in_corner else max(least - high, low - most)
        if off > drop and (worst is None or off > worst[1]):
            worst = (u, off)
    return worst


def _finding(target: Target, off: tuple[int, int]) -> Finding:
    """Say where the form is off."""
    length = target.increments.length
    message = (
        f"Groove {target.groove.id} is drawn {target.groove.shape}; at Z{length(off[0]):g} the cut is "
        f"{length(off[1]):g} off the drawn form."
    )
    return Finding(Level.STOP, "form", message, groove=target.groove.id)
