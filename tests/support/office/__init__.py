"""Whole sheets as drawing offices make them, each with the truth beside it.

A `Part` is a profile of exact numbers; views, sizes, words and notes are put on paper from it as roles of ink; an
`Office` gives each role its layer and line type; two writers, `support.plain_dxf` and one on a library, make the file.
No code of the reader and none of the older generators has a part in it.
"""
