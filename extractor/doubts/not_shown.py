"""Grooves that no print shows: their lines on a layer that is not shown, or something laid over them."""

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.doubts.under_lands import notch_under_land
from extractor.finding import Finding, Level, place_words
from extractor.recess.recognise import Found
from extractor.sheet import Sheet
from extractor.viewing.outline import SIGNS, Folded

OVER = 0.75
"""A mask that covers more than this share of a groove hides it; one behind a text beside it covers a corner."""


def not_shown(sheet: Sheet, folded: Folded, found: Found) -> list[Finding]:
    """The cautions for what is drawn as a groove and hidden, or read as one and covered."""
    told = list[Finding]()
    if sheet.unseen:
        ends = folded.axis.fold(np.array(sheet.unseen).reshape(-1, 2)).reshape(-1, 4)
        lines = np.hstack([ends, (ends[:, :2] + ends[:, 2:]) / 2])
        at = notch_under_land(folded, lines, found.halves[0], both=folded.view.halves == "both")
        words = (
            "Lines on a layer that is not shown have the form of a groove at {}; it was left out: check whether one "
        )
        told += [_caution(words + "is meant.", at)] if at is not None else []
    masks = [shapely.Polygon(folded.axis.fold(np.array(mask))).buffer(0.0) for mask in sheet.masks]
    for m in found.outside if masks else ():
        for sign in SIGNS[folded.view.halves]:
            box = shapely.box(*shapely.MultiPoint([(m.z_far, sign * m.floor), (m.z_near, sign * m.mouth)]).bounds)
            if shapely.area(shapely.intersection(shapely.union_all(masks), box)) > OVER * box.area:
                at = folded.place((m.z_far + m.z_near) / 2, sign * (m.floor + m.mouth) / 2)
                words = (
                    "A mask lies over the groove at {}, which no print shows there; it was read all the same: check "
                )
                told.append(_caution(words + "whether it is meant.", at))
                break
    return told


def _caution(words: str, at: tuple[float, float]) -> Finding:
    return Finding(Level.CAUTION, DrawingCode.LINES_UNEXPLAINED, words.format(place_words(at)), at)
