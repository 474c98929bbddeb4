"""Every way to read the pieces of a note at a groove: which figure is which size, and what may be a count.

`4x2` is width by radial depth (common practice, no source), but may also mean four of 2, so every reading that the
words allow is kept, the likelier one first.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import permutations

from extractor.grammar import coarsest
from extractor.side import Where
from extractor.sizing.lettering.printed import Printed, parse
from extractor.values import dataclass

Token = tuple[str, Printed | None]
WALLS = ("mouth_diameter", "floor_diameter")
FIELDS = {"diameter": "floor_diameter", "wide": "width", "deep": "depth", "land": "across"}


@dataclass(frozen=True, kw_only=True)
class Meaning:
    """One way to read a note: sizes by groove field, a count, and the side of the part, None where it says none.

    Besides fields there are `pitch`, from each groove to the next, `across`, a diameter at the groove, and `along`, its
    width or, of one in a face, its depth.
    """

    sizes: tuple[tuple[str, Printed], ...]
    count: int | None = None
    where: Where | None = None


def counted_behind(
    tokens: list[Token], times: re.Match[str] | None, field: str, pitch: Printed | None, first: bool
) -> Iterator[Meaning]:
    """Ways to read a note whose count stands behind its pieces, or may be the `first` of them; none without a count."""
    if times is None:
        return
    yield from ways(tokens[:-2], int(times[1]), field, pitch)
    turned = [*reversed(tokens[-2:]), *tokens[:-2]]
    yield from (m for m in ways(turned, None, field, pitch) if m.count is not None and first)


def ways(tokens: list[Token], count: int | None, field: str, pitch: Printed | None) -> Iterator[Meaning]:
    """Every way to read the pieces of a note."""
    spaced = (("pitch", pitch),) if pitch is not None else ()
    named = [(FIELDS[kind], figure) for kind, figure in tokens if kind in FIELDS and figure]
    bare = [figure for kind, figure in tokens if kind == "number" and figure]
    fields, grooved = [name for name, _ in named], any(kind == "groove" for kind, _ in tokens)
    if len(set(fields)) < len(fields):
        yield from _of_walls(named, bare, count)
        return
    if not bare:
        # A diameter alone is a dimension's text, or that of a groove: its floor's or its land's.
        alone = fields == ["floor_diameter"] and count is None and not spaced
        if named and not alone:
            yield Meaning(sizes=(*named, *spaced), count=count)
        elif alone and named[0][1].limited:
            yield Meaning(sizes=(("across", named[0][1]),))
        elif spaced and not grooved and count is not None:
            # Of `3 x 10 PITCH` nobody can tell whether 3 counts the grooves or the steps between them.
            yield from (Meaning(sizes=spaced, count=count + more) for more in (0, 1))
        elif spaced or (grooved and (named or count is not None)):
            yield Meaning(sizes=(*(("across", figure) for _, figure in named), *spaced), count=count)
        return
    # `3 Ø34` and `GROOVE 3 TIEFE 2` stand for a product without its sign.
    product = [kind for kind, _ in tokens if kind != "groove"] in (["number", "diameter"], ["number", "deep"])
    if not product and not any(kind == "by" for kind, _ in tokens) and len(bare) + len(named) > 1:
        return
    leading = tokens[0][0] == "number"
    for sizes, number in _bare(bare, fields, count, field if leading else None):
        yield Meaning(sizes=(*sizes, *named, *spaced), count=number)
    for pair in permutations(("width", "floor_diameter")) if len(bare) == 2 and not named else ():
        # `NECK 34 x 3` and `34 x 3` give the floor's diameter, and so may `NECK 3 x 34`.
        yield Meaning(sizes=(*zip(pair, bare, strict=True), *spaced), count=count)


def _of_walls(named: list[tuple[str, Printed]], bare: list[Printed], count: int | None) -> Iterator[Meaning]:
    """What two diameters of one groove may be, its mouth's and its floor's in either order: in a face its walls.

    A bare size beside them lies along the axis. As near to one another as that, they may be the limits of one.
    """
    across = [figure for name, figure in named if name == "floor_diameter"]
    rest = (*(one for one in named if one[0] != "floor_diameter"), *(("along", figure) for figure in bare))
    if len(across) != len(WALLS) or len(dict(rest)) < len(rest):
        return
    for one, two in permutations(WALLS):
        yield Meaning(sizes=((one, across[0]), (two, across[1]), *rest), count=count)
    both, values = parse("/".join(f"Ø{figure.value:g}" for figure in across)), [figure.value for figure in across]
    near = max(values) - min(values) <= coarsest(max(values))
    if both.limits and near and not any(figure.limited for figure in across):
        yield Meaning(sizes=(("floor_diameter", both), *rest), count=count)


def instead(meaning: Meaning, field: str) -> Meaning:
    """The same with another size for the depth."""
    return replace(meaning, sizes=tuple((field if name == "depth" else name, one) for name, one in meaning.sizes))


def _bare(
    bare: list[Printed], named: list[str], count: int | None, field: str | None
) -> Iterator[tuple[tuple[tuple[str, Printed], ...], int | None]]:
    """What the numbers without a word may be beside those with one; `field` None where the first can be no count."""
    free = [name for name in ("width", "depth") if name not in named]
    named = [name for name in named if name != "across"]
    if "floor_diameter" in named and "width" in free:
        free = ["width"]
    if len(bare) <= len(free) and (len(bare) + len(named) > 1):
        yield tuple(zip(free, bare, strict=False)), count
    first, last = bare[0], bare[-1]
    if len(bare) == 1 and not named and first.limited:
        # A depth is no feature of size, so it has no class (ISO 286-1, from memory).
        depth = ("depth",) if first.tolerance_class is None else ()
        yield from ((((name, first),), count) for name in ("width", *depth, "floor_diameter"))
    if count is None and len(bare) == len(free) + 1 == 3 and last.decimals == 0 and not last.limited:
        yield tuple(zip(free, bare, strict=False)), int(last.value)
    if field is not None and count is None and first.decimals == 0 and first.value >= 2 and not first.limited:
        rest = [field] if len(bare) == 2 and not named else free
        if len(bare) - 1 <= len(rest) and (len(bare) > 1 or named):
            yield tuple(zip(rest, bare[1:], strict=False)), int(first.value)
