"""The tables of a checked dialect file become a `Dialect`; what could be read two ways is refused here."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from difflib import get_close_matches
from typing import Any

from extractor.part import Units
from postproc.dialect import Dialect
from postproc.dialects.ambiguous import doubts
from postproc.dialects.faults import Faults
from postproc.dialects.keys import AMOUNTS, BLOCKS, CYCLE_FIELDS, SWITCHES, WORDS
from postproc.vocabulary.acts import Switch
from postproc.vocabulary.figures import Figure
from postproc.vocabulary.forms import BlockNumbers, CycleForm, ProgramFrame
from postproc.vocabulary.pattern import DIAMETERS, RADII, Pattern, PatternFault, pattern

Table = dict[str, Any]


def compiled(table: Table, name: str, faults: Faults) -> Dialect | None:
    """The dialect of a whole table, or None if faults were added to `faults`."""
    before = len(faults.found)
    g_words = _numbered("words", table.get("words", {}), WORDS, faults)
    others = _numbered("other_words", table.get("other_words", {}), WORDS, faults)
    m_words = _numbered("switches", table.get("switches", {}), SWITCHES, faults)
    own = _own_switches(table.get("own_switches", {}), m_words, faults)
    blocks = _blocks(table.get("blocks", {}), faults)
    cycle = _cycle(table.get("cycle"), faults)
    if len(faults.found) > before:
        return None
    numbers = table.get("numbers", {})
    made = Dialect(
        name=name,
        title=str(table.get("title", name)),
        summary=str(table.get("summary", "")),
        g_words=g_words,
        m_words=m_words,
        own_switches=own,
        blocks=blocks,
        frame=_frame(table.get("program", {})),
        figures=_figures(numbers),
        cycle=cycle,
        diameter_x=numbers.get("x", "diameter") == "diameter",
        increments=dict(numbers.get("increments", {})),
        other_system={number: act for number, act in others.items() if number not in g_words},
        stands=frozenset(table.get("stands", ())),
        repeat=table.get("repeat", "none"),
    )
    for place, what in doubts(made):
        faults.add(place, what)
    return replace(made, figures={made.renamed.get(a, a): figure for a, figure in made.figures.items()})


def _numbered(place: str, table: Table, known: Mapping[str, Any], faults: Faults) -> dict[int, Any]:
    """Numbers and what they ask for; a number may ask for one thing only."""
    found: dict[int, Any] = {}
    for key, words in table.items():
        for word in words if isinstance(words, list) else [words]:
            number = int(word[1:])
            if number in found:
                faults.add(f"{place}.{key}", f"has {word}, which stands for {found[number]} as well")
            found[number] = known[key]
    return found


def _own_switches(table: Table, m_words: Mapping[int, Switch], faults: Faults) -> dict[int, str]:
    """M numbers of the machine's own with what they do, in small letters so that two files may be held together."""
    found: dict[int, str] = {}
    for word, does in table.items():
        number = int(word[1:])
        if number in m_words or number in found:
            other = m_words[number] if number in m_words else found[number]
            faults.add(f"own_switches.{word}", f"stands for {other} as well")
        found[number] = " ".join(does.split()).casefold()
    return found


def _blocks(table: Table, faults: Faults) -> dict[str, Pattern]:
    """The patterns of the blocks; one that is empty is none."""
    found = {}
    for key, text in table.items():
        made = _pattern(f"blocks.{key}", text, faults) if text else None
        if made is None:
            continue
        found[key] = made
        needed, more = BLOCKS[key]
        _fields(f"blocks.{key}", made, needed, needed | more, faults)
    for key in ("tool", "rapid", "cut", "clamp", "rpm"):
        if key not in found and not table.get(key):
            faults.add(f"blocks.{key}", "is empty, and no program can do without that block")
    return found


def _pattern(place: str, text: str, faults: Faults) -> Pattern | None:
    """One pattern compiled, or its fault noted."""
    try:
        return pattern(text)
    except PatternFault as fault:
        faults.add(place, str(fault))
        return None


def _fields(place: str, made: Pattern, needed: frozenset[str], known: frozenset[str], faults: Faults) -> None:
    """That a pattern has the fields that it needs and no others, each in a form that it can have."""
    missing, strange = needed - set(made.gaps), set(made.gaps) - known
    if missing:
        faults.add(place, f"lacks {{{'}, {'.join(sorted(missing))}}}")
    for one in sorted(strange):
        near = get_close_matches(one, known, n=1)
        hint = f" (did you mean {{{near[0]}}}?)" if near else ""
        faults.add(place, f"has {{{one}}}, which this kind of block doesn't have{hint}")
    for name, gap in made.gaps.items():
        if gap.measure and name not in DIAMETERS | RADII:
            faults.add(place, f"has {{{name}:{gap.measure}}}, and {name} is neither radius nor diameter")
        if gap.sign == "signed" and name not in ("shift", "depth"):
            faults.add(place, f"has {{{name}:signed}}, and only shift and depth have a direction of their own")
        if gap.sign in ("plus", "minus") and name not in AMOUNTS:
            faults.add(place, f"has {{{name}:{gap.sign}}}, and {name} has the sign that it has")


