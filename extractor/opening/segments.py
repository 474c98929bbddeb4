"""From strokes to the segment arrays and circles of a sheet; the chord error is chosen and reported here."""

import math
from collections import Counter

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.opening.collect import FARTHEST, Collected
from extractor.opening.copies import without_copies
from extractor.opening.doubles import without_doubles
from extractor.opening.entities import MAKERS
from extractor.opening.meshes import without_meshes
from extractor.opening.patterns import THIN, box, without_patterns
from extractor.opening.splines import Curve, Stroke, curve_pieces
from extractor.opening.strokes import Chain, Conic, Lines, Piece, conic_pieces
from extractor.sheet import Circle, Segments, Source

CHORD_SHARE = 2e-6
"""Chord error as a share of the drawing's diagonal: 0.001 mm on a sheet of 500 mm."""
ROUND = 1e-3
"""Share of its radius within which the points of a closed chain lie on a circle."""
FLAT = 0.035
"""The same for the middles of its edges: of twelve chords a turn and more, and of arcs."""
WIRE_SHARE = 0.1
"""Share of lines out of the plane from which a sheet is a wire model."""
MOST_PIECES = 500_000
"""Straight lines and arcs that a sheet may come to once its curves are cut; more take over a gigabyte to go on with."""


def segments_of(collected: Collected) -> tuple[Segments, tuple[Circle, ...], tuple[Finding, ...]]:
    """Segments, full circles and what there is to say about them."""
    near, far = [], Counter[str]()
    for stroke, source in collected.strokes:
        within, beyond = _within(stroke)
        near += [(within, source)] if within is not None else []
        far[source.kind] += beyond
    across = diagonal([stroke for stroke, _ in near])
    near, said = without_patterns(near, THIN * across)
    build = _Build(CHORD_SHARE * across)
    for stroke, source in near:
        build.add(stroke, source)
        if build.count > MOST_PIECES:
            return _Build(0.0).segments(), (), (_too_many(),)
    segments, copies = without_copies(build.segments())
    segments, meshes = without_meshes(segments)
    return segments, tuple(build.circles), (*said, *copies, *meshes, *_findings(collected, far, build))


def _within(stroke: Stroke) -> tuple[Stroke | None, int]:
    """What lies on the sheet of a stroke, and how many strokes don't."""
    if isinstance(stroke, Lines):
        fits = (np.abs(stroke.ends) <= FARTHEST).all(axis=1)
        if not fits.all():
            kept = np.flatnonzero(fits).tolist()
            stroke = Lines(stroke.ends[kept], tuple(stroke.handles[k] for k in kept))
        return stroke if len(stroke.ends) else None, int((~fits).sum())
    return (stroke, 0) if reach(stroke) <= FARTHEST else (None, 1)


class _Build:
    """Gathers pieces under their sources."""

    def __init__(self, chord_error: float) -> None:
        self.chord_error = chord_error
        self.circles: list[Circle] = []
        self.curved = 0
        self._pieces: list[Piece] = []
        self._index: list[int] = []
        self._sources: list[Source] = []

    def add(self, stroke: Stroke, source: Source) -> None:
        """Cut one stroke into segments, or keep it as a circle."""
        if isinstance(stroke, Conic) and stroke.whole and stroke.radius is not None:
            self.circles.append(Circle(stroke.centre, stroke.radius, source))
            return
        if isinstance(stroke, Chain) and not source.owner and (ring := _ring(stroke)) is not None:
            self.circles.append(Circle(*ring, source))
            return
        if isinstance(stroke, Lines):
            rows = range(len(self._sources), len(self._sources) + len(stroke.handles))
            self._pieces += [(*ends, 0.0) for ends in stroke.ends.tolist()]
            self._index += rows
            self._sources += [Source(handle, *source[1:]) for handle in stroke.handles]
            return
        pieces, chords = self._cut(stroke)
        if chords:
            self.curved += 1
            source = source._replace(curve=True)
        if not self._sources or self._sources[-1] != source:
            self._sources.append(source)
        self._pieces += pieces
        self._index += [len(self._sources) - 1] * len(pieces)

    def _cut(self, stroke: Chain | Conic | Curve) -> tuple[list[Piece], bool]:
        if isinstance(stroke, Conic):
            return conic_pieces(stroke, self.chord_error)
        if isinstance(stroke, Curve):
            return curve_pieces(stroke, self.chord_error)
        joined = zip(stroke.points, stroke.points[1:], stroke.bulges, strict=False)
        return [(*a, *b, bulge) for a, b, bulge in joined], False

    @property
    def count(self) -> int:
        """Pieces so far."""
        return len(self._pieces)

    def segments(self) -> Segments:
        """The arrays."""
        table = np.array(self._pieces, dtype=np.float64).reshape(-1, 5)
        index = np.array(self._index, dtype=np.int64)
        return without_doubles(Segments(table[:, :4].copy(), table[:, 4].copy(), index, tuple(self._sources)))


