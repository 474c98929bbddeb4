"""Lines along the axis that were set aside: the root of a thread may lie on a layer of thin lines, with the sizes."""

import numpy as np

from extractor.laid_lines import mirrored
from extractor.sheet import Floats
from extractor.viewing.outline import Folded


def thin_lines(folded: Folded, sign: int) -> Floats:
    """The straight ones of one half, float (n, 3): least and greatest z, and radius; their images stand in the other.

    Where half of the part is drawn, they have none.
    """
    labels = [k for k in sorted(folded.aside) if not folded.drawn.bulge[k]]
    ends = folded.axis.fold(folded.drawn.ends[labels].reshape(-1, 2)).reshape(-1, 4)
    level = (np.abs(ends[:, 1] - ends[:, 3]) <= folded.fine) & (np.abs(ends[:, 0] - ends[:, 2]) > folded.fine)
    lines = np.hstack([ends, (ends[:, :2] + ends[:, 2:]) / 2])[level]
    if folded.view.halves == "both" and len(lines):
        lines = lines[mirrored(lines, folded.close)]
    lines = lines[sign * lines[:, 1] > folded.fine]
    return np.column_stack([lines[:, [0, 2]].min(axis=1), lines[:, [0, 2]].max(axis=1), np.abs(lines[:, 1])])
