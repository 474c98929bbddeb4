"""Shows a reading in the user's own CAD: a copy of the drawing with what was recognised on layers of their own.

Rules: nothing of the drawing is changed. The layers don't plot, so that the copy prints like the original and, read
again, gives the same part. The copy appears whole or not at all.
"""

import os
import secrets
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from ezdxf.document import Drawing
from ezdxf.layouts.base import BaseLayout

from extractor.dxf import LOAD_FAULTS, open_layout
from extractor.errors import DrawingError, SettingsError
from extractor.finding import Finding, Level, Point
from extractor.opening.expand import OVERLAY_PREFIX
from extractor.part import Frame, Groove, Part, Reading

LAYERS = {"OUTLINE": 3, "AXIS": 1, "FRONT": 5, "GROOVES": 6, "SETS": 4, "FINDINGS": 30, "UNEXPLAINED": 2}
"""Name behind the prefix, and colour index, of each layer that is added."""
TEXT_SHARE = 1 / 30
"""Letter height as a share of the part's larger size."""
LETTERS = 2.5
"""Letter height where no part was read, drawing units (the least of ISO 3098, from memory)."""
LINE_STEP = 1.6
"""Letter heights from one line of findings to the next (ISO 3098, about, from memory)."""


def write_overlay(drawing: Path, reading: Reading, sets: Sequence[tuple[int, ...]], out: Path) -> None:
    """Write a copy of the drawing with outline, axis, front, numbered grooves, sets, findings and unexplained ink.

    `sets`: the groove numbers of each evenly pitched set. Raises `SettingsError` where `out` is the drawing itself,
    `DrawingError` where the drawing can't be read.
    """
    if out.exists() and out.resolve() == drawing.resolve():
        raise SettingsError(f"--overlay {out.name} would overwrite the drawing; give another name.")
    doc, layout = open_layout(drawing)
    pen = _Pen(doc, layout, _height(reading.part), reading.file)
    if reading.part is not None and reading.part.frame is not None:
        _draw_part(pen, reading.part, reading.part.frame, sets)
    for line in reading.ink.left if reading.ink is not None else ():
        pen.path("UNEXPLAINED", line)
    _draw_findings(pen, reading)
    _save(doc, out, reading.file)


def _height(part: Part | None) -> float:
    """Letter height as drawn."""
    if part is None or part.frame is None:
        return LETTERS
    return max(part.outer_diameter, part.length) * part.frame.scale * TEXT_SHARE


class _Pen:
    """Draws on the overlay's own layers; `DrawingError` where the drawing is too damaged for the library to add to."""

    def __init__(self, doc: Drawing, layout: BaseLayout, height: float, name: str) -> None:
        self._layout, self.height, self._name = layout, height, name
        self._old = doc.dxfversion <= "AC1009"
        with _whole_enough(name):
            for layer_name, colour in LAYERS.items():
                if OVERLAY_PREFIX + layer_name not in doc.layers:
                    layer = doc.layers.add(OVERLAY_PREFIX + layer_name, color=colour)
                    if not self._old:
                        layer.dxf.plot = 0

    def path(self, layer: str, points: Sequence[Point], *, closed: bool = False) -> None:
        """Straight lines through points."""
        add = self._layout.add_polyline2d if self._old else self._layout.add_lwpolyline
        with _whole_enough(self._name):
            add(points, close=closed, dxfattribs={"layer": OVERLAY_PREFIX + layer})

    def ring(self, layer: str, at: Point) -> None:
        """A circle that points to a place."""
        with _whole_enough(self._name):
            self._layout.add_circle(at, self.height, dxfattribs={"layer": OVERLAY_PREFIX + layer})

    def text(self, layer: str, words: str, at: Point) -> None:
        """One line of text that begins at a place."""
        attribs = {"layer": OVERLAY_PREFIX + layer, "insert": at, "height": self.height}
        with _whole_enough(self._name):
            self._layout.add_text(words.replace("%%", "% %"), dxfattribs=attribs)


def _draw_part(pen: _Pen, part: Part, frame: Frame, sets: Sequence[tuple[int, ...]]) -> None:
    """Everything that was recognised, in the drawing's own place and scale."""
    upper = [frame.on_sheet(z, r) for z, r in part.outline]
    lower = [frame.on_sheet(z, -r) for z, r in part.outline]
    pen.path("OUTLINE", upper)
    pen.path("OUTLINE", lower)
    if part.bore:
        for side in (1, -1):
            pen.path("OUTLINE", [frame.on_sheet(z, side * r) for z, r in part.bore])
    over, radius = pen.height / frame.scale, part.outer_diameter / 2
    pen.path("AXIS", [frame.on_sheet(2 * over, 0), frame.on_sheet(-part.length - 2 * over, 0)])
    pen.path("FRONT", [frame.on_sheet(0, -radius - 2 * over), frame.on_sheet(0, radius + 2 * over)])
    pen.text("FRONT", "Z0", frame.on_sheet(over / 2, radius + 2 * over))
    for groove in part.grooves:
        _draw_groove(pen, groove, frame, over)
    for numbers in sets:
        _draw_set(pen, [part.grooves[n - 1] for n in numbers], frame, radius + 4 * over, over)


