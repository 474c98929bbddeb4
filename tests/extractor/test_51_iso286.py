"""ISO 286 limits at both sides of every step, against published tables, the annex formula and an open package."""

import math
from itertools import pairwise

import pytest
from pressfit.tables import SHAFT_LETTERS, it_value, shaft_deviation

from extractor.sizing.tolerances.iso286 import FINE_STEPS, GRADES, LOWER, STEPS, UPPER, deviations, tolerance_grade

# ISO 286-1:2010 table 1 in micrometres, upper limit of step first; IT10 to IT14 as three published tables give them.
TABLE = {
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
    12: (100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520),
    13: (140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810),
    14: (250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150, 1300),
}
CELLS = [(grade, step, value) for grade, row in TABLE.items() for step, value in enumerate(row)]
FACTORS = dict(zip(range(5, 15), (7, 10, 16, 25, 40, 64, 100, 160, 250, 400), strict=True))


@pytest.mark.parametrize(("grade", "step", "value"), CELLS)
def test_both_sides_of_every_step(grade, step, value):
    """A step reaches over a, up to and including b."""
    above = (0, *STEPS)[step] + 0.001
    for size in (above, STEPS[step]):
        assert tolerance_grade(size, grade) == value / 1000
        assert deviations(size, f"H{grade}") == (0, value / 1000)
        assert deviations(size, f"h{grade}") == (-value / 1000, 0)
        assert deviations(size, f"js{grade}") == (-value / 2000, value / 2000)


@pytest.mark.parametrize("grade", GRADES)
def test_the_formula_of_annex_a(grade):
    """ISO 286-1:1988 annex A: i = 0.45 D^(1/3) + 0.001 D with D the geometric mean of the step; the standard rounds by
    hand, and measured differences from the table are 4.2 % at most above 3 mm for IT10 to IT13 and 9 % below."""
    for low, high in pairwise(STEPS):
        mean = math.sqrt(low * high)
        formula = FACTORS[grade] * (0.45 * mean ** (1 / 3) + 0.001 * mean)
        table = tolerance_grade(high, grade) * 1000
        assert formula == pytest.approx(table, rel=0.043 if grade >= 10 else 0.09)


@pytest.mark.parametrize("grade", range(5, 12))
@pytest.mark.parametrize("size", [1.3, 3, 3.001, 17.9, 18, 18.001, 120, 499, 500])
def test_the_open_package_gives_the_same_grades(size, grade):
    assert tolerance_grade(size, grade) * 1000 == it_value(size, grade)


@pytest.mark.parametrize("letter", sorted(set(SHAFT_LETTERS) & (set(UPPER) | set(LOWER))))
@pytest.mark.parametrize("size", [2, 3, 3.5, 20, 40, 40.1, 49.9, 50.1, 65.1, 130, 170, 200, 225, 225.1, 350, 450, 500])
def test_the_open_package_gives_the_same_deviations(size, letter):
    for grade in (6, 8, 9):
        low, high = deviations(size, f"{letter}{grade}")
        expected = shaft_deviation(size, letter, grade)
        assert (high if letter in UPPER else low) * 1000 == pytest.approx(expected, abs=1e-9)
        assert (high - low) * 1000 == pytest.approx(it_value(size, grade))


@pytest.mark.parametrize(
    ("letter", "factor", "power"), [("d", 16, 0.44), ("e", 11, 0.41), ("f", 5.5, 0.41), ("g", 2.5, 0.34)]
)
def test_the_formulas_of_shaft_deviations(letter, factor, power):
    """ISO 286-1 annex A, from memory: es = -16 D^0.44, -11 D^0.41, -5.5 D^0.41, -2.5 D^0.34 for d, e, f, g."""
    for low, high in pairwise(STEPS[1:]):
        mean = math.sqrt(low * high)
        assert -UPPER[letter][STEPS.index(high)] == pytest.approx(factor * mean**power, rel=0.04, abs=0.7)


@pytest.mark.parametrize(
    ("letter", "most", "formula", "beyond"),
    [("a", 120, lambda d: 265 + 1.3 * d, lambda d: 3.5 * d), ("b", 160, lambda d: 140 + 0.85 * d, lambda d: 1.8 * d)],
)
def test_the_formulas_of_wide_clearances(letter, most, formula, beyond):
    """ISO 286-1 annex A, from memory: es of a is -(265 + 1.3 D) up to 120 and -3.5 D above, of b -(140 + 0.85 D) up to
    160 and -1.8 D above, both from 1 mm on; the table is rounded by hand."""
    for low, high in pairwise((1, *FINE_STEPS)):
        mean = math.sqrt(low * high)
        assert -1000 * deviations(high, f"{letter}11")[1] == pytest.approx(
            (formula, beyond)[high > most](mean), rel=0.05
        )
    assert (deviations(1.0, f"{letter}11"), deviations(1.001, f"{letter}11") is None) == (None, False)


