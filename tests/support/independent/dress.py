"""What an office draws around a view: border, title block, dimensions, notes, end views, details, marks.

Each takes the part (view with the axis on y = 0, front at x = 0) and gives strokes; all of it is beside the matter.
"""

import itertools
import random
from dataclasses import dataclass, replace

from support.independent.move import Move
from support.independent.parts import TurnedPart
from support.independent.tolerances import tolerance_text
from support.ink import Circle, Dim, Ink, Line, Look, Path, Text, barely_exploded, strokes


@dataclass(frozen=True)
class Words:
    """What one office writes; `unit` are its words for mm and inch."""

    scale: str = "SCALE 1:1"
    title: str = "GROOVED SPINDLE"
    unit: tuple[str, str] = ("ALL DIMENSIONS IN MM", "ALL DIMENSIONS IN INCHES")
    general: str = "GENERAL TOLERANCES ISO 2768-m"
    others: tuple[str, ...] = ("DRAWN", "CHECKED", "SHEET 1/1", "MATERIAL C45", "REV A", "DEBURR ALL EDGES")


@dataclass(frozen=True)
class Dresser:
    """Draws around one part; `size` is the part's larger extent, the measure of everything here."""

    part: TurnedPart
    words: Words
    dims: Look
    sheet: Look
    centre: Look
    outline: Look
    rng: random.Random

    @property
    def size(self) -> float:
        return max(self.part.length, self.part.outer_diameter)

    @property
    def radius(self) -> float:
        return self.part.outer_diameter / 2

    def border(self) -> list[Ink]:
        """Two frames around everything."""
        s, ink = self.size, []
        for grow in (0.0, 0.05):
            a, b = -2.4 - grow, 1.4 + grow
            low, high = -1.8 - grow, 1.5 + grow
            corners = ((a * s, low * s, 0.0), (b * s, low * s, 0.0), (b * s, high * s, 0.0), (a * s, high * s, 0.0))
            ink += [Path(corners, True, self.sheet)] if self.rng.random() < 0.5 else strokes(corners, True, self.sheet)
        return ink

    def title(self) -> list[Ink]:
        """A grid of lines with words in its fields, symmetric as such grids are."""
        s, left, right, low = self.size, 0.0, 1.4 * self.size, -1.8 * self.size
        rows, high, ink = 6, 0.08 * self.size, []
        for row in range(rows + 1):
            ink.append(Line((left, low + row * high), (right, low + row * high), self.sheet))
        for column in range(4):
            x = left + (right - left) * column / 3
            ink.append(Line((x, low), (x, low + rows * high), self.sheet))
        general = self.words.general if self.part.units == "mm" else "LIMITS +/-.005"
        texts = (self.words.title, self.words.scale, *self.words.others, general)
        for index, text in enumerate(texts):
            x = left + (right - left) * (index % 3) / 3 + 0.01 * s
            ink.append(Text((x, low + (index // 3) * high + 0.01 * s), text, 0.03 * s, role=self.sheet))
        return ink

    def unit_note(self) -> list[Ink]:
        word = self.words.unit[0 if self.part.units == "mm" else 1]
        return [Text((-2.3 * self.size, -1.7 * self.size), word, 0.03 * self.size, role=self.sheet, multi=True)]

    def overall(self) -> list[Ink]:
        """Length over all and the largest diameter."""
        part, r, s = self.part, self.radius, self.size
        front = max(c.r for c in part.outside if c.z > -1e-6)
        back = part.outside[-1].r if not part.bore else part.outside[-2].r
        ink: list[Ink] = [Dim((0.0, front), (-part.length, back), (0.0, r + 0.35 * s), 0.0, role=self.dims)]
        wide = next(c for c in part.outside if c.r >= r - 1e-9)
        ink.append(Dim((wide.z, -r), (wide.z, r), (-part.length - 0.3 * s, 0.0), 90.0, "%%c<>", role=self.dims))
        return ink

    def measures(self) -> list[Ink]:
        """Width, floor and place of some outside grooves, with tolerances where the truth has them."""
        ink: list[Ink] = []
        for index, groove in enumerate(g for g in self.part.grooves if g.where == "outside"):
            floor, mouth = groove.floor_diameter / 2, groove.mouth_diameter / 2
            at = self.radius + (0.08 + 0.06 * (index % 4)) * self.size
            width = tolerance_text(groove, "width", "")
            ink.append(
                Dim((groove.z_near, mouth), (groove.z_far, mouth), (groove.z_far, at), 0.0, width, role=self.dims)
            )
            text = tolerance_text(groove, "floor_diameter", "%%c")
            middle = (groove.z_near + groove.z_far) / 2
            ink.append(Dim((middle, -floor), (middle, floor), (middle, -self.size), 90.0, text, role=self.dims))
        return ink

    def exploded(self, gap: float) -> list[Ink]:
        """The overall dimensions as loose lines, extension lines `gap` off the part."""
        ink: list[Ink] = []
        for dim in (d for d in self.overall() if isinstance(d, Dim)):
            marks = list(barely_exploded(dim))
            for foot in marks[:2]:
                if isinstance(foot, Line) and foot.a != foot.b:
                    reach = ((foot.b[0] - foot.a[0]) ** 2 + (foot.b[1] - foot.a[1]) ** 2) ** 0.5
                    t = min(0.9, gap / reach)
                    start = (foot.a[0] + t * (foot.b[0] - foot.a[0]), foot.a[1] + t * (foot.b[1] - foot.a[1]))
                    ink.append(replace(foot, a=start))
            ink += marks[2:]
        return ink

    def end_view(self, on_top: bool = False) -> list[Ink]:
        """Circles of the lands seen from the front, with crossed centre lines; or drawn on the side view itself."""
        x = -self.part.length / 2 if on_top else self.radius + 0.25 * self.size
        radii = sorted({c.r for c in self.part.outside if c.r > 0} | {c.r for c in self.part.bore})
        ink: list[Ink] = [Circle((x, 0.0), r, self.outline) for r in radii]
        reach = self.radius * 1.15
        ink.append(Line((x, -reach), (x, reach), self.centre))
        return [*ink, Line((x - reach, 0.0), (x + reach, 0.0), self.centre)]

    def leaders(self) -> list[Ink]:
        """Bent lines from the part to a note."""
        ink: list[Ink] = []
        for index, text in enumerate(("2x45%%d", "Ra 1.6", "N7")):
            x = -self.part.length * (0.15 + 0.3 * index)
            tip, knee = (x, -self.radius), (x + 0.1 * self.size, -self.radius - 0.2 * self.size)
            end = (knee[0] + 0.15 * self.size, knee[1])
            ink.append(Path(tuple((*p, 0.0) for p in (tip, knee, end)), False, self.dims))
            ink.append(Text((knee[0], knee[1] + 0.01 * self.size), text, 0.03 * self.size, role=self.dims))
        return ink

    def texture_marks(self) -> list[Ink]:
        """Surface marks standing on lands: a short and a long leg."""
        ink: list[Ink] = []
        s = 0.03 * self.size
        for land in _lands(self.part)[:2]:
            x, r = (land[0] + land[1]) / 2, land[2]
            ink += [Line((x, r), (x - s, r + 1.7 * s), self.dims), Line((x, r), (x + 2 * s, r + 3.4 * s), self.dims)]
            ink.append(Line((x - s, r + 1.7 * s), (x + s, r + 1.7 * s), self.dims))
        return ink

    def detail(self) -> list[Ink]:
        """One groove ringed on the view and drawn again at 5:1 beside it, its ends broken off."""
        grooves = [g for g in self.part.grooves if g.where == "outside"]
        if not grooves:
            return []
        groove = self.rng.choice(grooves)
        mouth = groove.mouth_diameter / 2
        middle = (groove.z_near + groove.z_far) / 2
        span = groove.z_near - groove.z_far
        ink: list[Ink] = [Circle((middle, mouth), span, self.dims), Text((middle, mouth + span), "A", role=self.dims)]
        wide = span / 2 + groove.edge_chamfer + 1e-6
        own = [corner for corner in self.part.outside_run() if abs(corner[0] - middle) <= wide]
        run = [(middle + span, own[0][1], 0.0), *own, (middle - span, own[-1][1], 0.0)]
        big = Move((-1.6 * self.size - 5 * middle, 0.9 * self.size - 5 * mouth), size=5.0)
        ink += big.all(strokes(run, False, self.outline))
        return [*ink, Text((-1.7 * self.size, 1.3 * self.size), "A (5:1)", 0.04 * self.size, role=self.dims)]

    def second_centre_lines(self) -> list[Ink]:
        """Centre lines of cross holes and of an end view that isn't there."""
        x = -self.part.length * 0.5
        up = Line((x, -1.2 * self.radius), (x, 1.2 * self.radius), self.centre)
        far = self.radius + 0.3 * self.size
        return [up, Line((-self.part.length, far), (0.0, far), self.centre)]

    def thread(self) -> list[Ink]:
        """A land drawn as threaded: a thin line each side a little inside the crest, and the run-out line."""
        front, back, r = max(_lands(self.part), key=lambda land: land[0] - land[1])
        inner = r - min(0.06 * r, 0.8 if self.part.units == "mm" else 0.03)
        thin = replace(self.outline, layer=self.dims.layer if self.rng.random() < 0.3 else self.outline.layer)
        return [Line((front, inner), (back, inner), thin), Line((front, -inner), (back, -inner), thin)]

    def stray(self) -> list[Ink]:
        """A helper line that sticks out of the body and a break line across it."""
        x, r = -self.part.length * 0.4, self.radius
        return [Line((x, 0.0), (x + 0.2 * self.size, 1.6 * r), self.outline)]


def _lands(part: TurnedPart) -> list[tuple[float, float, float]]:
    """Plain lands: (front z, back z, radius) of every level stretch that is no groove floor."""
    floors = {round(g.floor_diameter / 2, 6) for g in part.grooves}
    run = part.outside_run()
    level = [(a[0], b[0], a[1]) for a, b in itertools.pairwise(run) if abs(a[1] - b[1]) < 1e-9 and a[0] - b[0] > 0]
    return [land for land in level if round(land[2], 6) not in floors and land[2] > 0] or level
