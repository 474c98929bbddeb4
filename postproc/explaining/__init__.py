"""A program in plain sentences.

    scene      a block as it is explained: its words, what was in force, what it did when it first ran (`scene`)
    meaning    what one word says, with its number worked out (`explain_words`)
    sentence   what a block does (`explain_sentence`; other tools' cycles `explain_cycles`, variables `explain_macros`)
    plunge     a straight cut into the metal; groove: plunges side by side, where the insert is known (`explain_cuts`)
    change     the smallest edit of the text that makes one more groove (`explain_change`)

`explain.explain` runs the program with the interpreter and puts these together; it never judges.
"""
