"""What the houses share: numbers as typed, places of plunges, the shape to be turned."""

from support.wholes.pieces import WIDTH, Piece

OVER = 4.0
DEEPER = 3.5


def n(value: float) -> str:
    """A number as people type it: no more digits than it has, always a point."""
    text = f"{value:.3f}".rstrip("0")
    return "0." if text in ("-0.", "0.") else text


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


def profile(piece: Piece, ahead: float) -> list[tuple[float, float]]:
    """The turned shape from so far ahead of the face, on along the broken edge, to behind the part and out."""
    shape = piece.shape
    start = (shape[0][0] - 2 * ahead, ahead)
    behind = -piece.length - DEEPER
    return [start, *shape[1:-1], (shape[-1][0], behind), (piece.stock + 2.0, behind)]
