"""Small drawings put together by hand: one piece, its printed sizes, one shop."""

from pathlib import Path

from support.ink import Line, Vertex

from . import pen
from .cases import class_letter
from .law import Asked, asked
from .laying import Sheet, lay
from .shops import shop_text
from .spots import line_of, spots_of
from .tracing import mirrored, strokes
from .values import Insert, Mark, Piece, Recess, Shop, measure

FILES = ("piece.dxf", "shop.toml")


def shaft(*recesses: Recess, across: float = 40.0, length: float = 60.0, bore: float = 0.0, units: str = "mm") -> Piece:
    """A plain shaft of one diameter."""
    return Piece(units=units, steps=((length, across),), recesses=recesses, bore=bore)


def outside(near: float, width: float, floor: float, land: float = 40.0, corner: float = 0.0) -> Recess:
    return Recess(where="outside", near=near, far=round(near + width, 6), floor=floor, land=land, corner=corner)


def inside(near: float, width: float, floor: float, land: float = 24.0, corner: float = 0.0) -> Recess:
    return Recess(where="inside", near=near, far=round(near + width, 6), floor=floor, land=land, corner=corner)


def face(outer: float, inner: float, depth: float, corner: float = 0.0) -> Recess:
    return Recess(where="face", near=outer, far=inner, floor=depth, land=0.0, corner=corner)


def row_of(count: int, pitch: float = 7.0) -> Piece:
    """Like grooves 3 wide and 3 deep, the first 8 from the front face."""
    return shaft(*(outside(8.0 + pitch * i, 3.0, 34.0) for i in range(count)))


class Print:
    """Puts printed sizes on a piece, one after the other."""

    def __init__(self, piece: Piece) -> None:
        self.piece = piece
        self.marks: list[Mark] = []

    def size(self, name: str, i: int, j: int | None = None) -> float:
        """The drawn size of a measure."""
        if name == "corner":
            return self.piece.recesses[i].corner
        return round(measure(self.piece, name, i, j).value(self.piece.state()), 6)

    def put(
        self, name: str, i: int, text: str, j: int | None = None, of: tuple[int, ...] = (), **variables: float
    ) -> "Print":
        """A size of recess i (or from i to j); `of` lists the recesses that the words `n x` stand for."""
        spot = spots_of(self.piece, name, i, j)
        one = measure(self.piece, name, i, j)
        size = self.size(name, i, j)
        self.marks.append(
            Mark(
                measures=tuple(measure(self.piece, name, n) for n in of) or (one,),
                first=spot.first,
                second=spot.second,
                line=spot.second if name == "corner" else line_of(spot, self.piece, len(self.marks)),
                angle=spot.angle,
                radius=name == "corner",
                text=text,
                variables=variables,
                decimals=3 if self.piece.units == "in" else 2,
                drawn=size,
            )
        )
        return self


def shop_with(
    units: str = "mm", dialect: str = "plunge", tolerance: float = 0.0, **inserts: tuple[float, float]
) -> Shop:
    """One insert a side: `outside=(width, corner)`; all have Z set to the far edge."""
    listed = tuple(
        Insert(station=n, where=where.rstrip("0123456789"), width=width, corner=corner, reference="far")
        for n, (where, (width, corner)) in enumerate(inserts.items(), 1)
    )
    return Shop(units=units, tolerance=tolerance or {"mm": 0.02, "in": 0.001}[units], inserts=listed, dialect=dialect)


def saved(folder: Path, sheet: Sheet, shop: Shop) -> tuple[Path, Path]:
    """The files of a drawing and its shop."""
    drawing, file = (folder / name for name in FILES)
    pen.write(sheet, drawing)
    file.write_text(shop_text(shop), encoding="utf-8")
    return drawing, file


def drawn(folder: Path, printed: Print, shop: Shop, note: str = "", view: str = "section") -> tuple[Path, Path]:
    return saved(folder, lay(printed.piece, printed.marks, note, view), shop)


def wanted(printed: Print, shop: Shop, note: str = "") -> list[Asked]:
    return asked(printed.marks, printed.piece.units, class_letter(note), shop.tolerance)


def turned(path: list[Vertex], edges: dict[float, float], units: str = "mm") -> Sheet:
    """A side view from the upper line of a solid part, front first; `edges`: where lines go across, and how wide."""
    upper = strokes(path)
    lines = [("OUTLINE", s) for half in (upper, [mirrored(s) for s in upper]) for s in half]
    across = [Line((x, d / 2), (x, -d / 2)) for x, d in edges.items()]
    lines += [("OUTLINE", s) for s in across]
    lines.append(("CENTER", Line((4.0, 0.0), (path[-1][0] - 4.0, 0.0))))
    return Sheet(units=units, drawn=tuple(lines), marks=())
