"""Notes at grooves as many hands write them, true and with one figure wrong: how many are held, asked or passed over.

Run by hand: `PYTHONPATH=.:tests python tests/bench/note_rates.py`. The words are common practice, no source; every one
is read as it fits the groove, and once for each of its figures changed, with a leader and standing over the groove.
"""

from collections import Counter

from support.ties import HERE, bar, tied
from support.weighing import NO_SEGMENTS

from extractor.finding import Level
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions

PART = bar((-10, -14, 35), (-20, -24, 35), (-30, -34, 35))
TRUE = {"w": "4", "t": "2.5", "f": "35", "n": "3", "p": "10"}
FALSE = {"w": "4.5", "t": "2.2", "f": "34.4", "n": "4", "p": "11"}
NOTES = """
{w} WIDE x {t} DEEP
{w} mm WIDE x {t} mm DEEP
{w}mm WIDE GROOVE, {t}mm DEEP
GROOVE {w} x {t}
GROOVE, {w} WIDE, {t} DEEP
GRV {w} WIDE {t} DP
GRV. {w} W x {t} DP.
GRV {w}W X {t}DP
{w} WD x {t} DP
{w} WIDE X {t} DP
{w} WIDE BY {t} DEEP
{n} GRVS {w} WIDE
{n} GRV {w}x{t}
{n}x GROOVE {w}x{t}
{n}X GRV {w} WIDE
{n} OFF GROOVES {w} WIDE x {t} DEEP
{n} No. GROOVES {w} WIDE
{n} GROOVES {w} WIDE x {t} DEEP AT {p} PITCH
{n} GROOVES {w} WIDE, PITCH {p}
{n}x GROOVES {w} x {t}, {p} APART
{n} GROOVES EQUALLY SPACED AT {p}
{n} EQUAL GROOVES {w} x {t}
{w} x {t} GROOVE {n} PLACES
{w} x {t} GROOVE ({n} PLCS)
{w} x {t} GROOVES x {n}
GROOVE {w} +0.1/0 x {t}
GROOVE {w}+0.1 WIDE Ø{f} h11
Ø{f} x {w} WIDE
Ø{f} x {w}
Ø{f} GROOVE {w} WIDE
GROOVE Ø{f} x {w}
GROOVE DIA {f} WIDTH {w}
GROOVE DIAMETER {f}
GROOVE DIA. {f}, WIDTH {w}
GROOVE TO Ø{f}
BOTTOM DIA {f}
ROOT DIA {f}
ROOT Ø{f}
FLOOR Ø{f}
GROOVE ROOT DIA {f} x {w} WIDE
Ø{f} BOTTOM OF GROOVE
Ø{f} ROOT DIA
TURN GROOVE {w} WIDE TO {f} DIA
NECK {w} x {t}
NECK {w} WIDE TO Ø{f}
UNDERCUT {w} WIDE x Ø{f}
THREAD RELIEF {w} x Ø{f}
THREAD UNDERCUT {w} x {t}
RELIEF {w} x {t}
RELIEF GROOVE {w} WIDE x {t} DEEP
RUN-OUT {w} x {t}
O-RING GROOVE {w} x {t}
O-RING GROOVE {w} WIDE x {t} DEEP
O RING GROOVE {w} x Ø{f}
CIRCLIP GROOVE {w} WIDE Ø{f}
CIRCLIP GROOVE {w} x Ø{f}
SNAP RING GROOVE {w} x Ø{f}
RETAINING RING GROOVE Ø{f} x {w}
SEAL GROOVE {w} x {t}
OIL GROOVE {w} WIDE {t} DEEP
GROOVE WIDTH {w}
GROOVE WIDTH = {w}
GROOVE WIDTH: {w}
GROOVE DEPTH {t}
DEPTH OF GROOVE {t}
WIDTH OF GROOVE {w}
WIDTH OF GROOVES {w}
GROOVE WIDTH {w} DEPTH {t}
ALL GROOVES {w} WIDE
ALL GROOVES {w} WIDE x {t} DEEP
ALL GROOVES {w} x {t} UNLESS STATED
ALL GROOVES {w} x {t} U.O.S.
GROOVES {w} WIDE UNLESS OTHERWISE STATED
GROOVES {w} x {t} (TYP)
TYP GROOVE {w} x {t}
TYPICAL {n} PLACES {w} x {t}
{w} x {t} TYP {n}
{w} WIDE x {t} DEEP R0.2 MAX
{w} x {t}, R 0.2
GROOVE {w} x {t} R0.2 BOTH CORNERS
GROOVE {w} WIDE, RADIUS 0.2 MAX AT CORNERS
{w} WIDE x {t} DEEP, BREAK EDGES 0.2
{w} WIDE x {t} DEEP, SHARP CORNERS
{w} WIDE x {t} DEEP ON Ø40
{w} WIDE x {t} DEEP IN Ø40
{w} x {t} DEEP FULL WIDTH
{w} x {t} DEEP ALL ROUND
GROOVE {w} WIDE x {t} DEEP ALL ROUND
{w} WIDE x {t} DEEP (BOTH SIDES)
1. GROOVE {w} WIDE x {t} DEEP
GROOVE A {w} x {t}
GROOVE 1: {w} x {t}
NUT {w} x {t}
NUT {w} breit x {t} tief
Nut {w} breit / {t} tief
{n} Nuten {w} breit, {t} tief
{n}x Nut {w} breit
{n} NUTEN {w}x{t}
Einstich {w} x {t}
Einstich {w}x{t}
EINSTICH {w} BREIT, Ø{f}
Einstich Ø{f} x {w}
Einstichbreite {w}
Nutbreite {w}
NUTTIEFE {t}
Nutbreite {w}, Nuttiefe {t}
Nutgrund Ø{f}
NUTGRUND-Ø {f}
Rille {w} br. {t} tf.
NUT {w} BR. {t} TF.
Freistich {w} x {t}
FREISTICH {w}x{t}
O-Ring-Nut {w} x {t}
SICHERUNGSRINGNUT {w} x Ø{f}
GORGE {w} x {t}
{n} GORGES {w} x {t}
GORGE LARGEUR {w}, PROFONDEUR {t}
GORGE l={w} p={t}
GORGE DE {w} SUR Ø{f}
LARGEUR {w} PROF. {t}
RAINURE {w} x {t}
RAINURE DE {w} DE LARGE ET {t} DE PROFONDEUR
GOLA {w} x {t}
GOLA L={w} P={t}
{n} GOLE {w} x {t}
SCANALATURA LARGA {w} PROFONDA {t}
RANURA {w} x {t}
{n} RANURAS DE {w} x {t}
RANURA ANCHO {w} PROFUNDO {t}
W {w} D {t}
W{w} D{t}
W={w}, D={t}
WIDTH={w} DEPTH={t}
B {w} T {t}
b={w}; t={t}
{w} (W) x {t} (D)
{w} W {t} D
{w} WIDE / {t} DEEP
{w} WIDE - {t} DEEP
{w} WIDE; {t} DEEP
{w} WIDE & {t} DEEP
{w} WIDE AND {t} DEEP
{w} WIDE {t} DEEP
{w} WIDE, Ø{f}
{w} WIDE - Ø{f}
{w}/Ø{f}
{w} H13 x Ø{f} h11
{w}H13 / Ø{f}h12
{w} ±0.05 x {t} ±0.1
({w} x {t})
[{w} x {t}]
<{w} x {t}>
"{w} x {t}"
{w}*{t}
{w} X {t} X {n}
{w} x {t} - {n} PLACES
{n} PLACES: {w} x {t}
{n} PLS {w} x {t}
{n} POS. {w} WIDE x {t} DEEP
{n}-GROOVES {w} x {t}
{n}-{w} x {t}
({n}) {w} x {t}
{n} EA. {w} x {t}
GROOVE {w} WIDE ({n})
GROOVE ({n}X) {w} WIDE
{n} GROOVES
{n} GROOVES EQUALLY SPACED
{n} EQUALLY SPACED GROOVES {w} WIDE
THREE GROOVES {w} WIDE
PITCH {p}
{n} x {p} PITCH
GROOVE PITCH {p}
GROOVES AT {p} PITCH
""".strip().splitlines()
TRAPS = """
O-RING 24.99 x 3.53
O-RING 35 x 2.65 NBR 70
CIRCLIP DIN 471-40
SEE DETAIL A
DETAIL X 5:1
1 x 45°
0.5 x 45° BOTH SIDES
R0.5
Ra 0.8
Rz 6.3
GROUND
HARDENED 58 HRC
58+2 HRC
GROOVE FREE OF BURRS
GROOVES DEBURRED
GROOVES TO BE DEBURRED 0.2 x 45°
SHAFT 40 x 60
BAR Ø45 x 65
BAR 45 DIA x 65 LONG
MATERIAL C45 45 x 65
GROOVE 2
GROOVE NO. 2
GROOVE A
NOTE 2
UNDERCUT PERMITTED
UNDERCUT 0.5 MAX PERMITTED
UNDERCUT OPTIONAL
TOL. ±0.1
DRW 12-345 REV 2
SCALE 2:1
M40 x 1.5
M40x1.5-6g
THREAD M40 x 1.5 x 12 DEEP
KEYWAY 8 x 4 x 20
KEYWAY 8 WIDE x 4 DEEP
2 HOLES Ø5 THRO
Ø5 x 10 DEEP
Ø5 HOLE 10 DEEP
4 x M6 x 12 DEEP
HOLE Ø6 12 DEEP
SLOT FOR SCREWDRIVER 2 x 2
FLATS 30 A/F
WIDTH 60
LENGTH 60
KNURL 1 x 30
CENTRE DRILL A2.5
CENTRE HOLE DIN 332 A 2.5 x 5.3
NITRIDED 0.3 DEEP
CASE HARDENED 0.8 DEEP
CASE DEPTH 0.8
HARDNESS DEPTH 0.8 - 1.2
EHT 0.8
COATING 0.02 THICK
ENGRAVE 0.2 DEEP
ENGRAVE PART NO. 0.3 DEEP
STAMP NO. 3 HIGH
MARK 1 0.2 DEEP
WELD 3 x 45
PAINT 2 x
BEARING 6204 20x47x14
BEARING SEAT
BUSH 40 x 50 x 30
SEAL 40x52x7
KEY 8 x 7 x 20 DIN 6885
POS 3
ITEM 3
3 OFF
QTY 2
A-A
X
Z (5:1)
40 x 60
60 LONG
GRIND RELIEF
GROOVE WIDTH TOLERANCE H13
GROOVE FLOOR Ra 1.6
GROOVE WALLS SQUARE TO A 0.02
ALL GROOVES SQUARE
ALL GROOVES R0.2 MAX
GROOVES Ra 3.2
3 GROOVES AS SHOWN
SEE GROOVE TABLE
GROOVES PER TABLE 1
GROOVE TO SUIT O-RING 35 x 2.5
GROOVE FOR O-RING 35 x 2.65
NUT FÜR O-RING 35 x 2,65
GROOVE ACC. TO ISO 3601-2
O-RING GROOVE ISO 3601-2
O-RING GROOVE FOR 35 x 2.65
GROOVE FOR SEAL 40 x 4
GROOVES BEFORE HARDENING
GROOVE DEPTH AFTER GRINDING
""".strip().splitlines()
"""Words at a groove that say nothing of its sizes: of what it is for, finish, other features."""
MISFITS = """
CIRCLIP 40 x 1.75
RETAINING RING 40x1.75
UNDERCUT DIN 509-F 1x0.2
THREAD RELIEF DIN 76-A
GROOVE FOR CIRCLIP 40 x 1.75
NUT FÜR SICHERUNGSRING 40 x 1,75
""".strip().splitlines()
"""Call-outs of standard grooves, none of which the groove, 4 wide and 2.5 deep at a land of 40, can be."""


