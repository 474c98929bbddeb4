"""Three more houses, for figures over many pieces: fir, gum and hazel.

fir     an old lathe: whole numbers without points, its zero said by G50, turned by increments, threads by G92
gum     ISO words, every block's distance mode said, tools changed at a place of the machine's own, threads by G33
hazel   variables, loops with jumps, a subprogram for each plunge in increments, home by G30
"""

import itertools
from collections.abc import Callable, Iterator, Mapping

from support.wholes.pen import DEEPER, OVER, clear_of, n, plunges, profile
from support.wholes.pieces import Piece

SHARES = (0.4, 0.7, 0.9, 1.0, 1.0)
"""How deep each pass of a thread goes."""


def w(value: float) -> str:
    """A length in whole thousandths."""
    return str(round(value * 1000))


def roughing(piece: Piece, most: float) -> Iterator[tuple[float, float]]:
    """Diameter and end of each roughing pass, steps from the chuck on, 0.4 left."""
    level = piece.stock
    for k in range(len(piece.steps) - 1, -1, -1):
        across = piece.steps[k][1]
        stop = piece.steps[k + 1][0] + 0.2 if k + 1 < len(piece.steps) else -piece.length - DEEPER
        while level > across + 0.5:
            level = round(max(level - most, across + 0.4), 3)
            yield level, stop


def thread_of(piece: Piece) -> tuple[float, float, list[float]]:
    """Land and end of a thread, and the diameter of each pass."""
    stop = (piece.steps[1][0] if len(piece.steps) > 1 else -piece.length) + 1.5
    wide = piece.steps[0][1]
    return wide, stop, [wide - 2 * 0.6134 * piece.pitch * share for share in SHARES]


def fir(piece: Piece) -> str:
    """Whole thousandths throughout."""
    over, away = w(piece.stock + OVER), "X250000 Z150000"
    lines = ["%", "O0007", f"({piece.name} OLD LATHE NO POINTS)", "G21", "G99", "M41", f"G50 {away} S2000"]
    lines += ["T0100 M08", "G96 S150 M03", f"G00 X{over} Z3000 T0101", "Z0", "G01 X-1600 F0.15", "G00 Z2000"]
    for level, stop in roughing(piece, 4.0):
        lines += [f"G00 X{w(level)}", f"G01 W{w(stop - 2.0)} F0.22", "G00 U1000 W500", "Z2000"]
    path = profile(piece, 2.0)
    lines += [f"G00 X{over}", f"{away} T0100", "M01", "T0200", "G96 S190"]
    lines += [f"G00 X{w(path[0][0])} Z{w(path[0][1])} T0202", "G01 F0.1"]
    for (x, z), (a, b) in itertools.pairwise(path):
        words = [f"U{w(a - x)}"] * (a != x) + [f"W{w(b - z)}"] * (b != z)
        lines += ["G01 " + " ".join(words)] if words else []
    lines += [f"G00 X{over}", f"{away} T0200"]
    if piece.bore:
        deep = w(-piece.length - 1)
        lines += ["T0600", "G97 S600", "G00 X0 Z5000 T0606", "G74 R1000", f"G74 Z{w(-piece.length - 5)} Q9000 F0.1"]
        lines += [f"{away} T0600", "T0700", "G96 S120", f"G00 X{w(piece.bore - 0.5)} Z2000 T0707"]
        lines += [f"G01 Z{deep} F0.12", "U-1000", "G00 Z2000", f"X{w(piece.bore)}", f"G01 Z{deep} F0.08", "U-2000"]
        lines += ["G00 Z2000", f"{away} T0700"]
    lines += ["T0300", "G96 S110", f"G00 X{over} Z3000 T0303"]
    for near, far, floor in piece.grooves:
        at = plunges(near, far)
        row = f"Z{w(far)} P1000 Q2500 F0.08" if len(at) > 1 else "P1000 F0.08"
        lines += [f"G00 Z{w(at[0])}", f"X{w(clear_of(piece, far, near))}", "G75 R500", f"G75 X{w(floor)} {row}"]
        lines += [f"G00 X{over}"]
    lines += [f"{away} T0300"]
    if piece.inner:
        lines += ["T0500", "G97 S800", f"G00 X{w(piece.bore - 1.5)} Z4000 T0505"]
        for _, far, floor in piece.inner:
            lines += [f"G00 W{w(far - 4)}", f"G01 X{w(floor)} F0.04", "G04 P400", f"G00 X{w(piece.bore - 1.5)}"]
            lines += [f"W{w(4 - far)}"]
        lines += [f"{away} T0500"]
    if piece.pitch:
        wide, stop, passes = thread_of(piece)
        lines += ["T0400", "G97 S500", f"G00 X{w(wide + 4)} Z6000 T0404"]
        lines += [f"G92 X{w(passes[0])} Z{w(stop)} F{piece.pitch}", *(f"X{w(x)}" for x in passes[1:])]
        lines += [f"G00 {away} T0400"]
    lines += ["T0900", "G97 S450", f"G00 X{over} Z3000 T0909", f"Z{w(-piece.length - 3)}"]
    lines += [f"G01 X{w(piece.bore - 2 if piece.bore else -1)} F0.05", f"G00 X{over}", f"{away} T0900"]
    return "\n".join([*lines, "M09", "M05", "M30", "%"]) + "\n"


