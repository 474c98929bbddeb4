"""Doors of the tool for bytes of any kind: each answers, or refuses in one sentence. Anything else is a fault.

`TARGETS[name](data)` raises `AssertionError` for words that are no sentence, and lets every other fault through.
"""

import atexit
import contextlib
import functools
import os
import shutil
import tempfile
from pathlib import Path

from extractor.errors import InternalFault, RillwrightError
from extractor.overlay import write_overlay
from extractor.reading import read_drawing
from planner import parse_shop, plan_part
from postproc import Heading, compare_program, explain, find_dialect, write_program
from postproc.conformance import conformance
from postproc.dialects import blank_text, read_dialect
from rillwright.answers import answered, beside
from rillwright.folder.task import DrawingTask
from rillwright.job import draft, rendered
from rillwright.jobsheet.file import rebuild_sheet
from rillwright.lying import Lying
from rillwright.outputs import Outputs
from rillwright.settings import Settings
from rillwright.shop_text import shop_text
from support.parts import part_of
from support.shaft import Drawing

QUIET = Path("/dev/shm") if Path("/dev/shm").is_dir() else Path(tempfile.gettempdir())
"""A folder in memory where the system has one: thousands of files are written."""


def sentence(error):
    """The words of a refusal; AssertionError where they are no sentence for a person, or blame the tool."""
    words = str(error)
    assert not isinstance(error, InternalFault), words
    assert words, repr(error)
    assert "our fault" not in words, words
    assert words.isprintable() or "\n- " in words, repr(words)
    return words


@contextlib.contextmanager
def refused():
    """Let refusals by, in one sentence each."""
    try:
        yield
    except RillwrightError as error:
        sentence(error)


@functools.cache
def home():
    """A folder of this process, and in it a whole drawing."""
    folder = Path(tempfile.mkdtemp(prefix=f"fuzz-{os.getpid()}-", dir=QUIET))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    drawing = Drawing()
    drawing.body()
    drawing.doc.saveas(folder / "ring.dxf")
    return folder


@functools.cache
def planned():
    """A part with two grooves, the built-in shop, and the plan."""
    part = part_of([(-10, -13, 34), (-20, -25, 34)])
    shop = parse_shop("", "built-in shop", "mm")
    return part, shop, plan_part(part, shop)


def dxf(data):
    """A drawing: read, shown over itself, made."""
    path = home() / "fuzz.dxf"
    path.write_bytes(data)
    with refused():
        reading = read_drawing(path)
        for finding in reading.findings:
            sentence(finding.message)
        write_overlay(path, reading, (), home() / "overlay.dxf")
    if len(data) < 60_000:
        record, program = draft(path, (to := Outputs(home(), "fuzz")), Settings(), Lying(to.program))
        for finding in record.findings:
            sentence(finding.message)
        rendered(Outputs(home(), "fuzz"), record, program)


def program(data):
    """A program: judged against a part and explained."""
    part, shop, _ = planned()
    text = data.decode("latin-1")
    with refused():
        for finding in compare_program(part, text, shop).findings:
            sentence(finding.message)
    with refused():
        for block in explain(text).blocks:
            sentence(block.sentence)


def shop(data):
    """A shop file: checked, and the part planned by it."""
    part, _, _ = planned()
    for units in ("mm", "in"):
        with refused():
            found = parse_shop(data.decode("utf-8", "replace"), "fuzz.toml", units)
            if units == "mm":
                for finding in plan_part(part, found).findings:
                    sentence(finding.message)


def dialect(data):
    """A dialect file: checked, its steps written and read back, the part's program written and judged."""
    part, built_in, plan = planned()
    with refused():
        found = read_dialect(data.decode("utf-8", "replace"), "fuzz")
        conformance(found)
        text = write_program(plan, found, Heading("ring.dxf", "0" * 64)).text
        compare_program(part, text, built_in, found)


def answers(data):
    """An answers file beside a drawing: laid under the options, and what it says said."""
    drawing = home() / "ring.dxf"
    for name in ("ring.answers.toml", "answers.toml"):
        path = home() / name
        path.write_bytes(data)
        with refused():
            for finding in answered(beside(drawing, Settings()), "0" * 64).findings:
                sentence(finding.message)
        path.unlink()


def record(data):
    """A record: its sheet and its inspection table rebuilt."""
    path = home() / "record.json"
    path.write_bytes(data)
    with refused():
        rebuild_sheet(path, home() / "record.html", home() / "record.csv")


TARGETS = {one.__name__: one for one in (dxf, program, shop, dialect, answers, record)}


def seeds(name, root):
    """Whole inputs of a kind, to begin with: the samples and what the tool itself writes."""
    _, _, plan = planned()
    if name == "dxf":
        small = sorted(root.glob("drawings/*.dxf"), key=lambda path: path.stat().st_size)[:6]
        return [(home() / "ring.dxf").read_bytes(), *(path.read_bytes() for path in small)]
    if name == "program":
        spoken = [find_dialect(one) for one in ("two-block", "one-block", "plunge")]
        return [write_program(plan, one, Heading("ring.dxf", "0" * 64)).text.encode() for one in spoken]
    if name == "shop":
        return [shop_text("mm").encode(), b'units = "mm"\n[machine]\n[[tools]]\nstation = 3\nwidth = 3.0\n']
    if name == "dialect":
        plain = "\n".join(line.lstrip("# ") if "=" in line else line for line in blank_text("x").splitlines())
        files = [path for path in sorted(root.glob("postproc/dialects/*.toml")) if path.stem != "keys"]
        return [plain.encode(), *(path.read_bytes() for path in files)]
    if name == "answers":
        return [
            b'units = "mm"\nfront = "left"\nat = [1.0, 2.0]\nscale = 2.0\naccept = ["assembly"]\ngrooved = true\n'
            b'drawing = "' + b"0" * 64 + b'"\n'
        ]
    outputs = Outputs(home(), "ring")
    made = DrawingTask(home() / "ring.dxf", outputs, Settings(), Lying(outputs.program))()
    return [data for path, data in made.files if path.suffix == ".json"]


__all__ = ["TARGETS", "seeds"]
