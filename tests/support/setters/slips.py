"""What setters get wrong: each slip spoils one thing in the blocks of a right program.

A slip takes (blocks, rng) and gives (spoilt blocks, index of the spoilt one or None), or None where there is no place.
"""

CUT = ("peck", "floor", "cycle", "wall", "along", "edge")
GO = ("approach", "shift", "out", "back", "finish", "chamfer", "sub step", "sub shift", "sub back")


def _copy(blocks):
    return [block.copy() for block in blocks]


def word(letters, tags, change):
    """Change the digits of one word; `change` gives None where they can't be changed so."""

    def slip(blocks, rng):
        places = [
            (n, k)
            for n, block in enumerate(blocks)
            if block.tag in tags
            for k, (letter, _) in enumerate(block.words)
            if letter in letters
        ]
        if not places:
            return None
        n, k = rng.choice(places)
        spoilt = _copy(blocks)
        letter, digits = spoilt[n].words[k]
        new = change(digits, rng)
        if new in (None, digits):
            return None
        spoilt[n].words[k] = (letter, new)
        return spoilt, n

    return slip


def letter(old, new, tags):
    """Another letter before the same digits; None leaves the word out."""

    def slip(blocks, rng):
        places = [(n, k) for n, b in enumerate(blocks) if b.tag in tags for k, w in enumerate(b.words) if w[0] in old]
        if not places:
            return None
        n, k = rng.choice(places)
        spoilt = _copy(blocks)
        spoilt[n].words[k : k + 1] = [] if new is None else [(new, spoilt[n].words[k][1])]
        return spoilt, n

    return slip


def code(old, new, tags):
    """Another G code in its place."""

    def swapped(digits, rng):
        return f"{new:0{len(digits)}d}" if int(digits) == old else None

    return word("G", tags, swapped)


def block(*tags):
    """One block left out."""

    def slip(blocks, rng):
        places = [n for n, b in enumerate(blocks) if b.tag in tags]
        if not places:
            return None
        n = rng.choice(places)
        return _copy(blocks[:n] + blocks[n + 1 :]), n

    return slip


def every(*tags, letters=None):
    """All blocks of a kind left out, or all their words of some letters."""

    def slip(blocks, rng):
        spoilt = _copy(blocks)
        for b in spoilt:
            if b.tag in tags:
                b.words = [w for w in b.words if letters and w[0] not in letters]
        return ([b for b in spoilt if b.words or b.comment], None) if spoilt != blocks else None

    return slip


def order(*tags):
    """Two blocks that follow each other, the other way round."""

    def slip(blocks, rng):
        places = [n for n in range(len(blocks) - 1) if blocks[n].tag in tags and blocks[n + 1].tag in tags]
        if not places:
            return None
        n = rng.choice(places)
        spoilt = _copy(blocks)
        spoilt[n : n + 2] = spoilt[n + 1], spoilt[n]
        return spoilt, n

    return slip


def _digit(digits, rng):
    places = [n for n, c in enumerate(digits) if c.isdigit()]
    n = rng.choice(places)
    return digits[:n] + rng.choice([c for c in "0123456789" if c != digits[n]]) + digits[n + 1 :]


def _swap(digits, rng):
    pairs = [n for n in range(len(digits) - 1) if digits[n : n + 2].isdigit() and digits[n] != digits[n + 1]]
    if not pairs:
        return None
    n = rng.choice(pairs)
    return digits[:n] + digits[n + 1] + digits[n] + digits[n + 2 :]


def _point(digits, rng):
    return f"{float(digits) * rng.choice([10.0, 0.1]):.4f}".rstrip("0") if "." in digits else None


def _pointless(digits, rng):
    return str(int(float(digits))) if float(digits) and float(digits) == int(float(digits)) else None


def _times(factor):
    def change(digits, rng):
        return f"{float(digits) * factor:.4f}".rstrip("0") if "." in digits else str(int(int(digits) * factor))

    return change


def _nudge(digits, rng):
    places = len(digits.split(".")[1]) if "." in digits else 0
    inch = places >= 4 or abs(float(digits)) < 3
    step = rng.choice([0.01, 0.03, 0.05, 0.1, 0.2, -0.01, -0.03, -0.05, -0.1, -0.2]) * (0.04 if inch else 1.0)
    return f"{float(digits) + step:.4f}".rstrip("0")


def _sign(digits, rng):
    return digits[1:] if digits.startswith("-") else "-" + digits


ALL = CUT + GO
SLIPS = {
    "digit of a cut": word("XUZW", CUT, _digit),
    "digit of a way": word("XUZW", GO, _digit),
    "digit of an amount": word("PQIK", ("cycle",), _digit),
    "digit of a call": word("PL", ("call",), _digit),
    "nudge": word("XUZW", ALL, _nudge),
    "point slipped": word("XUZWIKF", ALL, _point),
    "point left out": word("XUZWIK", ALL, _pointless),
    "point after P": word("P", ("cycle",), lambda digits, rng: digits + "."),
    "decimal P": word("P", ("cycle",), lambda digits, rng: f"{int(digits) / 1000:.3f}"),
    "sign": word("XUZW", ALL, _sign),
    "digits swapped": word("XUZW", ALL, _swap),
    "radius": word("X", ALL, _times(0.5)),
    "shift tenfold": word("QK", ("cycle",), _times(10)),
    "feed a hundredfold": word("F", CUT, _times(100)),
    "X for Z": letter("X", "Z", ALL),
    "Z for X": letter("Z", "X", ALL),
    "U for X": letter("X", "U", ALL),
    "W for Z": letter("Z", "W", ALL),
    "no X": letter("XU", None, ALL),
    "no Z": letter("ZW", None, ALL),
    "no G": letter("G", None, ALL),
    "no shift word": letter("QK", None, ("cycle",)),
    "rapid for feed": code(1, 0, CUT),
    "feed for rapid": code(0, 1, GO),
    "block left out": block(*ALL),
    "cycle left out": block("cycle"),
    "retract left out": block("out"),
    "home left out": block("home", "home x", "home z"),
    "call left out": block("call"),
    "end left out": block("end"),
    "two blocks swapped": order(*ALL),
    "no feed": every(*CUT, letters="F"),
    "no tool": every("tool"),
    "no spindle": every("speed"),
    "no clamp": every("clamp"),
    "feed per minute": code(99, 98, ("rev", "head")),
    "feed per minute, ISO": code(95, 94, ("rev", "head")),
    "inches": code(21, 20, ("unit", "head")),
    "millimetres": code(20, 21, ("unit", "head")),
    "spindle reversed": word("M", ("speed",), lambda digits, rng: digits[:-1] + "4"),
    "spindle stopped": word("M", ("speed",), lambda digits, rng: digits[:-1] + "5"),
}
