"""A dialect file: TOML text laid over its base, checked whole, every fault with its line; then compiled.

The base of all is `trade`. A table of the file is laid over the base's key by key; `other_words = "none"` and
`cycle = "none"` take the base's away. A G or M word that the file claims for one thing is no longer any other of the
base's; an M word that it gives to the machine's own is none of the base's either.
"""

import tomllib
from collections.abc import Callable, Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from extractor.errors import SettingsError
from extractor.rounding import ROUNDING
from postproc.dialect import Dialect
from postproc.dialects.compiling import compiled
from postproc.dialects.faults import Faults
from postproc.dialects.keys import ALL_NUMBERS, BLOCKS, CYCLE, NUMBERS, PROGRAM, SWITCHES, TOP, WORDS, DialectKey
from postproc.dialects.lines import key_lines

Table = dict[str, Any]
BASE = "trade"
LONGEST_MEANING = 60
"""Most characters of what a word of the machine's own does: it stands in sentences of one line."""
NONE = frozenset({"other_words", "cycle"})
"""Tables that a file may take away."""
_TABLES: Mapping[str, Mapping[str, object]] = {
    "words": WORDS,
    "other_words": WORDS,
    "switches": SWITCHES,
    "blocks": BLOCKS,
    "cycle": CYCLE,
    "program": PROGRAM,
}
_HOMES: Mapping[str, Mapping[str, object]] = {
    "": TOP,
    **{f"[{name}]": keys for name, keys in (*_TABLES.items(), ("numbers", ALL_NUMBERS))},
}
"""Where each key belongs, to say it of one that stands elsewhere."""


def load_dialect(text: str, name: str, bases: Callable[[str], Table | None], shown: str = "") -> Dialect:
    """The dialect that a TOML text describes; `bases` gives the whole table of a base by name.

    Raises SettingsError whose one sentence names every fault with its line. `shown` is the file's name in it.
    """
    table, faults = whole_table(text, name, bases)
    made = compiled(table, name, faults) if table else None
    if made is None or faults.found:
        raise SettingsError(f"{shown or name} can't be used as a dialect: {faults.sentence()}.")
    return made


def whole_table(text: str, name: str, bases: Callable[[str], Table | None]) -> tuple[Table, Faults]:
    """The table of a dialect text laid over its bases, and what is wrong with it; none where the base isn't known."""
    faults = Faults(key_lines(text))
    data = _parsed(text, faults)
    _check(data, faults)
    base: Table = {}
    if name != BASE:
        wanted = data.get("base", BASE)
        found = bases(wanted) if isinstance(wanted, str) else None
        if found is None:
            faults.add("base", f"is {wanted!r}, which is not a dialect at hand")
            return {}, faults
        base = found
    return _laid_over(base, faults.without(data)), faults


def _parsed(text: str, faults: Faults) -> Table:
    """The tables of a text; one that isn't TOML is one fault, which names its own line."""
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
        faults.add("", f"the text is not valid TOML ({' '.join(str(error).split())})")
        return {}


def _check(data: Table, faults: Faults) -> None:
    """Every key known and every value of its kind."""
    for key, value in data.items():
        if key in TOP and TOP[key].kind == "table":
            if isinstance(value, dict):
                _check_table(key, value, faults)
            elif key not in NONE or value != "none":
                faults.add(key, "must be a table" + (', or "none"' if key in NONE else ""))
        else:
            _check_value(key, key, value, TOP, faults)


def _check_table(name: str, table: Table, faults: Faults) -> None:
    """The keys of one table."""
    if name == "numbers":
        _check_numbers(table, faults)
        return
    known = _TABLES.get(name, {})
    for key, value in table.items():
        place = f"{name}.{key}"
        if name != "own_switches" and key not in known:
            _unknown(place, key, known, faults)
        elif name == "own_switches":
            _check_own(place, key, value, faults)
        elif name in ("words", "other_words", "switches"):
            _check_word(place, value, "M" if name == "switches" else "G", faults)
        elif name == "blocks":
            if not isinstance(value, str):
                faults.add(place, "must be a pattern in quotes; an empty one says that the dialect has no such block")
        else:
            _check_value(place, key, value, CYCLE if name == "cycle" else PROGRAM, faults)


def _check_numbers(table: Table, faults: Faults) -> None:
    """The forms of numbers: general keys, and a table for each address."""
    for key, value in table.items():
        place = f"numbers.{key}"
        if key in ALL_NUMBERS:
            _check_value(place, key, value, ALL_NUMBERS, faults)
        elif isinstance(value, dict) and (key.isupper() or key.endswith("=")):
            for inner, one in value.items():
                _check_value(f"{place}.{inner}", inner, one, NUMBERS, faults)
        else:
            _unknown(place, key, ALL_NUMBERS, faults)


def _check_value(place: str, key: str, value: object, known: Mapping[str, DialectKey], faults: Faults) -> None:
    if key not in known:
        _unknown(place, key, known, faults)
    elif wrong := _wrong(value, known[key]):
        faults.add(place, f"is {value!r}, and must be {wrong}")


