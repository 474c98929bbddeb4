"""Typed values as JSON and back, by the fields of their dataclasses: one way out, one checked way in.

A field becomes a key of its name, without a trailing underscore (`from_`). Unknown keys are passed over when a
document is read, and a field with a default may be missing, so that what another version wrote is read as well.
"""

import types
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import Enum
from functools import cache, partial
from json.encoder import JSONEncoder, encode_basestring_ascii
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

Json = dict[str, Any]
T = TypeVar("T")
Read = Callable[[Any], Any]

LARGEST = 1e12
"""No length, count or time of a record comes near this; a figure beyond it is damage, and so is one that is none."""


class FormError(ValueError):
    """A document does not have the form of a value; says where in it, and what is wrong there."""

    def __init__(self, words: str, place: str = "") -> None:
        """Take both apart, so that whoever reads what is round it can put its own name before the place."""
        super().__init__(f"{place} {words}".strip())
        self.words, self.place = words, place

    def within(self, name: object) -> "FormError":
        """The same said of a larger document, in which this one has a name or a number."""
        own = f"[{name}]" if isinstance(name, int) else str(name)
        return FormError(self.words, own + ("." if self.place and self.place[0] != "[" else "") + self.place)


LAID_OPEN = {"open": True}
"""Of a field: its own fields stand beside it in the JSON; where a name is in both, it is the outer one's."""


class OneByOne(list[Any]):
    """A list in an object of a JSON document, its values made as it is written, once: all may be too many to hold."""

    def __init__(self, values: Iterable[Any]) -> None:
        """Take them as they come; there is at least one."""
        super().__init__([None])
        self._values = values

    def __iter__(self) -> Iterator[Any]:
        """One after another."""
        return iter(self._values)


PLAIN = (float, int, str, type(None))
"""What is put together of nothing else."""
ROWS = (list, tuple)


def dumped(document: Any) -> Iterator[str]:
    """One JSON document as text, piece by piece, ending in a line feed; anything odd in a name is escaped.

    An object stands open, a name to a line, and so does a list of objects or lists, a row to a line; a row itself is
    one line. So a groove, a finding or a block can be found and held against another by its line, and the rows, which
    may be a hundred thousand, are written by the library's encoder, which goes through Python where it must indent.
    """
    yield from _pieces(document, "\n")
    yield "\n"


def _pieces(value: Any, feed: str) -> Iterator[str]:
    """A value as text; `feed` begins a line at its depth. What is made one by one is written so."""
    inner = feed + " "
    if isinstance(value, OneByOne) or (isinstance(value, ROWS) and not all(isinstance(one, PLAIN) for one in value)):
        before = "["
        for one in value:
            yield before + inner + _in_line(one)
            before = ","
        yield f"{feed}]"
    elif not isinstance(value, (OneByOne, *PLAIN, *ROWS)) and (inside := _opened(value)):
        before = "{"
        for name, one in inside.items():
            yield f"{before}{inner}{encode_basestring_ascii(name)}: "
            yield from _pieces(one, inner)
            before = ","
        yield feed + "}"
    else:
        yield _in_line(value)


def _in_line(value: Any) -> str:
    """A value as one line; ValueError for a number that JSON has no word for."""
    try:
        return ENCODER.encode(value)
    except ValueError as error:
        raise ValueError(f"{value} is no number of JSON") from error


def dump(document: Any) -> str:
    """The same as a whole."""
    return "".join(dumped(document))


def _opened(value: Any) -> Mapping[str, Any]:
    """The values of the fields of a dataclass by their keys, a mapping as it stands."""
    keyed = _keyed(value.__class__)
    if not keyed:
        held: Mapping[str, Any] = value
        return held
    form: Json = {}
    for name, key, laid_open, spare, default in keyed:
        inner = getattr(value, name)
        if laid_open:
            form |= _opened(inner)
        elif not (spare and inner == default):
            form[key] = inner
    return form


ENCODER = JSONEncoder(allow_nan=False, check_circular=False, default=lambda value: dict(_opened(value)))
"""A value in one line; a value of ours by its fields."""


def from_json(kind: Callable[..., T], document: Any) -> T:
    """The value of a kind that a document holds, checked throughout; FormError where it does not."""
    found: T = _reader(kind)(document)
    return found


@cache
def _keyed(kind: Any) -> tuple[tuple[str, str, bool, bool, Any], ...]:
    """How a dataclass becomes an object: name and key of each field, whether it is open or spare, its default."""
    return tuple(
        (one.name, _key(one), bool(one.metadata.get("open")), bool(one.metadata.get("spare")), one.default)
        for one in (fields(kind) if is_dataclass(kind) else ())
    )


