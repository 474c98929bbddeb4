"""What stands around the views: dimensions, notes, title block, border."""

import random
from collections.abc import Sequence

from support.second_hand.lathe import TurnedPart
from support.second_hand.marks import BORDER, CENTRE, DIMENSION, THIN, XY, Circle, Dim, Line, Mark, Note, Path


def figure(value: float, comma: bool, inch: bool) -> str:
    """A size as a draughtsman letters it."""
    if inch:
        text = f"{value:.4f}".rstrip("0").rstrip(".") if value * 1000 % 1 > 1e-6 else f"{value:.3f}"
        return text[1:] if text.startswith("0.") else text
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return text.replace(".", ",") if comma else text


def fraction(value: float) -> str | None:
    """An inch size in 64ths as a common fraction, or None where it is none."""
    count = value * 64
    if abs(count - round(count)) > 1e-6:
        return None
    whole, rest = divmod(round(count), 64)
    low = 64
    while rest and rest % 2 == 0:
        rest, low = rest // 2, low // 2
    if not rest:
        return str(whole)
    return f"{whole} {rest}/{low}" if whole else f"{rest}/{low}"


FITS = {" +0.1 0": (0.0, 0.1), " +.004 0": (0.0, 0.004)}
# ISO 286-2, micrometres, steps up to and including; the verified list of checks.
STEPS = (3, 6, 10, 18, 30, 50, 80, 120, 180)
GRADES = {"h11": (60, 75, 90, 110, 130, 160, 190, 220, 250), "H13": (140, 180, 220, 270, 330, 390, 460, 540, 630)}


def of_class(name: str, size: float) -> tuple[float, float]:
    """Deviations of h11 or H13 at a size in mm."""
    grade = next(g for step, g in zip(STEPS, GRADES[name], strict=True) if size <= step) / 1000
    return (0.0, grade) if name[0] == "H" else (-grade, 0.0)


class Dimensions:
    """Makes dimensions on a view; `factor` is true size over drawn size."""

    def __init__(self, rng: random.Random, part: TurnedPart, factor: float = 1.0, spoken: str = "auto") -> None:
        self.rng, self.part, self.factor = rng, part, factor
        self.comma = rng.random() < 0.4 and part.units == "mm"
        self.spoken = spoken
        self.fractions = part.units == "in" and rng.random() < 0.4
        self.given: dict[tuple[int, str], tuple[float, float]] = {}

    def text(self, value: float, before: str = "", after: str = "") -> str:
        """The text of one dimension: measured, or lettered over."""
        if self.spoken == "auto":
            return f"{before}<>{after}" if before or after else ""
        written = figure(value, self.comma, self.part.units == "in")
        if self.fractions:
            written = fraction(value) or written
        return f"{before}{written}{after}"

    def _dim(self, a: XY, b: XY, line: XY, angle: float, before: str = "", after: str = "") -> Dim:
        true = abs(b[0] - a[0]) if angle == 0 else abs(b[1] - a[1])
        factor = self.factor if self.spoken == "auto" else 1.0
        return Dim(a, b, line, angle, true, self.text(true, before, after), factor)

    def _tell(self, number: int, field: str, size: float, fit: str) -> None:
        """Write down the deviations that a dimension gives."""
        if fit in FITS:
            self.given[number, field] = FITS[fit]
        elif fit:
            self.given[number, field] = of_class(fit.strip(), size)

    def all(self, unit: float) -> list[Mark]:
        """Length, diameters of some lands, widths and places and floors of some grooves; `unit` is a text height."""
        part, rng = self.part, self.rng
        big, length = part.diameter / 2, part.length
        made: list[Mark] = [self._dim((-length, -big), (0.0, -big), (0.0, -big - 5 * unit), 0.0)]
        at = 3 * unit
        for (z1, r1), (z2, r2) in zip(part.outside, part.outside[1:], strict=False):
            if abs(r1 - r2) < 1e-9 and abs(z1 - z2) > big * 0.3 and len(made) < 5:
                made.append(self._dim((z2, -r1), (z2, r1), (at, 0.0), 90.0, "%%c"))
                at += 3 * unit
        for k, recess in enumerate(part.recesses):
            if rng.random() < 0.4 or recess.where != "outside":
                continue
            high = big + (3 + 2 * (k % 2)) * unit
            inch = part.units == "in"
            fit = rng.choice(("", "", " +.004 0" if inch else " H13", "" if inch else " +0.1 0"))
            self._tell(k, "width", recess.near - recess.far, fit)
            near, far = (recess.near, recess.mouth / 2), (recess.far, recess.mouth / 2)
            made.append(self._dim(far, near, (recess.far, high), 0.0, "", fit))
            if rng.random() < 0.4:
                x = (recess.near + recess.far) / 2
                floor_fit = rng.choice(("", "" if inch else " h11"))
                self._tell(k, "floor_diameter", recess.floor, floor_fit)
                low, high = (x, -recess.floor / 2), (x, recess.floor / 2)
                made.append(self._dim(low, high, (x, 0.0), 90.0, "%%c", floor_fit))
        return made


