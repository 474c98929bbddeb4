"""Random parts and random shops in either system of units, as hypothesis strategies."""

import math
import random

from hypothesis import assume
from hypothesis import strategies as st

from planner import parse_shop
from support.hollows import KINDS, drawn
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


@st.composite
def odd_jobs(draw):
    """A plain bar with grooves of every shape on every side, and a shop with inserts of every kind."""
    units = draw(st.sampled_from(["mm", "in"]))
    return draw(odd_parts(units)), draw(odd_shops(units))


@st.composite
def odd_parts(draw, units):
    k, digits = SCALE[units], GRID[units]
    across, bore = draw(st.integers(40, 90)), draw(st.sampled_from([None, 12, 18]))
    place, spots = -12.0, []
    for _ in range(draw(st.integers(1, 4))):
        spot = draw(shaped(across))
        for _ in range(draw(st.integers(1, 3))):
            spots.append((place, place - spot[0], *spot[1:]))
            place -= spot[0] + 6
    if bore:
        spots += [
            (-10 - 9 * i, -10 - 9 * i - draw(st.sampled_from([2, 3.1])), bore + 4, {"where": "inside"})
            for i in range(2)
        ]
    if draw(st.booleans()):
        wide = draw(st.sampled_from([2, 3, 4.5]))
        # Its outer wall stays within the bar: what is open to the outside is a shoulder.
        outer = draw(st.integers(bore or 10, min(30, across - 14))) + 4
        spots.append((0, -draw(st.integers(1, 5)), outer, {"where": "face", "mouth_diameter": (outer + 2 * wide) * k}))
    grooves = [_scaled(spot, k, digits) for spot in spots]
    length = round((20 - place) * k, digits)
    return part_of(grooves, round(across * k, digits), length, units, bore=round(bore * k, digits) if bore else None)


@st.composite
def shaped(draw, across):
    """Width, floor diameter and further fields of one outside recess."""
    shape = draw(st.sampled_from(["square", "chamfered", "tapered", "vee", "round"]))
    if shape == "vee":
        width, angle = draw(st.sampled_from([1, 2, 3])), draw(st.sampled_from([60, 90]))
        return width, across - width / math.tan(math.radians(angle / 2)), {"shape": "vee"}
    if shape == "round":
        width = draw(st.sampled_from([2, 3]))
        return width, across - 2 * (2 - math.sqrt(4 - width**2 / 4)), {"shape": "round"}
    width, depth = draw(st.floats(2, 9)), draw(st.floats(1, 5))
    if shape == "tapered":
        return width, across - 2 * depth, {"shape": "tapered", "run": min(draw(st.floats(0.1, 1.5)), width / 3)}
    more = {"edge_chamfer": draw(st.sampled_from([0.2, 0.5]))} if shape == "chamfered" else {}
    return width, across - 2 * depth, more


def _scaled(spot, k, digits):
    """A recess in the part's units, lengths rounded as drawings have them; forms keep their floor to the last digit."""
    near, far, floor, more = spot
    lengths = {n: v if n == "mouth_diameter" else v * k for n, v in more.items() if isinstance(v, int | float)}
    lengths = {n: round(v, digits) for n, v in lengths.items()}
    exact = more.get("shape") in ("vee", "round")
    floor = floor * k if exact else round(floor * k, digits)
    near = round(near * k, digits)
    far = near - (spot[0] - spot[1]) * k if exact else round(far * k, digits)
    return near, far, floor, more | lengths


