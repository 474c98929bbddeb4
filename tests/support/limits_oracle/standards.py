"""Limits of published standards, in mm, as tables.

ISO 286-1:2010 grades and ISO 2768-1:1989 were copied from two stored pages each, which agree; no standard was read in
the original. IT6 to IT9 and the classes' meaning (H: 0/+IT, h: 0/-IT, js: half of it to each side) as there.
DIN 471: rows on which two open collections of its data agree (d1, d2, class of d2, m H13).
"""

STEPS = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315)
GRADES = {
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320),
    12: (100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520),
    13: (140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810),
    14: (250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150, 1300),
}
GENERAL_STEPS = (3, 6, 30, 120, 400, 1000, 2000)
GENERAL = {
    "f": (0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5),
    "m": (0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2),
    "c": (0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0),
}
RADII_STEPS = (3, 6, 1000)
RADII = {"f": (0.2, 0.5, 1.0), "m": (0.2, 0.5, 1.0), "c": (0.4, 1.0, 2.0)}
DIN_471 = (
    (8, 7.6, "h10", 0.9),
    (12, 11.5, "h11", 1.1),
    (15, 14.3, "h11", 1.1),
    (20, 19.0, "h11", 1.3),
    (25, 23.9, "h12", 1.3),
    (30, 28.6, "h12", 1.6),
    (40, 37.5, "h12", 1.85),
    (50, 47.0, "h12", 2.15),
    (80, 76.5, "h12", 2.65),
    (100, 96.5, "h12", 3.15),
)


def of_steps(steps: tuple[int, ...], values: tuple[float, ...], size: float) -> float:
    """The value for a size; a step is "over a, up to and including b"."""
    return next(value for step, value in zip(steps, values, strict=False) if size <= step)


def fit(name: str, grade: int, size: float) -> tuple[float, float]:
    """Lower and upper deviation of a class such as H13 or js14, mm."""
    spread = of_steps(STEPS, GRADES[grade], size) / 1000
    return {"H": (0.0, spread), "h": (-spread, 0.0), "js": (-spread / 2, spread / 2)}[
        name.lower() if len(name) > 1 else name
    ]


def general(letter: str, size: float, radius: bool = False) -> float | None:
    """Plus and minus what a class of ISO 2768-1 allows, mm; below 0.5 mm it allows nothing by itself."""
    if size < 0.5:
        return None
    return of_steps(RADII_STEPS, RADII[letter], size) if radius else of_steps(GENERAL_STEPS, GENERAL[letter], size)
