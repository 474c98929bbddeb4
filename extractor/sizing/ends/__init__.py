"""Which end of the drawn part is the finished front face, Z0.

    mark        words that name an end, with the end that they stand at or point to (`front_words`)
    begins      the ends that lengths are printed from (`ends`)
    answer      the front face, or why it is left open (`front`)

Hands out `front.decide_front`, `front_words.front_marks`, `ends.begins`. z is 0 at the end taken for the front.
"""
