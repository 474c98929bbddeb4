"""The tables that ship with a room as TOML, for what is data and no code."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def shipped(room: str, name: str) -> dict[str, Any]:
    """The table of that name in a room; nobody changes it."""
    return tomllib.loads(files(room).joinpath(f"{name}.toml").read_text("utf-8"))
