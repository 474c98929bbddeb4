"""Lines laid along the axis: which of them have their image among them, and which places another shares."""

import math

import numpy as np
import pytest

from extractor.recess.laid_lines import imaged, met, mirrored


@pytest.mark.parametrize("seed", range(20))
def test_images_and_shared_ends_are_those_that_every_pair_shows(seed):
    """Held against all pairs one by one; places in steps of 0.5 with errors up to the limit of 0.1 and beyond it."""
    rng = np.random.default_rng(seed)
    lines = rng.integers(-4, 5, (40, 6)) / 2 + rng.uniform(-0.06, 0.06, (40, 6))
    lines[::2, 1] = lines[::2, 3]
    lines = np.vstack([lines, lines[:12] * (1, -1, 1, -1, 1, -1) + rng.uniform(-0.11, 0.11, (12, 6))])
    images = lines * (1, -1, 1, -1, 1, -1)
    both = (images, images[:, [2, 3, 0, 1, 4, 5]])
    alike = [any(np.abs(line - other).max() <= 0.1 for rows in both for other in rows) for line in lines]
    fit = mirrored(lines, 0.1)
    upright = np.minimum(np.abs(lines[:, 0] - lines[:, 2]), np.abs(lines[:, 1] - lines[:, 3])) <= 0.1
    curved = np.hypot(*(lines[:, 4:] - (lines[:, :2] + lines[:, 2:4]) / 2).T) > 0.1
    beside = np.abs(lines[:, 1::2]).max(axis=1) > 0.1
    assert fit.tolist() == (np.array(alike) & (upright | curved) & beside).tolist()
    assert fit.any()
    places = lines[:, :2]
    opposite = places * (1, -1)
    assert imaged(places, 0.1).tolist() == [bool(np.any(np.abs(one - opposite).max(axis=1) <= 0.1)) for one in places]
    alone = [sum(math.dist(a, b) <= 0.1 for b in places) == 1 for a in places]
    assert met(places, 0.1).tolist() == [not one for one in alone]
    assert met(np.vstack([places, places[:1]]), 0.1)[[0, -1]].all()
