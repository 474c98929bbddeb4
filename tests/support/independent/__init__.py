"""Drawings the reader was not tuned to: parts with known grooves, views of them, and what the reader made of them.

Shares no part and no view with `support.office` or `support.draw`; in the order data flows:

    parts, stock    random turned parts with the grooves they truly have; `tolerances` puts deviations to their sizes
    move, views     strokes moved and scaled; a part drawn as a shop's draughtsman would, `sloppy` or not
    solids          the same from a true solid: revolved, cut and projected by an open solid kernel (`solid_sheets`)
    dress, offices  what offices draw around a view, and their layers, words and habits; `recipes` draws them at random
    traps           oddities of real sheets, one each (`more_traps`); `negatives`: sheets that show no turned part
    outcomes        what came of reading a sheet: right, wrong, refused, crashed
    programs        programs for those parts, and whether they cut them (`made`, by `support.second_opinion`)
"""
