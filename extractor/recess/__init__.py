"""The part: from a folded profile to lands, bores and recesses, each classified and measured.

    level      a stretch where the radius stands still, or a point where it turns round
    recess     a level lower than both its neighbours, with the lands on either side; inner ones lie in its floor
    land       the level beside a recess; mouth: the height of the lower one
    wall       the way from the floor up to a land; climb: a wall taken apart into corner, wall and rim
    shape      rectangular, relief, tapered, vee, round or other (the table is in `shapes`)
    journal    a low land between higher ones that is turned; chamber: the same in a bore
    overhang   a recess that widens below its mouth
    slip       a dip no deeper than a pen errs; notch: a recess that one half shows alone
    alone      what one half shows and the other doesn't

In the order of the work: `recognise` (with `sides`, `turnings`, `levels`, `shapes`), `pairing` and `both_faces` (both
halves), `threads`, `crossings`, `ghosts`, `sorting`, `lands`, `build` (true size, front face at 0), `remarks` (the
sentences).
"""
