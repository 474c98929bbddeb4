"""Counts the drawn entities that a DXF text names, so that none is lost in silence on the way to a document.

Rules: a reader library silently drops or merges entities of a damaged file; a part short of a groove looks right. Only
plain kinds that draw outlines are counted, over entities and blocks alike.
"""

from collections import Counter
from dataclasses import dataclass
from itertools import islice

from ezdxf.document import Drawing

from extractor.opening.fileform import LINE_END, is_binary

COUNTED = frozenset({"LINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE", "LWPOLYLINE", "POLYLINE", "INSERT"})
SINGLE = frozenset({b"LINE", b"ARC", b"CIRCLE", b"ELLIPSE"})
"""Kinds that have one point of group 10; two mean that an entity lost its start and ran into the one before."""


@dataclass(frozen=True)
class Census:
    """Entities named by kind, and the lines of the file in which one ran into another."""

    named: Counter[str]
    merged: tuple[int, ...]


def census(data: bytes) -> Census | None:
    """What a DXF text names; None for the binary form."""
    if is_binary(data):
        return None
    lines = LINE_END.split(data)
    named: Counter[str] = Counter()
    merged: list[int] = []
    kind, points = b"", 0
    pairs = zip(islice(lines, 0, None, 2), islice(lines, 1, None, 2), strict=False)
    for number, (code, value) in enumerate(pairs):
        code = code.strip()
        if code == b"0":
            kind, points = value.strip(), 0
            named[kind.decode("ascii", "replace")] += 1
        elif code == b"10" and kind in SINGLE:
            points += 1
            if points == 2:
                merged.append(2 * number + 1)
    return Census(Counter({k: n for k, n in named.items() if k in COUNTED}), tuple(merged))


def lost(counted: Census, doc: Drawing) -> Counter[str]:
    """Entities named in the text that no layout and no block of the document holds, by kind."""
    held = Counter(entity.dxftype() for layout in doc.layouts_and_blocks() for entity in layout)
    return counted.named - held
