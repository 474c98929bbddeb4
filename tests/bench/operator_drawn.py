"""Changes of `operator_changes.py` in the reading of drawings that were looked at and change nothing to be seen."""

from operator_sight import SWAPS

_ROWS = "how many rows there are is worked out for any number below nothing"
_CLOUDS = "extractor/viewing/clouds.py"
_FILLED = "lines = shapely.linestrings(axis.fold(drawn.ends[wide].reshape(-1, 2)).reshape(-1, 2, 2))"
_MEASURED: dict[str, tuple[tuple[str, str], ...]] = {
    "extractor/viewing/half_alone.py": (
        (">", "if not half.size or any(other.size > ALONE * half.size for other in shapes[1:]):"),
        (">", "if len(ends) != ENDS or abs(ends[0, 1 - way] - ends[1, 1 - way]) > within:"),
        ("<=", "one_sided = min(across.max(), -across.min()) <= within"),
        (">=", "whole = np.ptp(ends[:, way]) >= np.ptp(half.box[way::2]) - within"),
        ("<=", "return [level] if one_sided and whole and off_ends.max() <= within else []"),
        ("<=", "return found if off <= within else []"),
        # A figure that lies aslant has no side along x or y.
        (">", "way = int(abs(view.axis.direction[1]) > abs(view.axis.direction[0]))"),
        ("<=", "on = ink.network.edges[k].bulge == 0 and np.abs(ends[:, 1 - way] - level).max() <= within"),
        (">=", "if covered >= np.ptp(figure.box[way::2]) - within:"),
    ),
    "extractor/placing/laying.py": ((">=", "return front - back >= view.high - view.low - laid.folded.close"),),
    "extractor/recess/filled.py": (
        (">", "and below.area > BELOW * area.area"),
        (
            ">=",
            "if all(any(shapely.intersection(area, o).area >= ALIKE * max(area.area, o.area) for o in r) "
            "for r in rows[1:]):",
        ),
        # Of no area nothing lies in the metal.
        (">", "return [area for area in (*inked, *strokes.tolist()) if area.area > 0]"),
    ),
    _CLOUDS: (
        # Only arcs are left, and those bulge.
        (">", "if not (np.all(half > 0) or np.all(half < 0)):"),
        ("<", "if not (np.all(half > 0) or np.all(half < 0)):"),
        ("<", "return bool((back < -BACK).mean() >= CUSPS) and _broad(places, WIDE * long)"),
        ("<", "return bool(away.min() < ROUND * away.max() and sides.min() >= wide)"),
    ),
    "extractor/grammar.py": (
        # An odd number is no power of two.
        (">=", 'return match.group(0) if top % 2 == 0 or top >= bottom else f"{whole + top / bottom:.6f}"'),
        # A class begins with a letter, deviations don't.
        ("<", "if loose is not None and (fit is None or loose.start() < fit.start()):"),
    ),
}
"""Comparisons, by file, of what is measured off a drawing, with roots, areas or shares; or of what is never alike."""

DRAWN: dict[tuple[str, str, str, str], str] = {
    (_CLOUDS, "return np.zeros(0, dtype=np.int64)", "0", "1"): "one arc alone is never broad",
    (_CLOUDS, "way = [2 * row[0]]", "0", "1"): "a ring begins anywhere",
    (_CLOUDS, "ends = arcs.ends.reshape(-1, 2)", "1", "2"): _ROWS,
    ("extractor/placing/laying.py", "closed: int = 0", "0", "1"): "one is not several",
    ("extractor/recess/filled.py", _FILLED, "1", "2"): _ROWS,
}
"""File, the line as it stands, old and new text, each with the reason."""
DRAWN |= {
    (name, row, sign, SWAPS[sign]): "both sides are never just as much"
    for name, rows in _MEASURED.items()
    for sign, row in rows
}
DRAWN |= {
    (
        "extractor/placing/in_pieces.py",
        "loose = one.axis.fold(np.array([network.point(n) for n in free]).reshape(-1, 2))",
        "1",
        "2",
    ): "any negative number asks numpy for what is left",
    (
        "extractor/placing/laying.py",
        "return [float(z) for z, _ in folded.axis.fold(np.array(places).reshape(-1, 2))]",
        "1",
        "2",
    ): "any negative number asks numpy for what is left",
}
