"""The figures of all that a test was told: levels, codes, lines, grooves, and the numbers in each sentence, no words.

A test checks what it is about; the rest of the answer is held against `tests/golden/figures/`, a file for each module
of tests and a line for each test, as last looked at and found good. `--renew` writes lines anew; read the difference.
A test that has no line there is not held. Wording may change freely, a number, a place or an order may not.
"""

import functools
import re
import sys
import zlib
from pathlib import Path

import extractor
import postproc
from extractor.finding import Finding
from postproc.reading.run import Run
from postproc.verdict import Verdict

GOLDEN = Path(__file__).parents[1] / "golden" / "figures"
WATCHED = {
    name: getattr(room, name)
    for room, names in ((postproc, ("judge", "compare_program", "interpret")), (extractor, ("read_sheet",)))
    for name in names
}
"""What is listened to, where a module of tests or of `support` has it by this name."""
MOST = 400
"""A longer line is kept by its length and a check sum."""


def plain(value):
    """A number without what differs from one library or machine to the next."""
    return f"{round(float(value), 4) + 0.0:g}"


def of_finding(one: Finding):
    """A finding in figures."""
    numbers = re.findall(r"\d+(?:\.\d+)?", one.message)
    place = [f"l{one.line}"] * (one.line is not None) + [f"g{one.groove}"] * (one.groove is not None)
    return " ".join([one.level[0], one.code, *place, *numbers])


def of_answer(answer):
    """An answer in figures."""
    if isinstance(answer, Run):
        steps = zlib.crc32(repr([(*one,) for one in answer.motions]).encode())
        return "; ".join([f"{len(answer.motions)} moves {steps:08x}", *map(of_finding, answer.findings)])
    if isinstance(answer, Verdict):
        cuts = [
            " ".join([one.state, str(one.drawing), *cut_of(one.program), *map(plain, one.difference.values())])
            for one in answer.matches
        ]
        return "; ".join([f"agree {answer.agree:d}", *cuts, *map(of_finding, answer.findings)])
    part = answer.part
    grooves = [] if part is None else part.grooves
    sizes = [
        " ".join(
            [g.where, g.shape, *map(plain, (g.z_near, g.z_far, g.mouth_diameter, g.floor_diameter)), str(g.tolerances)]
        )
        for g in grooves
    ]
    whole = "" if part is None else f"{part.units} {plain(part.outer_diameter)} {plain(part.length)}"
    return "; ".join([whole, *sizes, *map(of_finding, answer.findings)])


def cut_of(cut):
    """A cut groove in figures, with its lines."""
    if cut is None:
        return []
    return [*map(plain, (cut.z_near, cut.z_far, cut.floor_diameter)), "l" + ",".join(map(str, cut.lines))]


@functools.cache
def held(path):
    """The lines kept for a module, by the names of its tests."""
    rows = path.read_text().splitlines() if path.exists() else []
    return dict(row.split("\t") for row in rows)


class Listening:
    """Listens to a test while it runs."""

    def __init__(self, module):
        """Begin to listen to what the module and `support` call by the names that are watched."""
        self.heard, self._put = [], []
        homes = [module, *(one for name, one in [*sys.modules.items()] if name.startswith("support."))]
        for home in homes:
            for name, real in WATCHED.items():
                if vars(home).get(name) is real:
                    setattr(home, name, self._listener(real))
                    self._put.append((home, name, real))

    def _listener(self, real):
        @functools.wraps(real)
        def called(*given, **named):
            answer = real(*given, **named)
            self.heard.append(answer)
            return answer

        return called

    def close(self):
        """Listen no more."""
        for home, name, real in self._put:
            setattr(home, name, real)

    def text(self):
        """All that was heard, in one line."""
        return " | ".join(map(of_answer, self.heard))


def short(text):
    """A line as it is kept."""
    return text if len(text) <= MOST else f"{len(text)} characters {zlib.crc32(text.encode()):08x}"


def hold(item, text, renew):
    """Hold what was heard against what was kept."""
    line = short(text)
    path = GOLDEN / f"{item.path.stem}.txt"
    name = item.nodeid.partition("::")[2].encode("unicode_escape").decode()
    rows = held(path)
    if renew and line:
        rows[name] = line
        path.parent.mkdir(exist_ok=True)
        path.write_text("".join(f"{key}\t{rows[key]}\n" for key in sorted(rows)))
    elif name in rows:
        assert line == rows[name], (
            f"other figures than were kept in {path.name} (--renew keeps these):\n{text}\nkept: {rows[name]}"
        )
