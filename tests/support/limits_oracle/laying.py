"""A piece and its marks laid out as a sheet: strokes on layers, hatch, centre lines, notes."""

from dataclasses import dataclass, field

from support.ink import Arc, Line

from .spots import middle
from .tracing import bore_edges, edges, front, inner, mirrored, outer, strokes
from .values import Mark, Piece, Point

LINETYPES = {"OUTLINE": "CONTINUOUS", "HIDDEN": "DASHED", "CENTER": "CENTER", "HATCH": "CONTINUOUS"}


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """What a pen writes; each stroke with its layer, `hatched` the loops that are filled."""

    units: str
    drawn: tuple[tuple[str, Line | Arc], ...]
    marks: tuple[Mark, ...]
    notes: tuple[tuple[Point, str], ...] = ()
    hatched: tuple[tuple[tuple[float, float, float], ...], ...] = field(default=())


def lay(piece: Piece, marks: list[Mark], note: str = "", view: str = "section") -> Sheet:
    """The side view; what is inside shows in a section with hatch, or dashed (`view` "dashed")."""
    hollow = piece.bore > 0 or any(r.where == "face" for r in piece.recesses)
    section = hollow and view == "section"
    skin = [*strokes(outer(piece))]
    within = [*strokes(front(piece)), *(strokes(inner(piece)) if piece.bore else [])]
    back = [Line((-piece.length, piece.bore / 2), (-piece.length, piece.steps[-1][1] / 2))]
    if section:
        upper = skin + within + back
        drawn = [("OUTLINE", s) for half in (upper, [mirrored(s) for s in upper]) for s in half]
        drawn += [("OUTLINE", s) for s in bore_edges(piece)]
        face = piece.steps[0][1] / 2
        if any(r.where == "face" for r in piece.recesses) and not piece.bore:
            drawn.append(("OUTLINE", Line((0.0, face), (0.0, -face))))
        if not piece.bore:
            drawn.append(("OUTLINE", Line((-piece.length, 0.0), (-piece.length, -piece.steps[-1][1] / 2))))
            drawn = [pair for pair in drawn if not on_axis(pair[1])]
    else:
        drawn = [("OUTLINE", s) for half in (skin, [mirrored(s) for s in skin]) for s in half]
        drawn += [("OUTLINE", s) for s in edges(piece)]
        hidden = [s for s in within if not on_face(s)]
        drawn += [("HIDDEN", s) for half in (hidden, [mirrored(s) for s in hidden]) for s in half]
    drawn += [("CENTER", s) for s in centre_lines(piece, marks)]
    notes = (((-piece.length, -piece.steps[-1][1] * 2.2), note),) if note else ()
    return Sheet(
        units=piece.units,
        drawn=tuple(drawn),
        marks=tuple(marks),
        notes=notes,
        hatched=loops(piece) if section else (),
    )


def on_axis(stroke: Line | Arc) -> bool:
    return isinstance(stroke, Line) and stroke.a[1] == stroke.b[1] == 0.0


def on_face(stroke: Line | Arc) -> bool:
    """On the front face, where the outline already has a line across."""
    return isinstance(stroke, Line) and stroke.a[0] == stroke.b[0] == 0.0


def centre_lines(piece: Piece, marks: list[Mark]) -> list[Line]:
    """The axis, and a short one through each groove whose middle is dimensioned."""
    out = 4.0 if piece.units == "mm" else 0.16
    listed = [Line((out, 0.0), (-piece.length - out, 0.0))]
    for mark in marks:
        if mark.measures[0].name.startswith("centre"):
            for x, y in {mark.first, mark.second} & {middle(r) for r in piece.recesses}:
                listed.append(Line((x, y + out / 2), (x, y - out)))
    return listed


def loops(piece: Piece) -> tuple[tuple[tuple[float, float, float], ...], ...]:
    """The cut faces above and below the axis, as points without corner arcs."""
    path = [*front(piece), *outer(piece), *reversed(inner(piece))]
    upper = tuple(dict.fromkeys((x, y, 0.0) for x, y, _ in path))
    return upper, tuple((x, -y, 0.0) for x, y, _ in upper)
