"""Dialect files: read from disk once, kept as text in the settings, and made into dialects where they are needed."""

import tomllib
from collections.abc import Collection, Iterator
from functools import cache
from pathlib import Path

from extractor.errors import SettingsError
from postproc import dialects
from postproc.dialect import Dialect
from postproc.dialects import OURS, find_dialect, read_dialect
from rillwright.outputs import show
from rillwright.toml_file import read_toml_file

MOST_FILES = 200

Texts = tuple[tuple[str, str], ...]
"""Names and TOML texts of dialect files."""


def is_file(given: str) -> bool:
    """True if what `--dialect` gives is meant as a file, not a name."""
    return given.lower().endswith(".toml") or "/" in given or "\\" in given


def read_file(path: Path) -> tuple[str, str]:
    """Name and text of a dialect file; SettingsError if it can't be read. Its name is the file's without `.toml`."""
    return path.name.removesuffix(".toml"), read_toml_file(path, "dialect")


def beside_shop(shop_text: str, shop: Path) -> Texts:
    """The dialect files in the folder that a shop file names under `dialects`, relative to that file."""
    try:
        folder = tomllib.loads(shop_text).get("dialects")
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return ()
    if not isinstance(folder, str):
        return ()
    place = shop.parent / folder
    if not place.is_dir():
        raise SettingsError(f"{show(shop)} names the folder {show(place)} for its dialects, and there is none.")
    files = sorted(path for path in place.glob("*.toml") if path.is_file())
    if len(files) > MOST_FILES:
        raise SettingsError(f"The folder {show(place)} holds more than {MOST_FILES} dialect files.")
    return tuple(read_file(path) for path in files)


@cache
def _made(name: str, text: str) -> Dialect:
    """The dialect of a file's text."""
    return read_dialect(text, name, f"{name}.toml")


class Names(Collection[str]):
    """The names of all dialects: ours, those of files, and those of other packages, looked for when they are needed."""

    def __init__(self, texts: Texts) -> None:
        """Take files' names and texts; SettingsError names a file at fault."""
        self.known = frozenset((*OURS, *(_made(name, text).name for name, text in texts)))

    def __contains__(self, name: object) -> bool:
        return name in self.known or name in dialects()

    def __iter__(self) -> Iterator[str]:
        return iter(self.known | dialects().keys())

    def __len__(self) -> int:
        return len(self.known | dialects().keys())


def spoken(name: str, texts: Texts = ()) -> Dialect:
    """The dialect of this name. SettingsError for an unknown one, with the nearest name, or for a file at fault."""
    text = dict(texts).get(name)
    return find_dialect(name) if text is None else _made(name, text)


def named_or_file(given: str, texts: Texts) -> Dialect:
    """The dialect that `--from` or `--to` gives: a file, or a name, of ours or among those of the shop's folder."""
    return _made(*read_file(Path(given))) if is_file(given) else spoken(given, texts)
