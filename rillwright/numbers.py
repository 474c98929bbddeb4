"""Program numbers by the shop file's rule: one for all, that in the drawing's name, or counted by the watch."""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from extractor.errors import SettingsError
from rillwright.outputs import show
from rillwright.settings import NumberRule, Settings

DIGITS = 4
"""Digits of a program number (ISO 6983-1: O and a number; four of them are common practice)."""


def number_in(drawing: Path, rule: NumberRule) -> tuple[int, str]:
    """The number in a drawing's name, or 0 and a sentence that says why there is none.

    A run of four digits counts before shorter runs; a longer run is no program number.

    >>> number_in(Path("ring 0042 rev 3.dxf"), NumberRule("name", 1, 9999))
    (42, '')
    """
    found = [run for run in re.findall("[0-9]+", drawing.stem) if len(run) <= DIGITS]
    full = [run for run in found if len(run) == DIGITS]
    name = show(Path(drawing.name))
    if len(full or found) != 1:
        what = "no program number" if not found else f"several numbers, {' and '.join(full or found)}"
        return 0, f"{name} has {what} in its name, and the shop file takes program numbers from names."
    number = int((full or found)[0])
    if not rule.first <= number <= rule.last:
        return 0, f"The number {number} in the name {name} is not between {rule.first} and {rule.last}."
    return number, ""


def for_make(drawings: Sequence[Path], settings: Settings, given: int | None) -> list[Settings]:
    """The settings for each of several drawings with its number; `given` is the first, counted on.

    SettingsError where the numbers are counted and none is given.
    """
    rule = settings.numbers
    if given is not None:
        return [replace(settings, number=given + n) for n in range(len(drawings))]
    if rule.by == "count":
        words = "The shop file wants program numbers counted, which only watch does: give --number with the first one."
        raise SettingsError(words)
    if rule.by != "name":
        # Not counted on unasked: a drawing made again by itself must get the program that it got among others.
        return [replace(settings, number=rule.first) for _ in drawings]
    told = [number_in(drawing, rule) for drawing in drawings]
    often = Counter(number for number, fault in told if not fault)
    return [_named(drawings, settings, told, one, often) for one in range(len(drawings))]


def _named(
    drawings: Sequence[Path], settings: Settings, told: Sequence[tuple[int, str]], one: int, often: Counter[int]
) -> Settings:
    """The settings for one of the drawings with the number in its name, or why it has none."""
    number, fault = told[one]
    if fault:
        return replace(settings, number_fault=fault)
    if often[number] == 1:
        return replace(settings, number=number)
    alike = [show(drawing) for drawing, (other, _) in zip(drawings, told, strict=True) if other == number]
    return replace(settings, number_fault=both(alike, number))


def both(drawings: Sequence[str], number: int) -> str:
    """The sentence about two drawings whose names give the same number."""
    return f"{' and '.join(drawings)} give the same program number, {number}."
