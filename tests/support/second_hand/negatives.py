"""Sheets that show no single turned part."""

import math
import random

from support.second_hand.lathe import TurnedPart
from support.second_hand.marks import CENTRE, HATCH, Arc, Circle, Fill, Line, Mark, Note, Path
from support.second_hand.views import front_view


def assembly(rng: random.Random, part: TurnedPart) -> list[Mark]:
    """The part inside others: a housing in section above and below, bearings with balls, part numbers."""
    made: list[Mark] = list(front_view(part))
    big, length = part.diameter / 2, part.length
    for k in range(rng.randint(1, 3)):
        x = -length * (0.15 + 0.3 * k)
        wide, high = length * 0.12, big * 0.8
        for sign in (1, -1):
            low, top = sign * big, sign * (big + high)
            ring = Path(((x, low), (x - wide, low), (x - wide, top), (x, top)), closed=True)
            made += [ring, Fill(ring, HATCH)]
            made.append(Circle((x - wide / 2, (low + top) / 2), min(wide, high) * 0.3))
    for sign in (1, -1):
        low, top = sign * (big * 1.8), sign * big * 2.4
        made.append(Path(((2.0, low), (-length - 2, low), (-length - 2, top), (2.0, top)), closed=True))
    for k in range(1, 5):
        at = (-length * k / 5, big * 3.2)
        made += [Circle(at, big * 0.15), Note(at, big * 0.15, str(k)), Line(at, (at[0], big * 0.5))]
    return made


def flat_part(rng: random.Random, size: float) -> list[Mark]:
    """A plate with slots and holes, symmetric or not; a flange from above; a bracket."""
    kind = rng.choice(("comb", "plate", "flange", "bracket", "dog_bone"))
    w, h = size * rng.uniform(1.5, 3), size
    if kind == "flange":
        holes: list[Mark] = [
            Circle((size * 0.8 * math.cos(t), size * 0.8 * math.sin(t)), size * 0.08)
            for t in [k * math.pi / 3 for k in range(6)]
        ]
        rings: list[Mark] = [Circle((0.0, 0.0), r * size) for r in (1.0, 0.5, 0.4)]
        return [*rings, *holes, Circle((0.0, 0.0), size * 0.8, CENTRE)]
    if kind == "comb":
        corners = [(0.0, 0.0)]
        for k in range(6):
            x = w * (k + 0.5) / 7
            corners += [(x, 0.0), (x, h * 0.3), (x + w / 20, h * 0.3), (x + w / 20, 0.0)]
        return [Path((*corners, (w, 0.0), (w, h), (0.0, h)), closed=True)]
    if kind == "bracket":
        rim = ((0.0, 0.0), (w, 0.0), (w, h * 0.3), (w * 0.3, h * 0.3), (w * 0.3, h), (0.0, h))
        return [Path(rim, closed=True), Circle((w * 0.7, h * 0.15), h * 0.06), Circle((w * 0.15, h * 0.7), h * 0.06)]
    if kind == "dog_bone":
        half = ((0.0, h / 2), (w * 0.3, h / 2), (w * 0.4, h / 4), (w * 0.6, h / 4), (w * 0.7, h / 2), (w, h / 2))
        rim = (*half, *(((x, -y)) for x, y in reversed(half)))
        side = Path(((0.0, -h), (w, -h), (w, -h - 2), (0.0, -h - 2)), closed=True)
        return [Path(rim, closed=True), side, Note((w / 3, -h - 8), 3.0, "t = 2")]
    holes = [Circle((w * x, h * y), h * 0.07) for x in (0.1, 0.9) for y in (0.15, 0.85)]
    slot = Path(
        ((w * 0.3, h * 0.45), (w * 0.7, h * 0.45), (w * 0.7, h * 0.55), (w * 0.3, h * 0.55)), (0.0, 1.0, 0.0, 1.0), True
    )
    return [Path(((0.0, 0.0), (w, 0.0), (w, h), (0.0, h)), closed=True), *holes, slot, Arc((0.0, 0.0), h * 0.2, 0, 90)]
