"""Five houses and how each writes a whole program: their order is the trade's, their habits are their own.

alder   roughing and finishing by contour, G75 and G74 in two blocks, threads by G76, home by G28 between tools
birch   G90 and G94 boxes, G75 in one block, threads by G92, a place of its own to change at
cedar   everything written out in absolute words of ISO 6983, threads by G33, every block numbered
dogwood variables and loops, subprograms for grooves, threads by G76
elder   lower case without blanks, increments, G72, G83, threads by G32, feeds per minute for the drill
"""

from collections.abc import Callable, Mapping

from support.wholes.by_cycles import alder, birch, elder
from support.wholes.by_hand import cedar, dogwood
from support.wholes.pieces import Piece

HOUSES: Mapping[str, Callable[[Piece], str]] = {
    "alder": alder,
    "birch": birch,
    "cedar": cedar,
    "dogwood": dogwood,
    "elder": elder,
}
ISO = frozenset({"cedar"})
CONTROLS: Mapping[str, str] = {
    "alder": "two-block",
    "birch": "one-block",
    "cedar": "plunge",
    "dogwood": "two-block",
    "elder": "two-block",
}
SHOPS: Mapping[str, str] = {"cedar": 'whole_numbers = "units"\n'}
"""What a house's shop file says of its control besides."""
