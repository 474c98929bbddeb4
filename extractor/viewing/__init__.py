"""Finding the view: what each stroke is, which strokes make a view, and the one view that shows a turned part.

    role       what a stroke is drawn as (outline, hidden, dimension, leader, hatch ...); the table is in `roles`
    claim      strokes that a rule takes for a role, with weight and reason; sure ones leave, likely ones stand aside
    head       of an arrow; tail: the line behind a head that stands outside its dimension (`arrows`)
    loose      of a dimension or leader: drawn as lines and text, no entity (`exploded`, `assigned`, `leaders`)
    gap        a short way between two ends that were meant to meet (`gaps`)
    cluster    what is connected on the sheet; view: the clusters that show one part about one axis (`views`)
    candidate  a view with what speaks for it, in parts that stay apart (`evidence`, `choice`)
    half       what is drawn on one side of the axis; folded: a half as a profile in (z, radius) (`outline`)
    picture    of a part seen aslant; end view: the part seen along its axis (`end_views`, `round_ends`)

In the order of the work: `roles` (with `arrows`, `exploded`, `leaders`, `hatching`, `letters`, `marks`), `gaps`,
`clusters`, `axis` and `symmetry`, `views`, `evidence`, `choice`, `outline`, `remainder`. `alike` holds the measures
that several of them go by. Lengths are as drawn.
"""
