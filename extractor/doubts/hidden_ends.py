"""Hidden lines that end loose in the metal: an outline that they began and did not close.

What a hidden line bounds, the wall of a bore or of a groove in it, is closed by other lines. Where one of them is
missing the rest encloses nothing, and what it was the edge of is read nowhere. In the circle of a hole seen end-on lie
pieces of its far mouth, which bound nothing.
"""

import numpy as np
import shapely

from extractor.finding import Point
from extractor.geometry.network import Network
from extractor.recess.laid_lines import imaged
from extractor.recess.recognise import Found
from extractor.viewing.outline import Folded, with_hidden


def hidden_end(folded: Folded, found: Found) -> Point | None:
    """Where a hidden line ends loose in the metal of all halves drawn, None where none does."""
    dashed = with_hidden(folded)
    if dashed is None or folded.hidden is None:
        return None
    ends = _loose(dashed.network, frozenset(folded.hidden.label.tolist()))
    metal = shapely.union_all([f.polygon for seen in found.halves for f in seen.half.material.faces])
    ends = ends[shapely.contains(metal, shapely.points(ends))]
    for hole in folded.holes:
        ends = ends[np.hypot(ends[:, 0] - hole.z, ends[:, 1]) > hole.radius + folded.close]
    if folded.view.halves == "both":
        ends = ends[imaged(ends, folded.close)]
    return folded.axis.unfold(*ends[0].tolist()) if len(ends) else None


def _loose(network: Network, hidden: frozenset[int]) -> np.ndarray:
    """Loose ends of hidden strokes in a network that holds them, float (n, 2)."""
    free = [n for n in network.loose if network.edges[network.around[n][0]].label in hidden]
    ends: np.ndarray = network.nodes[free].reshape(-1, 2)
    return ends
