"""Kills a real watch at random through a week of answers, edits and revisions; counts answers and programs lost.

Run with `PYTHONPATH=.:tests python tests/bench/watch_week.py [KILLS]`; nothing may be lost.
"""

import json
import random
import sys
import tempfile
from pathlib import Path

from support.drawings import draw_ring
from support.inboxes import kill_at_random, watch_once

from rillwright.digest import file_digest

SPOTS = ((-10, -13, 34), (-20, -23, 34))
DRAWINGS = 4


def step(inbox, out, rng, precious):
    """One thing that a shop does: a new revision with its answer, an edited program, a shop file."""
    name = f"ring {rng.randrange(DRAWINGS)}"
    drawing, program = inbox / f"{name}.dxf", out / f"{name}.nc"
    act = rng.choice(["revise", "edit", "shop"])
    if act == "revise" or not drawing.exists():
        draw_ring(drawing, SPOTS[: rng.randint(1, 2)], insunits=0)
        answers = f'units = "mm"\ndrawing = "{file_digest(drawing)}"\n'
        (inbox / f"{name}.answers.toml").write_text(answers)
    elif act == "edit" and program.exists():
        text = f"%\nO1\n(EDIT {rng.random()})\nG0 X50. Z5.\nM30\n%\n".encode()
        precious.discard(program.read_bytes())
        program.write_bytes(text)
        precious.add(text)
    else:
        (inbox / "shop.toml").write_text(f"[machine]\nmax_rpm = {rng.randint(500, 3000)}\n")


def lost(inbox, out, precious):
    """What is wrong with the folder once a watch has come to its end."""
    kept = {path.read_bytes() for path in out.iterdir() if ".nc" in path.name}
    faults = [f"an edited program is lost: {text!r}" for text in precious - kept]
    for drawing in inbox.glob("*.dxf"):
        record = json.loads((out / f"{drawing.stem}.json").read_text())
        if record["status"] != "made" or record["answers"]["units"]["file"] != f"{drawing.stem}.answers.toml":
            faults.append(f"{drawing.name}: its answer is lost")
        held = record.get("edited") or record["program"]
        if held and held["sha256"] != file_digest(out / f"{drawing.stem}.nc"):
            faults.append(f"{drawing.name}: another program lies there than its record says")
    return faults


def main(kills):
    """Kill so many times; a whole run and a look after every tenth."""
    rng, precious, faults = random.Random(16), set(), []
    with tempfile.TemporaryDirectory() as folder:
        inbox, out = Path(folder) / "inbox", Path(folder) / "out"
        inbox.mkdir()
        for n in range(DRAWINGS):
            draw_ring(inbox / f"ring {n}.dxf", insunits=0)
            digest = file_digest(inbox / f"ring {n}.dxf")
            (inbox / f"ring {n}.answers.toml").write_text(f'units = "mm"\ndrawing = "{digest}"\n')
        for done in range(1, kills + 1):
            step(inbox, out, rng, precious)
            kill_at_random(inbox, out, 1, seed=done, longest=1.5)
            if done % 10 == 0:
                watch_once(inbox, out)
                faults += lost(inbox, out, precious)
                print(f"{done} kills, {len(precious)} edits, {len(faults)} faults", flush=True)
    print("\n".join(faults) or "nothing was lost")
    return 1 if faults else 0


if __name__ == "__main__":
    raise SystemExit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 300))