def exploded(dim: Dim, height: float, comma: bool = False) -> list[Mark]:
    """A dimension taken to lines, arrow heads and a text."""
    (ax, ay), (bx, by), (lx, ly) = dim.a, dim.b, dim.line
    flat = dim.angle % 180 == 0
    p, q = ((ax, ly), (bx, ly)) if flat else ((lx, ay), (lx, by))
    made: list[Mark] = [Line(p, q, DIMENSION), Line(dim.a, p, DIMENSION), Line(dim.b, q, DIMENSION)]
    for tip, other in ((p, q), (q, p)):
        sx, sy = (other[0] > tip[0]) - (other[0] < tip[0]), (other[1] > tip[1]) - (other[1] < tip[1])
        s, t = height, height / 5
        base = (tip[0] + sx * s, tip[1] + sy * s)
        wings = ((base[0] + sy * t, base[1] + sx * t), (base[0] - sy * t, base[1] - sx * t))
        made.append(Path((tip, *wings), closed=True, role=DIMENSION))
    text = dim.text or "<>"
    text = text.replace("<>", figure(dim.shown, comma, False))
    middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2 + height / 2)
    return [*made, Note(middle, height, text, turned=0.0 if flat else 90.0, role=DIMENSION)]


def projection_symbol(at: XY, size: float) -> list[Mark]:
    """First-angle projection: a truncated cone beside two circles, with centre lines: a little turned part."""
    x, y = at
    cone = (
        (x - 2 * size, y + size / 4),
        (x - size, y + size / 2),
        (x - size, y - size / 2),
        (x - 2 * size, y - size / 4),
    )
    made: list[Mark] = [Path(cone, closed=True, role=BORDER)]
    made += [Circle((x, y), r * size, BORDER) for r in (0.25, 0.5)]
    made.append(Line((x - 2.2 * size, y), (x + 0.7 * size, y), CENTRE))
    return [*made, Line((x, y - 0.7 * size), (x, y + 0.7 * size), CENTRE)]


def marks_on(rng: random.Random, part: TurnedPart, unit: float) -> list[Mark]:
    """Surface marks on a land, a datum triangle, a tolerance frame with its leader, cutting-plane arrows."""
    z = -part.length * rng.uniform(0.2, 0.8)
    at = [r for (z1, r), (z2, _) in zip(part.outside, part.outside[1:], strict=False) if z2 <= z <= z1]
    r = max(at, default=part.diameter / 2)
    made: list[Mark] = []
    if rng.random() < 0.5:
        tick = ((z - 0.5 * unit, r + 0.9 * unit), (z, r), (z + unit, r + 1.8 * unit), (z + 3 * unit, r + 1.8 * unit))
        made += [Path(tick, role=THIN), Note((z + unit, r + 2 * unit), unit, "Ra 0,8", role=DIMENSION)]
    if rng.random() < 0.4:
        x = z - 3 * unit
        triangle = ((x, -r), (x - unit / 2, -r - unit), (x + unit / 2, -r - unit))
        made += [Path(triangle, closed=True, role=DIMENSION), Line((x, -r - unit), (x, -r - 3 * unit), DIMENSION)]
        made += [
            _cell((x - unit, -r - 5 * unit), 2 * unit, 2 * unit),
            Note((x - 0.5 * unit, -r - 4.5 * unit), unit, "A"),
        ]
    if rng.random() < 0.4:
        y = part.diameter / 2 + 8 * unit
        cells = [_cell((z + k * 2 * unit, y), w * unit, 2 * unit) for k, w in ((0, 2), (1, 4), (3, 2))]
        made += [
            *cells,
            Line((z, y + unit), (z - 2 * unit, y + unit), DIMENSION),
            Line((z - 2 * unit, y + unit), (z - 2 * unit, r)),
        ]
    if rng.random() < 0.3:
        for x in (2 * unit, -part.length - 2 * unit):
            made += [Line((x, 3 * unit), (x, 5 * unit)), Note((x, 5.5 * unit), 1.5 * unit, "A")]
    return made