def _cycle(table: Table | None, faults: Faults) -> CycleForm | None:
    """The form of the grooving cycle, None where there is none."""
    texts = (table or {}).get("blocks", [])
    made = [_pattern("cycle.blocks", text, faults) for text in texts]
    blocks = tuple(one for one in made if one is not None)
    if table is None or not texts or len(blocks) < len(texts):
        return None
    before = len(faults.found)
    for block in blocks:
        _fields("cycle.blocks", block, frozenset(), CYCLE_FIELDS, faults)
    # A field that is misspelt is told as such, not as one that is missing.
    for fault in _cycle_faults(CycleForm(blocks)) if len(faults.found) == before else ():
        faults.add("cycle.blocks", fault)
    return CycleForm(blocks, table.get("leaves", "start"), table.get("ended_by", ""))


def _cycle_faults(form: CycleForm) -> Iterator[str]:
    """What a cycle lacks, or says twice."""
    has = set(form.gaps)
    optional = {gap.field for block in form.blocks for word in block.words if word.optional for gap in word.gaps}
    ends = has & {"end", "count", "more", "length"}
    if len(has & {"floor", "depth"}) != 1 or optional & {"floor", "depth"}:
        yield "must say how deep once and always: by {floor}, a place, or by {depth}, from the start"
    if len(ends) != 1 or "shift" not in has:
        yield "must say a row by {shift} and one of {end}, {count}, {more} and {length}"
    if len((ends | {"shift"}) & optional) == 1 and not ends & {"count", "more"}:
        yield "leaves out only one of {shift} and the end of a row; leave out both for a single groove, or none"
    if "peck" not in has or "feed" not in has or optional & {"peck", "feed"}:
        yield "must always say {peck} and {feed}"
    if has & {"start_x", "start_z"} and not {"start_x", "start_z"} <= has:
        yield "must say both {start_x} and {start_z}, or none"
    for block in form.blocks[:-1]:
        if any(word.optional for word in block.words):
            yield "leaves a word out of a block before the last, where the value of an earlier call would stand"
    fields = [gap.field for block in form.blocks for word in block.words for gap in word.gaps if gap.field != "g"]
    yield from (f"has {{{name}}} in two blocks" for name in sorted({f for f in fields if fields.count(f) > 1}))


def _figures(numbers: Table) -> dict[str, Figure]:
    """The forms of numbers by address."""
    general = {key: value for key, value in numbers.items() if key not in ("x", "increments") and not _own(key, value)}
    own = {key: value for key, value in numbers.items() if _own(key, value)}
    return {"": _figure(general), **{address: _figure({**general, **value}) for address, value in own.items()}}


def _own(key: str, value: object) -> bool:
    """True for the form of one address."""
    return isinstance(value, dict) and (key.isupper() or key.endswith("=")) and key != "increments"


def _figure(table: Table) -> Figure:
    """One form of numbers."""
    plain = Figure()
    least: Mapping[Units, int] = plain.least
    if "least" in table:
        least = {units: round(1 / step) for units, step in table["least"].items()}
    return Figure(
        table.get("point", plain.point),
        table.get("zeros", plain.zeros),
        table.get("digits", plain.digits),
        table.get("decimals", plain.decimals),
        least,
    )


def _frame(table: Table) -> ProgramFrame:
    """What stands round the steps."""
    texts: Callable[[str], tuple[str, ...]] = lambda key: tuple(table.get(key, ()))  # noqa: E731
    plain = ProgramFrame()
    return ProgramFrame(
        texts("start"),
        texts("opening"),
        texts("operation_start"),
        texts("operation_end"),
        texts("end"),
        texts("subprogram"),
        table.get("comment", plain.comment),
        table.get("comment_width", plain.width),
        table.get("comment_without", ""),
        "\r\n" if table.get("line_end") == "crlf" else "\n",
        table.get("file_name", plain.file_name),
        table.get("file_ending", plain.ending),
        BlockNumbers(table.get("block_numbers", "none"), table.get("first_number", 10), table.get("number_step", 10)),
    )
