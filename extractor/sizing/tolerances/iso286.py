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
from extractor.shipped import shipped

TABLES = shipped("extractor.sizing.tolerances", "standards")["iso286"]
STEPS, FINE_STEPS = TABLES["steps"], TABLES["fine_steps"]
"""Upper limits of the nominal size steps in mm; those of the deviations with a wide clearance are finer."""

GRADES: dict[int, list[int]] = {int(grade): row for grade, row in TABLES["grades"].items()}
"""Standard tolerances by grade and step, micrometres."""

UPPER, LOWER, OF_J = (TABLES[name] for name in ("upper", "lower", "of_j"))
"""Upper deviation of shafts a to h, lower one of k to s; of classes j the lower one, of classes J the upper one."""

UP_TO_ONE = frozenset("abN")
"""Letters that are for no size up to 1 mm."""

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


def _of_step(row: list[int], step: int, size: float) -> int:
    """What a row has for a size, by its step or by the finer one."""
    return row[step] if len(row) == len(STEPS) else row[bisect.bisect_left(FINE_STEPS, round(size, 4))]
