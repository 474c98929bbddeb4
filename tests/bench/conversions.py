"""Two hundred programs in strange hands carried over to every other of eight dialects; prints what came of them.

Run as `PYTHONPATH=.:tests python tests/bench/conversions.py`; the suite carries each over to two of them.
"""

from importlib import util
from pathlib import Path

SPEC = util.spec_from_file_location("converted", Path(__file__).parents[1] / "postproc" / "test_90_convert.py")
CONVERTED = util.module_from_spec(SPEC)
SPEC.loader.exec_module(CONVERTED)

if __name__ == "__main__":
    came, lacking = CONVERTED.outcomes(CONVERTED.strange_programs(70, 65), len(CONVERTED.EIGHT))
    total = sum(came.values())
    print({what: f"{number} ({100 * number / total:.1f} %)" for what, number in came.items()})
    for reason, number in lacking.most_common(12):
        print(f"{number:5} {reason}")
