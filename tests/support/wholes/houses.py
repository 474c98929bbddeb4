"""Eight houses and how each writes a whole program: their order is the trade's, their habits are their own.

alder   roughing and finishing by contour, G75 and G74 in two blocks, threads by G76, home by G28 between tools
birch   G90 and G94 boxes, G75 in one block, threads by G92, a place of its own to change at
cedar   everything written out in absolute words of ISO 6983, threads by G33, every block numbered
dogwood variables and loops, subprograms for grooves, threads by G76
elder   lower case without blanks, increments, G72, G83, threads by G32, feeds per minute for the drill

and, for figures over many pieces:

fir     an old lathe: whole numbers without points, its zero said by G50, turned by increments, threads by G92
gum     ISO words, every block's distance mode said, tools changed at a place of the machine's own, threads by G33
hazel   variables, loops with jumps, a subprogram for each plunge in increments, home by G30

Each is a program of the folder `programs` with its sizes left open (jinja2).
"""

from collections.abc import Callable, Mapping
from functools import cache, partial
from itertools import pairwise
from pathlib import Path

import jinja2

from support.wholes import pen
from support.wholes.pieces import Piece


@cache
def _programs() -> jinja2.Environment:
    """The programs, with what they may reckon by."""
    loader = jinja2.FileSystemLoader(Path(__file__).parent / "programs")
    made = jinja2.Environment(loader=loader, line_statement_prefix="@ ", undefined=jinja2.StrictUndefined)
    made.keep_trailing_newline = True
    reckoned = (pen.n, pen.w, pen.clear_of, pen.plunges, pen.pecks, pen.profile, pen.roughing, pen.boxes, pen.thread_of)
    made.globals |= {one.__name__: one for one in (*reckoned, pairwise, len, round, int)}
    made.globals |= {"OVER": pen.OVER, "DEEPER": pen.DEEPER}
    return made


def written(house: str, piece: Piece) -> str:
    """The program of a house for a piece."""
    text = _programs().get_template(f"{house}.nc").render(piece=piece)
    if house not in ISO:
        return text
    return "\n".join(["%", *(f"N{10 * k} {line}" for k, line in enumerate(text.splitlines(), 1)), "%"]) + "\n"


ISO = frozenset({"cedar"})
"""Houses that write ISO words and number every block."""
CONTROLS: Mapping[str, str] = {
    "alder": "two-block",
    "birch": "one-block",
    "cedar": "plunge",
    "dogwood": "two-block",
    "elder": "two-block",
}
HOUSES: Mapping[str, Callable[[Piece], str]] = {name: partial(written, name) for name in CONTROLS}
SHOPS: Mapping[str, str] = {"cedar": 'whole_numbers = "units"\n'}
"""What a house's shop file says of its control besides."""
OTHER_CONTROLS: Mapping[str, str] = {"fir": "two-block", "gum": "plunge", "hazel": "two-block"}
OTHERS: Mapping[str, Callable[[Piece], str]] = {name: partial(written, name) for name in OTHER_CONTROLS}
OTHER_SHOPS: Mapping[str, str] = {"fir": 'whole_numbers = "increments"\n', "gum": 'whole_numbers = "units"\n'}
