"""Five dialects that exist in tests alone, each a few lines of TOML; and random ones, valid by construction.

What they spell is invented: no control is meant by any of them.
"""

import random
from pathlib import Path

from postproc.dialect import Dialect
from postproc.dialects import read_dialect

HERE = Path(__file__).parent / "tongues"
FIVE = {
    name: read_dialect((HERE / f"{name}.toml").read_text("utf-8"), name)
    for name in ("turned-tools", "half-widths", "stored-groove", "numbered-values", "two-points")
}

LETTERS = "ABCDEHIJKLPQRUVWY"


def random_tongue(seed: int) -> Dialect:
    """A valid dialect of a seed."""
    return read_dialect(random_text(random.Random(seed)), f"tongue-{seed}")


CHOICES = {
    # what a line of the file may be, of which one is drawn
    "": ['stands = ["motion"]', 'stands = ["feed"]', 'stands = ["motion", "feed"]', "", "", ""],
    "words": ['groove = "G75"', 'groove = "G77"', 'groove = "G86"', 'groove = "G175"'],
    "words 2": ['rpm = "G97"', 'rpm = "G197"'],
    "numbers": ['point = "needed"', 'point = "optional"', 'point = "never"', ""],
    "numbers 2": ["zeros = true", "zeros = false", ""],
    "blocks": ['call = "{m} P{program}"', 'call = "{m} P{program:04}"'],
    "blocks 2": [
        'tool = "T{station:02}{offset:02}"',
        'tool = "T{station} O2={offset}"',
        'tool = "T{station:02}{offset:02} M06"',
    ],
    "blocks 3": ['dwell = "{g} P{ms}"', 'dwell = "{g} X{seconds}"', 'dwell = "WAIT={seconds}"'],
    "blocks 4": ['clamp = "{g} S{rpm}"', 'clamp = "SMAX={rpm}"'],
    "blocks 5": [
        'surface = "{g} S{speed} {sense}"',
        'surface = "{sense} {g} S{speed}"',
        'surface = "{g} VC={speed} {sense}"',
    ],
    "blocks 6": [
        'arc = "{g} X{x} Z{z} R{radius} F{feed}"',
        'arc = "{g} X{x} Z{z} CR={radius} F{feed}"',
        'arc = "{g} X{x} Z{z} CR={radius:diameter} F{feed}"',
    ],
    "program": ['comment = "({text})"', 'comment = "; {text}"'],
    "program 2": ['block_numbers = "none"', 'block_numbers = "operation"', 'block_numbers = "all"'],
    "program 3": ['line_end = "lf"', 'line_end = "crlf"'],
    "program 4": ["comment_width = 20", "comment_width = 60"],
    "program 5": ["", 'operation_end = ["M01"]', 'operation_end = ["(END)"]'],
}


def random_text(rng: random.Random) -> str:
    """The TOML of a random dialect."""
    cycle, ended = _cycle(rng) if rng.random() < 0.85 else ("", "")
    radius = rng.random() < 0.4
    repeat = rng.choice(["modal", "none"] if ended else ["none", "subprogram"])
    always = {
        "": [f'base = "{rng.choice(["trade", "plunge"])}"', f'repeat = "{repeat}"'],
        "numbers": [
            f'x = "{"radius" if radius else "diameter"}"',
            "increments = {}",
            "digits = 10",
            "decimals = { mm = 4, in = 5 }" if radius else "decimals = { mm = 3, in = 4 }",
            "least = { mm = 0.0001, in = 0.00001 }" if radius else "least = { mm = 0.001, in = 0.0001 }",
        ],
        "blocks": ['home = ""'],
        "program": ['subprogram = ["O{program:04}", "{return}"]'],
    }
    lines = []
    for table in ("", "words", "numbers", "blocks", "program"):
        lines += [f"[{table}]"] if table else []
        lines += always.get(table, [])
        lines += [rng.choice(lines_of) for key, lines_of in CHOICES.items() if key.split(" ")[0] == table]
    lines += ["[numbers.F]", "decimals = { mm = 4, in = 5 }", "least = { mm = 0.0001, in = 0.00001 }", cycle]
    return "\n".join(lines)


def _cycle(rng: random.Random) -> tuple[str, str]:
    """A [cycle] table, and the word that ends it where it stands."""
    letters = rng.sample([one for one in LETTERS if one != "P"] + ["AA=", "B1=", "#5="], 12)
    take = letters.pop

    def amount(name: str, *measures: str) -> str:
        whole = rng.choice(["", "", "#"])
        return take() + "{" + name + rng.choice(["", *measures]) + whole + "}"

    deep = "X{floor}" if rng.random() < 0.7 else f"{take()}{{depth:signed}}"
    end = rng.choice(["Z{end}", "Z{end}", f"{take()}{{length}}", f"{take()}{{count}}", f"{take()}{{more}}"])
    sign = rng.choice([":signed", ""]) if "length" in end or "end" in end else ":signed"
    shift = amount("shift", sign) if sign == "" else f"{take()}{{shift:signed}}"
    row = [end, shift]
    if rng.random() < 0.5 and "count" not in end and "more" not in end:
        row = [f"{word}?" for word in row]
    peck = amount("peck", ":radius", ":diameter")
    retract = amount("retract", ":diameter") if rng.random() < 0.7 else ""
    before = [f"{{g}} {retract}"] if retract and rng.random() < 0.5 else []
    words = [deep, *row, peck, *([retract] if retract and not before else [])]
    rng.shuffle(words)
    ended = 'ended_by = "G80"' if rng.random() < 0.3 else ""
    blocks = ", ".join(f'"{block}"' for block in [*before, " ".join(["{g}", *words, "F{feed}"])])
    leaves = rng.choice(["start", "last"])
    return "\n".join(["[cycle]", f"blocks = [{blocks}]", f'leaves = "{leaves}"', ended]), ended
