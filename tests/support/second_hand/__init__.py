"""Drawings of turned parts as other people's CAD systems write them, truth known by construction.

Written without a look at the reader. In the order data flows:

    marks      what lies on a sheet: lines, arcs, paths, texts, dimensions, each with a role
    lathe      builds a part's profile feature by feature and writes down its recesses as the truth
    families   random parts: ring shafts, seal pistons, relieved threads, sleeves, pulleys, labyrinths, flanges
    views      a profile as a front view, half view, section, half section, detail, broken view
    kernel     the same from a true solid: revolved, cut, projected with hidden lines by a solid kernel
    furniture  dimensions, title block, border, hatching, projection symbol
    systems    how one CAD system or another names layers and spells curves, blocks and layouts
    rawdxf     the DXF text, tag by tag, in many versions and with many oddities
    cases      one sheet for a family and a number; what is to be expected of it
    grading    right, warned, refused rightly or needlessly, silently wrong, crash, slow
"""
