"""The one module that opens a DXF: file in, `Sheet` out.

Rules: a file that is no drawing raises `DrawingError` with one sentence; whatever was repaired, left out or not
understood is a finding on the sheet. Nothing behind this module sees a DXF entity.
"""

import contextlib
import hashlib
import io
import logging
import math
from collections.abc import Iterable
from pathlib import Path

from ezdxf import recover
from ezdxf.document import Drawing
from ezdxf.filemanagement import dxf_stream_info
from ezdxf.filemanagement import read as read_text
from ezdxf.layouts.base import BaseLayout
from ezdxf.lldxf.tagger import binary_tags_loader

from extractor.codes import DrawingCode
from extractor.errors import DrawingError
from extractor.finding import Finding, Level
from extractor.geometry.crowds import TooDenseError
from extractor.grouping import grouped
from extractor.opening.arrays import told, without_arrays
from extractor.opening.census import census, listed, lost
from extractor.opening.collect import Collected, collect
from extractor.opening.expand import MOST_ENTITIES, Walk
from extractor.opening.fileform import LARGEST, fault_of, is_binary, mended
from extractor.opening.loading import document_of
from extractor.opening.segments import segments_of
from extractor.opening.texts import clean
from extractor.opening.unmarked import remarked
from extractor.opening.windows import around
from extractor.sheet import Dimension, Sheet
from extractor.viewing.roles import with_loose

LOAD_FAULTS = (Exception,)
"""What the reader library raises on damaged files: its own errors, and whatever a first wrong assumption brings."""

# Its warnings reach the user as findings, not as log lines.
logging.getLogger("ezdxf").addHandler(logging.NullHandler())


def load_sheet(path: Path) -> Sheet:
    """Read a DXF file of any version, text or binary.

    Raises `DrawingError` if there is no such file or it can't be read as a drawing.
    """
    name = clean(path.name)
    data = _bytes_of(path, name)
    digest = hashlib.sha256(data).hexdigest()
    if (count := listed(data)) > MOST_ENTITIES:
        return Sheet(name, digest, segments_of(Collected())[0], findings=(_too_many(count),))
    doc, findings = open_document(data, name)
    walk = Walk(doc)
    findings = (*findings, *_losses(data, doc))
    collected, _, layout_findings = _layouts(doc, walk)
    segments, circles, stroke_findings = segments_of(collected)
    return Sheet(
        file=name,
        sha256=digest,
        segments=segments,
        circles=circles,
        dimensions=tuple(collected.dimensions),
        texts=tuple(collected.texts),
        around=tuple(collected.around),
        windows=tuple(collected.windows),
        arrays=collected.arrays,
        unseen=collected.unseen,
        masks=tuple(collected.masks),
        insunits=_header_code(doc, data, "$INSUNITS"),
        measurement=_header_code(doc, data, "$MEASUREMENT"),
        findings=(*findings, *layout_findings, *stroke_findings, *walk_findings(walk)),
    )


def _megabytes(size: int) -> str:
    """A size in bytes as words."""
    return f"{size / 1_000_000:.0f} MB"


def _bytes_of(path: Path, name: str) -> bytes:
    """The file's bytes, refused with a reason where they can't be a drawing."""
    try:
        if path.exists() and not path.is_file():
            raise DrawingError(f"{name} is a folder, a pipe or a device; give the drawing's file.")
        size = path.stat().st_size
        if size > LARGEST:
            limit = f"drawings up to {_megabytes(LARGEST)} are read: save the turned part alone."
            raise DrawingError(f"{name} is {_megabytes(size)}; {limit}")
        data = path.read_bytes()
    except OSError as error:
        reason = (error.strerror or "unreadable").lower()
        raise DrawingError(f"{name} can't be opened: {reason}; check the path.") from None
    fault = fault_of(data)
    if fault:
        raise DrawingError(f"{name} {fault}")
    return data


