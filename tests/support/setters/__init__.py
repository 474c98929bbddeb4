"""Shops of our own invention: parts, sheets, programs as many setters write them, and what a control makes of them.

    shafts    invented parts with grooves outside, in the bore and in the face, and the shop file that goes with them
    sheets    a small writer that draws a part, with units
    habits    how twenty setters write, and habits mixed at random
    pen       words and blocks in those habits
    cuts      ways to cut a groove: by the cycle, by hand, by a subprogram, with a finishing pass, with chamfers
    hands     the whole program
    slips     what setters get wrong, one thing at a time
    control   a lathe control that runs a program, from ISO 6983 and common practice alone
    field     the metal as a fine height field, cut by the moves of the control, and held against the part

Nothing here imports the tool or shares code with the other generators; lengths are in the part's units, X a diameter.
"""
