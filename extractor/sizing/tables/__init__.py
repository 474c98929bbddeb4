"""Tables on the sheet that give sizes: rows and columns of plain texts.

    heading     of a column of a table of grooves (`table_lines`); row: the sizes of one groove (`groove_table`)
    fit         a size with its class, its limits in the cells beside it
    range       of sizes, with the deviation for it (both `tolerance_tables`)

Hands out `groove_table.groove_table`, `tolerance_tables.fit_rows`, `tolerance_tables.range_rows`.
"""