def _unknown(place: str, key: str, known: Mapping[str, object], faults: Faults) -> None:
    """A key that there isn't, with the nearest that there is."""
    homes = [name or "the lines above the first table" for name, keys in _HOMES.items() if key in keys]
    near = get_close_matches(key, list(known), n=1)
    hint = f" (did you mean {near[0]}?)" if near else ""
    faults.add(place, f"belongs in {homes[0]}" if homes and not near else f"is not a key of a dialect{hint}")


def _wrong(value: object, key: DialectKey) -> str:
    """What a value must be, empty where it is right."""
    whole = isinstance(value, int) and not isinstance(value, bool)
    match key.kind:
        case "text":
            return "" if isinstance(value, str) else "some text"
        case "flag":
            return "" if isinstance(value, bool) else "true or false"
        case "choice":
            return "" if value in key.choices else " or ".join(f'"{one}"' for one in key.choices)
        case "choices":
            fine = isinstance(value, list) and all(one in key.choices for one in value)
            return "" if fine else f"a list of {', '.join(key.choices)}"
        case "whole":
            fine = whole and key.low <= int(str(value)) <= key.high
            return "" if fine else f"a whole number from {key.low} to {key.high}"
        case "texts":
            fine = isinstance(value, list) and all(isinstance(one, str) for one in value)
            return "" if fine else "a list of lines in quotes"
        case "by units":
            return _wrong_by_units(value, key)
        case "addresses":
            axes = isinstance(value, dict) and all(
                len(k) == 1 and k.isupper() and v in ("X", "Z") for k, v in value.items()
            )
            return "" if axes else 'letters with the axis of each, like { U = "X", W = "Z" }'
        case _:
            return "a table"


def _wrong_by_units(value: object, key: DialectKey) -> str:
    """What a value for each system of units must be."""
    ones = list(value.values()) if isinstance(value, dict) and set(value) == {"mm", "in"} else [None]
    if key.high:
        fine = all(type(one) is int and key.low <= one <= key.high for one in ones)
        return "" if fine else f"whole numbers like {{ mm = 3, in = 4 }}, up to {key.high}"
    return "" if all(map(_power, ones)) else "a decimal step for each, like { mm = 0.001, in = 0.0001 }"


def _power(value: object) -> bool:
    """True for 1, 0.1, 0.01 and so on down to a millionth."""
    return type(value) in (int, float) and any(abs(float(str(value)) * 10**n - 1) < ROUNDING for n in range(7))


def _check_word(place: str, value: object, letter: str, faults: Faults) -> None:
    """A word or a list of words of one letter."""
    words = value if isinstance(value, list) else [value]
    for word in words:
        if not (isinstance(word, str) and word[:1] == letter and word[1:].isdigit() and len(word) <= 5):
            faults.add(place, f"has {word!r}, and must have words like {letter}{'04' if letter == 'G' else '08'}")
    if len({_number(word) for word in words}) < len(words):
        faults.add(place, "has one word twice")


def _check_own(place: str, word: str, does: object, faults: Faults) -> None:
    """An M word of the machine's own with what it does."""
    _check_word(place, word, "M", faults)
    if not (isinstance(does, str) and does.strip() and does.isprintable() and len(does) <= LONGEST_MEANING):
        faults.add(place, f"must say in quotes what the word does, in at most {LONGEST_MEANING} characters")


def _number(word: object) -> int | str:
    text = str(word)
    return int(text[1:]) if text[1:].isdigit() else text


def _laid_over(base: Table, data: Table) -> Table:
    """A file's tables over those of its base."""
    made: Table = {key: dict(value) if isinstance(value, dict) else value for key, value in base.items()}
    if own := data.get("own_switches"):
        made["switches"] = _claimed(made.get("switches", {}), {"own": [*own]})
        del made["switches"]["own"]
    for key, value in data.items():
        if key in NONE and value == "none":
            made[key] = {}
        elif not isinstance(value, dict):
            made[key] = value
        elif key in ("words", "other_words", "switches"):
            made[key] = _claimed(made.get(key, {}), value)
        elif key == "numbers":
            made[key] = _numbers_over(made.get(key, {}), value)
        else:
            made[key] = {**made.get(key, {}), **value}
    made.pop("base", None)
    return made


def _claimed(base: Table, given: Table) -> Table:
    """Words over words: what is claimed for one thing is taken from all others."""
    claimed = {_number(word) for words in given.values() for word in _listed(words)}
    kept = {key: [word for word in _listed(words) if _number(word) not in claimed] for key, words in base.items()}
    return {**{key: words for key, words in kept.items() if words}, **given}


def _listed(words: object) -> Sequence[str]:
    """A word or several as a list."""
    return words if isinstance(words, list) else [str(words)]


def _numbers_over(base: Table, given: Table) -> Table:
    """Forms of numbers over others, each address by itself; the increments as a whole."""
    made = dict(base)
    for key, value in given.items():
        own = isinstance(value, dict) and key != "increments" and key not in NUMBERS
        made[key] = {**made.get(key, {}), **value} if own else value
    return made
