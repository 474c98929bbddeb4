"""Standard streams that are closed, full or broken: one sentence where one can be said, and the status promised."""

import contextlib
import os
import sys

import pytest

from rillwright import cli

SENTENCE = "No space left on device; nothing half written is left.\n"


@contextlib.contextmanager
def full():
    """A stream that nothing can be written to, as on a full disk."""
    with open("/dev/full", "w") as stream:
        yield stream


@contextlib.contextmanager
def broken():
    """A pipe whose reader went away."""
    reader, writer = os.pipe()
    os.close(reader)
    with open(writer, "w") as stream:
        yield stream


def ended(*arguments):
    """The status that a call ends with."""
    with pytest.raises(SystemExit) as end:
        cli.main(list(arguments))
    return end.value.code


@pytest.mark.parametrize("name", ["stdin", "stdout", "stderr"])
def test_nobody_hears_a_closed_stream_and_nothing_else_changes(monkeypatch, capsys, name):
    monkeypatch.setattr(sys, name, None)
    assert ended("dialects") == 0
    assert ("two-block" in capsys.readouterr().out) is (name != "stdout")
    getattr(sys, name).close()


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="this system has no full device")
@pytest.mark.parametrize(
    ("stream", "says", "arguments"),
    [(full, SENTENCE, ["dialects"]), (full, SENTENCE, ["--version"]), (broken, "", ["dialects"])],
    ids=["full", "full, by the library", "broken"],
)
def test_what_cannot_be_written_is_said_once(monkeypatch, capsys, stream, says, arguments):
    with stream() as out:
        monkeypatch.setattr(sys, "stdout", out)
        assert ended(*arguments) == 1
        out.flush()  # as Python does at its end
    assert capsys.readouterr().err == says


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="this system has no full device")
@pytest.mark.parametrize("stream", [full, broken])
def test_a_wrong_call_keeps_its_status_where_nothing_can_be_said(monkeypatch, stream):
    with stream() as err:
        monkeypatch.setattr(sys, "stderr", err)
        assert ended("nonsense") == 2
        err.flush()
