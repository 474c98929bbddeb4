"""Small files that could eat the machine: seconds and memory of each, alone and beside a part.

Run: `PYTHONPATH=.:tests python tests/bench/hard_inputs.py [--only NAME,...]`. Each row is one process of the tool.
The bar is 10 s and 1 GiB, and a file that holds a part is read.
"""

import argparse
import math
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import ezdxf
from ezdxf.entities.lwpolyline import LWPolylinePoints

SHAFT = [(0, 15), (-10, 15), (-10, 12), (-13, 12), (-13, 15), (-30, 15), (-30, 11), (-34, 11), (-34, 15), (-60, 15)]
CEILING = 12 * 2**30
"""Address space of one run: beyond it the row ends in a fault, which is a figure too."""


def shaft(space):
    """A shaft of two grooves in full outline, 60 mm long."""
    upper = [(0, 0), *SHAFT, (-60, 0)]
    for flip in (1, -1):
        space.add_lwpolyline([(x, flip * y) for x, y in upper])
    space.add_line((5, 0), (-65, 0), dxfattribs={"linetype": "CENTER"})
    for z in (-10, -13, -30, -34):
        space.add_line((z, -12), (z, 12))


def identical_lines(doc, space, n=5_000):
    """One line n times, across the part's end face."""
    for _ in range(n):
        space.add_line((0, -15), (0, 15))


def zigzag(doc, space, n=95_000):
    """A zigzag of n vertices above the part."""
    # All at once: to hand the library one vertex after the other takes minutes.
    rows = [(k * 0.001 - 60, 60 + (k % 2) * 20, 0, 0, 0) for k in range(n)]
    space.add_lwpolyline([]).lwpoints = LWPolylinePoints(rows)


