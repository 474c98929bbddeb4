"""Houses that turn by cycles: alder, birch and elder."""

from support.wholes.pen import DEEPER, OVER, clear_of, n, plunges, profile
from support.wholes.pieces import Piece


def alder(piece: Piece) -> str:
    """Contour cycles throughout."""
    top, out = n(piece.stock + OVER), "G28 U0. W0."
    path = profile(piece, 2.0)
    lines = ["%", f"O1001 ({piece.name.upper()})", f"(BAR DIA {n(piece.stock)} - C45)", "G21 G99 G40", out]
    lines += [
        "(ROUGH TURN)",
        "T0101",
        "G50 S2500",
        "G96 S180 M03",
        f"G00 X{top} Z5. M08",
        "Z0.",
        "G01 X-1.6 F0.15",
        "G00 Z2.",
    ]
    lines += [f"X{n(piece.stock + 2)}", "G71 U1.5 R0.5", "G71 P10 Q20 U0.4 W0.1 F0.25", f"N10 G00 X{n(path[0][0])}"]
    lines += [f"G01 X{n(x)} Z{n(z)}" + (" F0.1" if k == 0 else "") for k, (x, z) in enumerate(path[1:-1])]
    lines += [f"N20 X{n(path[-1][0])}", out, "M01"]
    lines += [
        "(FINISH TURN)",
        "T0202",
        "G50 S2500",
        "G96 S220 M03",
        f"G00 X{n(piece.stock + 2)} Z2. M08",
        "G70 P10 Q20",
        out,
        "M01",
    ]
    if piece.bore:
        lines += [
            "(DRILL)",
            "T0606",
            "G97 S700 M03",
            "G00 X0. Z4. M08",
            "G74 R1.",
            f"G74 Z-{n(piece.length + 5)} Q8000 F0.12",
            out,
        ]
        lines += ["(BORE)", "T0707", "G50 S2000", "G96 S150 M03", f"G00 X{n(piece.bore - 3)} Z2. M08", "G71 U0.5 R0.3"]
        lines += ["G71 P30 Q40 U-0.3 W0.05 F0.15", f"N30 G00 X{n(piece.bore)}", f"G01 Z-{n(piece.length + 1)} F0.08"]
        lines += [f"N40 X{n(piece.bore - 3)}", "G70 P30 Q40", out, "M01"]
    lines += ["(GROOVE 3 WIDE)", "T0303", "G50 S2000", "G96 S120 M03", f"G00 X{top} Z5. M08"]
    for near, far, floor in piece.grooves:
        places, over = plunges(near, far), clear_of(piece, far, near)
        lines += [f"G00 Z{n(places[0])}", f"X{n(over)}", "G75 R0.5"]
        row = f" Z{n(far)} P1000 Q2500" if len(places) > 1 else " P1000"
        lines += [f"G75 X{n(floor)}{row} F0.08", f"G00 X{top}"]
    lines += ["G28 U0.", "G28 W0.", "M01"]
    if piece.inner:
        lines += ["(INSIDE GROOVE)", "T0505", "G97 S900 M03", f"G00 X{n(piece.bore - 1.5)} Z4. M08"]
        for _, far, floor in piece.inner:
            lines += [f"Z{n(far)}", "G75 R0.3", f"G75 X{n(floor)} P600 F0.05", "G00 Z4."]
        lines += [out, "M01"]
    if piece.pitch:
        stop = piece.steps[1][0] if len(piece.steps) > 1 else -piece.length
        deep = 0.6134 * piece.pitch
        lines += [
            "(THREAD)",
            "T0404",
            "G97 S700 M03",
            f"G00 X{n(piece.steps[0][1] + 4)} Z6. M08",
            "G76 P020060 Q50 R0.03",
        ]
        lines += [
            f"G76 X{n(piece.steps[0][1] - 2 * deep)} Z{n(stop + 1.5)} P{round(deep * 1000)} Q250 F{n(piece.pitch)}",
            out,
        ]
    lines += ["(PART OFF)", "T0909", "G50 S1500", "G96 S100 M03", f"G00 X{top} Z5. M08", f"Z-{n(piece.length + 3)}"]
    lines += [f"G01 X{n(piece.bore - 2 if piece.bore else -1)} F0.06", f"G00 X{top}", out, "M30", "%"]
    return "\n".join(lines) + "\n"


