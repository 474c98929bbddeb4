"""What to change in a program to get one more groove: the smallest change to the text, worked out for each row.

Several calls of the cycle can cut one row, side by side, where grooves are wider than the insert; they change together.
A row whose shift is less than the insert's width is one wide groove; where it is not known, the sentence says so.
"""

from collections.abc import Iterator, Mapping, Sequence

from postproc.explaining.scene import BlockScene
from postproc.reading.run import CycleCall
from postproc.vocabulary.acts import Switch
from postproc.vocabulary.forms import CycleForm
from postproc.vocabulary.numbers import decimal

CHECK = "check first that the place is on the part and clear of the jaws"

Row = tuple[BlockScene, CycleCall, CycleForm]


def one_more(scenes: Sequence[BlockScene], widths: Mapping[int, int], cuts: bool) -> tuple[str, ...]:
    """A sentence for each row that a number in the text governs.

    `scenes` are the calls of the cycle and of subprograms, `cuts`: the program cuts at all. `widths`: the insert's
    width in counts by station, where it is known. Where every groove is written out, one sentence says so.
    """
    found = [*_rows(scenes, widths), *_repeats(scenes)]
    if found or not cuts:
        return tuple(found)
    return (f"For one groove more, write the blocks of one groove again with its own Z ({CHECK}).",)


def _rows(scenes: Sequence[BlockScene], widths: Mapping[int, int]) -> Iterator[str]:
    """The changes of rows cut by the grooving cycle."""
    groups: list[list[Row]] = []
    heads: dict[tuple[int, int, int, int], list[Row]] = {}
    for scene in scenes:
        call = scene.call
        if call is None or scene.form is None or not (call.x_known and call.z_known):
            continue
        row, alike = (scene, call, scene.form), (call.station, call.shift or 0, len(call.places))
        # Two heads of like rows begin a shift apart or more.
        at = call.start_z // (call.shift or 1)
        near = [heads[(*alike, n)] for n in (at - 1, at, at + 1) if (*alike, n) in heads]
        twins = [group for group in near if _same_row(group[0][1], call)]
        if twins:
            min(twins, key=lambda group: group[0][0].block.line).append(row)
            continue
        groups.append([row])
        if _same_row(call, call):
            heads[(*alike, at)] = groups[-1]
    for group in groups:
        if len(group) > 1:
            yield _together(group)
        else:
            yield f"Line {group[0][0].block.line}: {_alone(*group[0], widths)}."


def _same_row(one: CycleCall, other: CycleCall) -> bool:
    """True if two calls plunge side by side along one row of several grooves."""
    return (
        bool(one.shift)
        and (one.station, one.shift, len(one.places)) == (other.station, other.shift, len(other.places))
        and abs(one.start_z - other.start_z) < (one.shift or 0)
        and not one.left_over
        and len(one.places) > 1
    )


def _end(scene: BlockScene, call: CycleCall) -> tuple[str, str]:
    """The word that holds the end of a row, and the word for one groove more."""
    shift = call.shift or 0
    last = call.places[-2] if call.left_over else call.places[-1]
    end = last + (shift if call.end_z > call.start_z else -shift)
    own = scene.form.gaps.get("end") if scene.form else None
    if own is not None and own.address not in ("Z", "") and (word := scene.among_words(own)) is not None:
        return scene.text(word), own.address + decimal(end, scene.increments.per_length)
    old = next((word for word in scene.block.words if word.address in "ZW"), None)
    if old is not None and old.address == "W":
        return scene.text(old), scene.place(scene.text(old)[0], end - call.start_z)
    return str(old or scene.place("Z", call.end_z)), scene.place("Z", end)


def _counted_row(scene: BlockScene, call: CycleCall, form: CycleForm) -> str:
    """The change of a call whose row ends by how many plunges it has, or by its length."""
    number = len(call.places)
    if scene.form is None or not {"count", "more"} & set(form.gaps):
        return f"for {number + 1} grooves instead of {number} make the row longer by one shift ({CHECK})"
    gap = form.gaps.get("count") or form.gaps["more"]
    old, new = (f"{gap.address}{n - (gap.field == 'more')}" for n in (number, number + 1))
    return f"for {number + 1} grooves instead of {number} change {old} to {new}; nothing else changes ({CHECK})"


def _together(group: Sequence[Row]) -> str:
    """The change of calls that cut one row side by side."""
    number = len(group[0][1].places)
    parts = []
    for scene, call, _ in group:
        old, new = _end(scene, call)
        parts.append(f"{old} to {new} in line {scene.block.line}")
    lines = " and ".join(str(scene.block.line) for scene, _, _ in group)
    return (
        f"Lines {lines} cut one row side by side: for {number + 1} grooves instead of {number} change "
        f"{' and '.join(parts)}; nothing else changes ({CHECK})."
    )


def _alone(scene: BlockScene, call: CycleCall, form: CycleForm, widths: Mapping[int, int]) -> str:
    """The change of one call of the cycle."""
    if not call.shift or call.end_z == call.start_z:
        shift = f"{form.shift} with the distance between the grooves"
        if form.whole:
            shift += " in least increments, without a point"
        return f"for a second groove add Z with the place of that groove and {shift} ({CHECK})"
    number, width = len(call.places), widths.get(call.station)
    if "end" not in form.gaps:
        return _counted_row(scene, call, form)
    old, new = _end(scene, call)
    if call.left_over:
        return (
            f"the end {old} is not a whole number of shifts from the start, so the last of the {number} plunges comes "
            f"early; {new} would put it a whole shift after the one before"
        )
    if width is not None and call.shift < width:
        wide = scene.length(width + abs(call.end_z - call.start_z))
        return (
            f"{number} plunges side by side make one groove {wide} wide; for one groove more write the start and the "
            f"cycle again with their own Z ({CHECK})"
        )
    unless = (
        "" if width is not None else f"; if the insert is wider than {scene.length(call.shift)} it is one wide groove"
    )
    return f"for {number + 1} grooves instead of {number} change {old} to {new}; nothing else changes ({CHECK}){unless}"


def _repeats(scenes: Sequence[BlockScene]) -> Iterator[str]:
    """The changes of calls that repeat a subprogram."""
    for scene in scenes:
        gap = scene.dialect.gap("call", "times")
        often = "L" if gap is None else gap.address
        repeats = next((word for word in scene.block.words if word.address == often), None)
        if Switch.CALL in scene.acts and repeats is None:
            yield from _in_one_number(scene)
        if Switch.CALL in scene.acts and repeats is not None and (repeats.whole or 0) > 1:
            more = f"{often}{(repeats.whole or 0) + 1}"
            yield (
                f"Line {scene.block.line}: if each run of the subprogram cuts one groove, for one more change "
                f"{scene.text(repeats)} to {more}; nothing else changes ({CHECK})."
            )


def _in_one_number(scene: BlockScene) -> Iterator[str]:
    """The change of a call whose number has the repeats before that of the program."""
    for word in scene.block.words:
        both = scene.called(word) if word.address == "P" else None
        if both is not None and both[0] > 1:
            more = f"P{both[0] + 1}{both[1]:04}"
            yield (
                f"Line {scene.block.line}: if each run of the subprogram cuts one groove, for one more change "
                f"{scene.text(word)} to {more}; nothing else changes ({CHECK})."
            )
