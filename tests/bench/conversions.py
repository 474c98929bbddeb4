"""Two hundred programs in strange hands carried over to every other of eight dialects; prints what came of them.

Then the same once more where every dialect says what the machine's own M words do, and how many of random plans in
random dialects are refused. Run as `PYTHONPATH=.:tests python tests/bench/conversions.py`; the suite carries each
program over to one of them, and writes a hundred random plans.
"""

from collections import Counter
from dataclasses import replace
from importlib import util
from pathlib import Path
from types import ModuleType

ROOM = Path(__file__).parents[1] / "postproc"
SEEDS = 400


def loaded(file: str) -> ModuleType:
    """A test file as a module."""
    spec = util.spec_from_file_location(file, ROOM / f"{file}.py")
    if spec is None or spec.loader is None:
        raise FileNotFoundError(file)
    module = util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def tell(title: str, came: Counter[str], lacking: Counter[str]) -> None:
    """What came of the pairs, and the most frequent reasons."""
    total = sum(came.values())
    print(title, {what: f"{number} ({100 * number / total:.1f} %)" for what, number in came.items()})
    for reason, number in lacking.most_common(12):
        print(f"{number:5} {reason}")


if __name__ == "__main__":
    converted = loaded("test_90_convert")
    programs = converted.strange_programs(160, 40)
    tell("as they are", *converted.outcomes(programs, len(converted.EIGHT)))
    own = {10: "steady closes", 11: "steady opens", 68: "chuck clamps", 69: "chuck opens"}
    converted.EIGHT = {name: replace(one, own_switches=own) for name, one in converted.EIGHT.items()}
    tell("own switches said", *converted.outcomes(programs, len(converted.EIGHT)))
    plans = Counter(loaded("test_15_random_tongues").written_and_read(seed) for seed in range(SEEDS))
    print(f"random plans in random dialects: {plans[False]} of {SEEDS} refused ({100 * plans[False] / SEEDS:.1f} %)")
