"""Whatever lies on a sheet, the reader answers: a part with findings, or a stop with a sentence, never an error."""

import itertools

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Pen, Segments, Sheet, Source

coordinate = st.integers(-40, 40).map(float) | st.floats(-60, 60)
entity = st.tuples(coordinate, coordinate, coordinate, coordinate, st.just(0.0) | st.floats(-1.5, 1.5))
PENS = (Pen.SOLID, Pen.CENTRE, Pen.HIDDEN, Pen.PHANTOM)
ROLES = ("", "centre", "dimension", "hatch")


def sheet(rows, pens, circles):
    data = np.array(rows, dtype=float).reshape(-1, 5)
    chosen = np.array([pens[k % len(pens)] for k in range(len(rows))], dtype=np.int64)
    sources = tuple(Source(f"{p}{r}", "LINE", r, p, role=r) for p in PENS for r in ROLES)
    segments = Segments(data[:, :4], data[:, 4], chosen, sources)
    found = tuple(Circle((x, y), abs(r) + 0.1, sources[0]) for x, y, r in circles)
    return Sheet("any.dxf", "0" * 64, segments, circles=found)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(entity, max_size=25),
    st.lists(st.integers(0, len(PENS) * len(ROLES) - 1), min_size=1, max_size=6),
    st.lists(st.tuples(coordinate, coordinate, coordinate), max_size=3),
    st.sampled_from([None, "right", "top"]),
    st.booleans(),
)
def test_any_lines_at_all(rows, pens, circles, front, mirrored):
    if mirrored:
        rows = rows + [(x0, -y0, x1, -y1, -b) for x0, y0, x1, y1, b in rows]
    reading = read_sheet(sheet(rows, pens, circles), ReadOptions(units="mm", front=front))
    assert reading.part is not None or any(f.stops for f in reading.findings)
    for finding in reading.findings:
        assert finding.message.endswith((".", "?", "."))
    if reading.part:
        lands = reading.part.lands
        assert all(b[0] <= a[0] for a, b in itertools.pairwise(lands))
        outline = reading.part.outline
        assert all(b[0] <= a[0] for a, b in itertools.pairwise(outline))


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(st.tuples(st.integers(1, 30), st.integers(1, 20)), min_size=2, max_size=14),
    st.randoms(use_true_random=False),
)
def test_any_profile_with_any_lines_over_it(steps, rng):
    """A mirrored staircase with up to eight stray lines: no error, and nothing below the lands in silence."""
    z, half = 0.0, [(0.0, 0.0)]
    for length, radius in steps:
        half += [(z, float(radius)), (z - length, float(radius))]
        z -= length
    half.append((z, 0.0))
    rows = [(*a, *b, 0.0) for a, b in itertools.pairwise(half) if a != b]
    rows += [(x0, -y0, x1, -y1, 0.0) for x0, y0, x1, y1, _ in rows]
    rows += [(*tuple(rng.uniform(-30, 10) for _ in range(4)), 0.0) for _ in range(rng.randint(0, 8))]
    reading = read_sheet(sheet(rows, [0], []), ReadOptions(units="mm"))
    assert reading.part is not None or any(f.stops for f in reading.findings)
