"""Lines along the axis that were set aside: the root of a thread may lie on a layer of thin lines, with the sizes."""

from collections.abc import Callable

import numpy as np

from extractor.recess.laid_lines import mirrored
from extractor.viewing.outline import Folded


def thin_lines(folded: Folded, sign: int, land: Callable[[float], float]) -> list[tuple[float, float, float]]:
    """The straight ones below the land of one half: least and greatest z, and radius; their images stand in the other.

    Where half of the part is drawn, they have none.
    """
    labels = [k for k in sorted(folded.aside) if not folded.drawn.bulge[k]]
    ends = folded.axis.fold(folded.drawn.ends[labels].reshape(-1, 2)).reshape(-1, 4)
    level = (np.abs(ends[:, 1] - ends[:, 3]) <= folded.fine) & (np.abs(ends[:, 0] - ends[:, 2]) > folded.fine)
    lines = np.hstack([ends, (ends[:, :2] + ends[:, 2:]) / 2])[level]
    if folded.view.halves == "both" and len(lines):
        lines = lines[mirrored(lines, folded.close)]
    lines = lines[sign * lines[:, 1] > folded.fine]
    rows = [(min(z0, z1), max(z0, z1), abs(r)) for z0, r, z1, *_ in lines.tolist()]
    return [(low, high, r) for low, high, r in rows if r < land((low + high) / 2) - folded.close]
