@ set over = n(piece.stock + OVER)
@ set path = profile(piece, 1.0)
%
O0200
(JOB {{ piece.name.upper() }})
G21
G50 S2800
G00 X200. Z120.
T0100
G96 S170 M03
G99
G00 X{{ over }} Z3. T0101
M08
G94 X-1. Z0.3 F.2
Z0. F.12
G00 X{{ over }} Z2.
@ for level, stop in boxes(piece)
{{ "G90 " if loop.first else "" }}X{{ n(level) }} Z{{ n(stop) }}{{ " F.25" if loop.first else "" }}
@ endfor
G00 X200. Z120.
T0200
G96 S210 M03
G00 X{{ over }} Z4. T0202
G00 X{{ n(path[0][0]) }} Z1.
@ for x, z in path[1:]
G01 X{{ n(x) }} Z{{ n(z) }} F.1
@ endfor
G00 X{{ over }}
G00 X200. Z120.
@ if piece.bore
T0600
G97 S650 M03
G00 X0 Z5. T0606
G01 Z-{{ n(piece.length + 5) }} F.1
G00 Z5.
G00 X200. Z120.
T0700
G96 S140 M03
G00 X{{ n(piece.bore - 2.5) }} Z3. T0707
G90 X{{ n(piece.bore - 0.8) }} Z-{{ n(piece.length + 1) }} F.15
X{{ n(piece.bore) }} F.08
G00 Z5.
G00 X200. Z120.
@ endif
T0300
G96 S110 M03
G00 X{{ over }} Z5. T0303
@ for near, far, floor in piece.grooves
@ set at = plunges(near, far)
G00 Z{{ n(at[0]) }}
G00 X{{ n(clear_of(piece, far, near)) }}
G75 X{{ n(floor) }} {{ "Z%s I1. K2.5" % n(far) if len(at) > 1 else "I1." }} F.08
G00 X{{ over }}
@ endfor
G00 Z5.
G00 X200. Z120.
@ if piece.inner
T0500
G97 S900 M03
G00 X{{ n(piece.bore - 1.5) }} Z5. T0505
@ for _, far, floor in piece.inner
G00 Z{{ n(far) }}
G75 X{{ n(floor) }} I.6 F.05
@ endfor
G00 Z5.
G00 X200. Z120.
@ endif
@ if piece.pitch
@ set wide, stop, passes = thread_of(piece)
T0400
G97 S600 M03
G00 X{{ n(wide + 4) }} Z6. T0404
@ for x in passes
{{ "G92 X%s Z%s F%s" % (n(x), n(stop), n(piece.pitch)) if loop.first else "X" + n(x) }}
@ endfor
G00 X200. Z120.
@ endif
T0900
G97 S500 M03
G00 X{{ over }} Z5. T0909
Z-{{ n(piece.length + 3) }}
G01 X{{ n(piece.bore - 2 if piece.bore else -1) }} F.05
G00 X{{ over }} M09
G00 X200. Z120.
M05
M30
%
