"""What words do: one function for each action of the table, which takes its words from the block.

Each is called with the lathe and the event and returns nothing: it changes what is in force, makes moves, notes steps
and says what is odd. None asks in which state it was called.

    setting    units, zero, feed, tool, coolant, pauses         spindle, dwelling   as named
    moving     straight moves, arcs, the reference point        arcing              the chords of an arc
    cycles     the grooving cycle, by the words of grooving     steering            calls, returns, the end
    foreign    cycles of other tools                            roughing            contour cycles, by contours
"""
