"""Sheets as different offices would issue them, each with what a reader must make of it.

A `Recipe` says everything about one sheet in a few words, so that a sheet that was read wrongly can be boiled down by
leaving words out. `compose` draws it.
"""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from support.independent import sloppy, views
from support.independent.dress import Dresser, Words
from support.independent.move import Move
from support.independent.parts import TrueGroove, TurnedPart
from support.independent.stock import Wishes, random_part
from support.independent.tolerances import loosened
from support.independent.views import Looks
from support.ink import Block, Hatch, Ink, Look, hatch_lines
from support.plain_dxf import Style, Writer, exponent, fixed, terse

VIEWS = ("side", "smooth", "outline", "path", "half", "halfpath", "openhalf", "section", "sectionpath", "halfsection")
EXTRAS = ("border", "title", "overall", "measures", "exploded", "endview", "ontop", "leaders", "texture", "detail")
EXTRAS += ("centres", "thread", "stray", "hatchlines")
SHEET = ("border", "title")
MESS = ("shuffle", "split", "axis", "double", "specks", "jitter", "arcs", "hatchdouble", "block")


@dataclass(frozen=True)
class Office:
    """One office's layers, its linetypes by layer, its words and its code page."""

    name: str
    looks: Looks
    dims: Look
    sheet: Look
    layers: dict[str, str]
    words: Words = field(default_factory=Words)
    codepage: str = "ANSI_1252"
    centre: bool = True


def _office(name: str, layers: tuple[str, ...], words: Words, codepage: str = "ANSI_1252") -> Office:
    """An office that gives linetypes to layers: outline, hidden, centre, hatch, dimensions, sheet."""
    body, hidden, centre, hatch, dims, sheet = (Look(layer) for layer in layers)
    kinds = {layers[1]: "DASHED", layers[2]: "CENTER"}
    return Office(name, Looks(body, body, hidden, centre, hatch), dims, sheet, kinds, words, codepage)


ENGLISH = _office("english", ("OUTLINE", "HIDDEN", "CENTER", "HATCH", "DIM", "BORDER"), Words())
GERMAN = _office(
    "german",
    ("Kontur", "Verdeckt", "Mittellinie", "Schraffur", "Bemassung", "Plankopf Rahmen"),
    Words(
        "Ma\u00dfstab 1:1",
        "Nutwelle",
        ("Alle Ma\u00dfe in mm", "Alle Ma\u00dfe in Zoll"),
        "Allgemeintoleranz ISO 2768-m",
    ),
)
CHINESE = _office(
    "chinese",
    ("1轮廓实线层", "4虚线层", "3中心线层", "5剖面线层", "7标注层", "图框"),
    Words("比例 1:1", "槽轴", ("单位: mm", "单位: inch"), "未注公差 ISO 2768-m", ("设计", "审核")),
    "ANSI_936",
)
FRENCH = _office(
    "french",
    ("CONTOUR", "CACHE", "AXES", "HACHURES", "COTES", "CADRE"),
    Words("ECHELLE 1:1", "ARBRE A GORGES", ("COTES EN MM", "COTES EN POUCES"), "TOLERANCES GENERALES ISO 2768-m"),
)
_ISO04, _ISO02 = "ACAD_ISO04W100", "ACAD_ISO02W100"
POLISH = Office(
    "polish",
    Looks(Look("1"), Look("1"), Look("51", _ISO02), Look("51", _ISO04), Look("101")),
    Look("102"),
    Look("201"),
    {},
)
BARE = Office(
    "bare", Looks(Look("0"), Look("0"), Look("0", "DASHED"), Look("0", "CENTER"), Look("0")), Look("0"), Look("0"), {}
)
BLIND = replace(BARE, name="blind", looks=Looks(Look("0"), Look("0"), Look("0", "DASHED"), Look("0"), Look("0")))
UNMARKED = replace(BARE, name="unmarked", centre=False)
CODED = Office(
    "coded", Looks(Look("L1"), Look("L2"), Look("L3", "K2"), Look("L4", "K1"), Look("L5")), Look("L6"), Look("L7"), {}
)
OFFICES = {o.name: o for o in (ENGLISH, GERMAN, CHINESE, FRENCH, POLISH, BARE, BLIND, UNMARKED, CODED)}
PATTERNS = (
    ("CENTER", (31.75, -6.35, 6.35, -6.35)),
    ("DASHED", (12.7, -6.35)),
    (_ISO04, (24.0, -3.0, 0.5, -3.0)),
    (_ISO02, (12.0, -3.0)),
    ("K1", (20.0, -3.0, 2.0, -3.0)),
    ("K2", (4.0, -2.0)),
)


