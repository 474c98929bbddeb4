"""What could be read two ways: a dialect whose blocks can't be told apart is refused when it is loaded."""

from collections.abc import Iterator, Mapping

from postproc.dialect import Dialect
from postproc.dialects.round_steps import Doubt, frame_doubts
from postproc.vocabulary.acts import Act
from postproc.vocabulary.forms import CycleForm
from postproc.vocabulary.pattern import Pattern

_OWN: Mapping[str, frozenset[str]] = {
    "X": frozenset({"x", "floor", "start_x", "home_x"}),
    "Z": frozenset({"z", "end", "start_z", "home_z"}),
    "F": frozenset({"feed"}),
    "S": frozenset({"speed", "rpm"}),
    "T": frozenset({"station", "offset"}),
}
"""Letters that mean one thing wherever they stand, with the fields that may stand behind them."""
_NEVER = "GMNO"
_FIRM = frozenset({"feed", "speed", "station", "offset"})
"""Fields whose letter means them in every block."""


def doubts(made: Dialect) -> Iterator[Doubt]:
    """Each place of a dialect's file that could be read two ways, with the reason."""
    for place, blocks in _patterns(made).items():
        yield from _letters(place, blocks)
    yield from _renamed(made)
    yield from _increments(made)
    yield from _bare(made)
    yield from _axes(made)
    yield from _steps(made)
    yield from _tool(made)
    yield from _choices(made)
    if made.cycle is not None:
        yield from _cycle(made, made.cycle)
    yield from _repeat(made)
    yield from _home(made)
    missing = list(_needed_words(made))
    yield from missing or frame_doubts(made)


def _patterns(made: Dialect) -> Mapping[str, tuple[Pattern, ...]]:
    """All patterns of a dialect by their keys."""
    patterns: dict[str, tuple[Pattern, ...]] = {f"blocks.{key}": (block,) for key, block in made.blocks.items()}
    return patterns | ({"cycle.blocks": made.cycle.blocks} if made.cycle is not None else {})


def _letters(place: str, blocks: tuple[Pattern, ...]) -> Iterator[Doubt]:
    """Letters that mean something else wherever they stand."""
    for name, gap in ((name, gap) for block in blocks for name, gap in block.gaps.items()):
        seconds = name == "seconds" and gap.address in "XF"
        if gap.address in _NEVER and gap.address and name not in ("number", "program"):
            yield place, f"has {gap.address}{{{name}}}, and {gap.address} always means something else"
        elif gap.address in _OWN and name not in _OWN[gap.address] and not seconds:
            yield place, f"has {gap.address}{{{name}}}, and {gap.address} is already {sorted(_OWN[gap.address])[0]}"
        elif not gap.address and name not in ("g", "m", "sense"):
            yield place, f"has {{{name}}} with no address before it"


def _renamed(made: Dialect) -> Iterator[Doubt]:
    """An address that stands for one of the trade's in one block and for something else in another."""
    meant: dict[str, set[str]] = {}
    for block in (*made.blocks.values(), *(made.cycle.blocks if made.cycle else ())):
        for name, gap in block.gaps.items():
            if not (name == "offset" and made.tool.joined) and not (name == "seconds" and gap.address in "XF"):
                meant.setdefault(gap.address, set()).add({"rpm": "speed"}.get(name, name))
    for address, names in meant.items():
        if len(names) > 1 and (address in made.renamed or not names.isdisjoint(_FIRM)):
            others = ", ".join(sorted(names))
            yield _place_of(made, address), f"has {address} for several things ({others}); give each its own"


def _increments(made: Dialect) -> Iterator[Doubt]:
    """A letter that moves an axis by an increment has no other meaning but the time of a dwell (common practice)."""
    for place, blocks in _patterns(made).items():
        for name, gap in ((name, gap) for block in blocks for name, gap in block.gaps.items()):
            dwells = name == "seconds" and "g" in made.blocks["dwell"].gaps
            if gap.address in made.increments and not name.startswith("home_") and not dwells:
                word = f"{gap.address}{{{name}}}"
                yield place, f"has {word}, and {gap.address} is an increment; take it out of numbers.increments"


def _bare(made: Dialect) -> Iterator[Doubt]:
    """Blocks that a G word names, or an assignment word of their own; a letter alone could be anything."""
    for key in ("clamp", "surface", "rpm", "dwell"):
        block = made.blocks.get(key)
        if block is None or "g" in block.gaps:
            continue
        words = {address for address in block.addresses if address.endswith("=")}
        others = [one for blocks in _patterns(made).values() for one in blocks if one is not block]
        shared = sorted(word for word in words if any(word in one.addresses for one in others))
        if shared:
            yield f"blocks.{key}", f"has no {{g}}, and its {shared[0]} stands in another block as well"
        elif not words:
            yield f"blocks.{key}", "can't be told from other blocks: begin it with {g}, or write WORD={...}"


def _place_of(made: Dialect, address: str) -> str:
    """The key of a block that has an address."""
    return next((f"blocks.{key}" for key, block in made.blocks.items() if address in block.addresses), "cycle.blocks")


