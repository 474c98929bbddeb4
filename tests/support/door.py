"""The tool as a user calls it, by its command line, in this process."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

from rillwright.cli import main


@dataclass(frozen=True)
class Answer:
    """Exit status, the document on standard output, and all that was said."""

    status: int
    document: Any
    said: str

    def stops(self) -> list[str]:
        """The codes of the stops, and that each says something."""
        record = self.document[0] if isinstance(self.document, list) else self.document
        found = record.get("findings", []) if isinstance(record, dict) else []
        return [f["code"] for f in found if f["level"] == "stop" and len(f["message"]) > 20]


def run(*words: object, typed: str | None = None) -> Result:
    """The result of one command, its output in `stdout` and `stderr`; `typed`: what a person answers."""
    return CliRunner().invoke(main, [str(word) for word in words], input=typed)


def call(*words: object) -> Answer:
    """Runs one command with `--json` where it knows that."""
    result = run(*words)
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    try:
        document = json.loads(result.stdout)
    except ValueError:
        document = None
    return Answer(result.exit_code, document, result.output)


def make(drawing: Path, shop: Path, out: Path, *more: object) -> Answer:
    return call("make", drawing, "--shop", shop, "--out", out, "--json", *more)


def compare(drawing: Path, program: Path, shop: Path, *more: object) -> Answer:
    return call("compare", drawing, program, "--shop", shop, "--json", *more)


def judged(files: tuple[Path, Path], program: str, *more: object) -> Answer:
    """How a program is compared with a drawing and a shop file, beside which it is put."""
    written = files[0].with_name("rival.nc")
    written.write_text(program, encoding="ascii")
    return compare(files[0], written, files[1], *more)


def inspection(record: Path, csv: Path) -> Answer:
    return call("sheet", record, "--csv", csv)
