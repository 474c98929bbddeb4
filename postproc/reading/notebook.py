"""Where findings about a program are noted while it runs: one of each code for a line, in the order of the lines."""

from collections.abc import Mapping
from math import inf

from extractor.finding import Code, Finding, Level
from extractor.side import Side
from planner.increment import Increments
from postproc.motion import Motion
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.numbers import decimal


class Notebook:
    """Findings about a program, each code once a line, with the numbers spelt as the program spells them."""

    def __init__(self, increments: Increments, words: Mapping[Act | Switch, str] | None = None) -> None:
        """Start empty; `words` are those of the program's dialect."""
        self.increments = increments
        self._words = words or {}
        self._found: dict[tuple[Code, int | None], Finding] = {}

    def stop(self, code: Code, line: int | None, message: str) -> None:
        """Note something unsafe: no user can answer for it."""
        self._put(Finding(Level.STOP, code, message, line=line))

    def caution(self, code: Code, line: int | None, message: str) -> None:
        """Note something that a person must look at."""
        self._put(Finding(Level.CAUTION, code, message, line=line))

    def note(self, code: Code, line: int | None, message: str) -> None:
        """Note something that is worth knowing."""
        self._put(Finding(Level.NOTE, code, message, line=line))

    def has(self, code: Code, line: int | None) -> bool:
        """True if a line has this code already."""
        return (code, line) in self._found

    def _put(self, finding: Finding) -> None:
        """Keep the first of a code and line."""
        self._found.setdefault((finding.code, finding.line), finding)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All findings by line; those without a line last."""
        return tuple(sorted(self._found.values(), key=lambda f: inf if f.line is None else f.line))

    def word(self, asked: Act | Switch) -> str:
        """The word for something, in the dialect that the program is read in."""
        return self._words.get(asked, f"the word for {asked}")

    def length(self, count: int) -> str:
        """A length without its trailing point."""
        return decimal(count, self.increments.per_length).rstrip(".")

    def radial(self, count: int) -> str:
        """Half a diameter as a length, with no digit more than a program has."""
        return decimal((count + 1) // 2, self.increments.per_length).rstrip(".")

    def height(self, count: int, side: Side) -> str:
        """A height in a side's frame as a length."""
        return self.radial(count) if side.axial else self.length(count)

    def place(self, x: int, z: int) -> str:
        """A place as a program says it."""
        per_length = self.increments.per_length
        return f"X{decimal(x, per_length)} Z{decimal(z, per_length)}"

    def end(self, motion: Motion) -> str:
        """Where a motion ends, as far as the program has said it."""
        if motion.home:
            return "the reference point"
        axes = (("X", motion.x0, motion.x1, motion.x0_known), ("Z", motion.z0, motion.z1, motion.z0_known))
        said = [a + decimal(end, self.increments.per_length) for a, start, end, known in axes if known or end != start]
        return " ".join(said) or "where it was"
