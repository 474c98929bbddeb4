"""Counts the drawn entities that a DXF text names, so that none is lost in silence on the way to a document.

Rules: a reader library silently drops or merges entities of a damaged file; a part short of a groove looks right. Only
plain kinds that draw outlines are counted, over entities and blocks alike.
"""

import re
from collections import Counter
from itertools import chain, compress

from ezdxf.document import Drawing

from extractor.opening.fileform import is_binary, lines_of
from extractor.opening.line_rows import count_of
from extractor.values import dataclass

COUNTED = frozenset({"LINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE", "LWPOLYLINE", "POLYLINE", "INSERT"})
SINGLE = frozenset({b"LINE", b"ARC", b"CIRCLE", b"ELLIPSE"})
"""Kinds that have one point of group 10; two mean that an entity lost its start and ran into the one before."""

ENTITIES = re.compile(rb"[\r\n][ \t]*2[ \t]*\r?\n[ \t]*ENTITIES[ \t]*(?=[\r\n])")
ENTITY = re.compile(rb"[\r\n][ \t]*0[ \t]*\r?\n[ \t]*(?!VERTEX\b|SEQEND\b|ATTRIB\b)(?:3D)?[A-Z][A-Z0-9_]*")
ON_PAPER = re.compile(rb"67(?<=[\r\n \t]67)[ \t]*\r?\n[ \t]*1[ \t]*(?=[\r\n])")  # its first letters are found at once


def listed(data: bytes) -> int:
    r"""At least so many entities stand in the model space of a DXF text; 0 for the binary form.

    >>> listed(b"  0\nSECTION\n  2\nENTITIES\n  0\nLINE\n  8\n0\n 10\n0\n  0\nTEXT\n 67\n     1\n  0\nENDSEC\n")
    1
    """
    found = None if is_binary(data) else ENTITIES.search(data)
    if found is None:
        return 0
    start, end = found.end(), data.find(b"ENDSEC", found.end())
    names, papers = (len(pattern.findall(data, start, max(end, start))) for pattern in (ENTITY, ON_PAPER))
    return names - papers


@dataclass(frozen=True)
class Census:
    """Entities named by kind, and the lines of the file in which one ran into another."""

    named: Counter[str]
    merged: tuple[int, ...]


def census(data: bytes) -> Census | None:
    """What a DXF text names; None for the binary form."""
    if is_binary(data):
        return None
    lines = lines_of(data)
    codes, values = lines[::2], lines[1::2]
    meant = {code: code.strip() for code in set(codes)}
    starts, places = ({code for code, plain in meant.items() if plain == group} for group in (b"0", b"10"))
    looked_at = starts | places
    named: Counter[bytes] = Counter()
    merged: list[int] = []
    kind, points = b"", 0
    for number in compress(range(len(values)), map(looked_at.__contains__, codes)):
        if codes[number] in starts:
            kind, points = values[number].strip(), 0
            named[kind] += 1
        elif kind in SINGLE:
            points += 1
            if points == 2:
                merged.append(2 * number + 1)
    return Census(Counter({kind: named[kind.encode()] for kind in COUNTED if kind.encode() in named}), tuple(merged))


def lost(counted: Census, doc: Drawing) -> Counter[str]:
    """Entities named in the text that no layout and no block of the document holds, by kind."""
    held: Counter[str] = Counter()
    for entity in chain.from_iterable(doc.layouts_and_blocks()):
        held[entity.dxftype()] += count_of(entity)
    return counted.named - held