def _cell(corner: XY, wide: float, high: float) -> Path:
    x, y = corner
    return Path(((x, y), (x + wide, y), (x + wide, y + high), (x, y + high)), closed=True, role=DIMENSION)


TITLES = {
    "en": ("MATERIAL: C45", "SCALE {}", "GENERAL TOLERANCES ISO 2768-m", "ALL DIMENSIONS IN {}", "DRAWN", "SHAFT"),
    "de": ("Werkstoff: C45", "Maßstab {}", "Allgemeintoleranzen ISO 2768-m", "Alle Maße in {}", "Gezeichnet", "Welle"),
    "fr": ("Matière: C45", "Echelle {}", "Tolérances générales ISO 2768-m", "Cotes en {}", "Dessiné", "Arbre"),
    "it": ("Materiale: C45", "Scala {}", "Tolleranze generali ISO 2768-m", "Quote in {}", "Disegnato", "Albero"),
    "pl": ("Materiał: C45", "Podziałka {}", "Tolerancje ogólne ISO 2768-m", "Wymiary w {}", "Rysował", "Wałek"),
}


def title_block(
    rng: random.Random, area: tuple[float, float, float, float], unit: float, scale: str, units: str, tell: bool
) -> list[Mark]:
    """A border around the area with a title block in its lower right corner; `tell` says the units in words."""
    x0, y0, x1, y1 = area
    wide, tall = 60 * unit, 16 * unit
    x0, y0, x1, y1 = x0 - 8 * unit, y0 - tall - 8 * unit, max(x1 + 8 * unit, x0 + wide + 10 * unit), y1 + 8 * unit
    frame = Path(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), closed=True, role=BORDER)
    made: list[Mark] = [frame]
    if rng.random() < 0.5:
        d = 2 * unit
        outer = ((x0 - d, y0 - d), (x1 + d, y0 - d), (x1 + d, y1 + d), (x0 - d, y1 + d))
        made.append(Path(outer, closed=True, role=BORDER))
    left = x1 - wide
    made += [Line((left, y0), (left, y0 + tall), BORDER), Line((left, y0 + tall), (x1, y0 + tall), BORDER)]
    words: Sequence[str] = rng.choice(list(TITLES.values()))
    row = tall / 4
    if units.lower() != "mm":
        words = (words[0], words[1], "", *words[3:])
    lines = [words[0], words[1].format(scale), words[2], words[3].format(units) if tell else "", words[4], words[5]]
    for k in range(1, 4):
        made.append(Line((left, y0 + k * row), (x1, y0 + k * row), BORDER))
    made.append(Line((left + wide / 2, y0), (left + wide / 2, y0 + tall), BORDER))
    if rng.random() < 0.5:
        made += projection_symbol((left + 0.85 * wide, y0 + 2 * row), row)
    for k, text in enumerate(lines):
        if text:
            at = (left + unit + (k // 4) * wide / 2, y0 + (k % 4) * row + unit)
            made.append(Note(at, 1.5 * unit, text, rng.choice(("text", "mtext")), role=BORDER))
    return made
