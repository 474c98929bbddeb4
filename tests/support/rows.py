"""Rows of like grooves with the number of even rows that the best partition needs."""


def rows_of(*runs):
    """Places of several (first, pitch, count) runs, in counts of 0.01."""
    return sorted({first + i * pitch for first, pitch, count in runs for i in range(count)})


# Places and the number of rows that the best partition needs, worked out by hand.
TABLE = [
    ("one", [500], 1),
    ("a pair", [500, 900], 1),
    ("three even", rows_of((0, 500, 3)), 1),
    ("three uneven: a pair and one", [0, 500, 1200], 2),
    ("four even", rows_of((0, 500, 4)), 1),
    ("twenty-four even", rows_of((0, 500, 24)), 1),
    ("twenty-five even", rows_of((0, 500, 25)), 1),
    ("five with the third missing", [0, 500, 1500, 2000], 2),
    ("six with one missing", [0, 500, 1000, 2000, 2500], 2),
    ("ten with the fifth missing", [500 * i for i in range(10) if i != 4], 2),
    ("ten with two missing", [500 * i for i in range(10) if i not in (3, 6)], 3),
    ("two of nine missing: every other one, and a pair", [0, 500, 1000, 2000, 3000, 3500, 4000], 2),
    ("two interleaved", rows_of((0, 500, 5), (230, 700, 4)), 2),
    ("two interleaved of one pitch", rows_of((0, 500, 6), (130, 500, 6)), 2),
    ("three interleaved of one pitch", rows_of((0, 600, 5), (110, 600, 5), (370, 600, 5)), 3),
    ("two apart of one pitch", rows_of((0, 500, 4), (3210, 500, 4)), 2),
    ("two apart of two pitches", rows_of((0, 500, 4), (3210, 310, 5)), 2),
    ("a row and a stray", [*rows_of((0, 500, 5)), 2777], 2),
    ("a row and two strays", [*rows_of((0, 500, 5)), 2777, 3131], 2),
    ("a row and three strays", [*rows_of((0, 500, 5)), 2777, 3131, 4000], 3),
    ("a row and three strays that are even", [*rows_of((0, 500, 5)), 2777, 3177, 3577], 2),
    ("a row with its joint taken by another", sorted({0, 400, 800, 1200, 1600} | {200, 500, 1100, 1400}), 3),
    ("pairs only: powers of two", [2**k * 100 for k in range(6)], 3),
    ("pairs only, odd: powers of two", [2**k * 100 for k in range(7)], 4),
    ("pairs only: powers of three", [3**k * 10 for k in range(8)], 4),
    ("squares", [k * k * 100 for k in range(1, 8)], 3),
    ("doubling gaps after a row", [0, 500, 1000, 1500, 1700, 2100, 2900], 3),
    ("triples of one pitch", rows_of((0, 100, 3), (1000, 100, 3), (2300, 100, 3)), 3),
    ("a grid of three by three", rows_of((0, 100, 3), (1000, 100, 3), (2000, 100, 3)), 3),
    ("a grid of four by two", rows_of((0, 100, 2), (1000, 100, 2), (2000, 100, 2), (3000, 100, 2)), 2),
    ("a long one over a short one", rows_of((0, 300, 12), (150, 1100, 3)), 2),
    ("dense, then coarse", rows_of((0, 200, 6), (1400, 400, 5)), 2),
    ("dense, then coarse, sharing the joint", rows_of((0, 200, 6), (1000, 400, 5)), 2),
    ("two thirds of a pitch", [i * 300 for i in range(12) if i % 3 != 2], 2),
    ("three quarters of a pitch: twice the pitch, and four times", [i * 300 for i in range(16) if i % 4 != 3], 2),
    ("both ends doubled", [0, 30, 1000, 2000, 3000, 3030], 2),
    ("mirror image", [0, 300, 800, 2200, 2700, 3000], 3),
    ("a hidden three", [0, 100, 262, 524, 948], 2),
    ("one gap twice as wide", [0, 500, 1000, 2000, 2500, 3000], 2),
    ("twelve in two pitches, joined", rows_of((0, 500, 6), (3000, 700, 6)), 2),
    ("eleven, one off by the slack", [*(500 * i for i in range(10)), 5002], 1),
    ("eleven, one off by more than two slacks", [*(500 * i for i in range(10)), 5009], 2),
]