def _key(one: "Field[Any]") -> str:
    return one.name.rstrip("_")


@cache
def _reader(kind: Any) -> Read:
    """What reads a value of a type."""
    origin, inner = get_origin(kind), get_args(kind)
    if kind is Any:
        return lambda document: document
    if origin in (Union, types.UnionType):
        some = [_reader(one) for one in inner if one is not type(None)]
        return partial(_or_nothing, some[0]) if len(some) < len(inner) else partial(_first_of, some)
    if origin is Literal:
        right = (lambda document: isinstance(document, str) and document in inner, f"is none of {inner}")
        return partial(_checked, *right)
    if origin is tuple:
        several = inner[-1] is not ...
        return partial(_row, [_reader(one) for one in inner]) if several else partial(_rows, _reader(inner[0]))
    if origin is not None:
        return partial(_mapping, _reader(inner[1]))
    if is_dataclass(kind):
        hints = get_type_hints(kind)
        parts = tuple((one, _key(one), _reader(hints[one.name])) for one in fields(kind))
        return partial(_of_class, kind, parts, frozenset(key for _, key, _ in parts))
    return partial(_member, kind) if issubclass(kind, Enum) else partial(_checked, *SCALARS[kind])


SCALARS: Mapping[Any, tuple[Callable[[Any], bool], str]] = {
    str: (lambda document: isinstance(document, str), "is not text"),
    bool: (lambda document: isinstance(document, bool), "is neither true nor false"),
    int: (lambda document: type(document) is int and abs(document) < LARGEST, "is not a whole number"),
    float: (lambda document: type(document) in (int, float) and abs(document) < LARGEST, "is not a number"),
}


def _checked(right: Callable[[Any], bool], words: str, document: Any) -> Any:
    """A value as it stands, where it is right."""
    if not right(document):
        raise FormError(words)
    return document


def _or_nothing(read_one: Read, document: Any) -> Any:
    """A value, or none."""
    return None if document is None else read_one(document)


def _first_of(readers: list[Read], document: Any) -> Any:
    """What the first of several reads that can."""
    for read_one in readers[:-1]:
        with suppress(FormError):
            return read_one(document)
    return readers[-1](document)


def _member(kind: type[Enum], document: Any) -> Enum:
    """A member of an enumeration, by its value."""
    try:
        return kind(document)
    except ValueError:
        raise FormError(f"is none of {tuple(str(one.value) for one in kind)}") from None


def _rows(read_one: Read, document: Any) -> tuple[Any, ...]:
    """Any number of values of one type."""
    _want(document, list, "is not a list")
    found: list[Any] = []
    try:
        # A path has ten thousands of rows: nothing more than this is done for each.
        for one in document:
            found.append(read_one(one))
    except FormError as error:
        raise error.within(len(found)) from None
    return tuple(found)


def _row(readers: list[Read], document: Any) -> tuple[Any, ...]:
    """So many values, each of its type."""
    _want(document, list, "is not a list")
    if len(document) != len(readers):
        raise FormError(f"has {len(document)} values for {len(readers)}")
    return tuple(read_one(one) for read_one, one in zip(readers, document, strict=True))


def _mapping(read_one: Read, document: Any) -> Json:
    """Values of one type by name."""
    _want(document, dict, "is not an object")
    return {name: _named(read_one, name, one) for name, one in document.items()}


def _of_class(kind: Any, parts: "tuple[tuple[Field[Any], str, Read], ...]", own: frozenset[str], document: Any) -> Any:
    """A dataclass, by its fields with their keys, all of which are `own`; what it refuses is the document's fault."""
    _want(document, dict, "is not an object")
    values = {}
    for one, key, read_one in parts:
        if one.metadata.get("open"):
            values[one.name] = read_one({name: value for name, value in document.items() if name not in own})
        elif key in document:
            values[one.name] = _named(read_one, key, document[key])
        elif one.default is MISSING and one.default_factory is MISSING:
            raise FormError("is missing", key)
    try:
        return kind(**values)
    except FormError:
        raise
    except ValueError as error:
        raise FormError(f"can't be: {error}") from None


def _named(read_one: Read, name: str, document: Any) -> Any:
    """A value under a name."""
    try:
        return read_one(document)
    except FormError as error:
        raise error.within(name) from None


def _want(document: Any, kind: type, words: str) -> None:
    """FormError where a document is of another type."""
    if not isinstance(document, kind):
        raise FormError(words)
