"""The deviations that one printed size carries: written out, in the file's variables, or by a class.

    class       `h11`, `H13`: its deviations at a nominal size (`iso286`)
    size        what a dimension measures, in true units, beside what it prints (`tolerance`)

Hands out `tolerance.deviations_of`, `iso286.deviations`. Classes for all sizes of a sheet: `sentences.general`.
"""