@st.composite
def odd_shops(draw, units):
    k = SCALE[units]
    lines = [f'units = "{units}"', "[machine]"]
    for name, values in {"tailstock": [0, 0, 0, 8], "power": [0, 0, 3]}.items():
        value = draw(st.sampled_from(values))
        lines.append(f"{name} = {value * k if name == 'tailstock' else value}")
    kinds = draw(st.lists(st.sampled_from(sorted(ODD_TOOLS)), min_size=2, max_size=7, unique=True))
    for station, kind in enumerate(kinds, start=1):
        lines += ["[[tools]]", f"station = {station}", f'reference = "{draw(st.sampled_from(["near", "far"]))}"']
        words = ODD_TOOLS[kind]
        lines += [
            f'{n} = "{v}"' if isinstance(v, str) else f"{n} = {v if n == 'angle' else v * k}" for n, v in words.items()
        ]
        lines += [
            f"{n} = {draw(st.sampled_from([0, 2, 20])) * k}"
            for n in ("holder_near", "holder_far")
            if draw(st.booleans())
        ]
    return parse_shop("\n".join(lines), "odd shop", units)


@st.composite
def followed_jobs(draw):
    """A part with one to three recesses that no plain plunge makes, drawn and read, and a shop with plain inserts."""
    units, where = draw(st.sampled_from(["mm", "in"])), draw(st.sampled_from(["outside", "outside", "inside"]))
    rng, k = random.Random(draw(st.integers(0, 10**9))), SCALE[units]
    runs = []
    for _ in range(rng.randint(1, 2)):
        run = KINDS[rng.choice(sorted(KINDS))](rng)
        runs += [run] * rng.choice([1, 1, 2])
    part = drawn(runs, rng.uniform(18, 40), units, where).part
    assume(part is not None and part.grooves)
    # Known and held by test_80_random: nobody is told to turn such a cone.
    assume(not any(before_a_cone(groove, part) for groove in part.grooves))
    lines = [f'units = "{units}"', "[machine]", f"tolerance = {rng.choice([0.01, 0.02, 0.05]) * k}"]
    for station in range(1, rng.randint(1, 3) + 1):
        lines += ["[[tools]]", f"station = {station}", f'where = "{where}"', f"max_depth = {20 * k}"]
        lines += [f"width = {rng.choice([0.5, 0.8, 1.0, 1.6, 2.0, 3.0, 4.0]) * k}"]
        corner, edge = rng.choice([0.0, 0.1, 0.2, 0.2]), rng.choice(["square"] * 3 + ["round"])
        lines += [f"corner_radius = {corner * k if edge == 'square' else 0.0}", f'edge = "{edge}"']
        lines += [f"finish = {rng.choice([0, 0, 0.1, 0.3]) * k}", f"peck = {rng.choice([0, 1.0]) * k}"]
        lines += [f'reference = "{rng.choice(["near", "far"])}"']
        lines += [f"side_depth = {rng.choice([0, 0, 0.3]) * k}"]
    return part, parse_shop("\n".join(lines), "plain shop", units)


def before_a_cone(groove, part):
    """True for a relief whose run-out goes on as a cone to a land higher than its mouth."""
    line = part.outline
    ends = [k for k, (z, r) in enumerate(line[:-1]) if z in (groove.z_near, groove.z_far) and 2 * r == groove.mouth]
    steps = [(b[0] - a[0], b[1] - a[1]) for k in ends for a, b in [(line[k], line[k + 1]), (line[k - 1], line[k])]]
    lean = [dz and dr and abs(dr) < abs(dz) for dz, dr in steps]
    return groove.shape == "relief" and any(lean)


ODD_TOOLS = {
    "narrow": {"width": 1.0, "max_depth": 6, "corner_radius": 0.0},
    "square": {"width": 2.0, "max_depth": 6, "corner_radius": 0.1},
    "wide": {"width": 3.0, "max_depth": 9, "corner_radius": 0.2, "finish": 0.1},
    "vee 60": {"width": 4.0, "max_depth": 6, "edge": "vee", "angle": 60, "corner_radius": 0.0},
    "vee 90": {"width": 4.0, "max_depth": 6, "edge": "vee", "angle": 90, "corner_radius": 0.01},
    "round": {"width": 4.0, "max_depth": 6, "edge": "round"},
    "bar": {"width": 2.0, "max_depth": 4, "where": "inside", "min_bore": 10, "corner_radius": 0.1},
    "face": {"width": 2.0, "max_depth": 6, "where": "face", "face_max": 60, "corner_radius": 0.1},
}