def _draw_groove(pen: _Pen, groove: Groove, frame: Frame, over: float) -> None:
    """The groove's box on both sides, its number above the mouth."""
    floor, mouth = groove.floor_diameter / 2, groove.mouth_diameter / 2
    for side in (1, -1):
        corners = ((groove.z_near, mouth), (groove.z_near, floor), (groove.z_far, floor), (groove.z_far, mouth))
        pen.path("GROOVES", [frame.on_sheet(z, side * r) for z, r in corners], closed=True)
    above = max(floor, mouth) + over
    pen.text("GROOVES", str(groove.id), frame.on_sheet(groove.middle, above))


def _draw_set(pen: _Pen, grooves: Sequence[Groove], frame: Frame, radius: float, over: float) -> None:
    """A bracket over an evenly pitched set, with count and pitch."""
    if len(grooves) < 2:
        return
    front, back = grooves[0].z_near, grooves[-1].z_far
    corners = ((front, radius - over), (front, radius), (back, radius), (back, radius - over))
    pen.path("SETS", [frame.on_sheet(z, r) for z, r in corners])
    pitch = abs(grooves[0].z_near - grooves[1].z_near)
    pen.text("SETS", f"{len(grooves)} at pitch {pitch:.4f}", frame.on_sheet((front + back) / 2, radius + over / 2))


def _draw_findings(pen: _Pen, reading: Reading) -> None:
    """A ring at each finding that has a place, and all sentences under the part, stops first."""
    order = sorted(reading.findings, key=lambda f: list(Level).index(f.level))
    for number, finding in enumerate(order, start=1):
        if finding.at is not None:
            pen.ring("FINDINGS", finding.at)
            pen.text("FINDINGS", str(number), (finding.at[0] + pen.height, finding.at[1] + pen.height))
    for (x, y), line in zip(_places(pen, reading.part), _sentences(order), strict=False):
        pen.text("FINDINGS", line, (x, y))


def _sentences(findings: Iterable[Finding]) -> Iterable[str]:
    for number, finding in enumerate(findings, start=1):
        yield f"{number} {finding.level.value}: {finding.message}"


def _places(pen: _Pen, part: Part | None) -> Iterable[Point]:
    """Lines of text from below the part downward, from the sheet's origin where there is no part."""
    x, y = 0.0, 0.0
    if part is not None and part.frame is not None:
        radius = part.outer_diameter / 2
        corners = [part.frame.on_sheet(z, r) for z in (0.0, -part.length) for r in (radius, -radius)]
        x, y = min(c[0] for c in corners), min(c[1] for c in corners) - 3 * pen.height
    while True:
        yield x, y
        y -= LINE_STEP * pen.height


def _save(doc: Drawing, out: Path, name: str) -> None:
    """Write beside the target, then put in its place, so that nothing half written is left."""
    temporary = out.parent / f".rillwright-{secrets.token_hex(8)}.tmp"
    shown = out if str(out).isprintable() else ascii(str(out))
    try:
        with _whole_enough(name):
            _numbered_tables(doc)
            doc.saveas(temporary)
        with temporary.open("rb+") as written:
            os.fsync(written.fileno())
        os.replace(temporary, out)
    except OSError as error:
        why = (error.strerror or "unwritable").lower()
        raise SettingsError(f"--overlay {shown} can't be written: {why}.") from None
    finally:
        with suppress(OSError):
            temporary.unlink()


def _numbered_tables(doc: Drawing) -> None:
    """Give each table a handle that the file gave none: lines read without it, and the library writes none then."""
    for table in doc.tables.tables():
        if table.head.dxf.handle is None:
            table.head.dxf.handle = doc.entitydb.next_handle()


@contextmanager
def _whole_enough(name: str) -> Iterator[None]:
    """Say that the drawing is too damaged where the library can't add layers to it or write it."""
    try:
        yield
    except (MemoryError, OSError):
        raise
    except LOAD_FAULTS:
        words = (
            f"{name} is too damaged for a copy of it to be written; save it again in your CAD, or leave out --overlay."
        )
        raise DrawingError(words) from None
