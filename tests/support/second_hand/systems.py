"""How one CAD system or another writes a sheet: layers, pens, the spelling of curves, blocks, layouts."""

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from support.second_hand.furniture import exploded
from support.second_hand.marks import (
    BORDER,
    CENTRE,
    DIMENSION,
    HATCH,
    HIDDEN,
    TANGENT,
    TEXT,
    THIN,
    VISIBLE,
    XY,
    Arc,
    Circle,
    Curve,
    Dim,
    Fill,
    Line,
    Mark,
    Note,
    Path,
    Place,
    arc_points,
    box,
    pieces,
    placed,
)
from support.second_hand.rawdxf import OLD, R2000, R2007, R2018, Document, Insert, Item, Spelling, Tag, Window
from support.second_hand.views import hatch_lines

ROLES = (VISIBLE, HIDDEN, CENTRE, TANGENT, THIN, HATCH, DIMENSION, TEXT, BORDER)
NAMES = {
    "english": ("OUTLINE", "HIDDEN", "CENTER", "TANGENT", "THIN", "HATCH", "DIM", "TEXT", "BORDER"),
    "german": (
        "KONTUR",
        "VERDECKT",
        "MITTELLINIE",
        "LICHTKANTEN",
        "GEWINDE",
        "SCHRAFFUR",
        "BEMASSUNG",
        "TEXT",
        "RAHMEN",
    ),
    "french": ("CONTOUR", "CACHE", "AXES", "TANGENTES", "FIN", "HACHURES", "COTES", "TEXTE", "CADRE"),
    "italian": ("VISTA", "NASCOSTE", "ASSI", "RACCORDI", "FINE", "TRATTEGGIO", "QUOTE", "TESTI", "SQUADRATURA"),
    "polish": ("KONTUR", "NIEWIDOCZNE", "OSIE", "STYCZNE", "CIENKIE", "KRESKOWANIE", "WYMIARY", "OPISY", "RAMKA"),
    "russian": ("Контур", "Невидимые", "Осевые", "Касательные", "Тонкие", "Штриховка", "Размеры", "Текст", "Рамка"),
    "chinese": ("轮廓线", "虚线", "中心线", "切线", "细实线", "剖面线", "标注", "文字", "图框"),
    "japanese": ("外形線", "かくれ線", "中心線", "接線", "細線", "ハッチング", "寸法", "文字", "図枠"),
    "iso": (
        "Visible (ISO)",
        "Hidden (ISO)",
        "Centerline (ISO)",
        "Visible Narrow (ISO)",
        "Visible Narrow (ISO)",
        "Hatch (ISO)",
        "Dimension (ISO)",
        "Symbol (ISO)",
        "Border (ISO)",
    ),
    "numbers": ("1", "2", "3", "4", "4", "6", "7", "8", "9"),
    "view_wise": ("VIEW1", "VIEW1", "VIEW1", "VIEW1", "VIEW1", "VIEW1", "ANNOT", "ANNOT", "FORMAT"),
    "none": ("0",) * 9,
}
TYPES = {
    "us": ("CENTER", "HIDDEN"),
    "iso": ("ACAD_ISO04W100", "ACAD_ISO02W100"),
    "german": ("MITTE", "VERDECKT"),
    "dash": ("DASHDOT", "DASHED"),
    "numbered": ("LT7", "LT3"),
    "solid": ("LONG_DASHED_DOTTED", "DASHED"),
}
WIDE_SCRIPT = ("russian", "chinese", "japanese", "polish")


@dataclass(frozen=True)
class System:
    """One program's habits on the sheet; the file's spelling is in `spelling`."""

    names: str = "english"
    types: str = "us"
    by_layer: bool = True
    curves: str = "pieces"
    tangents: str = "own"
    blocks: str = "none"
    space: str = "model"
    dims: str = "entity"
    hatch: str = "entity"
    repeats: bool = False
    dots: bool = False
    spelling: Spelling = field(default_factory=Spelling)

    def pen(self, role: str) -> tuple[str, str, int]:
        """Layer, linetype and colour of a role."""
        layer = NAMES[self.names][ROLES.index(role)]
        centre, hidden = TYPES[self.types]
        linetype = {CENTRE: centre, HIDDEN: hidden}.get(role, "")
        shared = self.names in ("none", "view_wise")
        own = linetype if shared or not self.by_layer else ""
        return layer, own, 1 + ROLES.index(role) if shared else 256


def random_system(rng: random.Random, header: tuple[Tag, ...]) -> System:
    """A system at random, of one piece: what its version can hold."""
    version = rng.choice((OLD, R2000, R2000, R2007, R2018))
    names = rng.choice([n for n in NAMES if n not in WIDE_SCRIPT or version in (R2007, R2018)])
    spelling = Spelling(
        version=version,
        header=header,
        digits=rng.choice(("{:.6f}", "{:.4f}", "{:.16g}", "repr", "{:.10E}")),
        newline=rng.choice(("\r\n", "\n")),
        pad=rng.random() < 0.6,
        tables=rng.random() < 0.9 or version != OLD,
        handles=rng.random() < 0.7,
        binary=rng.random() < 0.1,
        shuffled=rng.random() < 0.15,
        flipped=rng.random() < 0.12,
        splines=rng.choice(("fit", "straight", "chords")),
        old_paths=rng.random() < 0.15,
        circles_as_ellipses=rng.random() < 0.08,
        comments=rng.random() < 0.2,
    )
    if version == OLD and spelling.binary:
        # The old binary form knows no hatches without markers.
        spelling = replace(spelling, binary=False)
    return System(
        names=names,
        types=rng.choice(list(TYPES)),
        by_layer=rng.random() < 0.6,
        curves=rng.choice(("pieces", "pieces", "pieces", "path", "chords", "splines")),
        tangents=rng.choice(("own", "own", "none", "visible")),
        blocks=rng.choice(("none", "none", "none", "view", "nested", "scaled")),
        space=rng.choice(("model",) * 5 + ("paper", "model" if version == OLD else "window")),
        dims=rng.choice(("entity", "entity", "pictured", "pictured", "exploded")),
        hatch=rng.choice(("entity", "entity", "lines") if version != OLD else ("lines", "lines", "entity")),
        repeats=rng.random() < 0.15,
        dots=rng.random() < 0.1,
        spelling=spelling,
    )


