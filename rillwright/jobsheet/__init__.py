"""The job sheet: one page with pictures, set-up, program and checks, made from a record and a program's text.

    scene      what the pictures need, taken from the record once; its lengths are the part's
    stage      where everything stands in the picture: scale, margins, jaws; drawn with the kit in `rillwright.svg`
    view       rows of the tables, every number a text already; `figures` those of the set-up
    listing    the program line by line, each word with what it means
    inspection the characteristics to be measured, with limits and gauges
    stops      places where the stepping script halts

It hands out `sheet.render_sheet` and `index.render_index`, which are pure; `file.rebuild_sheet` from a record's file;
and `overview.render_overview`, the page over a watched folder.
"""
