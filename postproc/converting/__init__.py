"""A program carried over to another dialect, and the proof that it cuts the same.

    step       what a block of the program asks for, as the plan's own steps say it
    means      what stands in where a dialect lacks a word: the retract of a cycle, a place for the reference point
    carried    a step kept as it is, or put otherwise and told of (`carry`)
    leftover   a word that no step holds: dropped and listed, or refused with its line (`leftovers`)
    deed       a cut, a wait or a rapid with all that rules it; two runs do the same if their deeds agree (`proof`)

`convert.convert` reads, carries over, writes, reads back and proves; where one thing can't be said, no program is made.
"""