def ellipses(doc, space, n=90_000):
    """n small ellipses far from the part."""
    for k in range(n):
        space.add_ellipse((100 + k % 300, 100 + k // 300), (0.3, 0.1), 0.5)


def spline_hatch(doc, space, n=80_000):
    """A hatch whose border is a spline of n points."""
    hatch = space.add_hatch()
    path = hatch.paths.add_edge_path()
    points = [
        (100 + 50 * math.cos(k / n * math.tau), 50 * math.sin(k / n * math.tau) + math.sin(k / 9)) for k in range(n)
    ]
    path.add_spline(control_points=points, degree=3, knot_values=[0] * 3 + list(range(n - 2)) + [n - 3] * 3)


def array_insert(doc, space, n=300):
    """A block of some lines set n x n times by one reference."""
    block = doc.blocks.new("TILE")
    for k in range(40):
        block.add_circle((k * 0.02, 0), 0.01)
    space.add_blockref(
        "TILE",
        (100, 100),
        dxfattribs={"row_count": n, "column_count": n, "row_spacing": 1.0, "column_spacing": 1.0},
    )


def nested_arrays(doc, space, n=40):
    """Arrays within arrays, four deep."""
    below = doc.blocks.new("A0")
    below.add_line((0, 0), (0.001, 0))
    for depth in range(1, 5):
        block = doc.blocks.new(f"A{depth}")
        block.add_blockref(
            f"A{depth - 1}",
            (0, 0),
            dxfattribs={"row_count": n, "column_count": n, "row_spacing": 0.01, "column_spacing": 0.01},
        )
    space.add_blockref("A4", (100, 100))


def grid(doc, space, n=1_000):
    """n lines across n lines, beside the part."""
    for k in range(n):
        space.add_line((100 + k, 100), (100 + k, 100 + n))
        space.add_line((100, 100 + k), (100 + n, 100 + k))


def overlapping_lines(doc, space, n=20_000):
    """n lines on one another, each a little longer, along the part's land."""
    for k in range(n):
        space.add_line((-60, 15), (-34 - 26 * (k + 1) / (n + 1), 15))


def many_grooves(doc, space, n=10_000, wide=1.0, deep=2.0, first=2.0):
    """A row of n grooves with lands as wide as 1; it is the part, and can be made as drawn."""
    top, pitch = [(0.0, 0.0), (0.0, 20.0)], wide + 1.0
    for k in range(n):
        z = -first - pitch * k
        top += [(z, 20.0), (z, 20.0 - deep), (z - wide, 20.0 - deep), (z - wide, 20.0)]
    end = -first - pitch * n
    top += [(end, 20.0), (end, 0.0)]
    for flip in (1, -1):
        space.add_lwpolyline([(x, flip * y) for x, y in top])
    space.add_line((5, 0), (end - 5, 0), dxfattribs={"linetype": "CENTER"})


def many_made(doc, space, n=10_000):
    """As many, wider and deeper."""
    many_grooves(doc, space, n, wide=2.0, deep=2.5, first=2.25)


def many_inside(doc, space, n=5_000, pitch=4.0, bore=20.0):
    """A row of n grooves in the bore of a whole section."""
    end = pitch * n + 4.0
    for flip in (1, -1):
        inner = [(0.0, flip * bore)]
        for k in range(n):
            x = 2.25 + pitch * k
            inner += [(x, flip * bore), (x, flip * (bore + 2.5)), (x + 2, flip * (bore + 2.5)), (x + 2, flip * bore)]
        inner.append((end, flip * bore))
        space.add_lwpolyline(inner)
        rim = [inner[0], (0.0, flip * 30.0), (end, flip * 30.0), inner[-1]]
        space.add_lwpolyline(rim)
        hatch = space.add_hatch()
        hatch.set_pattern_fill("ANSI31", scale=2)
        hatch.paths.add_polyline_path([*inner, *rim[2:0:-1]], is_closed=True)
    space.add_line((-5, 0), (end + 5, 0), dxfattribs={"linetype": "CENTER"})


def circles(doc, space, n=99_000):
    """n circles on one another in a heap beside the part."""
    for k in range(n):
        space.add_circle((100 + (k % 97) * 0.1, 100 + (k % 89) * 0.1), 5 + (k % 83) * 0.05)


def texts(doc, space, n=99_000):
    """n numbers all over the part."""
    for k in range(n):
        space.add_text(f"{k % 60}", dxfattribs={"insert": (-(k % 60), k % 15), "height": 2})


def dimensions(doc, space, n=20_000):
    """n linear dimensions, all alike."""
    for _ in range(n):
        space.add_linear_dim(base=(-5, 30), p1=(0, 15), p2=(-10, 15))


SHEETS = (
    identical_lines, zigzag, ellipses, spline_hatch, array_insert, nested_arrays, grid, overlapping_lines,
    many_grooves, many_made, many_inside, circles, texts, dimensions,
)  # fmt: skip
PARTS = (many_grooves, many_made, many_inside)
"""Those that are a part by themselves."""


def sheet(make, path, *, with_part):
    """Write one sheet, millimetres, with a shaft on it or without."""
    doc = ezdxf.new("R2010", setup=True)
    doc.header["$INSUNITS"] = 4
    space = doc.modelspace()
    make(doc, space)
    if with_part and make not in PARTS:
        shaft(space)
    doc.saveas(path)


def long_program(path, n=300_000):
    """n blocks of facing moves, a whole program."""
    lines = ["%", "O0001", "G21 G18 G40 G99", "G50 S2000", "T0707 M03", "G96 S120", "G00 X32. Z2."]
    lines += [f"G01 X{30 + (k % 2)}. Z-{1 + k % 50}.5 F0.1" for k in range(n)]
    path.write_text("\n".join([*lines, "M30", "%"]), "ascii")


def measured(arguments, seconds=180):
    """Seconds, seconds of the processor, MiB and the lines of one run of the tool."""
    began = time.monotonic()
    run = subprocess.Popen(
        [sys.executable, "-c", "from rillwright.cli import main; main()", *map(str, arguments)],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        # As installed: without compiled modules each run would compile all of them once more.
        env={name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        | {"COLUMNS": "160"},
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (CEILING, CEILING)),
    )
    try:
        said, _ = run.communicate(timeout=seconds)
    except subprocess.TimeoutExpired:
        run.kill()
        said, _ = run.communicate()
        said += b"\nstopped"
    lines = said.decode("utf-8", "replace").strip().splitlines()
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.monotonic() - began, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, lines


def row(name, arguments):
    """One row of the table, measured in a process of its own so that the peak is its own."""
    child = os.fork()
    if child:
        os.waitpid(child, 0)
        return
    took, worked, peak, lines = measured(arguments)
    told = " / ".join(lines)[:130]
    print(f"{name:32} {took:7.1f} s {worked:7.1f} s cpu {peak:8.0f} MiB  {told}", flush=True)
    os._exit(0)


def main():
    """The table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", default="")
    wanted = set(filter(None, parser.parse_args().only.split(",")))
    with tempfile.TemporaryDirectory() as folder:
        for make in SHEETS:
            if wanted and make.__name__ not in wanted:
                continue
            for with_part in (False, True) if make not in PARTS else (True,):
                path = Path(folder) / f"{make.__name__}-{with_part}.dxf"
                sheet(make, path, with_part=with_part)
                row(f"{make.__name__}{' + part' if with_part else ''}", ["make", path])
        if not wanted or "programs" in wanted:
            part, program = Path(folder) / "part.dxf", Path(folder) / "long.nc"
            sheet(lambda doc, space: None, part, with_part=True)
            long_program(program)
            row("explain 300,000 blocks", ["explain", program])
            row("explain 300,000 blocks as JSON", ["explain", program, "--json"])
            row("compare 300,000 blocks", ["compare", part, program])
            pipe = Path(folder) / "pipe"
            os.mkfifo(pipe)
            for arguments in (["explain", pipe], ["compare", part, pipe], ["read", pipe], ["read", "/dev/zero"]):
                row(" ".join(map(str, (arguments[0], *(Path(a).name for a in arguments[1:])))), arguments)


if __name__ == "__main__":
    main()
