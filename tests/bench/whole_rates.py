"""Right whole programs of eight houses against their pieces as a drawing has them; prints who agrees, asserts nothing.

Run as `PYTHONPATH=.:tests python tests/bench/whole_rates.py [FIRST [COUNT]]`: five houses of the suite and three more.
"""

import collections
import sys
import tempfile
from pathlib import Path

from support.plain import sheets
from support.wholes.houses import CONTROLS, HOUSES, OTHER_CONTROLS, OTHER_SHOPS, OTHERS, SHOPS
from support.wholes.pieces import Piece, random_piece

from extractor import read_drawing
from extractor.part import Part
from planner import parse_shop
from postproc import compare_program, explain, find_dialect

CONTROL, WHOLE = {**CONTROLS, **OTHER_CONTROLS}, {**SHOPS, **OTHER_SHOPS}


def drawn(piece: Piece, folder: Path) -> Part | None:
    """The piece as its drawing is read; None where another number of grooves was found."""
    outside = sheets.steps(piece.length, piece.steps, piece.grooves, piece.chamfer)
    bore = sheets.steps(piece.length, [(0, piece.bore)], piece.inner) if piece.bore else ()
    part = read_drawing(sheets.drawing(sheets.Drawn(outside, bore), folder / "piece.dxf")).part
    return part if part and len(part.grooves) == len(piece.grooves) + len(piece.inner) else None


def main() -> None:
    """Print the figures."""
    first, count = (int(sys.argv[k]) if len(sys.argv) > k else usual for k, usual in ((1, 1000), (2, 20)))
    told = collections.Counter[str]()
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(first, first + count):
            piece = random_piece(seed)
            part = drawn(piece, Path(folder))
            if part is None:
                print(f"piece {seed} is read otherwise than drawn")
                continue
            for house, write in {**HOUSES, **OTHERS}.items():
                text, whole = write(piece), WHOLE.get(house, "")
                for named in ("", CONTROL[house]):
                    shop = parse_shop(piece.shop(named, whole), "shop.toml", "mm")
                    found = compare_program(part, text, shop, find_dialect(named) if named else None)
                    told[f"{house} {'agree' if found.agree else 'differ'}"] += 1
                    if not found.agree:
                        print(seed, house, [f"{f.code} in line {f.line}" for f in found.findings if f.stops][:3])
                made = explain(text, whole_numbers=shop.machine.whole_numbers)
                told[f"{house} explained with a stop"] += any(f.stops for f in made.findings)
    for what, number in sorted(told.items()):
        print(f"{number:5} {what}")


if __name__ == "__main__":
    main()
