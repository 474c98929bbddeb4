"""Changes of `operator_changes.py` in the cutting and the reading of programs that change nothing to be seen."""

_METAL = "postproc/cutting/metal.py"
_CONTOURS = "postproc/reading/actions/contours.py"
_ALONE = "it only makes more work: what is not taken for alike is cut for itself"
_NO_LENGTH = "where one end is level with the cut, the part of no length that this leaves is dropped"
PROGRAMS: dict[tuple[str, str, str, str], str] = {
    (
        "postproc/cutting/stock.py",
        "if insert.flat and (u0 == u1 or h0 == h1):",
        "or",
        "and",
    ): "it only saves work: the hull of such a move is the same piece",
    (_METAL, "tuple([u - start for u in self._u]),", "-", "+"): _ALONE,
    (_METAL, "tuple([(shape, at - start, line) for shape, at, line in cuts]),", "-", "+"): _ALONE,
    (
        _METAL,
        "rows.append((self._u[k] if self._u[k] > u0 else u0, height, by, way))",
        ">",
        ">=",
    ): "both are the same then",
    (_METAL, "first, second = (new, old) if start > 0 else (old, new)", ">", ">="): "where they cross both ends differ",
    (
        "postproc/cutting/corners.py",
        "if key not in found and any(metal.above(piece) + rib > 0 for piece in swept(motion, insert)):",
        ">",
        ">=",
    ): "as high as a rib there is nothing left to take",
    (_METAL, "if start >= 0 and end >= 0:", ">=", ">"): _NO_LENGTH,
    (_METAL, "if start >= 0 and end >= 0:", "0", "1"): _NO_LENGTH,
    (
        _CONTOURS,
        "out = end + (aside if begin > end else -aside)",
        ">",
        ">=",
    ): "a pass that goes nowhere is left out before",
    (
        "postproc/reading/actions/grooving.py",
        "return self.start[1] + (shift if front else -shift) * min(shifts, MOST_GROOVES + 1)",
        "1",
        "2",
    ): "more grooves than are taken are a stop, however many",
    (
        "postproc/reading/actions/foreign.py",
        "side = 1 if start_x >= x else -1",
        ">=",
        ">",
    ): "where both are one there is the last pass alone, and that is at the root",
}
"""File, the line as it stands, old and new text of changes that nothing could notice, each with the reason."""
