@ set over = n(piece.stock + OVER)
@ set path = profile(piece, 1.5)
(DRAWING {{ piece.name.upper() }} BAR {{ n(piece.stock) }})
G90 G71 G95 G40
G54
G92 S2500
G00 X250 Z150
T0101
G96 S160 M03
G00 X{{ over }} Z4. M08
Z0.
G01 X-1. F0.12
G00 Z2.
@ for level, stop in roughing(piece, 3.0, left=1.0, least=1.01)
G00 X{{ n(level) }}
G01 Z{{ n(stop) }} F0.25
G01 X{{ n(level + 2) }} Z{{ n(stop + 1) }}
G00 Z2.
@ endfor
G00 X{{ over }}
G00 X250 Z150
T0202
G96 S200 M03
G00 X{{ over }} Z5.
G00 X{{ n(path[0][0]) }} Z1.5
G01 F0.1
@ for x, z in path[1:]
G01 X{{ n(x) }} Z{{ n(z) }}
@ endfor
G00 X{{ over }}
G00 X250 Z150
@ if piece.bore
T0606
G97 S600 M03
G00 X0. Z5.
@ for k in range(1, int(piece.length + 5) // 10 + 1)
G01 Z-{{ k * 10 }}. F0.1
G00 Z3.
Z-{{ k * 10 - 1 }}.
@ endfor
G01 Z-{{ n(piece.length + 5) }}
G00 Z5.
G00 X250 Z150
T0707
G96 S130 M03
G00 X{{ n(piece.bore - 0.6) }} Z3.
G01 Z-{{ n(piece.length + 1) }} F0.15
G00 X{{ n(piece.bore - 2.5) }}
Z3.
X{{ n(piece.bore) }}
G01 Z-{{ n(piece.length + 1) }} F0.08
G00 X{{ n(piece.bore - 2.5) }}
Z5.
G00 X250 Z150
@ endif
T0303
G96 S120 M03
G00 X{{ over }} Z5.
@ for near, far, floor in piece.grooves
@ set above = clear_of(piece, far, near)
@ for z in plunges(near, far)
G00 Z{{ n(z) }}
X{{ n(above) }}
@ for depth in pecks(above, floor, 2.4)
G01 X{{ n(depth) }} F0.08
@ if not loop.last
G00 X{{ n(depth + 0.6) }}
@ endif
@ endfor
G04 X0.2
G00 X{{ n(above) }}
@ endfor
G00 X{{ over }}
@ endfor
G00 Z5.
G00 X250 Z150
@ if piece.inner
T0505
G97 S850 M03
G00 X{{ n(piece.bore - 1.5) }} Z5.
@ for _, far, floor in piece.inner
G00 Z{{ n(far) }}
G01 X{{ n(floor) }} F0.05
G04 X0.3
G00 X{{ n(piece.bore - 1.5) }}
Z5.
@ endfor
G00 X250 Z150
@ endif
@ if piece.pitch
@ set wide, stop, passes = thread_of(piece, (0.45, 0.75, 0.95, 1.0))
T0404
G97 S500 M03
G00 X{{ n(wide + 4) }} Z8.
@ for x in passes
G00 X{{ n(x) }}
G33 Z{{ n(stop) }} F{{ n(piece.pitch) }}
G00 X{{ n(wide + 4) }}
Z8.
@ endfor
G00 X250 Z150
@ endif
T0909
G97 S450 M03
G00 X{{ over }} Z5.
G00 Z-{{ n(piece.length + 3) }}
G01 X{{ n(piece.bore - 2 if piece.bore else -1) }} F0.05
G00 X{{ over }}
M09
G00 X250 Z150
M30
