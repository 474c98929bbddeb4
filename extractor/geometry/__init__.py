"""Shared geometry, on which finding the view and measuring the part both rest. It knows nothing of either.

    bulge      tangent of a quarter of an arc's angle, positive counter-clockwise, 0 for a straight line
    strokes    straight and arc segments of a sheet as arrays, each with the label of what it was drawn as
    node       a place where strokes end, touch or cross, within `near`
    edge       a stretch of a stroke between two nodes; it keeps its stroke's label
    network    nodes and edges, and the faces that the edges close off
    face       an area that edges close off; rim: the edges with a given area on one side only
    piece      one line or arc of a profile, in (z, radius)
    profile    pieces end to end from the front face back, z falling
    chords     the short straight lines that an arc was drawn as; `curves` makes arcs of them again

Lengths are as drawn. Nothing here reads files or makes findings.
"""
