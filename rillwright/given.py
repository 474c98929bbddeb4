"""What the options of a call say, as `Settings`."""

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

from extractor.errors import SettingsError
from extractor.part import ReadOptions
from rillwright.allowance import Allowance
from rillwright.outputs import show
from rillwright.settings import Settings
from rillwright.toml_file import read_toml_file
from rillwright.tongues import beside_shop, is_file, read_file


def settings_of(
    accept: tuple[str, ...] = (),
    shop: Path | None = None,
    dialect: str | None = None,
    changes: tuple[str, ...] = (),
    time_limit: float | None = None,
    memory_limit: int = 0,
    **reading: Any,
) -> Settings:
    """The settings of a call; what its command has no option for is as by default. `reading`: fields of ReadOptions."""
    # A comma before a number is that of a place, as in `dimension-contradicts@12.5,40`.
    split = (re.split(r",(?!\s*[-+.\d])", group) for group in accept)
    codes = frozenset(code.strip() for group in split for code in group if code.strip())
    if accept and not codes:
        raise SettingsError("--accept needs the code of a finding, as read prints it.")
    text, name = ("", "built-in shop") if shop is None else (read_toml_file(shop), show(shop))
    tongues = () if shop is None else beside_shop(text, shop)
    if dialect is not None and is_file(dialect):
        own = read_file(Path(dialect))
        dialect, tongues = own[0], (*(one for one in tongues if one[0] != own[0]), own)
    allowance = None if time_limit is None else Allowance(time_limit, memory_limit)
    return Settings(
        ReadOptions(accept=codes, **reading), text, name, dialect, changes, tongues=tongues, allowance=allowance
    )


def for_batch(settings: Settings, pieces: int | None, prefer: str | None) -> Settings:
    """The settings with the size of the batch and what to save on, which are keys of the shop file as well."""
    more = [] if pieces is None else [f"machine.batch={pieces}"]
    more += [] if prefer is None else [f"machine.prefer={prefer}"]
    return replace(settings, changes=(*settings.changes, *more))