@dataclass(frozen=True)
class Recipe:
    """Everything about one sheet. `insunits` is the header's value or None; `front` the end drawn as front."""

    seed: int = 0
    wishes: Wishes = field(default_factory=Wishes)
    view: str = "side"
    office: str = "english"
    extras: frozenset[str] = frozenset()
    mess: frozenset[str] = frozenset()
    turn: float = 0.0
    front: str = "right"
    size: float = 1.0
    insunits: int | None = 4
    unit_note: bool = True
    old: bool = False
    numbers: str = "repr"
    shift: tuple[float, float] = (0.0, 0.0)
    tolerances: bool = False


@dataclass(frozen=True)
class Case:
    """A drawn sheet: the file's text and code page, the true part, options to read with, what must come of it.

    `also` are grooves that the view only hints at with hidden lines: right if they are read, and if they are not.
    """

    text: str
    encoding: str
    part: TurnedPart | None
    options: dict[str, object] = field(default_factory=dict)
    expect: str = "read"
    also: tuple[TrueGroove, ...] = ()

    def save(self, path: str) -> None:
        with open(path, "w", encoding=self.encoding, newline="", errors="replace") as file:
            file.write(self.text)


NUMBERS: dict[str, Callable[[float], str]] = {
    "repr": repr,
    "fixed6": fixed(6),
    "fixed4": fixed(4),
    "exponent": exponent,
    "terse": terse,
}


def compose(recipe: Recipe) -> Case:
    """Draw the sheet of a recipe."""
    rng = random.Random(recipe.seed * 7 + 1)
    part = random_part(recipe.seed, recipe.wishes)
    if recipe.tolerances and "measures" in recipe.extras:
        part = loosened(part, rng)
    office = OFFICES[recipe.office]
    ink = _messed(_view(part, recipe.view, office.looks), recipe, office, rng)
    ink += views.centre_line(part, office.looks.centre, _reach(recipe)) if office.centre else []
    ink += _extras(part, recipe, office, rng, [e for e in EXTRAS if e not in SHEET])
    flat = Move(recipe.shift, 0.0, recipe.size)
    sheet = _placing(recipe).all(ink) + flat.all(_extras(part, recipe, office, rng, SHEET))
    text = Writer(_style(recipe, office), office.layers).text(sheet)
    encoding = {"ANSI_936": "gbk"}.get(office.codepage, "cp1252")
    seen = _seen(part, recipe)
    return Case(text, encoding, seen, _options(recipe), _expect(part, recipe), unseen(part, seen))


def _reach(recipe: Recipe) -> float:
    """How far the centre line sticks out, part lengths; the blind office's ends flush."""
    return (0.0, 0.05, 0.1)[recipe.seed % 3]


def _view(part: TurnedPart, view: str, looks: Looks) -> list[Ink]:
    drawers: dict[str, Callable[[], list[Ink]]] = {
        "side": lambda: views.side(part, looks),
        "smooth": lambda: views.side(part, looks, smooth=True),
        "outline": lambda: views.outline(part, looks),
        "path": lambda: views.outline(part, looks, path=True),
        "half": lambda: views.half(part, looks),
        "halfpath": lambda: views.half(part, looks, path=True),
        "openhalf": lambda: views.half(part, looks, closed=False),
        "section": lambda: views.loops(part, looks) if part.bore else views.outline(part, looks),
        "sectionpath": lambda: views.loops(part, looks, path=True) if part.bore else views.outline(part, looks, True),
        "halfsection": lambda: views.half_section(part, looks),
    }
    return drawers[view]()