def heard(words, *, led):
    """stop, caution or nothing, for a note led to the first groove or standing over it."""
    if led:
        ends = HERE.on_sheet(-12, 17.5), HERE.on_sheet(-2, 40)
        found = tied(PART, Dimension(DimensionKind.LEADER, ends, 0.0, 0.0, words))[1]
    else:
        x, y = HERE.on_sheet(-12, 22.0)
        text = Text(words, (x - 0.35 * 2.5 * len(words), y), 2.5)
        found = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(text,)), PART)[1]
    levels = {f.level for f in found}
    return "stop" if Level.STOP in levels else "caution" if Level.CAUTION in levels else "nothing"


def main():
    """Print the rates, and every note that was not answered as it should be."""
    rates = Counter()
    for led in (True, False):
        how = "led" if led else "standing"
        rows = [("true", note.format(**TRUE), "nothing") for note in NOTES]
        rows += [
            ("false", note.format(**{**TRUE, k: FALSE[k]}), "stop")
            for note in NOTES
            for k in TRUE
            if f"{{{k}}}" in note
        ]
        rows += [("trap", note, "nothing") for note in TRAPS]
        rows += [("misfit", note, "stop") for note in MISFITS]
        for kind, words, wanted in rows:
            answer = heard(words, led=led)
            rates[how, kind, answer] += 1
            if answer != wanted:
                print(f"{how:9}{kind:7}{answer:8} {words}")
    for row, count in sorted(rates.items()):
        print(f"{count:5}", *row)


if __name__ == "__main__":
    main()
