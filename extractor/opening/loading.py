"""Loads the text of a DXF through the reader library, which sees what a drawing can hang on, and one of each run.

Rules: its layouts and blocks hold what the library would put there; what else hangs on an entity (a group of them) may
lack it, so a document that is written again is loaded whole. A line, arc, circle, ellipse or text whose groups are all
its own plain ones (no extra data, no second layout) is made here from its values; the first of a run goes the library's
way, and the others are put in behind it, where it was placed. Line types and styles that nothing names, and objects of
which no line, size or word of a sheet depends, are left out: they are most of a small file. Whatever is odd sends the
whole text to the library.
"""

import io
from collections.abc import Iterable, Iterator
from dataclasses import field
from functools import cached_property
from itertools import compress, count, groupby, repeat
from operator import itemgetter
from typing import Any

import numpy as np
from ezdxf.document import Drawing
from ezdxf.entities.arc import Arc
from ezdxf.entities.circle import Circle
from ezdxf.entities.ellipse import Ellipse
from ezdxf.entities.line import Line
from ezdxf.entities.text import Text
from ezdxf.filemanagement import read as read_text
from ezdxf.lldxf.types import BINARY_DATA, POINT_CODES, TYPE_TABLE, DXFTag
from ezdxf.math import Vec3

from extractor.opening.line_rows import LineRow
from extractor.values import dataclass

PLAIN: dict[str, type[Any]] = {kind.DXFTYPE: kind for kind in (Line, Arc, Circle, Ellipse, Text)}
"""Kinds that are no more than their numbers and words."""
HANDLE, STYLE_HANDLE, OWNER, MARKER, LIST, PAPER, COMMENT = 5, 105, 330, 100, 102, 67, 999
START, END = 0, "EOF"
STRUCTURE = frozenset({"SECTION", "ENDSEC", "TABLE", "ENDTAB", "CLASS", "ACDSRECORD", "ACDSSCHEMA", END})
"""What needs no handle. The library numbers all else that lacks one, which takes all handles that there are."""
UNREAD = frozenset({"CLASS", "VISUALSTYLE", "MATERIAL", "SCALE", "TABLESTYLE", "CELLSTYLEMAP"})
"""What nothing that is read of a sheet depends on."""
STYLES, ENTRY = frozenset({"LTYPE", "STYLE", "DIMSTYLE"}), "AcDbSymbolTableRecord"
"""Entries of tables that count where a header, a layer or an entity names them, and the first of their markers."""
NAME, NAMING = 2, frozenset({3, 6, 7})
"""Group of an entry's name, and groups by which entities and layers name a style of a dimension, a line, a text."""
GATHERED, EXTRA = frozenset({*POINT_CODES, *BINARY_DATA}), 1000
"""Groups that the library takes together with others, and the first of an entity's extra data."""
UNNAMED = frozenset({"standard", "bylayer", "byblock", "continuous"})
"""What counts where no name is given."""
MARKED_SINCE = "AC1015"
"""First DXF version in which every entity has a handle and the library takes its groups as they stand (R2000)."""


@dataclass(frozen=True)
class _Form:
    """How a plain entity with certain groups is made: names of its single values, their places and types; points."""

    kind: type[Any]
    handle: int
    owner: int | None
    singles: tuple[tuple[str, int, type[Any]], ...]
    points: tuple[tuple[str, int, int], ...]
    size: int

    @cached_property
    def ends(self) -> tuple[tuple[int, int], ...]:
        """Where the ends of a plain line stand and of how many numbers they are; none for what is no such line."""
        found = tuple((k, size) for at in ("start", "end") for name, k, size in self.points if name == at)
        return found if self.kind is Line and len(found) == len(self.points) == 2 else ()

    def rows(self, values: list[str], start: int, number: int, doc: Drawing) -> Iterator[LineRow]:
        """So many lines from a place on, in rows; raises `ValueError` where a number is none."""
        columns = [values[start + k : start + number * self.size : self.size] for k in range(self.size)]
        numbers = [columns[k + i] if i < size else ["0"] * number for k, size in self.ends for i in range(3)]
        ends = np.array([list(map(float, column)) for column in numbers]).T
        looks = zip(*(columns[k] for _, k, _ in self.singles), strict=True) if self.singles else repeat((), number)
        at = 0
        for _, alike in groupby(looks):
            end = at + sum(1 for _ in alike)
            first = self.made(values, start + at * self.size, doc)
            yield LineRow(first, tuple(columns[self.handle][at:end]), ends[at:end])
            at = end

    def made(self, values: list[str], at: int, doc: Drawing) -> Any:
        """The entity whose groups begin at a place; raises `ValueError` where a number is none."""
        entity = self.kind()
        entity.doc = doc
        held = {name: typed(values[at + k]) for name, k, typed in self.singles}
        held |= {name: Vec3(*map(float, values[at + k : at + k + size])) for name, k, size in self.points}
        held["handle"] = values[at + self.handle]
        vars(entity.dxf).update(held)
        return entity


@dataclass
class _Run:
    """Plain entities one after the other with one owner: where the groups of each begin, and its form."""

    owner: str
    first: str
    behind: list[tuple[int, _Form]] = field(default_factory=list)


def document_of(text: str, version: str) -> Drawing:
    """The document in a text of some DXF version; raises what the library raises on damaged text."""
    if version >= MARKED_SINCE:
        try:
            codes, values = _tags(text)
            runs: list[_Run] = []
            doc = Drawing.load(_without_runs(codes, values, runs))
            if _put_behind(doc, values, runs):
                return doc
        except _OddError:
            pass
    return read_text(io.StringIO(text, newline=None))


class _OddError(Exception):
    """The text is none that can be looked through here."""


