"""Gives entities the subclass markers (group 100) that small programs leave out, so that they can be loaded.

Rules: bytes in, bytes out. Only markers are added, and an entity's own groups repeated: every number stays
as it was. Kinds and markers: DXF reference, R2000 and later.
"""

from collections.abc import Iterable, Iterator

from extractor.opening.fileform import is_binary, lines_of

MARKERS = {
    b"LWPOLYLINE": b"AcDbPolyline",
    b"SPLINE": b"AcDbSpline",
    b"ELLIPSE": b"AcDbEllipse",
    b"MTEXT": b"AcDbMText",
    b"HATCH": b"AcDbHatch",
    b"LEADER": b"AcDbLeader",
    b"IMAGE": b"AcDbRasterImage",
}
"""Kinds that came after R12; without its marker the loader gives the whole file up. Older kinds do without."""

HANDLE = b"5"

GENERAL = (b"67", b"410", b"8", b"6", b"62", b"370", b"48", b"60")
"""Groups that every entity has in front of its own."""

VIEWPORT = b"VIEWPORT"
OWN_DATA = b"1001"

Pair = tuple[bytes, bytes]


def remarked(data: bytes) -> tuple[bytes, str]:
    r"""The text with its missing markers, and how many entities needed one ("" for none).

    Windows of an old layout without their own data (group 1001) can't be loaded either; they draw nothing, so they go.

    >>> remarked(b"0\nSPLINE\n8\n0\n70\n8\n0\nEOF\n")[1]
    'SPLINE without its subclass marker'
    """
    if is_binary(data):
        return data, ""
    lines = lines_of(data)
    pairs = [(code.strip(), value) for code, value in zip(lines[::2], lines[1::2], strict=False)]
    made: list[Pair] = []
    mended: list[str] = []
    for entity in _entities(pairs):
        kind = entity[0][1].strip()
        if kind in MARKERS and not any(code == b"100" for code, _ in entity):
            mended.append(kind.decode())
            made += _marked(entity, MARKERS[kind])
        elif kind != VIEWPORT or any(code in (b"100", OWN_DATA) for code, _ in entity):
            made += entity
    if len(made) == len(pairs):
        return data, ""
    return b"".join(code + b"\n" + value + b"\n" for code, value in made), _told(mended)


def _told(kinds: list[str]) -> str:
    """In words what was mended."""
    if not kinds:
        return ""
    count = f"{len(kinds)} entities, the first a " if len(kinds) > 1 else ""
    return f"{count}{kinds[0]} without its subclass marker"


def _entities(pairs: Iterable[Pair]) -> Iterator[list[Pair]]:
    """The pairs from each group 0 to the next; what comes before the first is dropped, as loaders do."""
    entity: list[Pair] = []
    for pair in pairs:
        if pair[0] == b"0" and entity:
            yield entity
            entity = []
        if pair[0] == b"0" or entity:
            entity.append(pair)
    if entity:
        yield entity


def _marked(entity: list[Pair], marker: bytes) -> list[Pair]:
    """The entity with every group before the first marker, where loaders of old versions look, and after its marker."""
    general = [pair for pair in entity[1:] if pair[0] in GENERAL]
    own = [pair for pair in entity[1:] if pair[0] not in (HANDLE, *GENERAL)]
    return [*entity, (b"100", b"AcDbEntity"), *general, (b"100", marker), *own]
