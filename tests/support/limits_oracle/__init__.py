"""What a drawing prints, held against the metal that a program leaves; shares no code with the tool.

A `Piece` is drawn as a person would draw it (`drafting`, `laying`, `pen`, `plain`). Each dimension on the sheet is a
`Mark`, whose text is read anew here (`reading`, `standards`). A program is run by `support.second_opinion` and cut
out of a polygon (`metal`); `law` holds every printed measure against what is left.
"""
