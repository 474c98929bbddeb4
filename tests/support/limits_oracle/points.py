"""Named small drawings, each with what must come of it. A point gives what is wrong; nothing when it ends right."""

from collections.abc import Callable
from pathlib import Path

from support.door import judged, make

from .byhand import Print, drawn, shop_with, wanted
from .law import faults
from .rival import rival
from .values import Piece, Shop, State

SHOP = shop_with(outside=(2.0, 0.1), inside=(2.0, 0.1), face=(2.0, 0.1))


def program(folder: Path) -> str:
    return (folder / "out" / "piece.nc").read_text(encoding="ascii")


def kept(folder: Path, printed: Print, shop: Shop = SHOP, note: str = "", must: bool = True) -> list[str]:
    """What is wrong with what is made of a drawing; `must`: a refusal is wrong as well."""
    files = drawn(folder, printed, shop, note)
    answer = make(*files, folder / "out")
    if answer.status:
        return [f"refused: {answer.stops()}"] if must or not answer.stops() else []
    return [str(f) for f in faults(printed.piece, wanted(printed, shop, note), shop, program(folder))]


def agreed(folder: Path, printed: Print, state: State, agree: bool, shop: Shop = SHOP, note: str = "") -> list[str]:
    """What is wrong with how a program for these walls and floors is compared."""
    files = drawn(folder, printed, shop, note)
    text = rival(printed.piece, wanted(printed, shop, note), shop, state)
    assert text is not None
    answer = judged(files, text)
    if answer.status > 1 or answer.document is None:
        return [f"can't be compared: {answer.said}"]
    if answer.document["agree"] == agree:
        return []
    return [f"{'accused' if agree else 'agreed'}: {[g['state'] for g in answer.document['grooves']]} {answer.stops()}"]


def shifted(piece: Piece, **moves: float) -> State:
    """The drawn state with walls and floors moved: `near0=0.1` moves the near wall of recess 0."""
    state = piece.state()
    for name, by in moves.items():
        state[int(name[-1]), name[:-1]] += by
    return state


POINTS: dict[str, Callable[[Path], list[str]]] = {}


def point(name: str) -> Callable[[Callable[[Path], list[str]]], Callable[[Path], list[str]]]:
    """Enters a point under a sentence that says what it holds."""

    def enter(function: Callable[[Path], list[str]]) -> Callable[[Path], list[str]]:
        POINTS[name] = function
        return function

    return enter
