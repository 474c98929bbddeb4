"""From a seed to a sheet and from a sheet to a file: what all families share."""

import random
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from support.ink import Ink, Line, Path, Text, extent
from support.office.library import LibraryWriter
from support.office.model import Part
from support.office.paper import Paper
from support.office.place import Place
from support.office.stock import Wish, random_part
from support.office.style import FileKind, Office, plain_writer, random_file, random_office
from support.office.truth import Answer, Case, Truth, View, answer
from support.office.views import Look, end_view, isometric, outside, random_look

NOTES = {
    "mm": ("ALL DIMENSIONS IN MM", "DIMENSIONS IN MILLIMETRES", "Alle Ma\u00dfe in mm"),
    "in": ("ALL DIMENSIONS IN INCHES", "DIMENSIONS IN INCHES UNLESS OTHERWISE STATED"),
}
TITLES = ("SPOOL", "GUIDE PIN", "RING CARRIER", "PLUNGER", "SLEEVE 4711", "KOLBEN", "SEAL CARRIER REV C", "SPINDLE")
ROUGH = ("Ra 1.6", "Ra 3.2", "\u221a Ra 0.8")


ANY = Wish()


@dataclass
class Desk:
    """One sheet in the making."""

    family: str
    seed: int
    rng: random.Random
    paper: Paper
    look: Look
    office: Office
    file: FileKind
    noted: bool
    views: list[View] = field(default_factory=list)
    extras: list[str] = field(default_factory=list)

    @property
    def part(self) -> Part:
        return self.paper.part

    @property
    def place(self) -> Place:
        return self.paper.place

    def truth(self) -> Answer:
        return answer(self.part, self.place.front)

    def main_view(self) -> None:
        """The part from outside, as the view that is meant."""
        self.show(outside(self.part, self.place, self.look), self.truth())

    def show(self, ink: list[Ink], reads: Answer | None) -> None:
        """A view: its ink and what may be read of it."""
        self.paper.add(ink)
        self.views.append(View(extent(ink), reads))


def desk(
    family: str,
    seed: int,
    wish: Wish = ANY,
    fronts: tuple[str, ...] = ("right",),
    dims: tuple[str, ...] = ("entity", "entity", "loose"),
    part: Part | None = None,
    scale: float = 1.0,
) -> Desk:
    rng = random.Random(f"{family}:{seed}")
    chosen = part or random_part(rng, wish)
    place = Place(rng.choice((0.0, 120.0, 237.5)), rng.choice((0.0, 148.0, -55.25)), rng.choice(fronts), scale)
    paper = Paper(rng, chosen, place, rng.choice(dims))
    noted = rng.random() < 0.6
    office = random_office(rng)
    file = random_file(rng, chosen.units, noted)
    noted = noted or (file.writer == "library" and file.version == "R12")  # such a header can't name the unit
    return Desk(family, seed, rng, paper, random_look(rng), office, file, noted)


def finish(d: Desk, kind: str, truth: Truth, extras: float = 0.5, spoil: Callable[[str], str] | None = None) -> Case:
    """Adds what has no say in the matter, frames the sheet, and writes the file."""
    if d.rng.random() < extras:
        dressed(d)
    framed = d.noted or d.rng.random() < 0.4
    if framed:
        cells = [d.rng.choice(NOTES[d.part.units])] if d.noted else []
        cells += (
            [d.rng.choice(("ISO 2768-mK", "GENERAL TOLERANCE ISO 2768-m"))]
            if d.part.units == "mm" and d.rng.random() < 0.5
            else []
        )
        cells += ["SCALE 1:1"] if truth.scale == 1 and d.rng.random() < 0.5 else []
        d.paper.frame(d.rng.choice(TITLES), cells)
    writer = plain_writer(d.office, d.file) if d.file.writer == "plain" else LibraryWriter(d.office, d.file)
    text = writer.text(d.paper.ink)
    text = spoil(text) if spoil else text
    modern = d.file.writer == "library" and d.file.version in ("R2007", "R2010", "R2013", "R2018")
    data = text.encode("utf-8") if modern else "".join(map(_escaped, text)).encode("cp1252")
    return Case(d.family, d.seed, kind, data, replace(truth, views=(*truth.views, *d.views)), tuple(d.extras))


def _escaped(letter: str) -> str:
    """Letters that an older file can't hold, as it spells them."""
    try:
        letter.encode("cp1252")
    except UnicodeEncodeError:
        return f"\\U+{ord(letter):04X}"
    return letter


def dressed(d: Desk) -> None:
    """One or two things that any sheet may hold beside the part."""
    for name in d.rng.sample(sorted(EXTRAS), d.rng.choice((1, 1, 2))):
        EXTRAS[name](d)
        d.extras.append(name)


def _end_view(d: Desk) -> None:
    """The round end view, in line with the axis beyond the front or the back."""
    x0, y0, x1, y1 = extent(d.paper.ink)
    r, gap = d.part.diameter / 2 * d.place.scale, 12 * d.paper.h
    if d.place.lying:
        c = (x0 - gap - r, d.place.y) if d.rng.random() < 0.5 else (x1 + gap + r, d.place.y)
    else:
        c = (d.place.x, y0 - gap - r) if d.rng.random() < 0.5 else (d.place.x, y1 + gap + r)
    d.show(end_view(d.part, c, d.place.scale), None)


def _isometric(d: Desk) -> None:
    _, y0, x1, _ = extent(d.paper.ink)
    size = max(d.part.length, d.part.diameter)
    d.show(isometric(d.part, (x1 + size * 0.9, y0 - size * 0.9), 0.8 * d.place.scale), None)


def _rough(d: Desk) -> None:
    """A surface mark standing on a land."""
    p, h = d.place, d.paper.h
    s = d.part.length * 0.08
    x, y = p.at(s, d.part.land(s) / 2)
    tick = ((x - 0.5 * h, y + 0.87 * h), (x, y), (x + h, y + 1.74 * h))
    d.paper.add([Path(tick, role="dim"), Text((x + 1.2 * h, y + h), d.rng.choice(ROUGH), h * 0.7, role="dim")])


def _remark(d: Desk) -> None:
    x0, y0, _, _ = extent(d.paper.ink)
    lines = d.rng.sample(
        ("BREAK SHARP EDGES", "DEBURR ALL OVER", "MATERIAL C45", "HARDEN TO 45 HRC", "QTY 40", "REV B 2031-04-02"), 2
    )
    for k, line in enumerate(lines):
        d.paper.write((x0, y0 - (4 + 2 * k) * d.paper.h), line)


def _doubles(d: Desk) -> None:
    """Some strokes drawn twice, as copying leaves them."""
    lines = [i for i in d.paper.ink if isinstance(i, Line) and i.role == "outline"]
    d.paper.add(d.rng.sample(lines, min(3, len(lines))))


EXTRAS: dict[str, Callable[[Desk], None]] = {
    "end view": _end_view,
    "isometric": _isometric,
    "rough": _rough,
    "remark": _remark,
    "doubles": _doubles,
}
