"""Ways in which true drawings are untidy; none of them changes what the part is."""

import itertools
import math
import random
from dataclasses import replace

from support.ink import Arc, Ink, Line, Look


def shuffled(ink: list[Ink], rng: random.Random) -> list[Ink]:
    """Any order, and any direction of each line."""
    mixed = [replace(i, a=i.b, b=i.a) if isinstance(i, Line) and rng.random() < 0.5 else i for i in ink]
    rng.shuffle(mixed)
    return mixed


def split(ink: list[Ink], rng: random.Random, share: float = 0.3) -> list[Ink]:
    """Some lines in two or three pieces."""
    made: list[Ink] = []
    for item in ink:
        if not isinstance(item, Line) or rng.random() > share:
            made.append(item)
            continue
        cuts = sorted(rng.uniform(0.1, 0.9) for _ in range(rng.randint(1, 2)))
        stops = [item.a, *((_between(item, t)) for t in cuts), item.b]
        made += [Line(p, q, item.role) for p, q in itertools.pairwise(stops)]
    return made


def _between(line: Line, t: float) -> tuple[float, float]:
    return line.a[0] + t * (line.b[0] - line.a[0]), line.a[1] + t * (line.b[1] - line.a[1])


def split_at_axis(ink: list[Ink]) -> list[Ink]:
    """Every line that crosses the axis in two, as half a drawing mirrored leaves it."""
    made: list[Ink] = []
    for item in ink:
        if isinstance(item, Line) and item.a[1] * item.b[1] < 0:
            t = item.a[1] / (item.a[1] - item.b[1])
            middle = (_between(item, t)[0], 0.0)
            made += [Line(item.a, middle, item.role), Line(middle, item.b, item.role)]
        else:
            made.append(item)
    return made


def doubled(ink: list[Ink], rng: random.Random, share: float = 0.15, look: Look | None = None) -> list[Ink]:
    """Some strokes twice, the second perhaps on another layer, some only in part."""
    extra: list[Ink] = []
    for item in ink:
        if rng.random() > share:
            continue
        if isinstance(item, Line) and rng.random() < 0.5:
            item = Line(_between(item, 0.2), _between(item, 0.7), item.role)
        if isinstance(item, Line | Arc):
            extra.append(replace(item, role=look or item.role))
    return ink + extra


def specks(ink: list[Ink], rng: random.Random, count: int = 2) -> list[Ink]:
    """Lines of no length at the ends of others."""
    lines = [i for i in ink if isinstance(i, Line)]
    return ink + [Line(line.a, line.a, line.role) for line in rng.sample(lines, min(count, len(lines)))]


def jittered(ink: list[Ink], rng: random.Random, gap: float) -> list[Ink]:
    """Ends of arcs and lines off by up to `gap` along the stroke, as rounded angles leave them."""
    made: list[Ink] = []
    for item in ink:
        if isinstance(item, Arc):
            made.append(replace(item, radius=item.radius + rng.uniform(-gap, gap) / 2))
        elif isinstance(item, Line) and item.a != item.b:
            made.append(replace(item, a=_off(item.a, rng, gap), b=_off(item.b, rng, gap)))
        else:
            made.append(item)
    return made


def loose_arcs(ink: list[Ink], rng: random.Random, gap: float) -> list[Ink]:
    """Arcs that miss their lines by up to `gap`, as angles written with few decimals do."""
    made: list[Ink] = []
    for item in ink:
        if isinstance(item, Arc):
            swing = math.degrees(gap / item.radius)
            ends = (item.start + rng.uniform(-swing, swing), item.end + rng.uniform(-swing, swing))
            item = replace(item, start=ends[0], end=ends[1])
        made.append(item)
    return made


def _off(p: tuple[float, float], rng: random.Random, gap: float) -> tuple[float, float]:
    return p[0] + rng.uniform(-gap, gap) / 2, p[1] + rng.uniform(-gap, gap) / 2


def split_at_crossings(ink: list[Ink]) -> list[Ink]:
    """Every line in pieces wherever another meets it, as some programs leave a projected view."""
    lines = [i for i in ink if isinstance(i, Line)]
    made: list[Ink] = [i for i in ink if not isinstance(i, Line)]
    for line in lines:
        cuts = sorted({0.0, 1.0, *(t for other in lines if (t := _meeting(line, other)) is not None)})
        stops = [line.a, *(_between(line, t) for t in cuts[1:-1]), line.b]
        made += [Line(p, q, line.role) for p, q in itertools.pairwise(stops)]
    return made


def _meeting(line: Line, other: Line) -> float | None:
    """Where along `line` the other crosses or touches it, strictly inside; None for parallel or apart."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = line.a, line.b, other.a, other.b
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-9:
        return None
    t = ((cx - ax) * vy - (cy - ay) * vx) / cross
    s = ((cx - ax) * uy - (cy - ay) * ux) / cross
    return round(t, 12) if 1e-6 < t < 1 - 1e-6 and -1e-9 <= s <= 1 + 1e-9 else None
