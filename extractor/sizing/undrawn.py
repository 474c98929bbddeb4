"""Grooves that a spacing counts but that are not drawn: of `5x 8 (=40)` often only the first and the last are drawn.

Rules: they are added only if nothing speaks against them. The sum is that of the spacings, the drawn distance is the
sum, only the first and the last of the row are drawn, alike, plain, on one land, and nothing else is drawn between
them. Each gets a caution; whatever differs is left to `chains`, which stops.

Source: ISO 129-1 as course pages quote it: first to last reads n x p (= n*p).
"""

from collections.abc import Iterator
from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import Groove, Part, ProfilePoints
from extractor.rounding import ROUNDING
from extractor.sheet import Sheet
from extractor.side import OUTSIDE
from extractor.sizing.chains import PitchChain, chain_of, row_of, sum_wrong
from extractor.sizing.like import alike, same
from extractor.sizing.note_checks import agrees_with
from extractor.sizing.ties import Features, along

PLAIN = ("rectangular", "vee", "round", "tapered")
"""Shapes that are the same wherever on a land they stand."""


def with_undrawn(sheet: Sheet, part: Part) -> tuple[Part, tuple[Finding, ...]]:
    """The part with the grooves that the sheet counts and doesn't draw, and a caution for each."""
    made: dict[tuple[float, float], str] = {}
    for dimension in sheet.dimensions:
        chain = chain_of(dimension.text)
        if chain is None or part.frame is None or not along(dimension, part) or sum_wrong(chain):
            continue
        features = Features.of(part, part.frame)
        row = row_of(chain, dimension, part, features)
        if agrees_with(chain.total, dimension.measured / part.frame.scale, part) and row is not None:
            between, fit = row
            if fit == len(between) == 2 and chain.count > 1 and _open(chain, between[0], between[1], part):
                part, added = _filled(part, between[0], between[1], chain.count)
                made |= dict.fromkeys(added, chain.words)
    return part, tuple(_cautions(part, made))


def _open(chain: PitchChain, first: Groove, last: Groove, part: Part) -> bool:
    """True if a row can stand between two grooves: alike, on one land that nothing else breaks, a pitch apart."""
    land = first.mouth_diameter
    level = all(same(d, land) for g in (first, last) for d in (g.mouth_diameter, *_lands(g)))
    fits = first.side == OUTSIDE and first.shape in PLAIN and alike(first, last) and level
    inner = [r for z, r in part.outline if last.z_near < z < first.z_far]
    pitch = (first.z_near - last.z_near) / chain.count
    clear = pitch > first.width and all(same(2 * r, land) for r in inner)
    return fits and clear and agrees_with(chain.pitch, pitch, part)


def _lands(groove: Groove) -> list[float]:
    return [d for d in (groove.near_land_diameter, groove.far_land_diameter) if d]


def _filled(part: Part, first: Groove, last: Groove, count: int) -> tuple[Part, list[tuple[float, float]]]:
    """The part with the row between two grooves filled, and the walls of those added."""
    step = (last.z_near - first.z_near) / count
    offs = [k * step for k in range(1, count)]
    new = [replace(first, z_near=first.z_near + off, z_far=first.z_far + off) for off in offs]
    grooves = sorted((*part.grooves, *new), key=lambda g: (-g.z_near, g.z_far, g.where))
    numbered = tuple(replace(g, id=k) for k, g in enumerate(grooves, start=1))
    return replace(part, grooves=numbered, outline=_outline(part, first, offs)), [(g.z_near, g.z_far) for g in new]


def _outline(part: Part, first: Groove, offs: list[float]) -> ProfilePoints:
    """The outline with copies of a groove's corners behind it."""
    dust = ROUNDING * part.length
    mine = [k for k, (z, _) in enumerate(part.outline) if first.z_far - dust <= z <= first.z_near + dust]
    corners = part.outline[mine[0] : mine[-1] + 1]
    copies = tuple((z + off, r) for off in offs for z, r in corners)
    return (*part.outline[: mine[-1] + 1], *copies, *part.outline[mine[-1] + 1 :])


def _cautions(part: Part, made: dict[tuple[float, float], str]) -> Iterator[Finding]:
    """A caution for each groove that was made."""
    for g in part.grooves:
        words = made.get((g.z_near, g.z_far))
        if words is not None and part.frame is not None:
            message = (
                f'Groove {g.id}, Z{g.z_near:.6g} to Z{g.z_far:.6g}, is not drawn: "{words}" counts it, and its sum and '
                "the drawn distance agree; check whether it is meant."
            )
            at = part.frame.on_sheet((g.z_near + g.z_far) / 2, g.floor_diameter / 2)
            yield Finding(Level.CAUTION, DrawingCode.GROOVE_UNDRAWN, message, at, groove=g.id)
