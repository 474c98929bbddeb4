"""The command line: `rillwright COMMAND`.

The commands stand in `calls`. Errors leave here as one sentence with the exit status promised: 1 for a drawing or
program that is not in order, 2 for a wrong call or an unreadable file.
"""

import errno
import io
import os
import signal
import sys
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

import click

from rillwright.calls import COMMANDS, command
from rillwright.collector import no_last_look, seldom
from rillwright.loaded import loaded
from rillwright.signals import ENDING
from rillwright.version import TOOL_VERSION

NOT_WRITABLE = frozenset({errno.EACCES, errno.EPERM, errno.EROFS, errno.ENOENT, errno.ENOTDIR})
"""What the system says of a place where nothing can be written; what is read was found to be there before."""

NOT_IN_ORDER, WRONG_CALL, INTERRUPTED = 1, 2, 130
SIGNALLED = 128
"""What is added to the number of a signal that ended the process, as shells do."""


class Commands(click.Group):
    """The commands; every way out ends in one sentence."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names in the order of the work."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name."""
        return command(cmd_name) if cmd_name in COMMANDS else None

    def main(
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = None,
        complete_var: str | None = None,
        standalone_mode: bool = True,
        **extra: Any,
    ) -> Any:
        """Run, and turn whatever goes wrong into a sentence and an exit status."""
        _take_any_text()
        if not standalone_mode:
            with _own_home(), seldom(), _stopped_tidily():
                return super().main(args, prog_name, complete_var, standalone_mode=False, **extra)
        no_last_look()
        status: Any = INTERRUPTED
        # An interrupt once all is done, or while a sentence about another is said, ends it no otherwise.
        with suppress(KeyboardInterrupt), _own_home(), seldom(), _stopped_tidily():
            try:
                try:
                    status = super().main(args, prog_name, complete_var, standalone_mode=False, **extra)
                finally:
                    sys.stdout.flush()
            except Exception as error:
                status = _status_of(error)
            finally:
                _give_up_full_streams()
        sys.exit(status if isinstance(status, int) else 0)


@contextmanager
def _own_home() -> Iterator[None]:
    """Keep the library that opens a DXF out of the user's home while a command runs.

    It looks there for settings and a list of fonts, and fails where it may not; here is a home for it, with no
    settings, and no fonts, since none is ever drawn with.
    """
    names = ("XDG_CONFIG_HOME", "XDG_CACHE_HOME")
    before = {name: os.environ.get(name) for name in names}
    os.environ.update(dict.fromkeys(names, str(Path(__file__).parent / "home")))
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value


@contextmanager
def _stopped_tidily() -> Iterator[None]:
    """Let a stop from outside (ENDING) take away what is half written, as an interrupt from the keyboard does."""
    usual = [one for one in ENDING if signal.getsignal(one) == signal.SIG_DFL]
    if threading.current_thread() is not threading.main_thread():
        usual = []
    for one in usual:
        signal.signal(one, _ended)
    try:
        yield
    finally:
        for one in usual:
            signal.signal(one, signal.SIG_DFL)


def _ended(number: int, _: object) -> None:
    """End the process from where it is."""
    # Not by way of the stream, in whose midst this may be.
    with suppress(OSError):
        os.write(2, b"Stopped.\n")
    raise SystemExit(SIGNALLED + number)


def _take_any_text() -> None:
    """Let names be printed whose letters the terminal's encoding lacks; nobody hears what goes to a closed stream."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, mode, encoding="utf-8"))  # noqa: SIM115 - it lasts as long as the process
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _give_up_full_streams() -> None:
    """Drop what can't be written, as to a full disk or a reader that went away: at exit it would complain again."""
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except OSError:
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _status_of(error: Exception) -> int:
    """Say what went wrong and answer the exit status."""
    if os.environ.get("RILLWRIGHT_DEBUG") and not isinstance(error, click.ClickException | click.Abort):
        raise error
    if isinstance(error, click.Abort):
        return _say("Stopped.", INTERRUPTED)
    if isinstance(error, click.exceptions.NoArgsIsHelpError):
        error.show()
        return WRONG_CALL
    if isinstance(error, click.ClickException):
        return _say(_sentence(error), WRONG_CALL)
    if isinstance(error, OSError):
        return _os_error(error)
    return _our_error(error)


def _our_error(error: Exception) -> int:
    known, ours = loaded("extractor.errors:RillwrightError"), loaded("extractor.errors:InternalFault")
    if isinstance(error, known):
        return _say(str(error), NOT_IN_ORDER if isinstance(error, ours) else WRONG_CALL)
    what = " ".join(f"{type(error).__name__} {error}".split())
    sentence = f"This is our fault: {what}; run it again with RILLWRIGHT_DEBUG=1 and report what it says."
    return _say(sentence, NOT_IN_ORDER)


def _sentence(error: click.ClickException) -> str:
    """What click says, on one line, with where to look it up."""
    message = " ".join(error.format_message().split())
    message += "" if message.endswith((".", "?")) else "."
    context = getattr(error, "ctx", None)
    return f"{message} See {context.command_path} --help." if context else message


def _os_error(error: OSError) -> int:
    if error.errno == errno.EPIPE:  # the reader of our output went away
        return NOT_IN_ORDER
    name = error.filename if isinstance(error.filename, str) else os.fsdecode(error.filename or "")
    place = f"{name if name.isprintable() else ascii(name)}: " if name else ""
    remedy = " give a folder in which you may write;" if error.errno in NOT_WRITABLE else ""
    return _say(f"{place}{error.strerror or error};{remedy} nothing half written is left.", NOT_IN_ORDER)


def _say(sentence: str, status: int) -> int:
    with suppress(OSError):
        click.echo(sentence, err=True)
    return status


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(TOOL_VERSION, prog_name="rillwright", message="%(prog)s %(version)s")
def main() -> None:
    """Read the drawing of a turned part, and write, check and explain the lathe's grooving program.

    Prove out every program as the machine's manual, local rules and a qualified setter require.
    """
