"""The one exception tree of the tool, with the blame in the name.

    RillwrightError            the base, never raised itself
    ├── DrawingError           the drawing can't be read at all (missing, not a DXF, empty)
    ├── SettingsError          the shop file or an option is wrong
    ├── ProgramError           a program can't be read, or a dialect can't say what is planned
    └── InternalFault          we are wrong: a check on our own work failed

Anything merely odd about a drawing or a program is a `Finding`, not an exception.
The message of each is one plain sentence: what is wrong, where, and what to do.
"""


class RillwrightError(Exception):
    """Base of the tree; catch it at the edge, raise one of its children."""


class DrawingError(RillwrightError, ValueError):
    """The drawing is at fault: there is nothing in the file that can be read."""


class SettingsError(RillwrightError, ValueError):
    """The settings are at fault: a shop file or an option, each fault named in the message."""


class ProgramError(RillwrightError, ValueError):
    """The program is at fault: it can't be read, or can't be written in the dialect asked for."""


class InternalFault(RillwrightError, RuntimeError):
    """We are at fault: the tool's own check of its work failed."""
