@ set path = profile(piece, 2.0)
%
O4100 ({{ piece.name.upper() }} FAMILY)
(SIZES)
#1={{ n(piece.stock) }}
#2={{ n(piece.length) }}
#3={{ n(piece.stock + OVER) }}
#4=2.
G21 G40 G99 G80
G30 U0. W0.
T0101 (TURNING)
G50 S2400
G96 S160 M03
G00 X#3 Z#4 M08
G00 Z0.
G01 X-1.6 F0.15
G00 Z#4
X#1
#20=#1
@ for k in range(len(piece.steps) - 1, -1, -1)
#21={{ n(piece.steps[k][1] + 0.4) }}
WHILE [#20 GT #21] DO1
#20=#20-3.
IF [#20 GE #21] GOTO {{ 100 + k }}
#20=#21
N{{ 100 + k }} G00 X#20
G01 Z{{ n(-piece.length - DEEPER if loop.first else piece.steps[k + 1][0] + 0.2) }} F0.2
G00 U1. W0.5
Z#4
END1
@ endfor
G30 U0. W0.
T0202
G96 S200 M03
G00 X{{ n(path[0][0]) }} Z{{ n(path[0][1]) }} M08
@ for x, z in path[1:]
G01 X{{ n(x) }} Z{{ n(z) }} F0.1
@ endfor
G00 X#3
G30 U0. W0.
@ if piece.bore
T0606
G97 S600 M03
G00 X0. Z5. M08
#25=0
WHILE [#25 GT -#2-5.] DO2
#25=#25-10.
IF [#25 GT -#2-5.] GOTO 200
#25=-#2-5.
N200 G01 Z#25 F0.1
G00 Z3.
Z[#25+1.]
END2
G00 Z5.
G30 U0. W0.
T0707
G97 S1200 M03
G00 X{{ n(piece.bore - 3) }} Z2.
G90 X{{ n(piece.bore - 0.6) }} Z[-#2-1.] F0.12
X{{ n(piece.bore) }} F0.08
G00 Z5.
G30 U0. W0.
@ endif
T0303
G50 S1800
G96 S110 M03
G00 X#3 Z5. M08
@ for near, far, floor in piece.grooves
@ set number, at = loop.index + 4100, plunges(near, far)
G00 Z{{ n(at[0]) }}
X{{ n(clear_of(piece, far, near)) }}
@ for z in at
G00 Z{{ n(z) }}
M98 P{{ number }}
@ endfor
G00 X#3
@ endfor
G30 U0.
G30 W0.
@ if piece.inner
T0505
G97 S850 M03
G00 X{{ n(piece.bore - 1.5) }} Z4.
@ for _, far, floor in piece.inner
Z{{ n(far) }}
G01 X{{ n(floor) }} F0.05
G04 X0.3
G00 X{{ n(piece.bore - 1.5) }}
Z4.
@ endfor
G30 U0. W0.
@ endif
@ if piece.pitch
@ set wide, stop, passes = thread_of(piece)
T0404
G97 S600 M03
G00 X{{ n(wide + 4) }} Z6.
G76 P010060 Q80 R0.02
G76 X{{ n(passes[-1]) }} Z{{ n(stop) }} R0 P{{ round(613.4 * piece.pitch) }} Q200 F{{ n(piece.pitch) }}
G30 U0. W0.
@ endif
T0909
G97 S450 M03
G00 X#3 Z5.
Z[-#2-3.]
G01 X{{ n(piece.bore - 2 if piece.bore else -1) }} F0.05
G00 X#3
G30 U0. W0.
M09
M30
@ for near, far, floor in piece.grooves
@ set up = clear_of(piece, far, near)
@ set half = round((up - floor) / 2, 3)
O{{ loop.index + 4100 }} (ONE PLUNGE)
G01 U{{ n(-half) }} F0.08
G00 U0.6
G01 U{{ n(half - (up - floor) - 0.6) }}
G04 X0.2
G00 U{{ n(up - floor) }}
M99
@ endfor
%
