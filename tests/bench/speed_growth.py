"""A picture of growth: seconds over the number of grooves, both axes in powers of ten, as plain SVG."""

import math

SIZES = (40, 125, 400, 1000)
"""Numbers of grooves."""
WIDE, HIGH, LEFT, FOOT = 560, 320, 56, 44
COLOURS = ("#1f5fa8", "#5b616a", "#b0532d")


def picture(series: dict[str, list[float]]) -> str:
    """The picture of some series of seconds, each at the sizes."""
    every = [seconds for row in series.values() for seconds in row]
    low, high = math.floor(math.log10(min(every))), math.ceil(math.log10(max(every)))
    least, most = math.log10(SIZES[0]), math.log10(SIZES[-1])

    def place(n: float, seconds: float) -> tuple[float, float]:
        """Where a point lies on the picture."""
        x = LEFT + (math.log10(n) - least) / (most - least) * (WIDE - LEFT - 130)
        y = HIGH - FOOT - (math.log10(seconds) - low) / max(1, high - low) * (HIGH - FOOT - 16)
        return round(x, 1), round(y, 1)

    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {HIGH}" font-family="sans-serif" font-size="12">',
        # A page may be dark: the picture brings its own ground.
        f'<rect width="{WIDE}" height="{HIGH}" fill="#fff"/>',
    ]
    for power in range(low, high + 1):
        x, y = place(SIZES[0], 10.0**power)
        parts.append(f'<path d="M{x} {y}H{WIDE - 120}" stroke="#d5d8dc"/>')
        parts.append(f'<text x="{LEFT - 8}" y="{y + 4}" text-anchor="end">{10.0**power:g} s</text>')
    for n in SIZES:
        x, y = place(n, 10.0**low)
        parts.append(f'<text x="{x}" y="{y + 18}" text-anchor="middle">{n}</text>')
    parts.append(f'<text x="{LEFT}" y="{HIGH - 8}">grooves on the drawing</text>')
    for colour, (name, row) in zip(COLOURS, series.items(), strict=False):
        points = [place(n, seconds) for n, seconds in zip(SIZES, row, strict=True)]
        line = " ".join(f"{x},{y}" for x, y in points)
        parts.append(f'<polyline points="{line}" fill="none" stroke="{colour}" stroke-width="2"/>')
        parts += [f'<circle cx="{x}" cy="{y}" r="3" fill="{colour}"/>' for x, y in points]
        parts.append(f'<text x="{points[-1][0] + 8}" y="{points[-1][1] + 4}" fill="{colour}">{name}</text>')
    return "\n".join([*parts, "</svg>", ""])
