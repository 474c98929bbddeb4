"""From a laid view to what was recognised on it: the outside profile, its lands, its recesses, and what is odd.

Everything here is in drawn lengths with z counted along the view; `reading` moves it to the front face and to scale.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from extractor.finding import Finding, Level, Point
from extractor.levels import Recess, recesses
from extractor.outline import Folded, Half, half
from extractor.pairing import pair
from extractor.part import ProfilePoints
from extractor.profile import Profile, points, tidy
from extractor.shapes import Measured, measure


@dataclass(frozen=True)
class Found:
    """What one view shows: outside profile and lands as (z, radius), recesses from the front back, findings.

    `across` is the greatest diameter as drawn, `sides` the halves that were drawn (1 above, -1 below).
    """

    outline: ProfilePoints
    lands: ProfilePoints
    across: float
    grooves: tuple[Measured, ...]
    sides: tuple[int, ...]
    halves: tuple[Half, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class Side:
    """One half with its profile and recesses."""

    sign: int
    half: Half
    profile: Profile
    recesses: tuple[Recess, ...]
    measured: tuple[Measured, ...]
    closed_up: tuple[Point, ...]


def read_side(folded: Folded, sign: int) -> Side | None:
    """One half of a laid view."""
    outline = half(folded, sign)
    if outline is None or not outline.outer:
        return None
    profile = tidy(outline.outer, folded.fine)
    found = recesses(profile, folded.fine) if profile else []
    sized = [(r, measure(profile, r, folded.fine)) for r in found]
    blind = tuple(profile[r.floor.first - 1].end for r, m in sized if m is None)
    return Side(sign, outline, profile, tuple(found), tuple(m for _, m in sized if m), blind)


def recognise(folded: Folded) -> Found | None:
    """What a laid view shows, None where no half closes."""
    signs = {"both": (1, -1), "up": (1,), "down": (-1,)}[folded.view.halves]
    sides = [s for s in (read_side(folded, sign) for sign in signs) if s and s.profile]
    if not sides:
        return None
    findings: list[Finding] = []
    grooves: tuple[Measured, ...] = sides[0].measured
    main = sides[0]
    if len(sides) == 2:
        near = max(10 * folded.fine, 5e-4 * folded.view.size)
        paired = pair(sides[0].measured, sides[1].measured, near)
        grooves = paired.both
        main = min(sides, key=lambda s: len(s.measured))
        findings += [_one_sided(folded, m, sides) for m in paired.single]
    for side in sides:
        findings += [_blind(folded, side, at) for at in side.closed_up]
        findings += [_beside(folded, side, at) for at in (*side.half.beside, *side.half.loose)]
    reach = [max(r for _, r in points(s.profile)) for s in sides]
    across = sum(reach) if len(sides) == 2 else 2 * reach[0]
    return Found(
        points(main.profile),
        lands(main.profile, main.recesses),
        across,
        tuple(sorted(grooves, key=lambda m: (-m.z_near, m.z_far))),
        tuple(s.sign for s in sides),
        tuple(s.half for s in sides),
        tuple(findings),
    )


def _one_sided(folded: Folded, m: Measured, sides: Sequence[Side]) -> Finding:
    """The caution for a recess that one half shows and the other doesn't."""
    sign = next(s.sign for s in sides if m in s.measured)
    at = folded.place((m.z_near + m.z_far) / 2, sign * m.floor)
    words = (
        f"A recess {m.z_near - m.z_far:.4g} wide at X{at[0]:.4g} Y{at[1]:.4g} stands on one side of the axis only: "
        "read as a notch, flat or keyway, not as a groove; look whether that is meant."
    )
    return Finding(Level.CAUTION, "one-sided", words, at)


def _blind(folded: Folded, side: Side, at: Point) -> Finding:
    """The stop for a recess whose walls leave no mouth."""
    spot = folded.place(at[0], side.sign * at[1])
    words = f"The outline at X{spot[0]:.4g} Y{spot[1]:.4g} dips without an opening; draw it again there."
    return Finding(Level.STOP, "outline-unclear", words, spot)


def _beside(folded: Folded, side: Side, at: Point) -> Finding:
    """The caution for closed lines that only one half shows or that hang loose beside the outline."""
    spot = folded.place(at[0], side.sign * at[1])
    words = f"Closed lines at X{spot[0]:.4g} Y{spot[1]:.4g} belong to no turned outline and were left out; look there."
    return Finding(Level.CAUTION, "left-out", words, spot)


def lands(profile: Profile, found: Sequence[Recess]) -> ProfilePoints:
    """The profile with every recess filled to its mouth."""
    corners = [p.start for p in profile] + [profile[-1].end]
    line: list[Point] = []
    k = 0
    outer = _outermost(found)
    while k < len(corners):
        recess = next((r for r in outer if r.near.last == k), None)
        if recess is None:
            line += points(profile[k : k + 1])[:-1] if k < len(profile) else [corners[k]]
            k += 1
        else:
            line += _bridge(corners, recess)
            k = recess.far.first
    return tuple(p for i, p in enumerate(line) if i == 0 or p != line[i - 1])


def _outermost(found: Sequence[Recess]) -> list[Recess]:
    """Recesses that lie in no other."""
    return [r for r in found if not any(o is not r and _spans(o, r) for o in found)]


def _spans(outer: Recess, inner: Recess) -> bool:
    """True if one recess takes in the other."""
    return outer.near.last <= inner.near.last and outer.far.first >= inner.far.first and outer.floor != inner.floor


def _bridge(corners: Sequence[Point], recess: Recess) -> list[Point]:
    """The land line across a recess: level at the mouth, with the rest of the higher wall on its side."""
    near, far = corners[recess.near.last], corners[recess.far.first]
    if recess.near.radius > recess.far.radius:
        return [near, *_wall(corners[recess.near.last : recess.floor.first + 1], far[1])]
    wall = _wall(corners[recess.floor.last : recess.far.first + 1][::-1], near[1])
    return [near, *wall[::-1]]


def _wall(down: Sequence[Point], mouth: float) -> list[Point]:
    """A wall from its top down to the height of the mouth."""
    kept: list[Point] = []
    for (z0, r0), (z1, r1) in pairwise(down):
        if r1 > mouth:
            kept.append((z1, r1))
            continue
        if r0 > mouth:
            kept.append((z0 + (z1 - z0) * (mouth - r0) / (r1 - r0), mouth))
        break
    return kept
