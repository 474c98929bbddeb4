"""What was cut against what is drawn, and every unsafe move.

    target     a groove of the drawing in whole counts: walls, floor and what they may be (`target`)
    cut        a recess that the program leaves in the metal; match: which target it is (`matching`)
    state      of a match: missing, extra, position, width, depth or matches
    overlay    drawn and cut profile on common breakpoints; left over: metal that should be gone
    line       the drawn line of a recess that no plain plunge makes (`line`, held by `form`)
    land       a diameter that the program turns itself, or leaves to others (`lands`, `leftover`)
    point      a tool that the shop file doesn't have, followed as a point
    slack      half a count: a drawing's thirds of an inch are no whole counts
    tongue     the dialect that a program is read in, and how that was known

`judge` gives the verdict: `watch` goes through the motions and asks one file a kind (`unsafe_rapids`, `unsafe_feeds`,
`unsafe_room`, `unsafe_cutting`, `unsafe_cycles`, `unsafe_speeds`, `unsafe_axis`); then `one_side` measures the cut.
"""
