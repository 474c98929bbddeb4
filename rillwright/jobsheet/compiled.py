"""Compiled templates, kept where Python keeps compiled modules: compiling them takes longer than drawing a sheet.

As with modules: what is kept holds for one text of a template and one compiler of it, a damaged one is made
afresh, and where nothing may be written nothing is kept.
"""

import hashlib
import importlib.util
import pickle
import sys
from contextlib import suppress
from pathlib import Path

import jinja2
from jinja2.bccache import Bucket, FileSystemBytecodeCache

DAMAGED = (
    pickle.PickleError,
    OSError,
    EOFError,
    ValueError,
    TypeError,
    ArithmeticError,
    LookupError,
    AttributeError,
    ImportError,
)
"""What reading a damaged file raises: a pickled checksum and marshalled code may break in as many ways."""


class CompiledTemplates(FileSystemBytecodeCache):
    """The templates that a module compiles, in the folder of its own compiled form."""

    def __init__(self, module: Path, folder: Path | None = None) -> None:
        """`module` says how they are compiled: another text of it compiles anew. `folder`: another one to keep them."""
        made_by = hashlib.sha256(module.read_bytes() + jinja2.__version__.encode()).hexdigest()[:12]
        kept = folder or Path(importlib.util.cache_from_source(str(module))).parent
        super().__init__(str(kept), f"templates-{made_by}-%s.compiled")

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill the bucket from what is kept, if that is whole."""
        try:
            super().load_bytecode(bucket)
        except DAMAGED:
            bucket.reset()

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what the bucket holds, if that may be done."""
        if not sys.dont_write_bytecode:
            with suppress(OSError):
                super().dump_bytecode(bucket)
