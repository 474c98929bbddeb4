"""Tells from a file's bytes why it can't be a DXF, in words that say what to do."""

LARGEST = 40_000_000
"""Bytes of the largest file read; real sheets reach 4 MB, and the reader needs some 20 times the size as memory."""

FOREIGN: tuple[tuple[bytes, str], ...] = (
    (b"AC10", "is a DWG renamed to .dxf; open it in your CAD and save it as DXF."),
    (b"%PDF", "is a PDF, not a DXF; ask for the drawing as DXF."),
    (b"PK\x03\x04", "is a ZIP archive, not a DXF; unpack it first."),
    (b"\x1f\x8b", "is a compressed archive, not a DXF; unpack it first."),
    (b"\x89PNG", "is a picture, not a DXF; ask for the drawing as DXF."),
    (b"\xff\xd8\xff", "is a picture, not a DXF; ask for the drawing as DXF."),
    (b"ISO-10303-21", "is a STEP model, not a DXF; make a 2D drawing of it and save that as DXF."),
    (b"solid ", "is a mesh model, not a DXF; make a 2D drawing of it and save that as DXF."),
    (b"<svg", "is an SVG, not a DXF; save the drawing as DXF."),
    (b"<!DOCTYPE", "is a web page, not a DXF; the download probably failed."),
    (b"<html", "is a web page, not a DXF; the download probably failed."),
    (b"version https://git-lfs", "is a pointer to a file kept elsewhere, not the DXF itself; fetch the file."),
)
"""First bytes of files that turn up under the name .dxf, and what to say."""

MERGE_MARKS = (b"<<<<<<< ", b"=======", b">>>>>>> ")


def fault_of(data: bytes) -> str:
    """Why the bytes can't be a DXF, "" where they may be; the file's name goes before it.

    >>> fault_of(b"")
    'is empty; save the drawing again.'
    """
    if not data.strip():
        return "is empty; save the drawing again."
    start = data.removeprefix(b"\xef\xbb\xbf").lstrip()
    for mark, words in FOREIGN:
        if start.startswith(mark):
            return words
    if b"\n<<<<<<< " in data and b"\n>>>>>>> " in data:
        line = data[: data.index(b"\n<<<<<<< ")].count(b"\n") + 2
        return f"holds merge-conflict markers, the first in line {line}; take one version whole and save it."
    if b"SECTION" not in data:
        return "is no DXF or a fragment of one: no SECTION in it; save the whole drawing as DXF."
    return ""
