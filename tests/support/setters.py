"""Right programs as setters write them by hand, each in another habit, and the drawings that they make.

Common practice, no source. SPINDLE: 50 across, a row of three grooves 4 wide and one 15 wide; inserts 4 wide in station
2 (Z set to the far edge), in station 6 (to the near edge). PULLEY: 60 across, two grooves 6 wide with edges broken
0.5 x 45, insert 3 wide. RING: inches. BUSH: a groove 4 wide in a bore of 40.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from extractor.part import Part
from planner.shop import Shop
from support.moves import STEEL, shop, tool
from support.parts import part_of


@dataclass(frozen=True)
class Work:
    """A part with the shop that makes it, and its grooves as (near, far, floor diameter, chamfer)."""

    across: float
    length: float
    grooves: tuple[tuple[float, float, float, float], ...]
    shop: Shop
    units: str = "mm"
    bore: float = 0.0

    @property
    def part(self) -> Part:
        """As the drawing is read."""
        more = {"where": "inside"} if self.bore else {}
        spots = [(near, far, floor, more | {"edge_chamfer": chamfer}) for near, far, floor, chamfer in self.grooves]
        return part_of(spots, self.across, self.length, self.units, bore=self.bore or None)


FAR = tool(station=2, offset=2, width=4.0, corner_radius=0.2, feed=0.1, peck=1.5)
SPINDLE = Work(
    50,
    80,
    ((-12, -16, 42, 0), (-22, -26, 42, 0), (-32, -36, 42, 0), (-45, -60, 40, 0)),
    shop(FAR, replace(FAR, station=6, offset=6, reference="near"), sharp_corner=0.2, stick_out=95.0),
)
PULLEY = Work(
    60,
    90,
    ((-20, -26, 50, 0.5), (-40, -46, 50, 0.5)),
    shop(tool(station=4, offset=4, corner_radius=0.2, reference="near", peck=1.5), sharp_corner=0.2, stick_out=110.0),
)
INCH = tool(
    station=7, offset=7, width=0.125, corner_radius=0.008, max_depth=0.5, reference="near", feed=0.003, peck=0.05
)
RING = Work(
    2.0,
    3.5,
    ((-0.5, -0.625, 1.75, 0), (-0.9, -1.025, 1.75, 0)),
    shop(
        replace(INCH, retract=0.02),
        units="in",
        material=replace(STEEL, cutting_speed=400.0),
        sharp_corner=0.008,
        stick_out=4.5,
        jaw_gap=0.12,
        clearance=0.04,
    ),
    "in",
)
BUSH = Work(
    70,
    50,
    ((-15, -19, 46, 0),),
    shop(
        tool(station=8, offset=8, width=4.0, corner_radius=0.2, max_depth=5.0, feed=0.06, peck=0.0, where="inside"),
        sharp_corner=0.2,
    ),
    bore=40.0,
)

OPEN = "%\nO1001 (SPINDLE)\nG21 G40 G99\nG28 U0\nG28 W0\n"
START = "G50 S2500\nG96 S120 M03\n"
AWAY = "G00 X150.\nG28 U0 W0\nM05\nM30\n"
ROW = "G00 X53. Z-16. M08\nG75 R0.3\nG75 X42. Z-36. P1500 Q10000 F0.1\n"
WIDE = "G00 X53. Z-60.\nG75 R0.3\nG75 X40. Z-49. P1500 Q3600 F0.1\n"
STEPS = ("60.", "56.5", "53.", "49.5", "49.")
PLUNGES = "".join(f"G00 Z-{z}\nG01 X40. F.1\nG00 X53.\n" for z in STEPS)
ROUGHED = "".join(f"G00 Z-{z}\nG01 X40.2 F.1\nG00 X53.\n" for z in ("59.9", "56.4", "52.9", "49.4", "49.1"))
FINISHED = "G00 Z-60.\nG01 X40. F.06\nG01 Z-54.\nX40.5\nG00 X53.\nZ-49.\nG01 X40.\nZ-54.2\nX40.5\nG00 X53.\n"
CALLED = "G00 X53. Z-6. M08\nM98 P{} \n" + WIDE + AWAY + "O1002\nG00 W-10.\nG01 X42. F.1\nG04 P300\nG00 X53.\nM99\n"
DOWN = "G00 W1.5\nG01 X62. F.2\nX59. W-1.5 F.05\nX50.\nG00 X63.\nW-4.5\nG01 X62. F.2\nX59. W1.5 F.05\nX50.\nW3.\n"
BROKEN = "".join(f"G00 X63. Z-{z}\nG75 R.3\nG75 X50.2 P1500 F.08\n" for z in ("21.5", "20.1", "22.9"))
SPINDLES: Mapping[str, str] = {
    "cycles": ROW + WIDE + AWAY,
    "cycles with U and W": ROW.replace("X42. Z-36.", "U-11. W-20.") + WIDE + AWAY,
    "a cycle in one block": ROW.replace("G75 R0.3\n", "").replace("P1500 Q10000", "I1.5 K10.")
    + WIDE.replace("G75 R0.3\n", "").replace("P1500 Q3600", "I1.5 K3.6")
    + AWAY,
    "no blanks": (ROW + WIDE + AWAY).replace(" ", "").lower(),
    "block numbers": "".join(f"N{n}0 {line};\n" for n, line in enumerate((ROW + WIDE + AWAY).split("\n")[:-1], 1)),
    "a call for each": CALLED.format("1002\nM98 P1002\nM98 P1002"),
    "three calls by L": CALLED.format("1002 L3"),
    "three calls in P": CALLED.format("00031002"),
    "increments": "G00 X53. Z-16. M08\nG01 U-11. F.1\nG00 U11.\n" + 2 * "W-10.\nG01 U-11.\nG00 U11.\n" + PLUNGES + AWAY,
    "modal cuts": "G00 X53. Z-16. M08\nG01 X42. F.1\nX53. F2.\nZ-26.\nX42. F.1\nX53. F2.\nZ-36.\nX42. F.1\nX53. F2.\n"
    + WIDE
    + AWAY,
    "pecks by hand": "G00 X53. M08\n"
    + "".join(
        f"Z-{z}.\nG01 X48. F.1\nG00 X48.5\nG01 X45.\nG00 X45.5\nG01 X42.\nG04 X.3\nG00 X53.\n" for z in (16, 26, 36)
    )
    + PLUNGES
    + AWAY,
    "finished from both walls": ROW + ROUGHED + FINISHED + AWAY,
    "variables": "#4=4. (WIDTH)\n#100=42.\nG00 X53. Z[-12.-#4] M08\nG75 R.3\nG75 X#100 Z[-32.-#4] P1500 Q10000 F.1\n"
    + WIDE
    + AWAY,
    "loops": "#1=3\n#2=-16.\nG00 X53. Z-16. M08\nWHILE [#1 GT 0] DO1\nG00 Z#2\n#3=50.\n"
    "WHILE [#3 GT 42.] DO2\n#3=#3-2.\nG01 X#3 F.1\nG00 X[#3+1.]\nEND2\nG00 X53.\n#2=#2-10.\n#1=#1-1\nEND1\n"
    + WIDE
    + AWAY,
    "jumps": "G00 X53. Z-16. M08\n#10=0\nN5 #11=50.\nN6 #11=#11-3.\nIF [#11 LT 42.] THEN #11=42.\nG01 X#11 F.1\n"
    "G00 X[#11+.5]\nIF [#11 GT 42.] GOTO 6\nG00 X53.\nW-10.\n#10=#10+1\nIF [#10 LT 3] GOTO 5\n" + WIDE + AWAY,
    "feed per minute": "G98 G97 S700\nG00 X53. Z-16. M08\n"
    + "".join(f"G00 Z-{z}.\nG01 X42. F70.\nG00 X53.\n" for z in (16, 26, 36))
    + PLUNGES.replace("F.1", "F70.")
    + AWAY,
    "another insert": ROW
    + "G00 X150.\nG28 U0 W0\nT0200\nM01\nT0606\n"
    + START
    + WIDE.replace("60.", "45.").replace("49.", "56.")
    + AWAY,
}
PULLEYS: Mapping[str, str] = {
    "chamfers by a call": "M08\n"
    + BROKEN
    + BROKEN.replace("Z-2", "Z-4")
    + "G00 X63. Z-20.\nM98 P1100\nG00 X63. Z-40.\nM98 P1100\n"
    + AWAY
    + f"O1100\n{DOWN}G00 X63.\nM99\n",
}
BORE = "G00 X38. Z5. M08\n"
OUT = "G00 X38.\nZ50.\nG28 U0 W0\nM30\n"
BUSHES: Mapping[str, str] = {
    "a plunge in the bore": f"{BORE}Z-19.\nG01 X46. F.06\nG04 X.3\n{OUT}",
    "a cycle in the bore": f"{BORE}Z-19.\nG75 R.2\nG75 X46. P1000 F.06\n{OUT}",
}
RINGS: Mapping[str, str] = {
    "inch cycle": "G00 X2.1 Z-.5 M08\nG75 R.02\nG75 X1.75 Z-.9 P500 Q4000 F.003\nG28 U0\nG28 W0\nM30\n",
    "inch increments": "G00 X2.1 Z-.5 M08\nG01 U-.35 F.003\nG00 U.35\nW-.4\nG01 U-.35\nG00 U.35\nG28 U0\nG28 W0\nM30\n",
}
PROGRAMS: Mapping[str, tuple[Work, str]] = {
    **{name: (SPINDLE, f"{OPEN}T0202\n{START}{text}%\n") for name, text in SPINDLES.items()},
    **{name: (PULLEY, f"{OPEN}T0404\n{START}{text}%\n") for name, text in PULLEYS.items()},
    **{name: (BUSH, f"{OPEN}T0808\n{START}{text}%\n") for name, text in BUSHES.items()},
    **{
        name: (RING, f"{OPEN.replace('21', '20')}T0707\nG50 S2000\nG96 S400 M03\n{text}%\n")
        for name, text in RINGS.items()
    },
}
