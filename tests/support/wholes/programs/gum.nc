@ set over = n(piece.stock + OVER)
@ set path = profile(piece, 1.0)
@ macro call(station, spindle)
N{{ station }}0 (STATION {{ station }})
G53 G00 X260. Z180.
T0{{ station }}0{{ station }}
{{ spindle }} M03
M08
@ endmacro
%
({{ piece.name.upper() }})
(TOOLS: T1 TURN  T3 GROOVE 3 MM  T9 CUT OFF)
G71 G90 G95 G40 G80
G54
G92 S2200
{{ call(1, "G96 S170") -}}
G00 X{{ over }} Z1.
G00 Z0.
G01 X-1.5 F0.14
G00 Z1.5
G00 X{{ over }}
@ for level, stop in roughing(piece, 3.5)
G00 X{{ n(level) }}
G01 Z{{ n(stop) }} F0.2
G91 G01 X1. Z0.5
G90 G00 Z1.5
@ endfor
G00 X{{ n(path[0][0]) }} Z{{ n(path[0][1]) }}
@ for x, z in path[1:]
G01 X{{ n(x) }} Z{{ n(z) }} F0.1
@ endfor
G00 X{{ over }}
@ if piece.bore
{{ call(6, "G97 S550") -}}
G00 X0. Z4.
@ for z in pecks(0.0, -piece.length - 5, 12)
G01 Z{{ n(z) }} F0.1
G00 Z2.
G00 Z{{ n(z + 1) }}
@ endfor
G00 Z10.
{{ call(7, "G97 S1400") -}}
G00 X{{ n(piece.bore - 0.5) }} Z2.
G01 Z{{ n(-piece.length - 1) }} F0.08
G91 G00 X-1.
G90 G00 Z2.
G00 X{{ n(piece.bore) }}
G01 Z{{ n(-piece.length - 1) }} F0.08
G91 G00 X-1.
G90 G00 Z10.
@ endif
{{ call(3, "G96 S115") -}}
G00 X{{ over }} Z2.
@ for near, far, floor in piece.grooves
@ set up = clear_of(piece, far, near)
@ set half = (floor - up) / 2
@ for z in plunges(near, far)
G00 Z{{ n(z) }}
G00 X{{ n(up) }}
G91
G01 X{{ n(half) }} F0.07
G00 X0.8
G01 X{{ n(half - 0.8) }}
G04 X0.2
G00 X{{ n(up - floor) }}
G90
@ endfor
G00 X{{ over }}
@ endfor
@ if piece.inner
{{ call(5, "G97 S850") -}}
G00 X{{ n(piece.bore - 1.5) }} Z5.
@ for _, far, floor in piece.inner
G00 Z{{ n(far) }}
G01 X{{ n(floor) }} F0.04
G04 X0.3
G00 X{{ n(piece.bore - 1.5) }}
G00 Z5.
@ endfor
@ endif
@ if piece.pitch
@ set wide, stop, passes = thread_of(piece)
{{ call(4, "G97 S550") -}}
G00 X{{ n(wide + 3) }} Z7.
@ for x in passes
G00 X{{ n(x) }}
G33 Z{{ n(stop) }} K{{ n(piece.pitch) }} F{{ n(piece.pitch) }}
G00 X{{ n(wide + 3) }}
G00 Z7.
@ endfor
@ endif
{{ call(9, "G97 S450") -}}
G00 X{{ over }} Z2.
G00 Z{{ n(-piece.length - 3) }}
G01 X{{ n(piece.bore - 2 if piece.bore else -1) }} F0.05
G00 X{{ over }}
G53 G00 X260. Z180.
M09
M05
M30
%
