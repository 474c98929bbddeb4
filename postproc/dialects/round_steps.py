"""What can't be right about the lines round the steps of a dialect: fields and words that mean nothing, no end."""

import re
from collections.abc import Iterator, Mapping
from difflib import get_close_matches

from postproc.dialect import Dialect
from postproc.own_lines import OwnLines, shaped
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.forms import FILE_GAP, FRAME_FIELDS, FRAME_GAP

Doubt = tuple[str, str]
_WORD = re.compile(r"(?<![A-Z0-9])([GM])0*(\d+)(?![\d.])")
_REMARK = re.compile(r"\([^()]*\)|;.*")
_OF_WORDS = re.compile(r"[A-Za-z0-9+.,/:%#\[\]=-]|$")
"""Characters that words, marks and formulas begin with: no comment may."""
_ENDING = re.compile(r"\.[A-Za-z0-9]{1,8}")
_TAKEN = frozenset({".dxf", ".dwg", ".html", ".json", ".toml", ".stale", ".csv", ".tmp", ".part", ".lock"})
_OF_NAMES = re.compile(r"[A-Za-z0-9_-]*")
"""What may stand beside the fields of a file's name: what every file system and every control takes."""
_LONGEST = 24
"""Most such characters: controls that list programs show few of a name (common practice)."""
_COUNTS = frozenset({"number", "program", "operation", "tool"})
"""Fields that are no whole words."""
_BLOCKS = frozenset({"opening", "operation_start", "operation_end"})
"""Lines that must be blocks. Those of the others that are none are known by their very text."""


def frame_doubts(made: Dialect) -> Iterator[Doubt]:
    """Each place of `program` that could not be written or read back, with the reason."""
    lines: Mapping[str, tuple[str, ...]] = {key: getattr(made.frame, key) for key in FRAME_FIELDS}
    faults = [*_comment(made), *_fields(made, lines)]
    yield from faults
    yield from _file_name(made.frame.file_name)
    yield from _ending(made)
    if not faults:
        yield from _words(made, lines)
        yield from _needed(made, lines)


def _each(lines: Mapping[str, tuple[str, ...]]) -> Iterator[tuple[str, str]]:
    """Every line with its key."""
    return ((key, line) for key, lines_of in lines.items() for line in lines_of)


def _comment(made: Dialect) -> Iterator[Doubt]:
    """A comment must be told from words by what it begins with."""
    before, behind = made.frame.remark
    if made.frame.comment.count("{text}") != 1:
        yield "program.comment", f"is {made.frame.comment!r}, and must have {{text}} once"
    elif before[:1] == "(" and (before, behind) != ("(", ")"):
        yield "program.comment", "begins with a parenthesis, and must be ({text}) then"
    elif _OF_WORDS.match(before):
        yield (
            "program.comment",
            f"begins with {before[:1]!r}, as words or marks do; begin it with what nothing else has",
        )


def _file_name(pattern: str) -> Iterator[Doubt]:
    """The name of a program's file is one that no other drawing's can have, and every file system takes."""
    fields = [gap[1][:4] for gap in FILE_GAP.finditer(pattern)]
    beside, place = FILE_GAP.sub("", pattern), "program.file_name"
    if not fields or len(set(fields)) < len(fields):
        yield place, f"is {pattern!r}, and must have {{name}} or {{number}}, each once"
    elif not _OF_NAMES.fullmatch(beside) or pattern.startswith("-"):
        yield place, f"is {pattern!r}: beside {{name}} and {{number:04}} only letters, digits, - and _ go, no - first"
    elif len(beside) > _LONGEST:
        yield place, f"has {len(beside)} characters beside its fields, and may have {_LONGEST}"
    elif len(fields) > 1 and "{number:04}" not in pattern:
        yield place, f"is {pattern!r}, by which two drawings could have one file: write {{number:04}} beside {{name}}"


def _ending(made: Dialect) -> Iterator[Doubt]:
    """The ending of a program's file is one that no other file of a drawing has, and every file system takes."""
    ending = made.frame.ending
    if not _ENDING.fullmatch(ending):
        yield "program.file_ending", f"is {ending!r}, and must be a point with one to eight letters or digits, like .nc"
    elif ending.lower() in _TAKEN:
        yield "program.file_ending", f"is {ending}, which drawings, sheets, records or settings have; take another"


def _fields(made: Dialect, lines: Mapping[str, tuple[str, ...]]) -> Iterator[Doubt]:
    """Fields that a line can't have, and words that the dialect has not."""
    words = {word.name.lower(): word for word in (*Act, *Switch) if word is not Switch.OWN}
    for key, name in [(key, gap[1]) for key, line in _each(lines) for gap in FRAME_GAP.finditer(line)]:
        place = f"program.{key}"
        if name in FRAME_FIELDS[key]:
            continue
        if name not in words:
            near = get_close_matches(name, [*words, *FRAME_FIELDS[key]], n=1)
            fields = " and ".join(f"{{{one}}}" for one in sorted(FRAME_FIELDS[key]))
            hint = f" (did you mean {{{near[0]}}}?)" if near else f" (it may have {fields})" if fields else ""
            yield place, f"has {{{name}}}, which is neither a field of such a line nor a word{hint}"
        elif words[name] not in (*made.g_words.values(), *made.m_words.values()):
            table = "words" if isinstance(words[name], Act) else "switches"
            yield place, f"has {{{name}}}, and {table}.{name} is missing"


def _words(made: Dialect, lines: Mapping[str, tuple[str, ...]]) -> Iterator[Doubt]:
    """Lines that can't be read back: with no shape of a block, or with a word that means nothing here."""
    usual = OwnLines(made)
    for key, line in _each(lines):
        text = usual(FRAME_GAP.sub(lambda gap: "1" if gap[1] in _COUNTS else "M0", line))
        if key in _BLOCKS and not shaped(text, made.assigned):
            yield (
                f"program.{key}",
                f"has {line!r}, which is not a block: only the first and the last lines may be any text",
            )
        for letter, digits in _WORD.findall(_REMARK.sub("", text)):
            known = made.g_words if letter == "G" else made.m_words
            if int(digits) not in known and not (letter == "M" and made.switch(int(digits))):
                table = "words" if letter == "G" else "switches"
                told = f"has {letter}{digits}, which [{table}] gives no meaning; one that moves nothing belongs to idle"
                yield f"program.{key}", told


def _needed(made: Dialect, lines: Mapping[str, tuple[str, ...]]) -> Iterator[Doubt]:
    """The units are said, as those of the program, and the program has an end."""
    units = {made.unit_word("mm"), made.unit_word("in")}
    heads = (*lines["start"], *lines["opening"])
    if not any("{units}" in line for line in heads) or any(units & set(line.split()) for line in heads):
        yield "program.opening", "must say the units by {units}, which becomes the word of each"
    ends = {f"M{number:02d}" for number, switch in made.m_words.items() if switch is Switch.END}
    if not any("{end}" in line or ends & set(line.split()) for line in lines["end"]):
        yield "program.end", "has no word that ends the program: write {end}"