def _ring(chain: Chain) -> tuple[Point, float] | None:
    """Middle and radius of the circle that a closed chain draws, of two arcs and more or of many chords; else None."""
    if len(chain.points) < 3 or chain.points[0] != chain.points[-1]:
        return None
    ends, bulges = np.array(chain.points), np.array(chain.bulges)
    run = np.diff(ends, axis=0)
    amid = (ends[1:] + ends[:-1]) / 2 + bulges[:, None] / 2 * run[:, ::-1] * (1, -1)
    middle = ends[:-1].mean(axis=0)
    radius, off = (np.hypot(*(row - middle).T) for row in (ends, amid))
    most = float(radius.max())
    if radius.min() < (1 - ROUND) * most or abs(off - most).max() >= FLAT * most:
        return None
    return (float(middle[0]), float(middle[1])), most


def reach(stroke: Stroke) -> float:
    """Largest coordinate of a stroke, infinite if any is not a number."""
    numbers: list[float] = list(box(stroke))
    if isinstance(stroke, Chain):
        numbers = [c for p in stroke.points for c in p] + list(stroke.bulges)
    elif isinstance(stroke, Conic):
        numbers += [stroke.start, stroke.end]
    return max(map(abs, numbers)) if all(map(math.isfinite, numbers)) else math.inf


def count(stroke: Stroke) -> int:
    """How many entities' strokes this is."""
    return len(stroke.handles) if isinstance(stroke, Lines) else 1


def diagonal(strokes: list[Stroke]) -> float:
    """Diagonal of the box around all strokes."""
    if not strokes:
        return 0.0
    boxes = np.array([box(stroke) for stroke in strokes])
    low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
    return float(np.hypot(*(high - low)))


def _too_many() -> Finding:
    """The stop for curves that come to more pieces than are read."""
    words = f"The sheet comes to over {MOST_PIECES:,} lines once its curves are cut into chords; save the part alone."
    return Finding(Level.STOP, DrawingCode.TOO_MANY_ENTITIES, words)


def _wire_finding(tilted: int, strokes: int) -> Finding:
    """A few lines out of the plane are slips of the pen; many are a wire model seen from above."""
    if tilted > max(2, WIRE_SHARE * strokes):
        words = f"{tilted} of {strokes} lines rise out of the drawing plane: a wire model; make a 2D view of the part."
        return Finding(Level.STOP, DrawingCode.THREE_D_ONLY, words)
    message = f"{tilted} lines rise out of the drawing plane; read as seen from above."
    return Finding(Level.CAUTION, DrawingCode.LINE_TILTED, message)


def _findings(collected: Collected, far: Counter[str], build: _Build) -> list[Finding]:
    """What was left out or approximated."""
    found = []
    if build.curved:
        words = f"{build.curved} curves were cut into chords within {build.chord_error:.2g} units of the true curve."
        found.append(Finding(Level.NOTE, DrawingCode.CURVES_FLATTENED, words))
    if collected.bodies:
        kinds = ", ".join(sorted(collected.bodies))
        if collected.strokes:
            words = f"{collected.bodies.total()} bodies were left out ({kinds}): only flat lines are read."
            found.append(Finding(Level.CAUTION, DrawingCode.BODIES_LEFT_OUT, words))
        else:
            words = f"The file holds only bodies ({kinds}), no flat drawing; make a 2D view of the part and save that."
            found.append(Finding(Level.STOP, DrawingCode.THREE_D_ONLY, words))
    if collected.unreadable:
        kinds = ", ".join(f"{count} {kind}" for kind, count in sorted(collected.unreadable.items()))
        words = (
            f"Pictures or foreign objects can't be read and were left out ({kinds}); see that the part is none of them."
        )
        found.append(Finding(Level.CAUTION, DrawingCode.UNREADABLE_LEFT_OUT, words))
    if collected.tilted:
        found.append(_wire_finding(collected.tilted, sum(count(stroke) for stroke, _ in collected.strokes)))
    found += _damaged(collected.broken + far, collected.damaged)
    return found


def _damaged(broken: Counter[str], places: dict[str, Point]) -> list[Finding]:
    """A stop for drawn lines and curves that could not be read, a caution for damage to anything else."""
    found = []
    drawn = Counter({kind: n for kind, n in broken.items() if kind in MAKERS})
    if drawn:
        kinds = ", ".join(f"{count} {kind}" for kind, count in sorted(drawn.items()))
        at = next((places[kind] for kind in drawn if kind in places), None)
        where = f", the first near {place_words(at)}" if at else ""
        words = f"Drawn lines are damaged in the file and can't be read ({kinds}{where}); export the drawing again."
        found.append(Finding(Level.STOP, DrawingCode.ENTITY_DAMAGED, words, at))
    others = broken - drawn
    if others:
        words = (
            f"{others.total()} damaged entities were left out ({', '.join(sorted(others))}); compare with the print."
        )
        found.append(Finding(Level.CAUTION, DrawingCode.ANNOTATION_DAMAGED, words))
    return found