def birch(piece: Piece) -> str:
    """Boxes pass by pass, a place of its own to change at."""
    change, over = "G00 X200. Z120.", piece.stock + OVER
    lines = ["%", "O0200", f"(JOB {piece.name.upper()})", "G21", "G50 S2800", change, "T0100", "G96 S170 M03", "G99"]
    lines += [f"G00 X{n(over)} Z3. T0101", "M08", "G94 X-1. Z0.3 F.2", "Z0. F.12"]
    lines += [f"G00 X{n(over)} Z2."]
    first = True
    for start, across in reversed(piece.steps):
        behind = [z for z, _ in piece.steps if z < start]
        stop = max(behind) if behind else -piece.length - DEEPER
        level = piece.stock if not behind else min(d for _, d in piece.steps if d > across)
        while level - 3.0 > across + 0.6:
            level -= 3.0
            lines.append(f"G90 X{n(level)} Z{n(stop + 0.1)} F.25" if first else f"X{n(level)} Z{n(stop + 0.1)}")
            first = False
        lines.append(
            f"G90 X{n(across + 0.6)} Z{n(stop + 0.1)} F.25" if first else f"X{n(across + 0.6)} Z{n(stop + 0.1)}"
        )
        first = False
    path = profile(piece, 1.0)
    lines += [change, "T0200", "G96 S210 M03", f"G00 X{n(over)} Z4. T0202", f"G00 X{n(path[0][0])} Z1."]
    lines += [f"G01 X{n(x)} Z{n(z)} F.1" for x, z in path[1:]]
    lines += [f"G00 X{n(over)}", change]
    if piece.bore:
        lines += ["T0600", "G97 S650 M03", "G00 X0 Z5. T0606", f"G01 Z-{n(piece.length + 5)} F.1", "G00 Z5.", change]
        lines += ["T0700", "G96 S140 M03", f"G00 X{n(piece.bore - 2.5)} Z3. T0707"]
        lines += [
            f"G90 X{n(piece.bore - 0.8)} Z-{n(piece.length + 1)} F.15",
            f"X{n(piece.bore)} F.08",
            "G00 Z5.",
            change,
        ]
    lines += ["T0300", "G96 S110 M03", f"G00 X{n(over)} Z5. T0303"]
    for near, far, floor in piece.grooves:
        places, above = plunges(near, far), clear_of(piece, far, near)
        lines += [f"G00 Z{n(places[0])}", f"G00 X{n(above)}"]
        row = f"Z{n(far)} I1. K2.5" if len(places) > 1 else "I1."
        lines += [f"G75 X{n(floor)} {row} F.08", f"G00 X{n(over)}"]
    lines += ["G00 Z5.", change]
    if piece.inner:
        lines += ["T0500", "G97 S900 M03", f"G00 X{n(piece.bore - 1.5)} Z5. T0505"]
        for _, far, floor in piece.inner:
            lines += [f"G00 Z{n(far)}", f"G75 X{n(floor)} I.6 F.05"]
        lines += ["G00 Z5.", change]
    if piece.pitch:
        stop = piece.steps[1][0] if len(piece.steps) > 1 else -piece.length
        wide = piece.steps[0][1]
        lines += ["T0400", "G97 S600 M03", f"G00 X{n(wide + 4)} Z6. T0404"]
        for share in (0.4, 0.7, 0.9, 1.0, 1.0):
            x = wide - 2 * 0.6134 * piece.pitch * share
            lines.append((f"G92 X{n(x)} Z{n(stop + 1.5)} F{n(piece.pitch)}") if share == 0.4 else f"X{n(x)}")
        lines += [change]
    lines += ["T0900", "G97 S500 M03", f"G00 X{n(over)} Z5. T0909", f"Z-{n(piece.length + 3)}"]
    lines += [f"G01 X{n(piece.bore - 2 if piece.bore else -1)} F.05", f"G00 X{n(over)} M09", change, "M05", "M30", "%"]
    return "\n".join(lines) + "\n"


