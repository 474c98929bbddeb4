"""The picture of `compare`: the drawn outline over what the program leaves, as one small SVG that explains itself.

The whole part lies on top, front face at the right as on the lathe; below it every groove that is not as drawn is shown
enlarged, with the figure that is off.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from textwrap import wrap
from types import MappingProxyType

from markupsafe import Markup

from extractor.part import Groove, Part
from extractor.side import FACE, INSIDE, OUTSIDE, Side
from planner.increment import Increments
from postproc.judging.overlay import Overlay
from postproc.verdict import Match, State, Verdict
from rillwright.compare import closing_sentence, difference_in_words
from rillwright.picture_view import PictureWindow, UpperHalf, view
from rillwright.svg import label, picture, tag

WIDTH = 1000.0
MARGIN = 30.0
TALLEST = 260.0
PANEL = (230.0, 190.0)
MOST_PANELS = 8
MOST_STOPS = 5
LONGEST = 150
"""Letters in a line of small print."""
ROWS = 3
"""Lines of labels over the part."""
HALF_LETTER = 4.0
"""About half the width of a letter of a label."""
TITLE = "What the program leaves, over the drawing"
ALONE: Mapping[str, Overlay] = MappingProxyType({})
"""No side but the outside."""
STYLE = """
text{font:13px sans-serif;fill:#222} .head{font-weight:bold;font-size:15px}
.metal{fill:#cfd8e0} .air{fill:#fff} .drawn{fill:none;stroke:#111;stroke-width:1.2;vector-effect:non-scaling-stroke}
.gone{fill:#c62828} .standing{fill:url(#hatch);stroke:#a65b00;stroke-width:.5}
.axis{stroke:#555;stroke-dasharray:14 4 3 4} .frame{fill:none;stroke:#999} .bad{fill:#c62828} .good{fill:#1b6e2c}
text.small{font-size:11px}
"""
HATCH = tag(
    "pattern",
    tag("rect", width=5, height=5, fill="#ffcf70"),
    tag("rect", width=2, height=5, fill="#d98300"),
    id="hatch",
    width=5,
    height=5,
    patternUnits="userSpaceOnUse",
    patternTransform="rotate(45)",
)


def comparison_picture(
    part: Part, verdict: Verdict, laid: Overlay, drawing: str, program: str, more: Mapping[str, Overlay] = ALONE
) -> str:
    """The SVG text; `laid` is what is cut outside over what is drawn (`postproc.laid_over`).

    `more`: the other sides likewise, by name: "inside", "face", and "hollow" for the face laid over its filled grooves.
    """
    increments = Increments.of(part.units)
    half, whole = UpperHalf.of(laid, more.get(INSIDE.where), more.get(FACE.where), more.get("hollow")), _whole(laid)
    wrong = [match for match in verdict.matches if match.state is not State.MATCHES]
    shown = wrong[:MOST_PANELS]
    body = [
        label((MARGIN, 24), f"{program} against {drawing}", "head", "start"),
        label((MARGIN, 44), closing_sentence(verdict), "good" if verdict.agree else "bad", "start"),
        *view(half, whole),
        *_labels(part, verdict, whole, increments),
    ]
    top = whole.box[1] + whole.box[3] + 40
    body.extend(_key(top))
    for number, match in enumerate(shown):
        column, line = number % 4, number // 4
        body.extend(_panel(part, match, half, MARGIN + column * (PANEL[0] + 6), top + 50 + line * (PANEL[1] + 40)))
    height = top + 40 + (-(-len(shown) // 4)) * (PANEL[1] + 40) + 10
    if len(wrong) > len(shown):
        body.append(
            label(
                (MARGIN, height), f"{len(wrong) - len(shown)} more are not as drawn; see the table.", "small", "start"
            )
        )
        height += 20
    told = list(_stops(verdict, height))
    return _document(height + 15 * len(told), [*body, *told])


def _stops(verdict: Verdict, y: float) -> Iterator[Markup]:
    """The first stops with their lines, below the pictures."""
    stops = [finding for finding in verdict.findings if finding.stops]
    sentences = [f"line {f.line}: {f.message}" if f.line else f.message for f in stops[:MOST_STOPS]]
    if len(stops) > MOST_STOPS:
        sentences.append(f"{len(stops) - MOST_STOPS} more stops; see the table.")
    for number, words in enumerate(line for sentence in sentences for line in wrap(sentence, LONGEST)):
        yield label((MARGIN, y + 15 * number), words, "bad small", "start")


def _document(height: float, body: Sequence[Markup]) -> str:
    """The whole SVG, a shape a line, so that two of them can be held against each other."""
    ground = tag("rect", width="100%", height="100%", fill="#fff")
    parts = [tag("style", Markup(STYLE)), tag("defs", HATCH), ground, *body]
    size = {"width": WIDTH, "height": round(height)}
    line = Markup("\n")
    return picture(WIDTH, round(height), TITLE, *(line + part for part in parts), line, **size) + "\n"


def _whole(laid: Overlay) -> PictureWindow:
    """The window of the whole part: its upper half, from the turning axis up."""
    z = (int(laid.u[0]), int(laid.u[-1]))
    tallest = int(max(laid.land.max(), laid.cut.max()))
    scale = min((WIDTH - 2 * MARGIN) / max(z[1] - z[0], 1), TALLEST / max(tallest / 2, 1))
    left = (WIDTH - (z[1] - z[0]) * scale) / 2
    return PictureWindow.of(z, (0, tallest), left, 105 + tallest / 2 * scale, scale)


def _labels(part: Part, verdict: Verdict, window: PictureWindow, increments: Increments) -> Iterator[Markup]:
    """Groove numbers over the part; those not as drawn in words, one over the other where they would touch."""
    placed = []
    for match in verdict.matches:
        x = window.at(increments.count(sum(_span(match, part)) / 2), 0)[0]
        bad = match.state is not State.MATCHES
        placed.append((x, bad, f"{match.drawing or ''} {match.state.value if bad else ''}".strip()))
    ends = [-math.inf] * ROWS
    for x, bad, words in sorted(placed):
        half = HALF_LETTER * len(words)
        row = next((row for row in range(ROWS) if ends[row] <= x - half), None)
        if row is None or (row and not bad):
            continue
        ends[row] = x + half
        yield label((x, window.box[1] - 8 - 14 * row), words, "bad" if bad else "good")


def _key(y: float) -> Iterator[Markup]:
    """What the line and the two fills mean."""
    marks = (
        ("drawn", "as drawn"),
        ("metal", "left by the program"),
        ("standing", "metal left standing"),
        ("gone", "metal cut away that the drawing has"),
    )
    x = MARGIN
    for kind, words in marks:
        yield tag("rect", class_=kind, x=x, y=y, width=22, height=12)
        yield label((x + 28, y + 11), words, "small", "start")
        x += 60 + 7 * len(words)


def _panel(part: Part, match: Match, half: UpperHalf, x: float, y: float) -> Iterator[Markup]:
    """One groove enlarged, with the figure that is off."""
    span, increments = _span(match, part), Increments.of(part.units)
    groove = None if match.drawing is None else part.grooves[match.drawing - 1]
    window = _window(half, match, groove, span, increments, (x, y))
    yield from view(half, window)
    left, top, wide, tall = window.box
    yield tag("rect", class_="frame", x=left, y=top, width=wide, height=tall)
    name = "in no drawing" if groove is None else f"groove {groove.id}: {match.state.value}"
    yield label((x, y + PANEL[1] - 4), name, "bad", "start")
    yield label((x, y + PANEL[1] + 11), difference_in_words(match, groove), "small", "start")


def _window(
    half: UpperHalf,
    match: Match,
    groove: Groove | None,
    span: tuple[float, float],
    increments: Increments,
    at: tuple[float, float],
) -> PictureWindow:
    """The window of a panel: the groove from its mouth to its floor, with some room on every side."""
    z1, z0 = (increments.count(z) for z in span)
    both = [one for one in (groove, match.program) if one is not None]
    ends = [one.floor_diameter for one in both]
    if not _side(match, groove).axial:
        ends += [one.mouth_diameter for one in both if one.mouth_diameter is not None]
    walls = [increments.count(end) for end in ends]
    if _side(match, groove).axial:
        walls += half.heights(z0, z1, _side(match, groove))
    across = (min(walls), max(walls))
    room = max(z1 - z0, (across[1] - across[0]) // 2) // 5 + 1
    z, across = (z0 - room, z1 + room), (max(across[0] - 2 * room, 0), across[1] + 2 * room)
    scale = min(PANEL[0] / (z[1] - z[0]), (PANEL[1] - 30) / max((across[1] - across[0]) / 2, 1))
    return PictureWindow.of(z, across, at[0], at[1] + PANEL[1] - 20, scale)


def _side(match: Match, groove: Groove | None) -> Side:
    """Which side of the part a match is on."""
    if groove is not None:
        return groove.side
    return match.program.side if match.program else OUTSIDE


def _span(match: Match, part: Part) -> tuple[float, float]:
    """z_near and z_far over both the drawn and the cut groove."""
    groove = None if match.drawing is None else part.grooves[match.drawing - 1]
    near = [one.z_near for one in (groove, match.program) if one is not None]
    far = [one.z_far for one in (groove, match.program) if one is not None]
    return max(near), min(far)
