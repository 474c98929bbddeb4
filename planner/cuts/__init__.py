"""One row of grooves: how it is approached, cut and finished, in whole counts.

    u, h       along the side and across it: the same rules serve outside, bore and face (`ground`)
    place      a row of like grooves on the control's grid (`place`); walls go where `walls` says
    plunge     straight in; peck: a plunge in steps (`strokes.peck_of`); widen: plunges side by side
    beside     next to a shoulder, where the tool comes in another way
    form       a vee or round recess cut in one plunge by an insert of that form
    follow     to finish a recess along its line with the insert's edge (`contouring`; theory in `contour`)
    field      heights over z, one cell a count; path: the moves along a line

In the order of the work: `upright`, `walls`, `place`, `widen`, `beside`, `strokes`, `chamfers`, `taper`, `moves`; for
recesses that are followed: `curves`, `hollow`, `field`, `roughing`, `trace`, `paths`.
"""