def spelt(system: System, marks: Iterable[Mark], unit: float) -> list[Mark]:
    """The marks as this system stores them: paths or pieces, chords, splines, hatch lines, exploded dimensions."""
    made: list[Mark] = []
    for mark in marks:
        role = getattr(mark, "role", VISIBLE)
        if role == TANGENT:
            if system.tangents == "none":
                continue
            if system.tangents == "visible":
                mark = replace(mark, role=VISIBLE)  # type: ignore[type-var]
        if isinstance(mark, Path) and system.curves != "path":
            made += [_curved(system, p) for p in pieces(mark)]
        elif isinstance(mark, Fill) and system.hatch == "lines":
            made += hatch_lines(mark, 1.5 * unit)
        elif isinstance(mark, Dim) and system.dims == "exploded":
            made += exploded(mark, unit)
        else:
            made.append(_curved(system, mark))
    if system.repeats:
        made += [m for m in made if isinstance(m, Line) and m.role == VISIBLE][::3]
    if system.dots:
        made += [Line(m.a, m.a, m.role) for m in made if isinstance(m, Line)][:2]
    return made


def _curved(system: System, mark: Mark) -> Mark:
    if isinstance(mark, Arc) and system.curves == "chords":
        return Path(arc_points(mark, 7.5), role=mark.role)
    if isinstance(mark, Arc) and system.curves == "splines":
        return Curve(arc_points(mark, 6.0), mark.role)
    return mark


def document(system: System, views: Sequence[Sequence[Mark]], around: Sequence[Mark], unit: float) -> Document:
    """The whole sheet: each view in its block or loose, in model or paper space."""
    doc = Document(layers={"0": (7, "")})
    for role in ROLES:
        layer, own, _ = system.pen(role)
        centre, hidden = TYPES[system.types]
        shared = system.names in ("none", "view_wise")
        linetype = "" if shared or own else {CENTRE: centre, HIDDEN: hidden}.get(role, "")
        doc.layers.setdefault(layer, (1 + ROLES.index(role) % 7, linetype))
    space = doc.paper if system.space == "paper" else doc.model
    for k, view in enumerate(views):
        marks = spelt(system, view, unit)
        if system.blocks == "none" or (k == 0 and system.blocks == "nested" and len(views) > 2):
            space += inked(system, marks)
            continue
        space += blocked(system, doc, f"VIEW{k}", marks)
    notes = doc.paper if system.space == "window" else space
    notes += inked(system, spelt(system, around, unit))
    if system.dims == "pictured":
        pictured(system, doc, notes, unit)
    if system.space == "window":
        x0, y0, x1, y1 = box([m for v in views for m in v])
        middle, size = ((x0 + x1) / 2, (y0 + y1) / 2), (x1 - x0 + 20 * unit, y1 - y0 + 20 * unit)
        doc.paper.append(Item(Window(middle, size, middle, size[1])))
    return doc


def pictured(system: System, doc: Document, items: list[Item], unit: float) -> None:
    """Give every dimension the anonymous block that shows it, as most systems do."""
    for k, item in enumerate(items):
        if isinstance(item.what, Dim):
            name = f"*D{k}"
            doc.blocks[name] = inked(system, exploded(item.what, unit))
            items[k] = replace(item, what=replace(item.what, picture=name))


def blocked(system: System, doc: Document, name: str, marks: Sequence[Mark]) -> list[Item]:
    """A view in a block of its own, or in one inside another, drawn at another size and scaled back."""
    x0, y0, _, _ = box(marks)
    factor = 10.0 if system.blocks == "scaled" else 1.0
    inner = placed(marks, Place((-x0 / factor, -y0 / factor), scale=1 / factor))
    doc.blocks[name] = inked(system, inner)
    if system.blocks == "nested":
        doc.blocks[name + "_OUTER"] = [Item(Insert(name, (5.0, 0.0), turn=90.0))]
        return [Item(Insert(name + "_OUTER", (x0, y0 + 5.0), turn=-90.0))]
    return [Item(Insert(name, (x0, y0), (factor, factor)))]


def inked(system: System, marks: Iterable[Mark]) -> list[Item]:
    """The marks with their pens."""
    made = []
    for mark in marks:
        layer, linetype, colour = system.pen(getattr(mark, "role", VISIBLE))
        made.append(Item(mark, layer, linetype, colour))
    return made


__all__ = ["XY", "Circle", "Note", "System", "document", "random_system", "spelt"]
