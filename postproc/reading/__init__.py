"""A program back to moves: words, blocks, the table of the control, and the run.

    word       an address with its number, as written; block: the words of one line
    event      what a block asks for: an act (G), a switch (M) or a sign such as a place or a feed
    mode       what a bare place would do; cell: what an event does in a mode (`table`)
    in force   all that stays from block to block (`control`)
    course     where in the blocks the run is, with the callers to return to
    lathe      what an action works with: control, words of the block, log
    trace      to follow blocks for a cycle that only uses their contour
    run        all moves, cycle calls, steps and findings of one pass

In the order of the work: `words`, `sections`, `premises`, `zeros`, `meanings`, `events`, `table`, `actions/`, `log`,
`interpreter`; `macros` and `formula` for variables, `guess` for a dialect that nobody named.
"""