# Single values named in three published tables.
KNOWN = [
    (1.3, "H13", (0.0, 0.14)),
    (3.15, "H13", (0.0, 0.18)),
    (18, "h11", (-0.11, 0.0)),
    (18.001, "h11", (-0.13, 0.0)),
    (19, "h11", (-0.13, 0.0)),
    (23.9, "h12", (-0.21, 0.0)),
    (47, "h12", (-0.25, 0.0)),
    (9.6, "h10", (-0.058, 0.0)),
]


@pytest.mark.parametrize(("size", "name", "expected"), KNOWN)
def test_values_every_table_names(size, name, expected):
    assert deviations(size, name) == expected


# DIN 471 as two open tables give it: shaft, floor diameter, its lower deviation, class (h10 to 10, h11 to 22, h12 on).
DIN_471 = [
    (8, 7.6, 0.06, "h10"),
    (12, 11.5, 0.11, "h11"),
    (15, 14.3, 0.11, "h11"),
    (17, 16.2, 0.11, "h11"),
    (20, 19.0, 0.13, "h11"),
    (25, 23.9, 0.21, "h12"),
    (30, 28.6, 0.21, "h12"),
    (35, 33.0, 0.25, "h12"),
    (40, 37.5, 0.25, "h12"),
    (50, 47.0, 0.25, "h12"),
    (60, 57.0, 0.30, "h12"),
    (80, 76.5, 0.30, "h12"),
    (100, 96.5, 0.35, "h12"),
]


@pytest.mark.parametrize(("shaft", "floor", "lower", "name"), DIN_471)
def test_floor_tolerances_of_retaining_ring_grooves(shaft, floor, lower, name):
    assert floor < shaft
    low, high = deviations(floor, name)
    assert (round(low, 2), high) == (-lower, 0)


@pytest.mark.parametrize("width", [0.9, 1.1, 1.3, 1.6, 1.85, 2.15, 2.65, 3.15])
def test_widths_of_retaining_ring_grooves(width):
    """DIN 471, m H13: +0.14 up to 3 mm, +0.18 above."""
    assert deviations(width, "H13") == (0, 0.14 if width <= 3 else 0.18)


KEYWAYS = [
    (2, -4, -29, -6, -31), (3, -4, -29, -6, -31), (3.001, 0, -30, -12, -42), (5, 0, -30, -12, -42),
    (8, 0, -36, -15, -51), (14, 0, -43, -18, -61), (20, 0, -52, -22, -74), (36, 0, -62, -26, -88),
    (63, 0, -74, -32, -106), (100, 0, -87, -37, -124),
]  # fmt: skip
"""Width of a keyway, its tolerance N9 and P9 in micrometres, as tables of parallel keys have them (from memory)."""


@pytest.mark.parametrize(("width", "n_high", "n_low", "p_high", "p_low"), KEYWAYS)
def test_the_classes_of_keyways(width, n_high, n_low, p_high, p_low):
    assert deviations(width, "N9") == (n_low / 1000, n_high / 1000)
    assert deviations(width, "P9") == (p_low / 1000, p_high / 1000)


HOLES = [
    (3, (0, -10), (-2, -12), (-4, -14), (-6, -16), (-4, -18)), (6, (3, -9), (0, -12), (-4, -16), (-8, -20), (-2, -20)),
    (10, (5, -10), (0, -15), (-4, -19), (-9, -24), (-3, -25)),
    (18, (6, -12), (0, -18), (-5, -23), (-11, -29), (-3, -30)),
    (30, (6, -15), (0, -21), (-7, -28), (-14, -35), (-3, -36)),
    (50, (7, -18), (0, -25), (-8, -33), (-17, -42), (-3, -42)),
    (80, (9, -21), (0, -30), (-9, -39), (-21, -51), (-4, -50)),
    (120, (10, -25), (0, -35), (-10, -45), (-24, -59), (-4, -58)),
    (180, (12, -28), (0, -40), (-12, -52), (-28, -68), (-4, -67)),
    (250, (13, -33), (0, -46), (-14, -60), (-33, -79), (-5, -77)),
    (315, (16, -36), (0, -52), (-14, -66), (-36, -88), (-5, -86)),
    (400, (17, -40), (0, -57), (-16, -73), (-41, -98), (-5, -94)),
    (500, (18, -45), (0, -63), (-17, -80), (-45, -108), (-6, -103)),
]  # fmt: skip
"""Upper and lower deviations of K7, M7, N7, P7 and N8 in micrometres (ISO 286-2, from memory)."""