def open_document(data: bytes, name: str, *, whole: bool = False) -> tuple[Drawing, tuple[Finding, ...]]:
    """The document, through recovery where plain reading fails, with a finding that says what was repaired.

    `whole`: with all that hangs on its entities (groups of them), as for a document that is written again.
    `data` has passed `fault_of`. Raises `DrawingError` where nothing can be recovered.
    """
    data, done = mended(data)
    try:
        return _plain(data, whole), (_repair_finding(done, exact=True),) if done else ()
    except MemoryError:
        raise
    except LOAD_FAULTS:
        marked, more = remarked(data)
    if marked is not data:
        data, done = marked, ", ".join(filter(None, (done, more)))
        with contextlib.suppress(*LOAD_FAULTS):
            return _plain(data, whole), (_repair_finding(done, exact=True),) if done else ()
    try:
        doc, auditor = recover.read(io.BytesIO(data))
    except MemoryError:
        raise
    except LOAD_FAULTS:
        advice = "open it in your CAD and save it again as DXF."
        raise DrawingError(f"{name} is a damaged DXF that can't be repaired; {advice}") from None
    repairs = [clean(str(e.message).split("\n")[0])[:120] for e in (*auditor.fixes, *auditor.errors)]
    guessed = [words for words in repairs if GUESSED in words]
    first = (guessed or repairs or ["its tag structure"])[0]
    count = f"{len(repairs)} faults, the first: " if len(repairs) > 1 else ""
    return doc, (_repair_finding(f"{done}{', ' if done else ''}{count}{first}", exact=not guessed),)


GUESSED = "floating point"
"""The reader library's word where it guessed a number that it could not read."""


def _repair_finding(what: str, *, exact: bool) -> Finding:
    """A caution, or a stop where numbers were guessed and the shape may be another."""
    if exact:
        sentence = f"The file is damaged and was read after repair ({what}); compare every groove with the print."
        return Finding(Level.CAUTION, DrawingCode.FILE_REPAIRED, sentence)
    sentence = f"Numbers in the file are damaged and were guessed ({what}); export the drawing again."
    return Finding(Level.STOP, DrawingCode.NUMBERS_REPAIRED, sentence)


def _losses(data: bytes, doc: Drawing) -> Iterable[Finding]:
    """A stop where the file names entities that the document lacks: a groove less would look right."""
    counted = census(mended(data)[0])
    if counted is None:
        return
    missing = lost(counted, doc)
    if missing:
        kinds = ", ".join(f"{count} {kind}" for kind, count in sorted(missing.items()))
        sentence = f"The file is damaged: entities in it could not be placed ({kinds}); export the drawing again."
        yield Finding(Level.STOP, DrawingCode.ENTITIES_LOST, sentence)
    if counted.merged:
        sentence = f"The file is damaged: an entity lost its start before line {counted.merged[0]}; export it again."
        yield Finding(Level.STOP, DrawingCode.ENTITIES_LOST, sentence)


def _plain(data: bytes, whole: bool) -> Drawing:
    """Plain reading, from memory so that what was hashed is what was read."""
    if is_binary(data):
        return Drawing.load(binary_tags_loader(data, errors="surrogateescape"))
    info = dxf_stream_info(io.StringIO(data.decode("ascii", "replace"), newline=None))
    encoding = "utf-8" if info.version >= UTF8_SINCE or _is_utf8(data) else info.encoding
    text = data.decode(encoding, "surrogateescape")
    return read_text(io.StringIO(text, newline=None)) if whole else document_of(text, info.version)


def _is_utf8(data: bytes) -> bool:
    """True for text beyond ASCII that is sound UTF-8: many programs write it into old versions, against the format."""
    try:
        return not data.isascii() and bool(data.decode("utf-8"))
    except UnicodeDecodeError:
        return False


UTF8_SINCE = "AC1021"
"""First DXF version whose text is always UTF-8 (R2007)."""


