"""Whether a change leaves every result as it was: `PYTHONPATH=.:tests python tests/bench/alike.py keep|hold FOLDER`.

`keep` makes drawings of many hands and compares programs of several houses with their parts, and puts all of it into
FOLDER; `hold` does the same again with the same drawings and names what differs; what came now lies in FOLDER/now.
Times of making are fixed.
"""

import argparse
import json
import shutil
from collections.abc import Iterator
from contextlib import redirect_stdout
from dataclasses import replace
from datetime import UTC, datetime
from io import StringIO
from itertools import product
from pathlib import Path

import ezdxf
import speed_inputs as inputs
from support.independent.offices import compose
from support.independent.recipes import FAMILIES
from support.plain import sheets
from support.wholes.houses import CONTROLS, HOUSES, OTHERS
from support.wholes.pieces import random_piece

from rillwright.check import compare_files
from rillwright.compare import print_verdict
from rillwright.job import make_drawing
from rillwright.records.jsonform import dump
from rillwright.settings import Settings

DRAWINGS = Path(__file__).parents[2] / "drawings"
NOW = datetime(2026, 1, 1, tzinfo=UTC)
OFFICES, OTHER_HANDS, PIECES, ROWS = 28, 4, (2000,), (1, 40)
"""Sheets of offices, sheets of each family of other hands, pieces with programs, rows of so many grooves."""


def drawings(folder: Path) -> Iterator[Path]:
    """The drawings: samples, sheets of offices, of other hands and plain ones, long rows, other forms of the file."""
    if folder.exists():
        yield from sorted(folder.glob("*.dxf"))
        return
    folder.mkdir(parents=True)
    for path in sorted(DRAWINGS.glob("*.dxf")):
        yield Path(shutil.copy(path, folder))
    yield from inputs.offices(folder, OFFICES)
    yield from (inputs.row_of_grooves(folder, count) for count in ROWS)
    yield from (sheets.draw(name, folder) for name in sorted(sheets.PARTS))
    for family, number in product(FAMILIES, range(OTHER_HANDS)):
        compose(FAMILIES[family](number)).save(str(path := folder / f"other-{family}-{number}.dxf"))
        yield path
    for number, source in enumerate(sorted(DRAWINGS.glob("*.dxf"))):
        doc = ezdxf.readfile(source)
        doc.saveas(folder / f"again-{number}.dxf", fmt="bin" if number % 2 else "asc")
        yield folder / f"again-{number}.dxf"


def programs(folder: Path) -> Iterator[tuple[Path, Path, Settings]]:
    """Drawings with programs of several houses and the settings to compare them with."""
    beside = folder / "pieces"
    beside.mkdir(exist_ok=True)
    for seed in PIECES:
        piece = random_piece(seed)
        outside = sheets.steps(piece.length, piece.steps, piece.grooves, piece.chamfer)
        bore = sheets.steps(piece.length, [(0, piece.bore)], piece.inner) if piece.bore else ()
        drawing = beside / f"piece-{seed}.dxf"
        if not drawing.exists():
            sheets.drawing(sheets.Drawn(outside, bore), drawing)
        for house, write in {**HOUSES, **OTHERS}.items():
            program = beside / f"piece-{seed}-{house}.nc"
            program.write_text(write(piece), "ascii")
            yield drawing, program, Settings(shop_text=piece.shop(CONTROLS.get(house, ""), ""))
    yield folder / "nozzle.dxf", inputs.blocks(beside, 600), Settings()


def worked(folder: Path, out: Path) -> None:
    """Put all results into a folder; the drawings lie in another."""
    for path in drawings(folder):
        make_drawing(path, out, Settings(), NOW)
        if path.stem.startswith(("row", "piston", "ring", "office-0000")):
            for prefer in ("blocks", "tools"):
                changes = (f'machine.prefer="{prefer}"', "machine.stick_out=300")
                make_drawing(path, out / prefer, replace(Settings(), changes=changes), NOW)
    for drawing, program, settings in programs(folder):
        told = StringIO()
        with redirect_stdout(told):
            made = compare_files(drawing, program, settings)
            print_verdict(made.part, made.verdict, drawing.name, program.name)
        (out / f"{program.stem}.txt").write_text(told.getvalue(), "utf-8")
        (out / f"{program.stem}.verdict").write_text(repr(made.verdict), "utf-8")
    for record in out.rglob("*.json"):
        found = json.loads(record.read_text("utf-8"))
        found.pop("source", None)
        record.write_text(dump(found), "utf-8")


def main() -> None:
    """Keep the results, or hold them against those that are kept."""
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("what", choices=("keep", "hold"))
    ask.add_argument("folder", type=Path)
    given = ask.parse_args()
    kept, now = given.folder / "kept", given.folder / "now"
    if given.what == "keep":
        shutil.rmtree(given.folder, ignore_errors=True)
        worked(given.folder / "drawings", kept)
        return
    shutil.rmtree(now, ignore_errors=True)
    worked(given.folder / "drawings", now)
    names = sorted({p.relative_to(top) for top in (now, kept) for p in top.rglob("*") if p.is_file()})
    other = [name for name in names if not _same(kept / name, now / name)]
    print("\n".join([*map(str, other), f"{len(other)} of {len(names)} files differ"]))


def _same(one: Path, two: Path) -> bool:
    """True if both files are there and alike."""
    return one.exists() and two.exists() and one.read_bytes() == two.read_bytes()


if __name__ == "__main__":
    main()
