"""From a sheet to the part's view: chosen, laid along z, and read together with the other views of the same part.

    laid        turned to its front face, centred between its halves, recognised (`laying`)
    together    what each view of the part shows, and where two differ (`together`)
    twin        another view of the part, at its own scale; its sizes hold for the part as well (`twins`)
    heard       words at one view that say which end is the front hold for all (`together`)
    in pieces   figures on one axis that are one part (`in_pieces`)

Hands out `placing.Groundwork` (what all readings of one sheet share), `laying.lay_view` (one view alone). Stands on
`viewing`, `recess`, `sizing` and `doubts`.
"""
