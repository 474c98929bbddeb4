"""The tables that ship with this room as TOML: inserts, keys of the shop file, materials."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def shipped(name: str) -> dict[str, Any]:
    """The table of that name; nobody changes it."""
    return tomllib.loads(files(__package__).joinpath(f"{name}.toml").read_text("utf-8"))