def gum(piece: Piece) -> str:
    """Absolute and incremental places turn about."""
    over, home = n(piece.stock + OVER), "G53 G00 X260. Z180."
    lines = ["%", f"({piece.name.upper()})", "(TOOLS: T1 TURN  T3 GROOVE 3 MM  T9 CUT OFF)"]
    lines += ["G71 G90 G95 G40 G80", "G54", "G92 S2200"]

    def call(station: int, spindle: str) -> list[str]:
        return [f"N{station}0 (STATION {station})", home, f"T{station:02d}{station:02d}", f"{spindle} M03", "M08"]

    lines += [*call(1, "G96 S170"), f"G00 X{over} Z1.", "G00 Z0.", "G01 X-1.5 F0.14", "G00 Z1.5", f"G00 X{over}"]
    for level, stop in roughing(piece, 3.5):
        lines += [f"G00 X{n(level)}", f"G01 Z{n(stop)} F0.2", "G91 G01 X1. Z0.5", "G90 G00 Z1.5"]
    path = profile(piece, 1.0)
    lines += [f"G00 X{n(path[0][0])} Z{n(path[0][1])}", *(f"G01 X{n(x)} Z{n(z)} F0.1" for x, z in path[1:])]
    lines += [f"G00 X{over}"]
    if piece.bore:
        lines += [*call(6, "G97 S550"), "G00 X0. Z4."]
        z = 0.0
        while z > -piece.length - 5:
            z = max(z - 12, -piece.length - 5)
            lines += [f"G01 Z{n(z)} F0.1", "G00 Z2.", f"G00 Z{n(z + 1)}"]
        lines += ["G00 Z10.", *call(7, "G97 S1400"), f"G00 X{n(piece.bore - 0.5)} Z2."]
        for across, feed, back in ((piece.bore, 0.08, "Z2."), (piece.bore, 0.08, "Z10.")):
            lines += [f"G01 Z{n(-piece.length - 1)} F{feed}", "G91 G00 X-1.", f"G90 G00 {back}", f"G00 X{n(across)}"]
        lines[-1:] = []
    lines += [*call(3, "G96 S115"), f"G00 X{over} Z2."]
    for near, far, floor in piece.grooves:
        up = clear_of(piece, far, near)
        half = (floor - up) / 2
        for z in plunges(near, far):
            lines += [f"G00 Z{n(z)}", f"G00 X{n(up)}", "G91", f"G01 X{n(half)} F0.07", "G00 X0.8"]
            lines += [f"G01 X{n(half - 0.8)}", "G04 X0.2", f"G00 X{n(up - floor)}", "G90"]
        lines += [f"G00 X{over}"]
    if piece.inner:
        lines += [*call(5, "G97 S850"), f"G00 X{n(piece.bore - 1.5)} Z5."]
        for _, far, floor in piece.inner:
            lines += [f"G00 Z{n(far)}", f"G01 X{n(floor)} F0.04", "G04 X0.3", f"G00 X{n(piece.bore - 1.5)}", "G00 Z5."]
    if piece.pitch:
        wide, stop, passes = thread_of(piece)
        lines += [*call(4, "G97 S550"), f"G00 X{n(wide + 3)} Z7."]
        for x in passes:
            lead = f"K{n(piece.pitch)} F{n(piece.pitch)}"
            lines += [f"G00 X{n(x)}", f"G33 Z{n(stop)} {lead}", f"G00 X{n(wide + 3)}", "G00 Z7."]
    lines += [*call(9, "G97 S450"), f"G00 X{over} Z2.", f"G00 Z{n(-piece.length - 3)}"]
    lines += [f"G01 X{n(piece.bore - 2 if piece.bore else -1)} F0.05", f"G00 X{over}", home]
    return "\n".join([*lines, "M09", "M05", "M30", "%"]) + "\n"


