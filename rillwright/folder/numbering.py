"""Program numbers in a watched folder: each drawing's own, kept in the ledger for as long as it stands.

Numbers are told apart by shop file, since each rules a machine of its own.
"""

import os
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from rillwright.folder.ledger import GONE, Ledger, Result
from rillwright.numbers import both, number_in
from rillwright.outputs import own_name, show, spelling
from rillwright.settings import NumberRule, Settings


def numbered(ledger: Ledger, drawing: bytes, settings: Settings, latest: Mapping[bytes, Result]) -> Settings:
    """The settings with the drawing's program number, or why it has none; counted if no rule is given."""
    rule = settings.numbers
    if rule.by == "fixed":
        return _with_file(drawing, replace(settings, number=rule.first), latest)
    own = ledger.number_of(drawing)
    if rule.by != "name" and own and own[0] == settings.shop_name and rule.first <= own[1] <= rule.last:
        # No two drawings of one shop file ever have one: nothing to look through.
        return _with_file(drawing, replace(settings, number=own[1]), latest)
    taken = {number: one for one, number in ledger.numbers(settings.shop_name).items() if one != drawing}
    standing = {number: one for number, one in taken.items() if one not in latest or latest[one].state not in GONE}
    if rule.by == "name":
        number, fault = number_in(Path(os.fsdecode(drawing)), rule)
        if not fault and number in standing:
            fault = both([show(Path(os.fsdecode(one))) for one in (standing[number], drawing)], number)
    else:
        number = _counted(own, rule, taken, standing)
        fault = "" if number else f"Every program number from {rule.first} to {rule.last} is taken."
    if fault:
        return replace(settings, number_fault=fault)
    if number in taken:
        ledger.forget_number(taken[number])
    ledger.give_number(drawing, settings.shop_name, number)
    return _with_file(drawing, replace(settings, number=number), latest)


def _with_file(drawing: bytes, settings: Settings, latest: Mapping[bytes, Result]) -> Settings:
    """The settings, or why no program can have its file: by a dialect that names files by number another has it."""
    if own_name(settings.form):
        return settings
    folder, file = Path(os.fsdecode(drawing)).parent, spelling(settings.form)
    for other in latest.values():
        alike = other.program_file is not None and spelling(other.program_file) == file and other.drawing != drawing
        if alike and other.state != "removed" and Path(other.name).parent == folder:
            names = f"{show(Path(other.name))} and {show(Path(os.fsdecode(drawing)))}"
            return replace(settings, number_fault=f"{names} would share one program file, {settings.form}.")
    return settings


def _counted(
    own: tuple[str, int] | None, rule: NumberRule, taken: Mapping[int, bytes], standing: Mapping[int, bytes]
) -> int:
    """The drawing's own number where it may keep it, else the next, those of drawings that are gone last; 0: none."""
    if own is not None and rule.first <= own[1] <= rule.last and own[1] not in taken:
        return own[1]
    within = [number for number in taken if rule.first <= number <= rule.last]
    following = max(within, default=rule.first - 1) + 1
    if following <= rule.last:
        return following
    everywhere = range(rule.first, rule.last + 1)
    free = next((number for number in everywhere if number not in taken), 0)
    return free or next((number for number in everywhere if number not in standing), 0)