def _layouts(doc: Drawing, walk: Walk) -> tuple[Collected, BaseLayout, tuple[Finding, ...]]:
    """What model space holds, or the first layout that holds a drawing where model space is empty."""
    model = doc.modelspace()
    drawn, arrays = without_arrays(model, walk)
    if (weight := walk.weight(drawn)) > MOST_ENTITIES:
        return Collected(), model, (_too_many(weight),)
    found = collect(walk.drawn(drawn))
    found.arrays, found.unseen = arrays, tuple(walk.unseen)
    # Not by name: a damaged file may name a layout otherwise than the table it stands in.
    papers = sorted(
        (one for one in doc.layouts if one.is_alive and one.dxf_layout.is_alive and one.is_any_paperspace),
        key=lambda one: one.dxf.get("taborder", 0),
    )
    if found.strokes:
        beside, findings = around(papers, walk, _loose)
        found.dimensions += beside.dimensions
        found.around += beside.texts
        found.windows += beside.scales
        return found, model, (*told(arrays), *findings)
    for layout in papers:
        if walk.weight(layout) <= MOST_ENTITIES:
            paper = collect(walk.drawn(layout))
            if paper.strokes:
                note = f"Model space is empty, so layout {clean(layout.name)} was read; its scale may not be 1:1."
                return paper, layout, (Finding(Level.CAUTION, DrawingCode.PAPER_SPACE, note),)
    return found, model, ()


def _too_many(weight: int) -> Finding:
    """The stop for more entities than are read."""
    count = "more than a million" if weight > 1_000_000 else f"about {weight:,}"
    limit = f"at most {MOST_ENTITIES:,} are read: save the part alone."
    sentence = f"The sheet holds {count} lines once its blocks are resolved; {limit}"
    return Finding(Level.STOP, DrawingCode.TOO_MANY_ENTITIES, sentence)


def _loose(paper: Collected) -> tuple[Dimension, ...] | None:
    """The dimensions that stand on a layout in pieces, None where its lines lie too dense to find them."""
    segments, _, findings = segments_of(paper)
    if any(f.code == DrawingCode.TOO_MANY_ENTITIES for f in findings):
        return None
    try:
        return with_loose(Sheet("", "", segments, texts=tuple(paper.texts))).dimensions
    except TooDenseError:
        return None


def open_layout(path: Path) -> tuple[Drawing, BaseLayout]:
    """The document and the layout that `load_sheet` reads, for the writer of overlays."""
    name = clean(path.name)
    doc, _ = open_document(_bytes_of(path, name), name, whole=True)
    return doc, _layouts(doc, Walk(doc))[1]


def _header_code(doc: Drawing, data: bytes, name: str) -> int | None:
    """A whole number from the header as the file has it, None where the file says nothing.

    The reader library fills in defaults of its own, so the file's bytes must hold the name.
    """
    if name.encode() not in data:
        return None
    try:
        value = float(doc.header.get(name, math.nan))
    except LOAD_FAULTS:
        return None
    return int(value) if math.isfinite(value) else None


def walk_findings(walk: Walk) -> Iterable[Finding]:
    """One note or caution per cause of leaving something out."""
    causes = grouped((cause, (name, count)) for (cause, name), count in sorted(walk.skipped.items()))
    for cause, named in causes.items():
        level, code, words = SKIPPED[cause]
        listed = ", ".join(sorted({name for name, _ in named})[:5])
        yield Finding(level, code, words.format(count=sum(n for _, n in named), names=listed))


SKIPPED: dict[str, tuple[Level, DrawingCode, str]] = {
    "frozen": (Level.NOTE, DrawingCode.LAYER_HIDDEN, "{count} entities on frozen layers were left out: {names}."),
    "off": (Level.NOTE, DrawingCode.LAYER_HIDDEN, "{count} entities on layers switched off were left out: {names}."),
    "non-plotting": (
        Level.NOTE,
        DrawingCode.LAYER_HIDDEN,
        "{count} entities on layers that don't plot were left out: {names}.",
    ),
    "invisible": (Level.NOTE, DrawingCode.ENTITY_INVISIBLE, "{count} entities marked invisible were left out."),
    "block": (
        Level.CAUTION,
        DrawingCode.BLOCK_MISSING,
        "{count} references to blocks that the file lacks were left out: {names}.",
    ),
    "xref": (
        Level.CAUTION,
        DrawingCode.BLOCK_ELSEWHERE,
        "{count} references to other files show nothing here: {names}.",
    ),
    "cycle": (
        Level.CAUTION,
        DrawingCode.BLOCK_CYCLE,
        "{count} references to blocks inside themselves were left out: {names}.",
    ),
}
"""Level, code and sentence for each cause of leaving something out."""
