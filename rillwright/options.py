"""Options that several commands share; `given` makes their `Settings`."""

import functools
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from rillwright.loaded import loaded

Command = Callable[..., Any]


class InputType(click.Path):
    """A file to be read."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The path; for a folder, the error says what takes one."""
        if Path(os.fsdecode(value)).is_dir():
            self.fail(f"{value!r} is a folder: give the files in it, or have it watched with watch", param, ctx)
        return super().convert(value, param, ctx)


DRAWING = InputType(exists=True, dir_okay=False, path_type=Path)
FOLDER = click.Path(file_okay=False, path_type=Path)
OUT_FILE = click.Path(dir_okay=False, path_type=Path)
OUT_ANY = click.Path(path_type=Path)


class PointType(click.ParamType[tuple[float, float]]):
    """X,Y on the sheet."""

    name = "X,Y"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, float]:
        """Two finite numbers with a comma between them."""
        try:
            x, y = (_finite(word) for word in str(value).split(","))
        except ValueError:
            self.fail(f"{value!r} is not a point: write X,Y as on the sheet, for instance 120,85.5", param, ctx)
        return x, y


class RatioType(click.ParamType[float]):
    """R, or R:S as drawings write it."""

    name = "R"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        """A ratio that a drawing may have."""
        try:
            drawn, _, true = str(value).partition(":")
            ratio = _finite(drawn) / _finite(true or "1")
            least, most = loaded("extractor.part:SCALES")
            if not least <= ratio <= most:
                raise ValueError
        except (ValueError, ZeroDivisionError):
            self.fail(f"{value!r} is not a scale: write 2 or 2:1 for a view drawn twice its true size", param, ctx)
        return ratio


def _finite(word: str) -> float:
    number = float(word)
    if number - number != 0:
        raise ValueError("not finite")
    return number


def units_option(help_text: str, *names: str) -> Command:
    """`--units`; `names` where the command calls it something else."""
    return click.option("--units", *names, type=click.Choice(["mm", "in"]), help=help_text)


def flag(name: str, help_text: str) -> Command:
    """An option that takes no value."""
    return click.option(name, is_flag=True, help=help_text)


def in_file(name: str, shown: str, help_text: str) -> Command:
    """A file to be read, `shown` on the page."""
    return click.option(name, type=DRAWING, metavar=shown, help=help_text)


def out_file(name: str, shown: str, help_text: str, *names: str) -> Command:
    """A file to be written; `names` where the command calls it something else."""
    return click.option(name, *names, type=OUT_FILE, metavar=shown, help=help_text)


def out_folder(help_text: str, *, required: bool = False) -> Command:
    """`--out DIR`, for commands that write several files."""
    return click.option("--out", type=FOLDER, metavar="DIR", required=required, help=help_text)


def limit(flag: str, unit: str, low: float, high: float, default: float, help_text: str) -> Command:
    """A number with its unit and its default; whole numbers where `default` is one."""
    kind = click.IntRange(int(low), int(high)) if isinstance(default, int) else click.FloatRange(low, high)
    return click.option(flag, type=kind, default=default, show_default=f"{default:g}", metavar=unit, help=help_text)


READING = (
    units_option("Units of the drawing, whatever it says itself."),
    click.option(
        "--front",
        type=click.Choice(["right", "left", "top", "bottom"]),
        help="Which end of the drawn part is the finished front face, Z0.",
    ),
    click.option("--at", type=PointType(), help="A point on the view meant, where several are possible."),
    click.option("--scale", type=RatioType(), help="The view is drawn R times its true size."),
    click.option(
        "--accept", metavar="CODE[@X,Y],...", multiple=True, help="Stop findings of the drawing that you answer for."
    ),
    flag("--grooved", "Treat wide low lands and recesses without edges as grooves, not as journals and flats."),
)
SHOP_FILE = in_file("--shop", "FILE", "Machine, tools and material (TOML).")
SHOP = (
    SHOP_FILE,
    click.option("--dialect", metavar="NAME", help="Control dialect, or a dialect file; see dialects."),
    click.option(
        "--set", "changes", metavar="KEY=VALUE", multiple=True, help="Change a key of the shop file for this run."
    ),
)
ALLOWANCE = (
    limit("--time-limit", "SECONDS", 1, 86400, 120.0, "Longest time for one drawing or program."),
    limit("--memory-limit", "MIB", 64, 1_000_000, 1024, "Most memory for one drawing or program."),
)
JOBS = click.option(
    "--jobs", type=click.IntRange(1, 256), default=1, show_default=True, help="Drawings worked out at one time."
)
SCHEDULER = click.option(
    "--scheduler", metavar="ADDRESS", default=None, help="Work them out on the dask cluster with this scheduler."
)
PIECES = click.option(
    "--pieces", type=click.IntRange(1, 1_000_000), default=None, help="Say how long a batch of so many takes."
)
PREFER = click.option(
    "--prefer",
    type=click.Choice(["time", "blocks", "tools"]),
    default=None,
    help="What the choice of inserts saves first: time, blocks or tools; else as the shop file says.",
)
DECIMAL = click.option(
    "--decimal",
    type=click.Choice(["point", "comma"]),
    default="point",
    show_default=True,
    help="How your spreadsheet writes numbers: with a point, or with a comma.",
)
AS_JSON = click.option("--json", "as_json", is_flag=True, help="One JSON document on standard output.")


def options(*groups: Any) -> Callable[[Command], Command]:
    """Apply options or groups of them, in the order in which they are to be listed.

    The command gets its keywords as before, with those of `READING`, `SHOP` and `ALLOWANCE` gathered into one
    `settings`.
    """
    flat = [one for group in groups for one in (group if isinstance(group, tuple) else (group,))]
    gathered = [name for group, names in _GATHERED if group in groups for name in names]

    def apply(command: Command) -> Command:
        """The command with its options."""

        @functools.wraps(command)
        def run(**keywords: Any) -> Any:
            """Call it with its settings gathered."""
            given = {name: keywords.pop(name) for name in gathered}
            told = {"settings": loaded("rillwright.given:settings_of")(**given)} if gathered else {}
            return command(**told, **keywords)

        decorated: Command = run
        for one in reversed(flat):
            decorated = one(decorated)
        return decorated

    return apply


_GATHERED = (
    (READING, ("units", "front", "at", "scale", "accept", "grooved")),
    (SHOP, ("shop", "dialect", "changes")),
    (ALLOWANCE, ("time_limit", "memory_limit")),
)
