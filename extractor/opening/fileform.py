"""Tells from a file's bytes why it can't be read as a DXF, in words that say what to do, and mends what is harmless.

Rules: bytes in, words out; no file is touched here. Damage that could change a number is never mended: a decimal
comma read as a point's end would turn 2,5 into 2.
"""

import re

LARGEST = 25_000_000
"""Bytes of the largest file read; real sheets reach 4 MB, and reading takes some 24 times the size as memory."""

FOREIGN: tuple[tuple[bytes, str], ...] = (
    (b"AC10", "is a DWG renamed to .dxf; open it in your CAD and save it as DXF."),
    (b"%PDF", "is a PDF, not a DXF; ask for the drawing as DXF."),
    (b"PK\x03\x04", "is a ZIP archive, not a DXF; unpack it first."),
    (b"\x1f\x8b", "is a compressed archive, not a DXF; unpack it first."),
    (b"\x89PNG", "is a picture, not a DXF; ask for the drawing as DXF."),
    (b"\xff\xd8\xff", "is a picture, not a DXF; ask for the drawing as DXF."),
    (b"\xff\xfe", "is saved as UTF-16 text, which no DXF is; save the drawing as DXF again."),
    (b"\xfe\xff", "is saved as UTF-16 text, which no DXF is; save the drawing as DXF again."),
    (b"ISO-10303-21", "is a STEP model, not a DXF; make a 2D drawing of it and save that as DXF."),
    (b"solid ", "is a mesh model, not a DXF; make a 2D drawing of it and save that as DXF."),
    (b"<svg", "is an SVG, not a DXF; save the drawing as DXF."),
    (b"<?xml", "is an XML file, not a DXF; save the drawing as DXF."),
    (b"<!DOCTYPE", "is a web page, not a DXF; the download probably failed."),
    (b"<html", "is a web page, not a DXF; the download probably failed."),
    (b"version https://", "is a pointer to a file kept elsewhere, not the DXF itself; fetch the file."),
)
"""First bytes of files that turn up under the name .dxf, and what to say."""

BYTE_ORDER_MARK = b"\xef\xbb\xbf"
BINARY_MARK = b"\r\n\x1a\x00"
"""Bytes 18 to 21 of every binary DXF."""
COMMA = re.compile(rb"[\r\n][ \t]*(?:1[0-9]|2[0-9]|3[0-9]|4[0-9]|5[0-9])[ \t]*[\r\n]+[ \t]*-?\d+,\d+[ \t]*[\r\n]")
"""A coordinate or size (groups 10 to 59) written with a decimal comma."""
END = re.compile(rb"[\r\n][ \t]*0[ \t]*[\r\n]+[ \t]*EOF\b")
END_MARK, AT_THE_END = b"EOF", 20
"""The end mark, and within how many bytes before it its group code is looked for first."""


def lines_of(data: bytes) -> list[bytes]:
    """The lines of a text; each may end as Unix, Windows or old systems end them."""
    return data.replace(b"\r\n", b"\n").replace(b"\r", b"\n").split(b"\n")


def is_binary(data: bytes) -> bool:
    """True for a DXF in the binary form."""
    return data[18:22] == BINARY_MARK


def fault_of(data: bytes) -> str:
    """Why the bytes can't be a DXF, "" where they may be; the file's name goes before it.

    >>> fault_of(b"")
    'is empty; save the drawing again.'
    """
    if not data.strip(b" \t\r\n\0"):
        return "is empty; save the drawing again."
    start = data.removeprefix(BYTE_ORDER_MARK).lstrip()
    for mark, words in FOREIGN:
        if start.startswith(mark):
            return words
    if b"SECTION" not in data:
        return "is not a DXF, or only a fragment of one: it has no SECTION; save the whole drawing as DXF."
    return "" if is_binary(data) else _text_fault(data)


def _text_fault(data: bytes) -> str:
    """What is wrong with a DXF in the text form."""
    mark = data.find(b"\n<<<<<<< ")
    if mark >= 0 and b"\n>>>>>>> " in data:
        return f"holds merge-conflict markers, the first in line {_line(data, mark + 1)}; take one version whole."
    comma = COMMA.search(data) if b"," in data else None
    if comma:
        line = _line(data, comma.end() - 1)
        return f"writes numbers with decimal commas, the first in line {line}; export it again with decimal points."
    if not _has_end(data) and not _ends_a_section(data):
        return f"breaks off in line {_line(data, len(data))}, before its end; copy or export the file again."
    return ""


def _has_end(data: bytes) -> bool:
    """True if an end mark stands in a line of its own; it is looked for at the end of the file first."""
    return bool(END.search(data, max(0, data.rfind(END_MARK) - AT_THE_END)) or END.search(data))


def _ends_a_section(data: bytes) -> bool:
    """True if only the end mark is missing: the last thing in the file closes a section."""
    return data.rstrip().endswith(b"ENDSEC")


def _line(data: bytes, place: int) -> int:
    """Number of the line that a byte stands in, from 1."""
    return len(lines_of(data[:place]))


def mended(data: bytes) -> tuple[bytes, str]:
    r"""The bytes with harmless damage mended, and what was done ("" for nothing).

    >>> mended(b"  0\nSECTION\n  0\nENDSEC\n")[1]
    'the end mark (EOF) was missing'
    """
    if is_binary(data):
        return data, ""
    done = []
    if data.startswith(BYTE_ORDER_MARK):
        data = data.removeprefix(BYTE_ORDER_MARK)
    if data[:1] in (b"\r", b"\n") or not data[:6].strip():
        data = data.lstrip()
        done.append("empty lines stood before the start")
    if not _has_end(data):
        data = data.rstrip() + b"\r\n  0\r\nEOF\r\n"
        done.append("the end mark (EOF) was missing")
    return data, ", ".join(done)
