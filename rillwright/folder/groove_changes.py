"""Two revisions of a drawing held against each other, groove by groove: added, taken away, moved, resized.

Grooves are in the record's JSON form. Each is paired with the one it most likely was: nearest in place and size.
"""

from collections.abc import Sequence

import networkx as nx

from rillwright.records.record_part import RecordedGroove

SAME = 1e-6
SIZES = ("width", "floor_diameter", "mouth_diameter", "corner_radius", "edge_chamfer", "edge_radius")
MOST_SENTENCES = 50
NARROWEST = 1e-3
"""What a groove with no width is taken as, so that it is paired with one at its own place."""


def groove_changes(before: Sequence[RecordedGroove], after: Sequence[RecordedGroove]) -> tuple[str, ...]:
    """One sentence for each groove that differs, in order from the front face; empty if none does.

    >>> sizes = dict(where="outside", width=3.0, floor_diameter=30.0, mouth_diameter=40.0, depth=5.0)
    >>> old = RecordedGroove(id=1, z_near=-5.0, z_far=-8.0, **sizes)
    >>> groove_changes([old], [RecordedGroove(id=1, z_near=-6.0, z_far=-9.0, **sizes)])
    ('Groove 1 moved by 1 toward the chuck.',)
    """
    pairs = _pair(before, after)
    sentences = []
    for new in after:
        old = pairs.get(new.id)
        if old is None:
            sentences.append(f"Groove {new.id} was added at Z{_show(new.z_near)}, {_show(new.width)} wide.")
        else:
            sentences += _differences(old, new)
    kept = {old.id for old in pairs.values()}
    for old in before:
        if old.id not in kept:
            sentences.append(f"The earlier groove {old.id} at Z{_show(old.z_near)} is gone.")
    if len(sentences) > MOST_SENTENCES:
        left = len(sentences) - MOST_SENTENCES
        sentences = [*sentences[:MOST_SENTENCES], f"And {left} more changes."]
    return tuple(sentences)


def _pair(before: Sequence[RecordedGroove], after: Sequence[RecordedGroove]) -> dict[int, RecordedGroove]:
    """New number -> old groove, by the matching of least total distance among those that may be the same groove."""
    same = _unchanged(before, after)
    old_left = [old for old in before if old.id not in {one.id for one in same.values()}]
    new_left = [new for new in after if new.id not in same]
    graph = nx.Graph()
    for old in old_left:
        for new in new_left:
            reach = _distance(old, new)
            if old.where == new.where and reach < 2 * max(old.width, new.width, NARROWEST):
                graph.add_edge(("old", old.id), ("new", new.id), weight=reach)
    by_number = {old.id: old for old in old_left}
    for one, other in nx.min_weight_matching(graph) if graph else ():
        (_, old_id), (_, new_id) = (one, other) if one[0] == "old" else (other, one)
        same[new_id] = by_number[old_id]
    return same


def _unchanged(before: Sequence[RecordedGroove], after: Sequence[RecordedGroove]) -> dict[int, RecordedGroove]:
    """Grooves that are where they were, whatever their number is now."""
    places = {(old.where, round(old.z_near, 4), round(old.z_far, 4)): old for old in before}
    keys = {new.id: (new.where, round(new.z_near, 4), round(new.z_far, 4)) for new in after}
    return {number: places[key] for number, key in keys.items() if key in places}


def _distance(old: RecordedGroove, new: RecordedGroove) -> float:
    return float(abs(old.z_near - new.z_near) + abs(old.z_far - new.z_far)) / 2


def _differences(old: RecordedGroove, new: RecordedGroove) -> list[str]:
    sentences = []
    shift = (new.z_near + new.z_far - old.z_near - old.z_far) / 2
    if abs(shift) > SAME:
        way = "toward the chuck" if shift < 0 else "toward the front face"
        sentences.append(f"Groove {new.id} moved by {_show(abs(shift))} {way}.")
    changed = [size for size in SIZES if abs(getattr(new, size) - getattr(old, size)) > SAME]
    if changed:
        parts = [
            f"{size.replace('_', ' ')} {_show(getattr(old, size))} is now {_show(getattr(new, size))}"
            for size in changed
        ]
        sentences.append(f"Groove {new.id} was resized: {', '.join(parts)}.")
    return sentences


def _show(value: float) -> str:
    return f"{value:.4f}".rstrip("0").rstrip(".")
