@ set path = profile(piece, 2.0)
%
O3000 ({{ piece.name.upper() }} - SIZES BELOW)
#101={{ n(piece.stock) }} (BAR)
#102={{ n(piece.stock + OVER) }} (CLEAR)
#103=2. (IN FRONT)
#104={{ n(-piece.length - DEEPER) }} (BEHIND)
#105=1.5 (CUT)
#106=.08 (FEED OF GROOVES)
G21 G40 G99
G28 U0 W0
T0101 (TURN)
G50 S2400
G97 S800 M03
G96 S175
G00 X#102 Z#103 M08
Z0.
G01 X-1.6 F.15
G00 Z#103
@ for k in range(len(piece.steps) - 1, -1, -1)
@ set across = n(piece.steps[k][1] + 0.8)
#110={{ "#101" if loop.first else n(piece.steps[k + 1][1] + 0.8) }}
WHILE [#110 GT {{ across }}] DO1
#110=#110-2.*#105
IF [#110 LT {{ across }}] THEN #110={{ across }}
G00 X#110
G01 Z{{ "[#104]" if loop.first else n(piece.steps[k + 1][0] + 0.1) }} F.25
U1. W.5
G00 Z#103
END1
@ endfor
G00 X[#101+2.]
(FINISH)
G00 X{{ n(path[0][0]) }} Z#103
@ for x, z in path[1:]
G01 X{{ n(x) }} Z{{ n(z) }} F.1
@ endfor
G28 U0
G28 W0
@ if piece.bore
#120={{ n(piece.bore) }}
#121={{ n(-piece.length - 5) }}
T0606 (DRILL)
G97 S650 M03
G00 X0 Z4. M08
#122=-10.
N100 G01 Z#122 F.1
G00 Z4.
Z[#122+1.]
#122=#122-10.
IF [#122 GT #121] GOTO 100
G01 Z#121
G00 Z4.
G28 U0 W0
T0707 (BORE)
G97 S900 M03
G00 X[#120-2.5] Z3.
X[#120-.8]
G01 Z[#121+4.] F.15
G00 U-1.
Z3.
X#120
G01 Z[#121+4.] F.07
G00 U-1.5
Z4.
G28 U0 W0
@ endif
T0303 (GROOVE)
G50 S2000
G96 S115 M03
G00 X#102 Z5. M08
@ for near, far, floor in piece.grooves
@ set at = plunges(near, far)
#130={{ n(at[0]) }}
#131={{ n(floor) }}
#132={{ n(clear_of(piece, far, near)) }}
@ if len(at) > 1
#133={{ n(far) }}
WHILE [#130 GT #133] DO1
M98 P3100
#130=#130-2.5
END1
#130=#133
@ endif
M98 P3100
@ endfor
G28 U0
G28 W0
@ if piece.inner
T0505 (INSIDE GROOVE)
G97 S850 M03
G00 X[#120-1.5] Z4. M08
@ for _, far, floor in piece.inner
G00 Z{{ n(far) }}
G75 R.3
G75 X{{ n(floor) }} P600 F.05
G00 Z4.
@ endfor
G28 U0 W0
@ endif
@ if piece.pitch
#140={{ n(piece.pitch) }}
#141={{ n(piece.steps[0][1]) }}
#142=.6134*#140
T0404 (THREAD)
G97 S650 M03
G00 X[#141+4.] Z6. M08
G76 P020060 Q50 R.03
G76 X[#141-2.*#142] Z{{ n(thread_of(piece)[1]) }} P[#142*1000] Q250 F#140
G28 U0 W0
@ endif
T0909 (PART OFF)
G97 S500 M03
G00 X#102 Z5. M08
Z{{ n(-piece.length - 3) }}
G01 X{{ n(piece.bore - 2 if piece.bore else -1) }} F.06
G00 X#102
G28 U0 W0
M30
O3100 (ONE PLUNGE)
G00 X#102
Z#130
X#132
#150=#132
WHILE [#150 GT #131] DO2
#150=#150-2.
IF [#150 LT #131] THEN #150=#131
G01 X#150 F#106
G00 U.8
END2
G00 X#102
M99
%