def elder(piece: Piece) -> str:
    """Lower case, no blanks, increments, facing cuts by contour from the chuck to the front."""
    over = piece.stock + OVER
    path = profile(piece, 2.0)
    out = "g28"
    lines = [
        "%",
        f"o77({piece.name})",
        "g21g40g99",
        "g28u0w0",
        "(t1 turn)",
        "t0101",
        "g50s2200",
        "g96s160m3",
        f"g0x{n(over)}z5.",
        "m8",
    ]
    lines += ["z2.", "g72w1.5r.5", "g72p1q2u.4w.1f.25"]
    back = [*reversed(path[1:-1])]
    lines += [f"n1g0z{n(back[0][1])}", f"g1x{n(back[0][0])}f.12"]
    lines += [f"x{n(x)}z{n(z)}" for x, z in back[1:]]
    edge = piece.shape[0]
    lines += [f"x{n(edge[0])}z0.", "x-1.6", "n2z1."]
    lines += ["g70p1q2", "g28u0w0", "m1"]
    if piece.bore:
        lines += [
            "(t6 drill)",
            "t0606",
            "g97s600m3",
            "g0x0.z5.",
            f"g98g83z{n(-piece.length - 5)}q6000f70.",
            "g80",
            "g99",
            out,
        ]
        lines += [
            "(t7 bore)",
            "t0707",
            "g97s900m3",
            f"g0x{n(piece.bore - 3)}z3.",
            f"g90x{n(piece.bore - 0.8)}z{n(-piece.length - 1)}f.15",
            f"x{n(piece.bore)}f.08",
            "g0z5.",
            "g28u0w0",
        ]
    lines += ["(t3 groove)", "t0303", "g50s2000", "g96s120m3", f"g0x{n(over)}z5.", "m8"]
    for near, far, floor in piece.grooves:
        above = clear_of(piece, far, near)
        deep = above - floor
        for place in plunges(near, far):
            lines += [
                f"g0z{n(place)}",
                f"x{n(above)}",
                f"g1u{n(-deep / 2)}f.08",
                "g0u.6",
                f"g1u{n(-deep / 2 - 0.6)}",
                f"g0x{n(above)}",
            ]
        lines += [f"g0x{n(over)}"]
    lines += ["g28u0", "g28w0"]
    if piece.inner:
        lines += ["(t5 inside groove)", "t0505", "g97s850m3", f"g0x{n(piece.bore - 1.5)}z4."]
        for _, far, floor in piece.inner:
            lines += [f"z{n(far)}", f"g1x{n(floor)}f.05", "g4x.3", f"g0x{n(piece.bore - 1.5)}", "z4."]
        lines += ["g28u0w0"]
    if piece.pitch:
        stop = piece.steps[1][0] if len(piece.steps) > 1 else -piece.length
        wide = piece.steps[0][1]
        lines += ["(t4 thread)", "t0404", "g97s600m3", f"g0x{n(wide + 4)}z6."]
        for share in (0.5, 0.8, 1.0):
            x = wide - 2 * 0.6134 * piece.pitch * share
            lines += [f"g0x{n(x)}", f"g32z{n(stop + 1.5)}f{n(piece.pitch)}", f"g0x{n(wide + 4)}", "z6."]
        lines += ["g28u0w0"]
    lines += ["(t9 part)", "t0909", "g97s450m3", f"g0x{n(over)}z5.", f"z{n(-piece.length - 3)}"]
    lines += [f"g1x{n(piece.bore - 2 if piece.bore else -1)}f.05", f"g0x{n(over)}", "m9", "g28u0w0", "m5", "m30", "%"]
    return "\n".join(lines) + "\n"
