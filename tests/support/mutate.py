"""Damages DXF files at random but seeded, as bytes and as tags, for tests that nothing makes the reader fall over.

for name, data in mutations(original, count=100, seed=1): ...
"""

import random
from collections.abc import Callable, Iterator

Tag = tuple[bytes, bytes]

VALUES = (
    *(b"", b"0", b"-1", b"1", b"nan", b"inf", b"-inf", b"1e308", b"-1e308", b"1e-300", b"9999999999999999999"),
    *b"2147483648 0x10 1,5 1.5.5 abc %%c".split(),
    *(b"\\P{{{", b"\xff\xfe\x80", b"\xf0\x9f\x94\xa9", b"A" * 5000),
    *b"LINE INSERT SECTION ENDSEC EOF BLOCK ENDBLK POLYLINE VERTEX SEQEND SPLINE".split(),
    *b"HATCH DIMENSION MTEXT ELLIPSE 3DSOLID LWPOLYLINE ARC *Model_Space *D1".split(),
)
CODES = tuple(b"0 1 2 5 8 10 20 30 40 42 70 90 100 102 330 999 1071 -5 x".split())


def mutations(original: bytes, count: int, seed: int) -> Iterator[tuple[str, bytes]]:
    """Damaged copies, each with a name that says how it was made; half by bytes, half by tags, one to four hits."""
    rng = random.Random(seed)
    tags = split(original)
    for number in range(count):
        hits = rng.choice((1, 1, 1, 2, 4))
        if number % 2:
            change = rng.choice(BYTE_CHANGES)
            data = original
            for _ in range(hits):
                data = change(data, rng)
        else:
            change = rng.choice(TAG_CHANGES)
            changed = list(tags)
            for _ in range(hits):
                change(changed, rng)
            data = b"".join(code + b"\n" + value + b"\n" for code, value in changed)
        yield f"{number}:{change.__name__.strip('_')}x{hits}", data


def split(data: bytes) -> list[Tag]:
    """Group codes with their values."""
    lines = data.replace(b"\r\n", b"\n").split(b"\n")
    return list(zip(lines[::2], lines[1::2], strict=False))


def _flip(data: bytes, rng: random.Random) -> bytes:
    at = rng.randrange(len(data))
    return data[:at] + bytes([data[at] ^ (1 << rng.randrange(8))]) + data[at + 1 :]


def _put(data: bytes, rng: random.Random) -> bytes:
    at = rng.randrange(len(data))
    return data[:at] + rng.randbytes(rng.randrange(1, 9)) + data[at:]


def _drop(data: bytes, rng: random.Random) -> bytes:
    at = rng.randrange(len(data))
    return data[:at] + data[at + rng.randrange(1, 40) :]


def _cut(data: bytes, rng: random.Random) -> bytes:
    return data[: rng.randrange(1, len(data))]


def _repeat(data: bytes, rng: random.Random) -> bytes:
    at, size = rng.randrange(len(data)), rng.randrange(1, 2000)
    return data[:at] + data[at : at + size] + data[at:]


def _move(data: bytes, rng: random.Random) -> bytes:
    at, to, size = rng.randrange(len(data)), rng.randrange(len(data)), rng.randrange(1, 300)
    piece, rest = data[at : at + size], data[:at] + data[at + size :]
    return rest[:to] + piece + rest[to:]


def _tag_drop(tags: list[Tag], rng: random.Random) -> None:
    del tags[rng.randrange(len(tags))]


def _tag_repeat(tags: list[Tag], rng: random.Random) -> None:
    at = rng.randrange(len(tags))
    tags.insert(at, tags[at])


def _tag_value(tags: list[Tag], rng: random.Random) -> None:
    at = rng.randrange(len(tags))
    tags[at] = (tags[at][0], rng.choice(VALUES))


def _tag_code(tags: list[Tag], rng: random.Random) -> None:
    at = rng.randrange(len(tags))
    tags[at] = (rng.choice(CODES), tags[at][1])


def _tag_swap(tags: list[Tag], rng: random.Random) -> None:
    a, b = rng.randrange(len(tags)), rng.randrange(len(tags))
    tags[a], tags[b] = tags[b], tags[a]


def _tag_borrow(tags: list[Tag], rng: random.Random) -> None:
    """A value taken from elsewhere under the same code: handles that point elsewhere, wrong names and sizes."""
    at = rng.randrange(len(tags))
    same = [value for code, value in tags if code.strip() == tags[at][0].strip()]
    tags[at] = (tags[at][0], rng.choice(same))


def _entity_drop(tags: list[Tag], rng: random.Random) -> None:
    starts = [k for k, (code, _) in enumerate(tags) if code.strip() == b"0"]
    k = rng.randrange(len(starts) - 1)
    del tags[starts[k] : starts[k + 1]]


def _entity_move(tags: list[Tag], rng: random.Random) -> None:
    starts = [k for k, (code, _) in enumerate(tags) if code.strip() == b"0"]
    k = rng.randrange(len(starts) - 1)
    piece = tags[starts[k] : starts[k + 1]]
    del tags[starts[k] : starts[k + 1]]
    to = rng.choice([s for s in starts if s < len(tags)])
    tags[to:to] = piece


BYTE_CHANGES: tuple[Callable[[bytes, random.Random], bytes], ...] = (_flip, _flip, _put, _drop, _cut, _repeat, _move)
TAG_CHANGES: tuple[Callable[[list[Tag], random.Random], None], ...] = (
    *(_tag_drop, _tag_repeat, _tag_value, _tag_value, _tag_code, _tag_swap, _tag_borrow, _entity_drop, _entity_move),
)
