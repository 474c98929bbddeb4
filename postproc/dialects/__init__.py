"""The dialects at hand: ours in a visible dict, those of other packages through an entry-point group.

An outside package registers an instance of its `Dialect` under the group `rillwright.dialects`. One that can't be
loaded, or whose name is taken, is an error when dialects are asked for, with its name in the sentence.
"""

from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from importlib.metadata import EntryPoint, entry_points

from extractor.errors import SettingsError
from postproc.dialect import Dialect
from postproc.dialects.one_block import OneBlock
from postproc.dialects.plunge import Plunge
from postproc.dialects.two_block import TwoBlock

GROUP = "rillwright.dialects"

BUILT_IN: Mapping[str, Dialect] = {
    "two-block": TwoBlock(),
    "one-block": OneBlock(),
    "plunge": Plunge(),
}


def dialects(outside: Iterable[EntryPoint] | None = None) -> Mapping[str, Dialect]:
    """All dialects by name, ours first.

    `outside`: entry points to use in place of the installed ones. Raises SettingsError for one that can't be loaded
    or takes a name that is in use.
    """
    found = dict(BUILT_IN)
    for entry in entry_points(group=GROUP) if outside is None else outside:
        dialect = _load(entry)
        if dialect.name in found:
            raise SettingsError(f"The dialect {dialect.name} of {entry.value} is registered twice; rename one of them.")
        found[dialect.name] = dialect
    return found


def _load(entry: EntryPoint) -> Dialect:
    """The dialect behind an entry point, or a sentence that says why there is none."""
    try:
        dialect = entry.load()
    except Exception as fault:  # an outside package may fail in any way; the user needs to know which one did
        raise SettingsError(f"The dialect {entry.name} ({entry.value}) can't be loaded: {fault!r}.") from fault
    if not isinstance(dialect, Dialect) or not dialect.name:
        raise SettingsError(f"The entry {entry.name} ({entry.value}) is no instance of Dialect with a name.")
    return dialect


def find_dialect(name: str) -> Dialect:
    """The dialect of a name. Raises SettingsError that lists the names and the nearest.

    >>> find_dialect("two-block").title
    'G75 in two blocks'
    """
    known = dialects()
    if name in known:
        return known[name]
    near = get_close_matches(name, known, n=1)
    hint = f" Did you mean {near[0]}?" if near else ""
    raise SettingsError(f"There is no dialect {name!r}; there are {', '.join(known)}.{hint}")