def _axes(made: Dialect) -> Iterator[Doubt]:
    """Straight moves and arcs go to X and Z."""
    for key in ("rapid", "cut", "arc"):
        block = made.blocks.get(key)
        if block is not None and (block.gaps["x"].address, block.gaps["z"].address) != ("X", "Z"):
            yield f"blocks.{key}", "must have its places as X{x} and Z{z}"


def _steps(made: Dialect) -> Iterator[Doubt]:
    """The usual address of an increment that has another name here stands for nothing else."""
    taken = {address for given, address in made.renamed.items() if given in made.increments}
    for place, blocks in _patterns(made).items():
        for name, gap in ((name, gap) for block in blocks for name, gap in block.gaps.items()):
            if gap.address in taken:
                yield place, f"has {gap.address}{{{name}}}, where numbers.increments gives {gap.address} another name"


def _tool(made: Dialect) -> Iterator[Doubt]:
    """Station and offset in one number, or the offset behind a letter that nothing else uses."""
    station, offset = made.tool.station, made.tool.offset
    if station.address == offset.address:
        words = [word for word in made.blocks["tool"].words if len(word.gaps) == 2]
        if not words or words[0].gaps != (station, offset):
            yield "blocks.tool", "must have the station before the offset"
    cancel = made.blocks.get("cancel")
    if cancel is not None and station.address != offset.address and not cancel.fixed:
        yield "blocks.cancel", f"must have the word that cancels the offset, like {offset.address}0"


def _choices(made: Dialect) -> Iterator[Doubt]:
    """Blocks that say one thing in one of several ways."""
    dwell = made.blocks.get("dwell")
    if dwell is not None and len({"ms", "seconds"} & set(dwell.gaps)) != 1:
        yield "blocks.dwell", "must have one of {ms} and {seconds}"
    arc = made.blocks.get("arc")
    if arc is not None:
        ways = [{"radius"}, {"i", "k"}, {"centre_x", "centre_z"}]
        said = set(arc.gaps) & {"radius", "i", "k", "centre_x", "centre_z"}
        if said not in ways:
            yield "blocks.arc", "must have one of {radius}, {i} with {k}, and {centre_x} with {centre_z}"
        elif any(arc.gaps[name].address == "R" for name in said - {"radius"}):
            yield "blocks.arc", "has R for its centre, and R is the radius of an arc"


def _cycle(made: Dialect, form: CycleForm) -> Iterator[Doubt]:
    """Cycles whose blocks can't be told from one another or from a move."""
    call = form.call
    if "g" in call.gaps and not made.says(Act.GROOVE):
        yield "words.groove", "is missing: the cycle has {g}, and no word stands for it"
    if "g" not in call.gaps and not call.fixed:
        yield "cycle.blocks", "has no word that calls the cycle: begin the last block with {g} or with the very words"
    for number, block in enumerate(form.blocks[:-1]):
        if not call.needed - block.addresses:
            yield "cycle.blocks", f"can't be told apart: all that {call.text!r} needs stands in {block.text!r} too"
        if any(block.needed == other.needed for other in form.blocks[:number]):
            yield "cycle.blocks", f"can't be told apart: {block.text!r} has the words of a block before it"
        bare = "g" not in block.gaps and not all(address.endswith("=") for address in block.addresses)
        if bare:
            yield "cycle.blocks", f"can't be told from a move: {block.text!r} has no {{g}} and a plain letter"
    for name, gap in form.gaps.items():
        usual = {"X": ("floor", "start_x"), "Z": ("end", "start_z")}.get(gap.address)
        if usual is not None and name not in usual:
            yield "cycle.blocks", f"has {gap.address}{{{name}}}, and {gap.address} is a place"


def _repeat(made: Dialect) -> Iterator[Doubt]:
    """Shorter ways for like grooves need their words."""
    if made.repeat == "modal" and (made.cycle is None or not made.cycle.ended_by):
        yield "repeat", "is modal, and [cycle] gives no ended_by, the word that ends it"
    if made.cycle is not None and (word := made.cycle.ended_by):
        fine = word[:1] == "G" and word[1:].isdigit() and made.g_words.get(int(word[1:])) is Act.IDLE
        if not fine:
            yield "cycle.ended_by", f"is {word!r}, and must be one of the G words that are idle"
    if made.repeat == "subprogram" and ("call" not in made.blocks or len(made.frame.subprogram) != 2):
        yield "repeat", "is subprogram, and needs blocks.call and the two lines of program.subprogram"


def _home(made: Dialect) -> Iterator[Doubt]:
    """The way to the reference point names its axes by addresses that move them."""
    for name, axis in (("home_x", "X"), ("home_z", "Z")):
        gap = made.gap("home", name)
        if gap is not None and made.increments.get(gap.address, gap.address) != axis:
            why = f"has {gap.address}{{{name}}}, and {gap.address} doesn't move {axis} here"
            yield "blocks.home", f"{why}; write {axis}{{{name}}}, or an address of numbers.increments"


def _needed_words(made: Dialect) -> Iterator[Doubt]:
    """Words that no program can do without."""
    for act in (Act.RAPID, Act.FEED, Act.METRIC, Act.INCH, Act.RPM, Act.PER_REV):
        if not made.says(act) and not (act is Act.RPM and "g" not in made.blocks["rpm"].gaps):
            yield f"words.{act.name.lower()}", "is missing, and no program can do without it"