@pytest.mark.parametrize(("size", "k", "m", "n", "p", "n8"), HOLES)
def test_holes_whose_deviation_is_raised(size, k, m, n, p, n8):
    for name, (high, low) in zip(("K7", "M7", "N7", "P7", "N8"), (k, m, n, p, n8), strict=True):
        assert deviations(size, name) == (low / 1000, high / 1000)


def test_the_grades_up_to_which_they_are_raised():
    """ISO 286-2, from memory: K8 at 20 is +10/-23, M8 +4/-29, M9 -8/-60."""
    found = [deviations(20.0, name) for name in ("K8", "M8", "M9")]
    assert found == [(-0.023, 0.01), (-0.029, 0.004), (-0.06, -0.008)]


def test_the_grades_from_which_they_are_known():
    """P8 at 10 is -15/-37 and N10 at 20 is 0/-84; N9 is for no size up to 1 mm (ISO 286-2, from memory)."""
    assert (deviations(10.0, "P8"), deviations(20.0, "N10")) == ((-0.037, -0.015), (-0.084, 0))
    assert (deviations(1.0, "N9"), deviations(1.001, "N9")) == (None, (-0.029, -0.004))


@pytest.mark.parametrize(
    "name", ["j8", "P6", "N6", "K9", "M6", "J9", "R6", "t6", "zc8", "h15", "h4", "H", "13", "hh7", "", "h11x"]
)
def test_classes_without_a_seen_table_are_not_guessed(name):
    assert deviations(20.0, name) is None


@pytest.mark.parametrize("size", [0.0, -3.0, 500.001, 10_000.0])
def test_sizes_outside_the_table(size):
    assert deviations(size, "h11") is None
    assert tolerance_grade(size, 11) is None


OF_J = {
    "j5": (2, 3, 4, 5, 5, 6, 6, 6, 7, 7, 7, 7, 7), "j6": (4, 6, 7, 8, 9, 11, 12, 13, 14, 16, 16, 18, 20),
    "j7": (6, 8, 10, 12, 13, 15, 18, 20, 22, 25, 26, 29, 31), "J6": (4, 3, 4, 5, 5, 6, 6, 6, 7, 7, 7, 7, 7),
    "J7": (6, 6, 7, 8, 9, 11, 12, 13, 14, 16, 16, 18, 20), "J8": (8, 8, 10, 12, 13, 15, 18, 20, 22, 25, 26, 29, 31),
}  # fmt: skip
"""Upper deviation of shafts j and lower one of holes J by step, micrometres, without its sign (ISO 286-2, from memory):
the ones that the code does not hold."""


@pytest.mark.parametrize("name", OF_J)
def test_both_deviations_of_j(name):
    for size, off in zip(STEPS, OF_J[name], strict=True):
        low, high = deviations(float(size), name)
        assert (high if name.islower() else -low) * 1000 == pytest.approx(off)
        assert (high - low) * 1000 == pytest.approx(GRADES[int(name[1])][STEPS.index(size)])


def test_the_formula_of_r():
    """ISO 286-1 annex A, from memory: ei of r is the geometric mean of those of p and s, rounded by hand."""
    for size in FINE_STEPS:
        p, r, s = (1000 * deviations(float(size), f"{letter}6")[0] for letter in "prs")
        assert r == pytest.approx(math.sqrt(p * s), abs=1.3)


@pytest.mark.parametrize(
    ("size", "name", "low", "high"),
    [(2, "R7", -20, -10), (20, "R7", -41, -20), (20, "R8", -61, -28), (20, "S7", -48, -27), (60, "S7", -72, -42)],
)
def test_holes_r_and_s(size, name, low, high):
    """ISO 286-2, from memory: raised by IT7 less IT6 up to grade 7 above 3 mm."""
    assert deviations(float(size), name) == pytest.approx((low / 1000, high / 1000))


def test_holes_mirror_shafts():
    """General rule of ISO 286-1: EI of holes A to H is es of the shaft with its sign turned."""
    for letter in UPPER:
        low, high = deviations(30.0, f"{letter}8")
        assert deviations(30.0, f"{letter.upper()}8") == pytest.approx((-high, -low))
