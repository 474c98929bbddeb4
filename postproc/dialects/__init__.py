"""The dialects at hand: ours, each a TOML file of this folder, and those of other packages by entry point.

An outside package registers an instance of a `Dialect`, or the text of a dialect file, under the group
`rillwright.dialects`. One that can't be loaded takes nothing down: it is named wherever dialects are listed.
"""

import sys
from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from extractor.errors import SettingsError
from postproc.dialect import Dialect
from postproc.dialects.blank import blank
from postproc.dialects.loading import BASE, load_dialect, whole_table

if TYPE_CHECKING:
    from importlib.metadata import EntryPoint

GROUP = "rillwright.dialects"
OURS = (
    "two-block",
    "one-block",
    "plunge",
    "two-block-mixed",
    "two-block-iso",
    "one-block-mixed",
    "one-block-iso",
)


@cache
def text_of(name: str) -> str | None:
    """The TOML text of one of ours, or of the base of all; None for another name."""
    return files(__name__).joinpath(f"{name}.toml").read_text("utf-8") if name in (*OURS, BASE) else None


@cache
def _whole(name: str) -> dict[str, Any] | None:
    """The table of one of ours with its bases under it."""
    text = text_of(name)
    return None if text is None else whole_table(text, name, _whole)[0]


@cache
def _ours(name: str) -> Dialect:
    return load_dialect(text_of(name) or "", name, _whole)


class _BuiltIn(Mapping[str, Dialect]):
    """Ours by name, each loaded when it is asked for: a run needs one of them."""

    def __getitem__(self, name: str) -> Dialect:
        if name not in OURS:
            raise KeyError(name)
        return _ours(name)

    def __contains__(self, name: object) -> bool:
        return name in OURS

    def __iter__(self) -> Iterator[str]:
        return iter(OURS)

    def __len__(self) -> int:
        return len(OURS)


BUILT_IN: Mapping[str, Dialect] = _BuiltIn()


def blank_text(name: str) -> str:
    """A commented dialect file to begin with."""
    return blank(name, _whole(BASE) or {})


def read_dialect(text: str, name: str, shown: str = "") -> Dialect:
    """The dialect of a file's text, laid over one of ours. Raises SettingsError that names every fault."""
    if name in BUILT_IN or name == BASE:
        raise SettingsError(f"{shown or name} has the name of a built-in dialect; call the file something else.")
    return load_dialect(text, name, _whole, shown)


def dialects(outside: "Iterable[EntryPoint] | None" = None) -> Mapping[str, Dialect]:
    """All dialects by name, ours first; those of other packages that can't be loaded are left out.

    `outside`: entry points to use in place of the installed ones.
    """
    return _gathered(outside)[0]


def broken(outside: "Iterable[EntryPoint] | None" = None) -> Mapping[str, str]:
    """The entry points that give no dialect, each with a sentence that says why."""
    return _gathered(outside)[1]


@cache
def _installed(path: tuple[str, ...]) -> "tuple[EntryPoint, ...]":
    """The entry points of what is installed along a path; looking for them takes some milliseconds, as loading this."""
    from importlib.metadata import entry_points

    return tuple(entry_points(group=GROUP))


def _gathered(outside: "Iterable[EntryPoint] | None") -> tuple[dict[str, Dialect], dict[str, str]]:
    """The dialects at hand, and those that are not."""
    found, faults = dict(BUILT_IN), {}
    for entry in _installed(tuple(sys.path)) if outside is None else outside:
        try:
            dialect = _load(entry)
            if dialect.name in found:
                raise SettingsError(f"The dialect {dialect.name} of {entry.value} is there twice; rename one of them.")
            found[dialect.name] = dialect
        except SettingsError as fault:
            faults[entry.name] = str(fault)
    return found, faults


def _load(entry: "EntryPoint") -> Dialect:
    """The dialect behind an entry point, or a sentence that says why there is none."""
    try:
        dialect = entry.load()
        if isinstance(dialect, str):
            dialect = read_dialect(dialect, entry.name)
    except SettingsError:
        raise
    except (Exception, SystemExit) as fault:  # an outside package may fail in any way; the user must know which did
        raise SettingsError(f"The dialect {entry.name} ({entry.value}) can't be loaded: {fault!r}.") from fault
    if not isinstance(dialect, Dialect) or not dialect.name:
        raise SettingsError(f"The entry {entry.name} ({entry.value}) is not an instance of Dialect with a name.")
    return dialect


def find_dialect(name: str) -> Dialect:
    """The dialect of a name. Raises SettingsError that lists the names and the nearest.

    >>> find_dialect("two-block").title
    'G75 in two blocks'
    """
    if name in BUILT_IN:
        return BUILT_IN[name]
    known, faults = _gathered(None)
    if name in known:
        return known[name]
    if name in faults:
        raise SettingsError(faults[name])
    near = get_close_matches(name, known, n=1)
    hint = f" Did you mean {near[0]}?" if near else ""
    raise SettingsError(f"There is no dialect {name!r}; there are {', '.join(known)}.{hint}")


__all__ = ["BUILT_IN", "GROUP", "OURS", "blank_text", "broken", "dialects", "find_dialect", "read_dialect", "text_of"]
