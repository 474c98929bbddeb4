"""Random parts and random shops in either system of units, as hypothesis strategies."""

from hypothesis import assume
from hypothesis import strategies as st

from planner import parse_shop
from support.parts import part_of

SCALE = {"mm": 1.0, "in": 1 / 25.4}
GRID = {"mm": 3, "in": 4}


@st.composite
def jobs(draw):
    """A part with up to a dozen grooves and a shop with up to three inserts, in either system of units."""
    units = draw(st.sampled_from(["mm", "in"]))
    return draw(parts(units)), draw(shops(units))


@st.composite
def parts(draw, units):
    k, digits = SCALE[units], GRID[units]
    steps, z = [(0.0, draw(st.floats(20, 90)))], 0.0
    for _ in range(draw(st.integers(0, 2))):
        z -= draw(st.floats(10, 60))
        steps.append((z, draw(st.floats(20, 90))))
    steps = [(round(z * k, digits), round(d * k, digits)) for z, d in steps]
    kinds = draw(st.lists(st.tuples(st.floats(0.6, 11), st.floats(0.3, 6)), min_size=1, max_size=3))
    pitch, place, spots = draw(st.floats(1, 9)), -draw(st.floats(0, 6)), []
    for _ in range(draw(st.integers(1, 12))):
        width, depth = draw(st.sampled_from(kinds))
        near, far = round(place * k, digits), round((place - width) * k, digits)
        inner = [start for start, _ in steps[1:] if far < start < near]
        if not inner:
            spots.append((near, far, _floor(steps, near, far, depth * k, digits), draw(extras(k))))
        place -= width + draw(st.sampled_from([pitch, pitch, pitch, 2 * pitch, 0.7 + pitch / 3]))
    spots = [spot for spot in spots if spot[2] > 0]
    assume(spots)
    return part_of(spots, steps=steps, length=round((10 - place) * k, digits), units=units)


def _floor(steps, near, far, depth, digits):
    """The floor diameter so deep below the lower of the lands on either side."""
    before = [across for start, across in steps if start > near] or [steps[0][1]]
    behind = [across for start, across in steps if start >= far]
    return round(min(before[-1], behind[-1]) - 2 * depth, digits)


@st.composite
def extras(draw, k):
    """Tolerances and corner radii as drawings have them: on some grooves, of some measures."""
    choices = {"width": (0.0, 0.14), "floor_diameter": (-0.13, 0.0), "z_near": (-0.1, 0.1), "z_far": (-0.1, 0.0)}
    names = draw(st.lists(st.sampled_from([*choices, "depth"]), max_size=2, unique=True))
    limits = {n: tuple(v * k for v in choices.get(n, (0.0, 0.1))) for n in names}
    return {"tolerances": limits, "corner_radius": draw(st.sampled_from([0.0, 0.0, 0.2 * k, 0.4 * k]))}


@st.composite
def shops(draw, units):
    k = SCALE[units]
    lines = [f'units = "{units}"', "[machine]"]
    lines += [f"{name} = {draw(st.floats(low, high)) * k}" for name, low, high in MACHINE]
    if draw(st.booleans()):
        lines.append(f"stick_out = {draw(st.floats(40, 300)) * k}")
    for station in range(1, draw(st.integers(0, 3)) + 1):
        width = draw(st.sampled_from([0.5, 1.0, 1.3, 2.0, 3.0, 4.0]))
        lines += ["[[tools]]", f"station = {station}", f"width = {width * k}"]
        lines += [f"{name} = {draw(st.sampled_from(values)) * k}" for name, values in TOOL.items()]
        lines += [f'reference = "{draw(st.sampled_from(["near", "far"]))}"', f"dwell = {draw(st.sampled_from([0, 2]))}"]
        lines.append(f"last_feed = {draw(st.sampled_from([1.0, 0.5]))}")
    return parse_shop("\n".join(lines), "random shop", units)


MACHINE = [("clearance", 0.3, 3), ("tolerance", 0.01, 0.05), ("jaw_gap", 1, 5)]
TOOL = {
    "corner_radius": [0.0, 0.1, 0.2],
    "max_depth": [3.0, 8.0, 25.0],
    "peck": [0.0, 0.5, 1.0],
    "retract": [0.0, 0.3],
    "finish": [0.0, 0.0, 0.1],
}
