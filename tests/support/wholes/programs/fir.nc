@ set over = w(piece.stock + OVER)
@ set path = profile(piece, 2.0)
%
O0007
({{ piece.name }} OLD LATHE NO POINTS)
G21
G99
M41
G50 X250000 Z150000 S2000
T0100 M08
G96 S150 M03
G00 X{{ over }} Z3000 T0101
Z0
G01 X-1600 F0.15
G00 Z2000
@ for level, stop in roughing(piece, 4.0)
G00 X{{ w(level) }}
G01 W{{ w(stop - 2.0) }} F0.22
G00 U1000 W500
Z2000
@ endfor
G00 X{{ over }}
X250000 Z150000 T0100
M01
T0200
G96 S190
G00 X{{ w(path[0][0]) }} Z{{ w(path[0][1]) }} T0202
G01 F0.1
@ for (x, z), (a, b) in pairwise(path) if x != a or z != b
G01{{ " U" + w(a - x) if x != a else "" }}{{ " W" + w(b - z) if z != b else "" }}
@ endfor
G00 X{{ over }}
X250000 Z150000 T0200
@ if piece.bore
T0600
G97 S600
G00 X0 Z5000 T0606
G74 R1000
G74 Z{{ w(-piece.length - 5) }} Q9000 F0.1
X250000 Z150000 T0600
T0700
G96 S120
G00 X{{ w(piece.bore - 0.5) }} Z2000 T0707
G01 Z{{ w(-piece.length - 1) }} F0.12
U-1000
G00 Z2000
X{{ w(piece.bore) }}
G01 Z{{ w(-piece.length - 1) }} F0.08
U-2000
G00 Z2000
X250000 Z150000 T0700
@ endif
T0300
G96 S110
G00 X{{ over }} Z3000 T0303
@ for near, far, floor in piece.grooves
@ set at = plunges(near, far)
G00 Z{{ w(at[0]) }}
X{{ w(clear_of(piece, far, near)) }}
G75 R500
G75 X{{ w(floor) }} {{ "Z%s P1000 Q2500" % w(far) if len(at) > 1 else "P1000" }} F0.08
G00 X{{ over }}
@ endfor
X250000 Z150000 T0300
@ if piece.inner
T0500
G97 S800
G00 X{{ w(piece.bore - 1.5) }} Z4000 T0505
@ for _, far, floor in piece.inner
G00 W{{ w(far - 4) }}
G01 X{{ w(floor) }} F0.04
G04 P400
G00 X{{ w(piece.bore - 1.5) }}
W{{ w(4 - far) }}
@ endfor
X250000 Z150000 T0500
@ endif
@ if piece.pitch
@ set wide, stop, passes = thread_of(piece)
T0400
G97 S500
G00 X{{ w(wide + 4) }} Z6000 T0404
@ for x in passes
{{ "G92 X%s Z%s F%s" % (w(x), w(stop), piece.pitch) if loop.first else "X" + w(x) }}
@ endfor
G00 X250000 Z150000 T0400
@ endif
T0900
G97 S450
G00 X{{ over }} Z3000 T0909
Z{{ w(-piece.length - 3) }}
G01 X{{ w(piece.bore - 2 if piece.bore else -1) }} F0.05
G00 X{{ over }}
X250000 Z150000 T0900
M09
M05
M30
%