def _messed(ink: list[Ink], recipe: Recipe, office: Office, rng: random.Random) -> list[Ink]:
    gap = 1e-4 if recipe.wishes.units == "mm" else 1e-5
    if "axis" in recipe.mess:
        ink = sloppy.split_at_axis(ink)
    if "split" in recipe.mess:
        ink = sloppy.split(ink, rng)
    if "double" in recipe.mess:
        ink = sloppy.doubled(ink, rng)
    if "hatchdouble" in recipe.mess:
        ink = sloppy.doubled(ink, rng, 0.4, office.looks.hatch)
    if "specks" in recipe.mess:
        ink = sloppy.specks(ink, rng)
    if "jitter" in recipe.mess:
        ink = sloppy.jittered(ink, rng, gap)
    if "arcs" in recipe.mess:
        ink = sloppy.loose_arcs(ink, rng, gap)
    if "shuffle" in recipe.mess:
        ink = sloppy.shuffled(ink, rng)
    if "block" in recipe.mess:
        shrunk = Move(size=0.5).all(ink)
        ink = [Block(tuple(shrunk), (0.0, 0.0), size=(2.0, 2.0), name="VIEW")]
    return ink


def _extras(part: TurnedPart, recipe: Recipe, office: Office, rng: random.Random, names: Sequence[str]) -> list[Ink]:
    """What is drawn around the view, of these names; title block and border stay upright however the view lies."""
    outline = office.looks.outline
    dresser = Dresser(part, office.words, office.dims, office.sheet, office.looks.centre, outline, rng)
    gap = 1.0 if part.units == "mm" else 0.04
    makers: dict[str, Callable[[], list[Ink]]] = {
        "border": dresser.border,
        "title": dresser.title,
        "overall": dresser.overall,
        "measures": dresser.measures,
        "exploded": lambda: dresser.exploded(gap),
        "endview": dresser.end_view,
        "ontop": lambda: dresser.end_view(on_top=True),
        "leaders": dresser.leaders,
        "texture": dresser.texture_marks,
        "detail": dresser.detail,
        "centres": dresser.second_centre_lines,
        "thread": dresser.thread,
        "stray": dresser.stray,
        "hatchlines": lambda: hatch_lines(Hatch((tuple(part.loop()),), dresser.size / 56, office.looks.hatch)),
    }
    ink = [stroke for name in names if name in recipe.extras for stroke in makers[name]()]
    return ink + (dresser.unit_note() if recipe.unit_note and names is SHEET else [])


def _placing(recipe: Recipe) -> Move:
    turn = recipe.turn + (180.0 if recipe.front in ("left", "bottom") else 0.0)
    return Move(recipe.shift, turn, recipe.size)


def _options(recipe: Recipe) -> dict[str, object]:
    options: dict[str, object] = {}
    if recipe.front in ("left", "bottom"):
        options["front"] = recipe.front
    if recipe.size != 1.0:
        options["scale"] = recipe.size
    return options


def _style(recipe: Recipe, office: Office) -> Style:
    header = [("$DWGCODEPAGE", 3, office.codepage)]
    if recipe.insunits is not None:
        header.append(("$INSUNITS", 70, str(recipe.insunits)))
    newline = "\r\n" if recipe.seed % 2 else "\n"
    return Style(
        old=recipe.old,
        newline=newline,
        number=NUMBERS[recipe.numbers],
        header=tuple(header),
        blanks=recipe.seed % 3 == 0,
        patterns=PATTERNS,
    )


def _seen(part: TurnedPart, recipe: Recipe) -> TurnedPart:
    """The part with what this view can show: bores and face grooves need a section or hidden lines."""
    if recipe.view in ("half", "halfpath", "openhalf", "section", "sectionpath", "halfsection"):
        return part
    faces = ("outside", "face") if recipe.view in ("outline", "path") else ("outside",)
    shown = tuple(g for g in part.grooves if g.where in faces)
    return replace(part, grooves=shown)


def unseen(part: TurnedPart, seen: TurnedPart) -> tuple[TrueGroove, ...]:
    """The part's grooves that a view does not plainly show."""
    return tuple(g for g in part.grooves if g not in seen.grooves)


def _expect(part: TurnedPart, recipe: Recipe) -> str:
    """What must come of it: "read", or "either" where a refusal is as good."""
    if not any(g.where == "outside" for g in part.grooves):
        return "either"
    if recipe.insunits in (0, None, 6) and not recipe.unit_note:
        return "either"
    if recipe.office in ("blind", "unmarked") and recipe.view in ("half", "halfpath", "openhalf"):
        return "either"
    if recipe.extras & {"stray"}:
        return "either"
    return "read"
