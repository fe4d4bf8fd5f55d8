"""A second opinion on core's numbers: scipy, numpy, exact fractions and GTC (a GUM library) against core, at random.

Usage: compare.py PROGRAM [--seed N] [--cases N]. Prints one line a kind; exits 1 when any two numbers disagree by more
than 1e-9 of their size, or when fewer than 1,000 cases of a kind were compared.
"""

import argparse
import importlib.metadata
import json
import random
import subprocess
import sys
import time

from kinds import KINDS

AGREEMENT = 1e-9
# Below this a number is nothing: what differs is held against this, not against itself. On a sheet, repeats that agree
# to the last digit differ by 0 % or by the last bit of a float in a hundred percent.
NOTHING = {"sheet": 1e-4}
NOTHING_ELSE = 1e-12
LEAST = 1000
SEED = 20261125


def numbers(answer, path=""):
    """Every number of an answer with its name."""
    if isinstance(answer, dict):
        for name, value in answer.items():
            yield from numbers(value, f"{path}/{name}")
    elif isinstance(answer, list):
        for position, value in enumerate(answer):
            yield from numbers(value, f"{path}/{position}")
    else:
        yield path, answer


def difference(ours, theirs, nothing):
    """Relative; infinite where only one of the two has a number."""
    if not all(isinstance(number, (int, float)) for number in (ours, theirs)):
        return 0.0 if ours is theirs else float("inf")
    return abs(ours - theirs) / max(abs(ours), abs(theirs), nothing)


def compare(kind, ours, theirs):
    """The worst difference of two answers and where it is."""
    nothing = NOTHING.get(kind, NOTHING_ELSE)
    ours, theirs = dict(numbers(ours)), dict(numbers(theirs))
    names = ours.keys() | theirs.keys()
    return max((difference(ours.get(name), theirs.get(name), nothing), name) for name in names)


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("program", help="core's example second_opinion")
    arguments.add_argument("--seed", type=int, default=SEED)
    arguments.add_argument("--cases", type=int, default=LEAST)
    asked = arguments.parse_args()
    versions = ", ".join(f"{name} {importlib.metadata.version(name)}" for name in ("scipy", "numpy", "GTC"))
    print(f"second opinion: {versions}; seed {asked.seed}")

    cases = []
    for kind, drawn in KINDS.items():
        # Each kind has its own chance, so that one more kind leaves the others' cases as they were.
        draw = random.Random(f"{asked.seed} {kind}")
        cases += [(kind, *drawn(draw)) for _ in range(asked.cases)]
    lines = "".join(json.dumps({kind: question}) + "\n" for kind, question, _ in cases)
    began = time.monotonic()
    done = subprocess.run([asked.program], input=lines, stdout=subprocess.PIPE, text=True, check=True)
    took = time.monotonic() - began
    answers = [json.loads(line) for line in done.stdout.splitlines()]
    if len(answers) != len(cases):
        sys.exit(f"{len(cases)} asked, {len(answers)} answered")

    counted, compared = dict.fromkeys(KINDS, 0), dict.fromkeys(KINDS, 0)
    worst = dict.fromkeys(KINDS, (0.0, ""))
    faults = []
    for (kind, question, theirs), ours in zip(cases, answers):
        found = compare(kind, ours, theirs)
        counted[kind] += 1
        compared[kind] += sum(1 for _, number in numbers(theirs) if number is not None)
        worst[kind] = max(worst[kind], found)
        if not found[0] <= AGREEMENT:
            faults.append((kind, found, question, ours, theirs))

    print(f"{'kind':12} {'cases':>6} {'numbers':>8} {'worst relative difference':>26}  at")
    for kind in KINDS:
        size, name = worst[kind]
        print(f"{kind:12} {counted[kind]:6} {compared[kind]:8} {size:26.2e}  {name}")
    print(f"core answered {len(cases)} cases in {took:.1f} s")
    for kind, (size, name), question, ours, theirs in faults[:5]:
        print(f"\nDISAGREE {kind}{name} by {size:.2e}", json.dumps(question), f"core: {json.dumps(ours)}",
              f"other: {json.dumps(theirs)}", sep="\n  ")
    too_few = [kind for kind in KINDS if counted[kind] < LEAST]
    if faults or too_few:
        sys.exit(f"{len(faults)} cases disagree; kinds with fewer than {LEAST} cases: {', '.join(too_few) or 'none'}")


if __name__ == "__main__":
    main()