def _tags(text: str) -> tuple[list[int], list[str]]:
    """Group codes and values; lines end as the library has them end."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    codes, values = lines[::2], lines[1::2]
    try:
        number = {code: int(code) for code in set(codes[: len(values)])}
    except ValueError as error:
        raise _OddError from error
    return list(map(number.__getitem__, codes[: len(values)])), values


def _without_runs(codes: list[int], values: list[str], runs: list[_Run]) -> Iterator[DXFTag]:
    """All tags to the end mark, without the entities that are listed in `runs` as those behind the first of one."""
    forms: dict[tuple[str, tuple[int, ...]], _Form | None] = {}
    starts = list(compress(count(), map(START.__eq__, codes)))
    named = _names(codes, values, starts)
    run = None
    for k, (start, end) in enumerate(zip(starts, [*starts[1:], len(codes)], strict=True)):
        look = (values[start], tuple(codes[start:end]))
        if look not in forms:
            forms[look] = _form(*look)
        form = forms[look]
        if form is None:
            if not {HANDLE, STYLE_HANDLE}.intersection(look[1]) and values[start] not in STRUCTURE:
                raise _OddError
            run = None
            if k and _unread(codes[start:end], values[start:end], named):
                continue
        else:
            owner = "" if form.owner is None else values[start + form.owner]
            if run is not None and run.owner == owner:
                run.behind.append((start, form))
                continue
            run = _Run(owner, values[start + form.handle])
            runs.append(run)
        for at in range(start if k else 0, end):
            if codes[at] != COMMENT:
                yield DXFTag(codes[at], values[at])
        if values[start] == END:
            return


def _names(codes: list[int], values: list[str], starts: list[int]) -> frozenset[str]:
    """All that a header, a layer or an entity may name a style by, in small letters; the header comes first."""
    header = values[: starts[1]] if len(starts) > 1 else values
    return UNNAMED | frozenset(v.strip().lower() for v in {*header, *compress(values, map(NAMING.__contains__, codes))})


def _unread(codes: list[int], values: list[str], named: frozenset[str]) -> bool:
    """True for an object, or an entry of a table, that nothing on the sheet depends on and the library would take."""
    if values[0] in STYLES:
        marked = [value for code, value in zip(codes, values, strict=True) if code == MARKER]
        unread = NAME in codes and marked[:-1] == [ENTRY]
        unread = unread and values[codes.index(NAME)].strip().lower() not in named
    else:
        unread = values[0] in UNREAD
    if not unread or not GATHERED.isdisjoint(codes) or max(codes) >= EXTRA:
        return False
    lists = [value for code, value in zip(codes, values, strict=True) if code == LIST]
    if len(lists) % 2 or any(value != "}" for value in lists[1::2]):
        return False
    try:
        for code, value in zip(codes, values, strict=True):
            TYPE_TABLE.get(code, str)(value)
    except ValueError as error:
        raise _OddError from error
    return True


def _form(name: str, codes: tuple[int, ...]) -> _Form | None:
    """How an entity with these groups is made, None if it is for the library."""
    kind = PLAIN.get(name)
    if kind is None or codes.count(HANDLE) != 1 or codes.count(OWNER) > 1:
        return None
    names = dict(kind.DXFATTRIBS.build_group_code_items())
    singles, points, k = [], [], 1
    while k < len(codes):
        code, size = codes[k], 1
        if code in POINT_CODES and code in names:
            size = 3 if codes[k + 1 : k + 3] == (code + 10, code + 20) else 2
            if codes[k + 1 : k + 2] != (code + 10,):
                return None
            points.append((names[code], k, size))
        elif code not in (HANDLE, OWNER, MARKER):
            if code not in names or code == PAPER:
                return None
            singles.append((names[code], k, TYPE_TABLE.get(code, str)))
        k += size
    marker = codes.index(MARKER) if MARKER in codes else len(codes)
    handle, owner = codes.index(HANDLE), codes.index(OWNER) if OWNER in codes else None
    if max(handle, owner or 0) > marker:
        return None
    return _Form(kind, handle, owner, tuple(singles), tuple(points), len(codes))


def _put_behind(doc: Drawing, values: list[str], runs: Iterable[_Run]) -> bool:
    """Put the entities of each run behind its first; False where the library holds the first ones otherwise."""
    waiting = {run.first: run for run in runs if run.behind}
    placed, listed = 0, sum(bool(run.behind) for run in runs)
    known, model = set(doc.entitydb.keys()), doc.modelspace().entity_space
    for record in doc.block_records if waiting else ():
        space = record.entity_space
        found: list[Any] = []
        for entity in space.entities:
            found.append(entity)
            run = waiting.get(entity.dxf.handle)
            if run is not None:
                placed += 1
                found += _made(values, run, entity, known, rows=space is model)
        space.entities = found
    return placed == listed == len(waiting)


def _made(values: list[str], run: _Run, first: Any, known: set[str], *, rows: bool) -> Iterator[Any]:
    """The entities behind the first of a run, with what its layout gave it, plain lines as rows if `rows`.

    Their handles are put to those `known`: the library goes by them, so that two of one handle are odd.
    """
    given = {name: vars(first.dxf)[name] for name in ("owner", "paperspace") if name in vars(first.dxf)}
    try:
        for form, some in groupby(run.behind, key=itemgetter(1)):
            starts = [at for at, _ in some]
            alone = (form.made(values, at, first.doc) for at in starts)
            for entity in form.rows(values, starts[0], len(starts), first.doc) if rows and form.ends else alone:
                vars(entity.dxf).update(given)
                handles = entity.handles if isinstance(entity, LineRow) else (entity.dxf.handle,)
                if not known.isdisjoint(handles) or len({*handles}) < len(handles):
                    raise _OddError
                known.update(handles)
                yield entity
    except ValueError as error:
        raise _OddError from error
