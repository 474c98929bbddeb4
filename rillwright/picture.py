"""The picture of `compare`: the drawn outline over what the program leaves, as one small SVG that explains itself.

The whole part lies on top, front face at the right as on the lathe; below it every groove that is not as drawn is shown
enlarged, with the figure that is off. Only the outside is drawn.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from textwrap import wrap

from extractor.part import Part
from planner.increment import Increments
from postproc.metal import Ints
from postproc.overlay import Overlay
from postproc.verdict import Match, State, Verdict
from rillwright.compare import closing_sentence, difference_in_words

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
STYLE = """
text{font:13px sans-serif;fill:#222} .head{font-weight:bold;font-size:15px}
.metal{fill:#cfd8e0} .drawn{fill:none;stroke:#111;stroke-width:1.2;vector-effect:non-scaling-stroke}
.gone{fill:#c62828} .standing{fill:url(#hatch);stroke:#a65b00;stroke-width:.5}
.axis{stroke:#555;stroke-dasharray:14 4 3 4} .frame{fill:none;stroke:#999} .bad{fill:#c62828} .good{fill:#1b6e2c}
text.small{font-size:11px}
"""
HATCH = (
    '<pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<rect width="5" height="5" fill="#ffcf70"/><rect width="2" height="5" fill="#d98300"/></pattern>'
)


@dataclass(frozen=True)
class Window:
    """A stretch of the part on the sheet: z and radius in increments to points, z rising to the right, radius up.

    `z` and `across` (diameters): least and greatest shown. `x`, `y`: left and bottom on the sheet. `scale`: points per
    increment of length.
    """

    z: tuple[int, int]
    across: tuple[int, int]
    x: float
    y: float
    scale: float

    def at(self, z: float, diameter: float) -> str:
        """A place as the SVG writes it, kept inside the window."""
        z = min(max(z, self.z[0]), self.z[1])
        diameter = min(max(diameter, self.across[0]), self.across[1])
        return (
            f"{self.x + (z - self.z[0]) * self.scale:.2f},{self.y - (diameter - self.across[0]) / 2 * self.scale:.2f}"
        )

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in points."""
        return (self.z[1] - self.z[0]) * self.scale, (self.across[1] - self.across[0]) / 2 * self.scale


def comparison_picture(part: Part, verdict: Verdict, laid: Overlay, drawing: str, program: str) -> str:
    """The SVG text; `laid` is the cut outside over the drawn outline (`postproc.laid_over`)."""
    increments = Increments.of(part.units)
    whole = _whole(laid)
    wrong = [match for match in verdict.matches if match.state is not State.MATCHES]
    shown = [match for match in wrong if _span(match, part)][:MOST_PANELS]
    body = [
        _text(MARGIN, 24, f"{program} against {drawing}", "head"),
        _text(MARGIN, 44, closing_sentence(verdict), "good" if verdict.agree else "bad"),
        *_view(laid, whole),
        *_labels(part, verdict, whole, increments),
    ]
    top = whole.y + 40
    body.extend(_key(top))
    for number, match in enumerate(shown):
        column, line = number % 4, number // 4
        body.extend(_panel(part, match, laid, MARGIN + column * (PANEL[0] + 6), top + 50 + line * (PANEL[1] + 40)))
    height = top + 40 + (-(-len(shown) // 4)) * (PANEL[1] + 40) + 10
    if len(wrong) > len(shown):
        body.append(_text(MARGIN, height, f"{len(wrong) - len(shown)} more are not as drawn; see the table.", "small"))
        height += 20
    told = list(_stops(verdict, height))
    return _document(height + 15 * len(told), [*body, *told])


def _stops(verdict: Verdict, y: float) -> Iterator[str]:
    """The first stops with their lines, below the pictures."""
    stops = [finding for finding in verdict.findings if finding.stops]
    sentences = [f"line {f.line}: {f.message}" if f.line else f.message for f in stops[:MOST_STOPS]]
    if len(stops) > MOST_STOPS:
        sentences.append(f"{len(stops) - MOST_STOPS} more stops; see the table.")
    for number, words in enumerate(line for sentence in sentences for line in wrap(sentence, LONGEST)):
        yield _text(MARGIN, y + 15 * number, words, "bad small")


def _document(height: float, body: Sequence[str]) -> str:
    """The whole SVG."""
    size = f'viewBox="0 0 {WIDTH:.0f} {height:.0f}" width="{WIDTH:.0f}" height="{height:.0f}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size}><style>{STYLE}</style><defs>{HATCH}</defs>'
    return "\n".join([head, '<rect width="100%" height="100%" fill="#fff"/>', *body, "</svg>", ""])


def _whole(laid: Overlay) -> Window:
    """The window of the whole part: its upper half, from the turning axis up."""
    z = (int(laid.u[0]), int(laid.u[-1]))
    tallest = int(max(laid.land.max(), laid.cut.max()))
    scale = min((WIDTH - 2 * MARGIN) / max(z[1] - z[0], 1), TALLEST / max(tallest / 2, 1))
    left = (WIDTH - (z[1] - z[0]) * scale) / 2
    return Window(z, (0, tallest), left, 105 + tallest / 2 * scale, scale)


def _view(laid: Overlay, window: Window) -> Iterator[str]:
    """Metal, differences, drawn outline and axis in a window."""
    cut = _line(laid, laid.cut, window)
    low = window.across[0]
    ends = f"{window.at(window.z[1], low)} {window.at(window.z[0], low)}"
    yield f'<polygon class="metal" points="{" ".join(cut)} {ends}"/>'
    yield from _differences(laid, window)
    yield f'<polyline class="drawn" points="{" ".join(_line(laid, laid.land, window))}"/>'
    if low == 0:
        a, b = window.at(window.z[0], 0).split(","), window.at(window.z[1], 0).split(",")
        yield f'<line class="axis" x1="{a[0]}" y1="{a[1]}" x2="{b[0]}" y2="{b[1]}"/>'
        yield _text(float(a[0]), float(a[1]) + 15, "chuck side", "small")
        yield _text(float(b[0]) - 75, float(b[1]) + 15, "front face, Z0", "small")


def _line(laid: Overlay, heights: Ints, window: Window) -> list[str]:
    """A profile as points, both ends of every stretch, so that walls come out upright."""
    points: list[str] = []
    for a, b, ha, hb in zip(laid.u[:-1], laid.u[1:], heights[0], heights[1], strict=True):
        if b > window.z[0] and a < window.z[1]:
            points += [window.at(int(a), int(ha)), window.at(int(b), int(hb))]
    return list(dict.fromkeys(points))


def _differences(laid: Overlay, window: Window) -> Iterator[str]:
    """Metal that should be gone, and metal that should still be there."""
    for k in range(len(laid.line)):
        a, b = int(laid.u[k]), int(laid.u[k + 1])
        (la, lb), (ca, cb) = laid.land[:, k], laid.cut[:, k]
        if b <= window.z[0] or a >= window.z[1] or max(abs(la - ca), abs(lb - cb)) <= 1:
            continue
        kind = "standing" if ca + cb > la + lb else "gone"
        corners = [window.at(a, la), window.at(b, lb), window.at(b, cb), window.at(a, ca)]
        yield f'<polygon class="{kind}" points="{" ".join(corners)}"/>'


def _labels(part: Part, verdict: Verdict, window: Window, increments: Increments) -> Iterator[str]:
    """Groove numbers over the part; those not as drawn in words, one over the other where they would touch."""
    placed = []
    for match in verdict.matches:
        if span := _span(match, part):
            x = float(window.at(increments.count(sum(span) / 2), 0).split(",")[0])
            bad = match.state is not State.MATCHES
            placed.append((x, bad, f"{match.drawing or ''} {match.state.value if bad else ''}".strip()))
    ends = [-1e9] * ROWS
    for x, bad, label in sorted(placed):
        half = 4.0 * len(label)
        row = next((row for row in range(ROWS) if ends[row] <= x - half), None)
        if row is None or (row and not bad):
            continue
        ends[row] = x + half
        y = window.y - window.size[1] - 8 - 14 * row
        yield _text(x, y, label, "bad" if bad else "good", "middle")


def _key(y: float) -> Iterator[str]:
    """What the line and the two fills mean."""
    marks = (
        ("drawn", "as drawn"),
        ("metal", "left by the program"),
        ("standing", "metal left standing"),
        ("gone", "metal cut away that the drawing has"),
    )
    x = MARGIN
    for kind, words in marks:
        yield f'<rect class="{kind}" x="{x:.0f}" y="{y:.0f}" width="22" height="12"/>'
        yield _text(x + 28, y + 11, words, "small")
        x += 60 + 7 * len(words)


def _panel(part: Part, match: Match, laid: Overlay, x: float, y: float) -> Iterator[str]:
    """One groove enlarged, with the figure that is off."""
    span, increments = _span(match, part), Increments.of(part.units)
    if span is None:
        return
    z1, z0 = (increments.count(z) for z in span)
    floors = [match.program.floor_diameter] if match.program else []
    groove = None if match.drawing is None else part.grooves[match.drawing - 1]
    floors += [groove.floor_diameter] if groove else []
    inside = (laid.u[1:] >= z0) & (laid.u[:-1] <= z1)
    top = int(max(laid.land[:, inside].max(initial=0), laid.cut[:, inside].max(initial=0)))
    low = increments.count(min(floors))
    room = max(z1 - z0, (top - low) // 2) // 5 + 1
    z, across = (z0 - room, z1 + room), (max(low - 2 * room, 0), top + room)
    scale = min(PANEL[0] / (z[1] - z[0]), (PANEL[1] - 30) / max((across[1] - across[0]) / 2, 1))
    window = Window(z, across, x, y + PANEL[1] - 20, scale)
    yield from _view(laid, window)
    wide, tall = window.size
    yield f'<rect class="frame" x="{x:.1f}" y="{window.y - tall:.1f}" width="{wide:.1f}" height="{tall:.1f}"/>'
    name = "in no drawing" if groove is None else f"groove {groove.id}: {match.state.value}"
    yield _text(x, y + PANEL[1] - 4, name, "bad")
    yield _text(x, y + PANEL[1] + 11, difference_in_words(match, groove), "small")


def _span(match: Match, part: Part) -> tuple[float, float] | None:
    """z_near and z_far over both the drawn and the cut groove; None for what isn't outside."""
    groove = None if match.drawing is None else part.grooves[match.drawing - 1]
    cut_face = match.program is not None and match.program.mouth_diameter is not None
    if cut_face or (groove is not None and groove.where != "outside"):
        return None
    near = [one.z_near for one in (groove, match.program) if one is not None]
    far = [one.z_far for one in (groove, match.program) if one is not None]
    return max(near), min(far)


def _text(x: float, y: float, words: str, kind: str, anchor: str = "start") -> str:
    """A line of text."""
    return f'<text class="{kind}" x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{escape(words)}</text>'
