"""Houses that write every pass: cedar block by block, dogwood with variables and loops."""

from support.wholes.pen import DEEPER, OVER, clear_of, n, plunges, profile
from support.wholes.pieces import Piece


def cedar(piece: Piece) -> str:
    """No cycle at all, every block with its number."""
    over, away = n(piece.stock + OVER), "G00 X250 Z150"
    body = [
        f"(DRAWING {piece.name.upper()} BAR {n(piece.stock)})",
        "G90 G71 G95 G40",
        "G54",
        "G92 S2500",
        away,
        "T0101",
        "G96 S160 M04"[:-2] + "03",
    ]
    body += [f"G00 X{over} Z4. M08", "Z0.", "G01 X-1. F0.12", "G00 Z2."]
    rough = [(d + 1.0, z) for z, d in piece.steps]
    for k in range(len(rough) - 1, -1, -1):
        across, _ = rough[k]
        stop = (rough[k + 1][1] + 0.2) if k + 1 < len(rough) else -piece.length - DEEPER
        level = piece.stock if k + 1 == len(rough) else rough[k + 1][0]
        while level > across + 0.01:
            level = max(across, level - 3.0)
            body += [f"G00 X{n(level)}", f"G01 Z{n(stop)} F0.25", f"G01 X{n(level + 2)} Z{n(stop + 1)}", "G00 Z2."]
    path = profile(piece, 1.5)
    body += [
        f"G00 X{over}",
        away,
        "T0202",
        "G96 S200 M03",
        f"G00 X{over} Z5.",
        f"G00 X{n(path[0][0])} Z1.5",
        "G01 F0.1",
    ]
    body += [f"G01 X{n(x)} Z{n(z)}" for x, z in path[1:]] + [f"G00 X{over}", away]
    if piece.bore:
        body += ["T0606", "G97 S600 M03", "G00 X0. Z5."]
        body += [
            w
            for k in range(1, int(piece.length + 5) // 10 + 1)
            for w in (f"G01 Z-{k * 10}. F0.1", "G00 Z3.", f"Z-{k * 10 - 1}.")
        ]
        body += [
            f"G01 Z-{n(piece.length + 5)}",
            "G00 Z5.",
            away,
            "T0707",
            "G96 S130 M03",
            f"G00 X{n(piece.bore - 0.6)} Z3.",
        ]
        body += [f"G01 Z-{n(piece.length + 1)} F0.15", f"G00 X{n(piece.bore - 2.5)}", "Z3.", f"X{n(piece.bore)}"]
        body += [f"G01 Z-{n(piece.length + 1)} F0.08", f"G00 X{n(piece.bore - 2.5)}", "Z5.", away]
    body += ["T0303", "G96 S120 M03", f"G00 X{over} Z5."]
    for near, far, floor in piece.grooves:
        above = clear_of(piece, far, near)
        for z in plunges(near, far):
            body += [f"G00 Z{n(z)}", f"X{n(above)}"]
            depth = above
            while depth > floor:
                depth = max(floor, depth - 2.4)
                body += [f"G01 X{n(depth)} F0.08"] + ([f"G00 X{n(depth + 0.6)}"] if depth > floor else [])
            body += ["G04 X0.2", f"G00 X{n(above)}"]
        body += [f"G00 X{over}"]
    body += ["G00 Z5.", away]
    if piece.inner:
        body += ["T0505", "G97 S850 M03", f"G00 X{n(piece.bore - 1.5)} Z5."]
        for _, far, floor in piece.inner:
            body += [f"G00 Z{n(far)}", f"G01 X{n(floor)} F0.05", "G04 X0.3", f"G00 X{n(piece.bore - 1.5)}", "Z5."]
        body += [away]
    if piece.pitch:
        stop = piece.steps[1][0] if len(piece.steps) > 1 else -piece.length
        wide = piece.steps[0][1]
        body += ["T0404", "G97 S500 M03", f"G00 X{n(wide + 4)} Z8."]
        for share in (0.45, 0.75, 0.95, 1.0):
            x = wide - 2 * 0.6134 * piece.pitch * share
            body += [f"G00 X{n(x)}", f"G33 Z{n(stop + 1.5)} F{n(piece.pitch)}", f"G00 X{n(wide + 4)}", "Z8."]
        body += [away]
    body += ["T0909", "G97 S450 M03", f"G00 X{over} Z5.", f"G00 Z-{n(piece.length + 3)}"]
    body += [f"G01 X{n(piece.bore - 2 if piece.bore else -1)} F0.05", f"G00 X{over}", "M09", away, "M30"]
    return "\n".join(["%", *(f"N{10 * k} {line}" for k, line in enumerate(body, 1)), "%"]) + "\n"


def dogwood(piece: Piece) -> str:
    """Variables for every size, loops for passes, a subprogram for the plunge."""
    over = piece.stock + OVER
    path = profile(piece, 2.0)
    lines = [
        "%",
        f"O3000 ({piece.name.upper()} - SIZES BELOW)",
        f"#101={n(piece.stock)} (BAR)",
        f"#102={n(over)} (CLEAR)",
    ]
    lines += [
        "#103=2. (IN FRONT)",
        f"#104={n(-piece.length - DEEPER)} (BEHIND)",
        "#105=1.5 (CUT)",
        "#106=.08 (FEED OF GROOVES)",
    ]
    lines += [
        "G21 G40 G99",
        "G28 U0 W0",
        "T0101 (TURN)",
        "G50 S2400",
        "G97 S800 M03",
        "G96 S175",
        "G00 X#102 Z#103 M08",
    ]
    lines += ["Z0.", "G01 X-1.6 F.15", "G00 Z#103"]
    steps = [*piece.steps]
    for k in range(len(steps) - 1, -1, -1):
        across = steps[k][1] + 0.8
        stop = n(steps[k + 1][0] + 0.1) if k + 1 < len(steps) else "#104"
        begin = "#101" if k + 1 == len(steps) else n(steps[k + 1][1] + 0.8)
        lines += [
            f"#110={begin}",
            f"WHILE [#110 GT {n(across)}] DO1",
            "#110=#110-2.*#105",
            f"IF [#110 LT {n(across)}] THEN #110={n(across)}",
        ]
        lines += [
            "G00 X#110",
            f"G01 Z{'[' + stop + ']' if stop[0] == '#' else stop} F.25",
            "U1. W.5",
            "G00 Z#103",
            "END1",
        ]
    lines += ["G00 X[#101+2.]", "(FINISH)", f"G00 X{n(path[0][0])} Z#103"]
    lines += [f"G01 X{n(x)} Z{n(z)} F.1" for x, z in path[1:]]
    lines += ["G28 U0", "G28 W0"]
    if piece.bore:
        lines += [
            f"#120={n(piece.bore)}",
            f"#121={n(-piece.length - 5)}",
            "T0606 (DRILL)",
            "G97 S650 M03",
            "G00 X0 Z4. M08",
            "#122=-10.",
        ]
        lines += [
            "N100 G01 Z#122 F.1",
            "G00 Z4.",
            "Z[#122+1.]",
            "#122=#122-10.",
            "IF [#122 GT #121] GOTO 100",
            "G01 Z#121",
            "G00 Z4.",
            "G28 U0 W0",
        ]
        lines += [
            "T0707 (BORE)",
            "G97 S900 M03",
            "G00 X[#120-2.5] Z3.",
            "X[#120-.8]",
            "G01 Z[#121+4.] F.15",
            "G00 U-1.",
            "Z3.",
            "X#120",
        ]
        lines += ["G01 Z[#121+4.] F.07", "G00 U-1.5", "Z4.", "G28 U0 W0"]
    lines += ["T0303 (GROOVE)", "G50 S2000", "G96 S115 M03", "G00 X#102 Z5. M08"]
    for near, far, floor in piece.grooves:
        places, above = plunges(near, far), clear_of(piece, far, near)
        lines += [f"#130={n(places[0])}", f"#131={n(floor)}", f"#132={n(above)}"]
        if len(places) > 1:
            lines += [
                f"#133={n(far)}",
                "WHILE [#130 GT #133] DO1",
                "M98 P3100",
                "#130=#130-2.5",
                "END1",
                "#130=#133",
                "M98 P3100",
            ]
        else:
            lines += ["M98 P3100"]
    lines += ["G28 U0", "G28 W0"]
    if piece.inner:
        lines += ["T0505 (INSIDE GROOVE)", "G97 S850 M03", "G00 X[#120-1.5] Z4. M08"]
        for _, far, floor in piece.inner:
            lines += [f"G00 Z{n(far)}", "G75 R.3", f"G75 X{n(floor)} P600 F.05", "G00 Z4."]
        lines += ["G28 U0 W0"]
    if piece.pitch:
        stop = piece.steps[1][0] if len(piece.steps) > 1 else -piece.length
        lines += [
            f"#140={n(piece.pitch)}",
            f"#141={n(piece.steps[0][1])}",
            "#142=.6134*#140",
            "T0404 (THREAD)",
            "G97 S650 M03",
        ]
        lines += [
            "G00 X[#141+4.] Z6. M08",
            "G76 P020060 Q50 R.03",
            f"G76 X[#141-2.*#142] Z{n(stop + 1.5)} P[#142*1000] Q250 F#140",
            "G28 U0 W0",
        ]
    lines += ["T0909 (PART OFF)", "G97 S500 M03", "G00 X#102 Z5. M08", f"Z{n(-piece.length - 3)}"]
    lines += [f"G01 X{n(piece.bore - 2 if piece.bore else -1)} F.06", "G00 X#102", "G28 U0 W0", "M30"]
    lines += [
        "O3100 (ONE PLUNGE)",
        "G00 X#102",
        "Z#130",
        "X#132",
        "#150=#132",
        "WHILE [#150 GT #131] DO2",
        "#150=#150-2.",
        "IF [#150 LT #131] THEN #150=#131",
    ]
    lines += ["G01 X#150 F#106", "G00 U.8", "END2", "G00 X#102", "M99", "%"]
    return "\n".join(lines) + "\n"
