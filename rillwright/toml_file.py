"""The text of a file that a user gives as TOML: a shop or a dialect."""

from pathlib import Path

from extractor.errors import SettingsError
from rillwright.digest import plain_bytes
from rillwright.outputs import show

MOST_BYTES = 1_000_000
"""A shop file with a hundred tools has 30 kB; whatever is larger than this is some other file."""


def read_toml_file(path: Path, kind: str = "shop") -> str:
    """The text of a shop or dialect file; SettingsError if it can't be read."""
    try:
        data = plain_bytes(path, MOST_BYTES)
        if len(data) > MOST_BYTES:
            raise SettingsError(f"{show(path)} is too big for a {kind} file: give the TOML file of one {kind}.")
        return data.decode("utf-8-sig")
    except OSError as error:
        raise SettingsError(f"The {kind} file {show(path)} can't be read: {error.strerror or error}.") from error
    except UnicodeDecodeError as error:
        raise SettingsError(f"The {kind} file {show(path)} is not UTF-8 text: save it as such.") from error
