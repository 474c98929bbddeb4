"""Asks at the terminal, one question after another, and writes the answers beside the drawing."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from extractor.printable import printable
from rillwright.allowance import within
from rillwright.answers import FOLDER_FILE, written
from rillwright.atomic import write_atomic
from rillwright.outputs import show
from rillwright.questions import Asked, Question, read_and_ask, reads
from rillwright.settings import Settings

MOST_QUESTIONS = 20
"""No drawing leaves more open than this; an answer that opened a new question for ever would be a fault of ours."""


def ask_all(drawing: Path, settings: Settings) -> bool:
    """Ask until nothing is open that a person can answer, and write the answers; True if nothing at all is open."""
    said: dict[str, Any] = {}
    asked = _asked(drawing, settings, said)
    kept = {name: value for name, (value, file) in asked.answers.told.items() if file.lower() != FOLDER_FILE}
    said |= kept
    for _ in range(MOST_QUESTIONS):
        if not asked.questions:
            break
        answer = _answer(asked.questions[0])
        if answer is None:
            break
        option, value = answer
        said[option] = [*said.get("accept", ()), value] if option == "accept" else value
        asked = _asked(drawing, settings, said)
    if said and said != kept:
        path = drawing.with_name(f"{drawing.stem}.answers.toml")
        write_atomic(path, written(said, asked.reading.sha256).encode())
        click.echo(f"written {show(path)}")
    return _told(asked)


def _asked(drawing: Path, settings: Settings, said: dict[str, Any]) -> Asked:
    """The drawing read with what was answered so far."""
    values = {name: value for name, value in said.items() if name != "accept"}
    accept = settings.options.accept | frozenset(said.get("accept", ()))
    options = replace(settings.options, **values, accept=accept)
    with within(settings.allowance):
        return read_and_ask(drawing, replace(settings, options=options))


def _answer(question: Question) -> tuple[str, Any] | None:
    """The option and the value chosen, None where the question is left open."""
    click.echo(printable(question.finding.message))
    for number, choice in enumerate(question.choices, 1):
        click.echo(f"  {number}  {choice.label}: {choice.reads}")
    click.echo("  0  leave it open")
    try:
        picked = click.prompt("Which", default="0", value_proc=lambda typed: _picked(typed, question))
    except click.Abort as ended:
        # Where nobody can type, all is left open; an interrupt ends the call.
        if not isinstance(ended.__context__, EOFError):
            raise
        click.echo("")
        picked = 0
    if not picked:
        return None
    chosen = question.choices[picked - 1]
    return chosen.option, chosen.value


def _picked(typed: str, question: Question) -> int:
    """The number of the choice that was typed, by its number or as its value."""
    values = [str(choice.value) for choice in question.choices]
    if typed.strip() in values:
        return values.index(typed.strip()) + 1
    if typed.strip().isdecimal() and int(typed) <= len(values):
        return int(typed)
    raise click.BadParameter(f"type one of the numbers 0 to {len(values)}.")


def _told(asked: Asked) -> bool:
    """Say what is read now, and what is still open."""
    stops = [f for f in asked.reading.findings if f.stops]
    if asked.reading.part is not None:
        click.echo(f"Read: {reads(asked.reading.part)}.")
    for stop in stops:
        click.echo(f"Still open: {printable(stop.message)}")
    return not stops


__all__ = ["ask_all"]
