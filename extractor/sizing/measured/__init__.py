"""What of the part a size measures.

    landmark    a place that a dimension may end at: an end, a wall, a middle, a corner (`landmarks`)
    feature     a groove by its walls, a diameter, a length, looked up by place or by size (`features`)
    tie         the feature that a dimension measures (`ties`)
    like        grooves of one side, form, width and floor: the tolerance of one is that of all (`like`)

Hands out `features.Features`, `ties.tie_of`, `like.alike`.
"""
