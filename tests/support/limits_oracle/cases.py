"""One random case: a piece, what is printed on it, a shop, and the files of both."""

import random
from dataclasses import dataclass
from pathlib import Path

from . import pen, plain
from .drafting import random_piece
from .law import Asked, asked
from .laying import Sheet, lay
from .marking import marks_of
from .shops import shop_of, shop_text
from .values import Mark, Piece, Shop

NOTES = ("ISO 2768-m", "GENERAL TOLERANCES ISO 2768-f", "TOLERANCES ISO 2768-mK", "DIN ISO 2768 - c")


@dataclass(frozen=True)
class Case:
    """All of one case."""

    piece: Piece
    marks: tuple[Mark, ...]
    note: str
    shop: Shop
    wanted: tuple[Asked, ...]
    sheet: Sheet
    seed: int

    def save(self, folder: Path) -> tuple[Path, Path]:
        """Drawing and shop file."""
        drawing, shop = folder / "piece.dxf", folder / "shop.toml"
        if self.seed % 4 == 3:
            plain.write(self.sheet, drawing, styled=self.seed % 8 == 7)
        else:
            pen.write(self.sheet, drawing, blocks=self.seed % 4 > 0)
        shop.write_text(shop_text(self.shop), encoding="utf-8")
        return drawing, shop


def class_letter(note: str) -> str:
    """f, m or c of a general class; "" without a note."""
    return note.split("2768")[1].strip(" -")[0] if note else ""


def case_of(piece: Piece, marks: list[Mark], note: str, seed: int, view: str = "") -> Case:
    """A case of a piece and its marks; the rest by the seed."""
    rng = random.Random(f"case {seed}")
    face = any(r.where == "face" for r in piece.recesses)
    dialect = "plunge" if face else rng.choice(("plunge", "plunge", "two-block", "one-block"))
    first = asked(marks, piece.units, class_letter(note), 0.0)
    shop = shop_of(piece, rng, [a.limits for a in first if a.measure.name == "corner"], dialect)
    wanted = tuple(asked(marks, piece.units, class_letter(note), shop.tolerance))
    sheet = lay(piece, marks, note, view or rng.choice(("section", "dashed")))
    return Case(piece, tuple(marks), note, shop, wanted, sheet, seed)


def random_case(seed: int) -> Case:
    """The case of a seed."""
    rng = random.Random(f"note {seed}")
    piece = random_piece(seed)
    note = rng.choice(NOTES) if piece.units == "mm" and rng.random() < 0.3 else ""
    return case_of(piece, marks_of(piece, seed), note, seed)
