"""Notches whose mouth the line of a land closes, among lines that something else than their form sets aside."""

import numpy as np
import shapely

from extractor.finding import Point
from extractor.recess.ghosts import Seen
from extractor.recess.laid_lines import imaged
from extractor.sheet import Floats
from extractor.viewing.outline import Folded


def notch_under_land(folded: Folded, lines: Floats, seen: Seen, *, both: bool) -> Point | None:
    """A place on the floor of one, None where there is none: ends and middle of each line laid along z, float (n, 6).

    Its walls end on a land that runs on to both sides, where extension lines do not: these begin at corners. Where both
    halves are drawn it stands in both.
    """
    near = folded.close
    walls = lines[np.ptp(lines[:, [0, 2]], axis=1) <= near, :4].reshape(-1, 2, 2)
    floors = lines[(np.ptp(lines[:, [1, 3]], axis=1) <= near) & (np.ptp(lines[:, [0, 2]], axis=1) > near)]
    lands = seen.level_ends(near)
    if not len(floors) or not len(walls) or not len(lands):
        return None
    walls = np.take_along_axis(walls, np.argsort(np.abs(walls[:, :, 1]), axis=1)[:, :, None], axis=1)
    z, r = walls[:, 1].T
    low, high = np.sort(lands[:, :2], axis=1).T
    on = (np.abs(np.abs(r)[:, None] - lands[:, 2]) <= near) & (low + near < z[:, None]) & (z[:, None] < high - near)
    feet = shapely.MultiPoint(walls[on.any(axis=1), 0])
    stands = shapely.dwithin(shapely.points(floors[:, :4].reshape(-1, 2, 2)), feet, near).all(axis=1)
    places = floors[stands, 4:]
    places = places[imaged(places, near)] if both and len(places) else places
    return folded.axis.unfold(*places[0].tolist()) if len(places) else None
