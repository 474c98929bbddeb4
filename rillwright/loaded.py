"""Loads a part of the tool when it is asked for: what a call does takes longer to load than a help page may take."""

import importlib
from typing import Any


def loaded(place: str) -> Any:
    """What a module holds under a name, both as "module:name".

    >>> loaded("math:hypot")(3, 4)
    5.0
    """
    module, name = place.split(":")
    return getattr(importlib.import_module(module), name)
