@ set over = n(piece.stock + OVER)
@ set path = profile(piece, 2.0)
%
O1001 ({{ piece.name.upper() }})
(BAR DIA {{ n(piece.stock) }} - C45)
G21 G99 G40
G28 U0. W0.
(ROUGH TURN)
T0101
G50 S2500
G96 S180 M03
G00 X{{ over }} Z5. M08
Z0.
G01 X-1.6 F0.15
G00 Z2.
X{{ n(piece.stock + 2) }}
G71 U1.5 R0.5
G71 P10 Q20 U0.4 W0.1 F0.25
N10 G00 X{{ n(path[0][0]) }}
@ for x, z in path[1:-1]
G01 X{{ n(x) }} Z{{ n(z) }}{{ " F0.1" if loop.first else "" }}
@ endfor
N20 X{{ n(path[-1][0]) }}
G28 U0. W0.
M01
(FINISH TURN)
T0202
G50 S2500
G96 S220 M03
G00 X{{ n(piece.stock + 2) }} Z2. M08
G70 P10 Q20
G28 U0. W0.
M01
@ if piece.bore
(DRILL)
T0606
G97 S700 M03
G00 X0. Z4. M08
G74 R1.
G74 Z-{{ n(piece.length + 5) }} Q8000 F0.12
G28 U0. W0.
(BORE)
T0707
G50 S2000
G96 S150 M03
G00 X{{ n(piece.bore - 3) }} Z2. M08
G71 U0.5 R0.3
G71 P30 Q40 U-0.3 W0.05 F0.15
N30 G00 X{{ n(piece.bore) }}
G01 Z-{{ n(piece.length + 1) }} F0.08
N40 X{{ n(piece.bore - 3) }}
G70 P30 Q40
G28 U0. W0.
M01
@ endif
(GROOVE 3 WIDE)
T0303
G50 S2000
G96 S120 M03
G00 X{{ over }} Z5. M08
@ for near, far, floor in piece.grooves
@ set at = plunges(near, far)
G00 Z{{ n(at[0]) }}
X{{ n(clear_of(piece, far, near)) }}
G75 R0.5
G75 X{{ n(floor) }}{{ " Z%s P1000 Q2500" % n(far) if len(at) > 1 else " P1000" }} F0.08
G00 X{{ over }}
@ endfor
G28 U0.
G28 W0.
M01
@ if piece.inner
(INSIDE GROOVE)
T0505
G97 S900 M03
G00 X{{ n(piece.bore - 1.5) }} Z4. M08
@ for _, far, floor in piece.inner
Z{{ n(far) }}
G75 R0.3
G75 X{{ n(floor) }} P600 F0.05
G00 Z4.
@ endfor
G28 U0. W0.
M01
@ endif
@ if piece.pitch
@ set deep = 0.6134 * piece.pitch
@ set wide, stop, passes = thread_of(piece)
(THREAD)
T0404
G97 S700 M03
G00 X{{ n(wide + 4) }} Z6. M08
G76 P020060 Q50 R0.03
G76 X{{ n(wide - 2 * deep) }} Z{{ n(stop) }} P{{ round(deep * 1000) }} Q250 F{{ n(piece.pitch) }}
G28 U0. W0.
@ endif
(PART OFF)
T0909
G50 S1500
G96 S100 M03
G00 X{{ over }} Z5. M08
Z-{{ n(piece.length + 3) }}
G01 X{{ n(piece.bore - 2 if piece.bore else -1) }} F0.06
G00 X{{ over }}
G28 U0. W0.
M30
%
