"""What the houses share: numbers as typed, places of plunges and passes, the shape to be turned."""

from collections.abc import Iterator, Sequence

from support.wholes.pieces import WIDTH, Piece

OVER = 4.0
DEEPER = 3.5


def n(value: float) -> str:
    """A number as people type it: no more digits than it has, always a point."""
    text = f"{value:.3f}".rstrip("0")
    return "0." if text in ("-0.", "0.") else text


def w(value: float) -> str:
    """A length in whole thousandths."""
    return str(round(value * 1000))


def clear_of(piece: Piece, far: float, near: float) -> float:
    """A diameter clear of the lands beside a groove."""
    return max(d for z, d in piece.steps if z >= far) + 2.0 if far > -piece.length else piece.stock + 2.0


def plunges(near: float, far: float) -> list[float]:
    """Where the far edge of the insert goes for one groove, from the front wall to the chuck's."""
    places, z = [], near - WIDTH
    while z > far + 0.01:
        places.append(round(z, 3))
        z -= 2.5
    return [*places, far]


def pecks(start: float, end: float, by: float) -> Iterator[float]:
    """How far each peck goes, downward, the last to the end."""
    while start > end:
        start = max(end, start - by)
        yield start


def profile(piece: Piece, ahead: float) -> list[tuple[float, float]]:
    """The turned shape from so far ahead of the face, on along the broken edge, to behind the part and out."""
    shape = piece.shape
    start = (shape[0][0] - 2 * ahead, ahead)
    behind = -piece.length - DEEPER
    return [start, *shape[1:-1], (shape[-1][0], behind), (piece.stock + 2.0, behind)]


def roughing(piece: Piece, most: float, left: float = 0.4, least: float = 0.5) -> Iterator[tuple[float, float]]:
    """Diameter and end of each roughing pass, steps from the chuck on, so much `left`; none thinner than `least`."""
    level = piece.stock
    for k in range(len(piece.steps) - 1, -1, -1):
        across = piece.steps[k][1]
        stop = piece.steps[k + 1][0] + 0.2 if k + 1 < len(piece.steps) else -piece.length - DEEPER
        while level > across + least:
            level = round(max(level - most, across + left), 3)
            yield level, stop


def boxes(piece: Piece) -> Iterator[tuple[float, float]]:
    """The same for the boxes of a cycle, the last of each step 0.6 above it."""
    level, stop = piece.stock, -piece.length - DEEPER
    for start, across in reversed(piece.steps):
        while level - 3.0 > across + 0.6:
            level -= 3.0
            yield level, stop + 0.1
        yield across + 0.6, stop + 0.1
        level, stop = across, start


def thread_of(piece: Piece, shares: Sequence[float] = (0.4, 0.7, 0.9, 1.0, 1.0)) -> tuple[float, float, list[float]]:
    """Land and end of a thread, and the diameter of each pass; `shares` of the depth are how deep each goes."""
    stop = (piece.steps[1][0] if len(piece.steps) > 1 else -piece.length) + 1.5
    wide = piece.steps[0][1]
    return wide, stop, [wide - 2 * 0.6134 * piece.pitch * share for share in shares]
