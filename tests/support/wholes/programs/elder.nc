@ set over = n(piece.stock + OVER)
@ set back = profile(piece, 2.0)[1:-1][::-1]
%
o77({{ piece.name }})
g21g40g99
g28u0w0
(t1 turn)
t0101
g50s2200
g96s160m3
g0x{{ over }}z5.
m8
z2.
g72w1.5r.5
g72p1q2u.4w.1f.25
n1g0z{{ n(back[0][1]) }}
g1x{{ n(back[0][0]) }}f.12
@ for x, z in back[1:]
x{{ n(x) }}z{{ n(z) }}
@ endfor
x{{ n(piece.shape[0][0]) }}z0.
x-1.6
n2z1.
g70p1q2
g28u0w0
m1
@ if piece.bore
(t6 drill)
t0606
g97s600m3
g0x0.z5.
g98g83z{{ n(-piece.length - 5) }}q6000f70.
g80
g99
g28
(t7 bore)
t0707
g97s900m3
g0x{{ n(piece.bore - 3) }}z3.
g90x{{ n(piece.bore - 0.8) }}z{{ n(-piece.length - 1) }}f.15
x{{ n(piece.bore) }}f.08
g0z5.
g28u0w0
@ endif
(t3 groove)
t0303
g50s2000
g96s120m3
g0x{{ over }}z5.
m8
@ for near, far, floor in piece.grooves
@ set above = clear_of(piece, far, near)
@ for place in plunges(near, far)
g0z{{ n(place) }}
x{{ n(above) }}
g1u{{ n((floor - above) / 2) }}f.08
g0u.6
g1u{{ n((floor - above) / 2 - 0.6) }}
g0x{{ n(above) }}
@ endfor
g0x{{ over }}
@ endfor
g28u0
g28w0
@ if piece.inner
(t5 inside groove)
t0505
g97s850m3
g0x{{ n(piece.bore - 1.5) }}z4.
@ for _, far, floor in piece.inner
z{{ n(far) }}
g1x{{ n(floor) }}f.05
g4x.3
g0x{{ n(piece.bore - 1.5) }}
z4.
@ endfor
g28u0w0
@ endif
@ if piece.pitch
@ set wide, stop, passes = thread_of(piece, (0.5, 0.8, 1.0))
(t4 thread)
t0404
g97s600m3
g0x{{ n(wide + 4) }}z6.
@ for x in passes
g0x{{ n(x) }}
g32z{{ n(stop) }}f{{ n(piece.pitch) }}
g0x{{ n(wide + 4) }}
z6.
@ endfor
g28u0w0
@ endif
(t9 part)
t0909
g97s450m3
g0x{{ over }}z5.
z{{ n(-piece.length - 3) }}
g1x{{ n(piece.bore - 2 if piece.bore else -1) }}f.05
g0x{{ over }}
m9
g28u0w0
m5
m30
%
