"""ISO 286 tolerance classes: deviations of `h11`, `H13`, `f8` at a nominal size.

Rules: only classes are resolved whose values two places bear out, or one and a formula; any other answers None and
the caller says so. A step covers "over a, up to and including b". Lengths are in millimetres, the tables in
micrometres.

Sources: ISO 286-1:2010 tables 1 to 5. IT10 to IT14 as in three published tables that agree; IT5 to IT9 and the
fundamental deviations as in the open package `pressfit` 0.1.0, held in the tests against the formulas of annex A; a, b
and r from memory, held against those formulas alone; j and J from memory, held by both deviations of each class.
"""

import bisect
import re

from extractor.part import Deviation

STEPS = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
"""Upper limits of the nominal size steps in mm."""

FINE_STEPS = (3, 6, 10, 18, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500)
"""The same of the deviations with a wide clearance, for which the larger steps are parted."""

GRADES: dict[int, tuple[int, ...]] = {
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
    12: (100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630),
    13: (140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970),
    14: (250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150, 1300, 1400, 1550),
}
"""Standard tolerances by grade and step, micrometres."""

UPPER: dict[str, tuple[int, ...]] = {
    "a": (
        -270, -270, -280, -290, -300, -310, -320, -340, -360, -380, -410, -460, -520, -580, -660, -740, -820, -920,
        -1050, -1200, -1350, -1500, -1650,
    ),
    "b": (
        -140, -140, -150, -150, -160, -170, -180, -190, -200, -220, -240, -260, -280, -310, -340, -380, -420, -480,
        -540, -600, -680, -760, -840,
    ),
    "c": (
        -60, -70, -80, -95, -110, -120, -130, -140, -150, -170, -180, -200, -210, -230, -240, -260, -280, -300, -330,
        -360, -400, -440, -480,
    ),
    "d": (-20, -30, -40, -50, -65, -80, -100, -120, -145, -170, -190, -210, -230),
    "e": (-14, -20, -25, -32, -40, -50, -60, -72, -85, -100, -110, -125, -135),
    "f": (-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68),
    "g": (-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20),
    "h": (0,) * 13,
}  # fmt: skip
"""Upper deviation of shafts a to h, a to c by fine steps; the lower one of holes A to H is it with its sign turned."""

UP_TO_ONE = frozenset("abN")
"""Letters that are for no size up to 1 mm."""

LOWER: dict[str, tuple[int, ...]] = {
    "k": (0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5),
    "m": (2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23),
    "n": (4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40),
    "p": (6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68),
    "r": (10, 15, 19, 23, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132),
    "s": (14, 19, 23, 28, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252),
}
"""Lower deviation of shafts k to s, of r and s by fine steps."""

OF_J: dict[str, tuple[int, ...]] = {
    "j5": (-2, -2, -2, -3, -4, -5, -7, -9, -11, -13, -16, -18, -20),
    "j6": (-2, -2, -2, -3, -4, -5, -7, -9, -11, -13, -16, -18, -20),
    "j7": (-4, -4, -5, -6, -8, -10, -12, -15, -18, -21, -26, -28, -32),
    "J6": (2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33),
    "J7": (4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43),
    "J8": (6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66),
}
"""Lower deviation of shafts j, upper one of holes J, which follow no rule."""

RAISED_TO = {"K": 8, "M": 8, "N": 8, "P": 7, "R": 7, "S": 7}
"""Up to these grades a hole's upper deviation is the shaft's lower one with its sign turned, above 3 mm raised by what
the next finer grade is narrower; in coarser ones it is not raised, and of N it is 0 above 3 mm, and K has none
(ISO 286-1, from memory: held against tables of such holes)."""

FINEST_HOLE = 7
"""The finest grade of these holes that is known here: of finer ones one is no such sum (M6 of 250 to 315)."""

K_GRADES = range(4, 8)
"""Grades in which shaft k has its table deviation; in all others it is 0."""

CLASS = re.compile(r"([A-Za-z]{1,2})(\d{1,2})")


def tolerance_grade(size: float, grade: int) -> float | None:
    """Width of the tolerance in mm, None for grades and sizes without a seen table.

    >>> tolerance_grade(3.0, 13), tolerance_grade(3.15, 13)
    (0.14, 0.18)
    """
    step = _step(size)
    return None if step is None or grade not in GRADES else GRADES[grade][step] / 1000


def _step(size: float) -> int | None:
    """Index of the step a nominal size in mm falls in; nominals have at most four decimals."""
    place = bisect.bisect_left(STEPS, round(size, 4))
    return place if size > 0 and place < len(STEPS) else None


def deviations(size: float, tolerance_class: str) -> Deviation | None:
    """Lower and upper deviation in mm of a class such as `h11` at a nominal size in mm, None where not known.

    >>> deviations(19.0, "h11"), deviations(1.3, "H13"), deviations(20.0, "j6")
    ((-0.13, 0.0), (0.0, 0.14), (-0.004, 0.009))
    """
    match = CLASS.fullmatch(tolerance_class)
    step = _step(size)
    if match is None or step is None:
        return None
    letter, grade = match.group(1), int(match.group(2))
    if grade not in GRADES or (not UP_TO_ONE.isdisjoint((letter, letter.lower())) and size <= 1):
        return None
    micrometres = _zone(letter, grade, step, size)
    return None if micrometres is None else (micrometres[0] / 1000, micrometres[1] / 1000)


def _zone(letter: str, grade: int, step: int, size: float) -> tuple[float, float] | None:
    """Lower and upper deviation in micrometres."""
    width = GRADES[grade][step]
    if letter in ("js", "JS"):
        return -width / 2, width / 2
    if (row := OF_J.get(f"{letter}{grade}")) is not None:
        return (row[step], row[step] + width) if letter.islower() else (row[step] - width, row[step])
    if letter in LOWER:
        low = 0 if letter == "k" and grade not in K_GRADES else _of_step(LOWER[letter], step, size)
        return low, low + width
    if letter in RAISED_TO and grade >= FINEST_HOLE:
        raised = grade <= RAISED_TO[letter]
        delta = width - GRADES[grade - 1][step] if raised and step else 0
        high = 0 if letter == "N" and step and not raised else delta - _of_step(LOWER[letter.lower()], step, size)
        return None if letter == "K" and not raised else (high - width, high)
    if letter.lower() not in UPPER:
        return None
    off = _of_step(UPPER[letter.lower()], step, size)
    return (0 - off, width - off) if letter.isupper() else (off - width, off)


def _of_step(row: tuple[int, ...], step: int, size: float) -> int:
    """What a row has for a size, by its step or by the finer one."""
    return row[step] if len(row) == len(STEPS) else row[bisect.bisect_left(FINE_STEPS, round(size, 4))]