def hazel(piece: Piece) -> str:
    """Sizes in variables, loops that jump, plunges as subprograms."""
    home = "G30 U0. W0."
    lines = ["%", f"O4100 ({piece.name.upper()} FAMILY)", "(SIZES)", f"#1={n(piece.stock)}", f"#2={n(piece.length)}"]
    lines += [f"#3={n(piece.stock + OVER)}", "#4=2.", "G21 G40 G99 G80", home, "T0101 (TURNING)", "G50 S2400"]
    lines += ["G96 S160 M03", "G00 X#3 Z#4 M08", "G00 Z0.", "G01 X-1.6 F0.15", "G00 Z#4", "X#1", "#20=#1"]
    for k in range(len(piece.steps) - 1, -1, -1):
        stop = piece.steps[k + 1][0] + 0.2 if k + 1 < len(piece.steps) else -piece.length - DEEPER
        lines += [f"#21={n(piece.steps[k][1] + 0.4)}", "WHILE [#20 GT #21] DO1", "#20=#20-3."]
        lines += [f"IF [#20 GE #21] GOTO {100 + k}", "#20=#21", f"N{100 + k} G00 X#20", f"G01 Z{n(stop)} F0.2"]
        lines += ["G00 U1. W0.5", "Z#4", "END1"]
    path = profile(piece, 2.0)
    lines += [home, "T0202", "G96 S200 M03", f"G00 X{n(path[0][0])} Z{n(path[0][1])} M08"]
    lines += [*(f"G01 X{n(x)} Z{n(z)} F0.1" for x, z in path[1:]), "G00 X#3", home]
    if piece.bore:
        lines += ["T0606", "G97 S600 M03", "G00 X0. Z5. M08", "#25=0", "WHILE [#25 GT -#2-5.] DO2", "#25=#25-10."]
        lines += ["IF [#25 GT -#2-5.] GOTO 200", "#25=-#2-5.", "N200 G01 Z#25 F0.1", "G00 Z3.", "Z[#25+1.]", "END2"]
        lines += ["G00 Z5.", home, "T0707", "G97 S1200 M03", f"G00 X{n(piece.bore - 3)} Z2."]
        lines += [f"G90 X{n(piece.bore - 0.6)} Z[-#2-1.] F0.12", f"X{n(piece.bore)} F0.08", "G00 Z5.", home]
    lines += ["T0303", "G50 S1800", "G96 S110 M03", "G00 X#3 Z5. M08"]
    called: list[str] = []
    for number, (near, far, floor) in enumerate(piece.grooves, 4101):
        up = clear_of(piece, far, near)
        at = plunges(near, far)
        lines += [f"G00 Z{n(at[0])}", f"X{n(up)}", *(w for z in at for w in (f"G00 Z{n(z)}", f"M98 P{number}"))]
        lines += ["G00 X#3"]
        half = round((up - floor) / 2, 3)
        called += [f"O{number} (ONE PLUNGE)", f"G01 U{n(-half)} F0.08", "G00 U0.6"]
        called += [f"G01 U{n(half - (up - floor) - 0.6)}", "G04 X0.2", f"G00 U{n(up - floor)}", "M99"]
    lines += ["G30 U0.", "G30 W0."]
    if piece.inner:
        lines += ["T0505", "G97 S850 M03", f"G00 X{n(piece.bore - 1.5)} Z4."]
        for _, far, floor in piece.inner:
            lines += [f"Z{n(far)}", f"G01 X{n(floor)} F0.05", "G04 X0.3", f"G00 X{n(piece.bore - 1.5)}", "Z4."]
        lines += [home]
    if piece.pitch:
        wide, stop, passes = thread_of(piece)
        high = round(613.4 * piece.pitch)
        lines += ["T0404", "G97 S600 M03", f"G00 X{n(wide + 4)} Z6.", "G76 P010060 Q80 R0.02"]
        lines += [f"G76 X{n(passes[-1])} Z{n(stop)} R0 P{high} Q200 F{n(piece.pitch)}", home]
    lines += ["T0909", "G97 S450 M03", "G00 X#3 Z5.", "Z[-#2-3.]"]
    lines += [f"G01 X{n(piece.bore - 2 if piece.bore else -1)} F0.05", "G00 X#3", home, "M09", "M30", *called, "%"]
    return "\n".join(lines) + "\n"


OTHERS: Mapping[str, Callable[[Piece], str]] = {"fir": fir, "gum": gum, "hazel": hazel}
OTHER_CONTROLS: Mapping[str, str] = {"fir": "two-block", "gum": "plunge", "hazel": "two-block"}
OTHER_SHOPS: Mapping[str, str] = {"fir": 'whole_numbers = "increments"\n', "gum": 'whole_numbers = "units"\n'}
