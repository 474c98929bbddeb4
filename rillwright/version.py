"""The version of the tool, as it stands in records and in the ledger."""

from functools import cache
from importlib.metadata import PackageNotFoundError, version


@cache
def tool_version() -> str:
    """Version of the installed package, "0" where it runs from a folder that was never installed."""
    try:
        return version("rillwright")
    except PackageNotFoundError:
        return "0"
