"""Rings and seals drawn in their groove: hatched metal in a recess of a part that is seen from outside.

Many sheets show what a groove is for (common practice, no source). Such a ring stands on the floor of a groove, below
the lands on both sides of it, and above one of them: what ends level with the land is metal of the part.
"""

from collections.abc import Sequence

import shapely

from extractor.geometry.network import Face, Network, less
from extractor.viewing.hatching import is_hatched

BESIDE = 1.0
"""The lands of its groove stand within so many widths of the ring, on either side."""


def put_in(network: Network, faces: Sequence[Face], hatched: Sequence[shapely.Geometry], fine: float) -> list[Face]:
    """The faces of one half that are no metal of the part but of a ring in one of its grooves."""
    floor = network.level_edges(1, 0.0, fine) if hatched else set[int]()
    body = [f for f in faces if f.edges & floor]
    if not body or any(is_hatched(f.polygon, hatched) for f in body):
        return []
    return [f for f in less(faces, body) if is_hatched(f.polygon, hatched) and _in_groove(f, less(faces, [f]), fine)]


def _in_groove(face: Face, others: Sequence[Face], fine: float) -> bool:
    """True if a face stands between two lands that are higher than its foot, and above one of them; no sliver does."""
    low, bottom, high, top = face.bounds
    if BESIDE * (high - low) <= fine:
        return False
    foot, head = sorted((abs(bottom), abs(top)))
    wide, lands = BESIDE * (high - low), list[float]()
    for left, right in ((low - wide, low - fine), (high + fine, high + wide)):
        beside = (f for f in others if f.bounds[0] < right and left < f.bounds[2] and f.inside[1] * face.inside[1] > 0)
        cut = (shapely.clip_by_rect(f.polygon, left, -head - wide, right, head + wide).bounds for f in beside)
        lands.append(max((max(abs(b[1]), abs(b[3])) for b in cut if len(b)), default=0.0))
    return min(lands) > foot + fine and head > min(lands) + fine
