"""How often the tape that is wrong is found: `python tests/campaigns/survey.py`, some minutes.

Fixed seeds. Gardens of four corners, each up to 400 off a rectangle, read with errors of 3 mm; in
each one tape has a slip: two figures swapped, a whole 100 or 1000, or anything of 40 to 400. With
both diagonals one is to spare; with ties from a fifth peg in the garden to all corners three are.
It is counted how often the wrong one is named, is among those told, and how often another is named.
"""

import random
from collections import Counter
from math import dist

from drylay.survey.model import Tape
from drylay.survey.tapes import fit_tapes

SIX = ("AB", "BC", "CD", "DA", "AC", "BD")
TEN = (*SIX, "AM", "BM", "CM", "DM")
GARDENS = 300


def swapped(rng: random.Random, long: float) -> float:
    figures = list(f"{long:.0f}")
    at = rng.randrange(len(figures) - 1)
    figures[at], figures[at + 1] = figures[at + 1], figures[at]
    return float("".join(figures))


def slipped(rng: random.Random, kind: str, long: float) -> float:
    if kind == "swapped":
        return swapped(rng, long)
    size = {"100": 100.0, "1000": 1000.0}.get(kind) or float(rng.randrange(40, 400))
    return long + rng.choice((-1, 1)) * size


def one(rng: random.Random, lines: tuple[str, ...], kind: str) -> str:
    wide, deep = rng.randrange(3000, 9000), rng.randrange(2500, 6000)
    off = lambda: rng.randrange(-400, 400)  # noqa: E731
    places = {
        "A": (0, 0),
        "B": (wide, off() / 4),
        "C": (wide + off(), deep + off()),
        "D": (off(), deep + off()),
        "M": (wide * 0.4 + off(), deep * 0.6 + off()),
    }
    true = {line: dist(places[line[0]], places[line[1]]) for line in lines}
    read = {line: float(round(long + rng.gauss(0, 3))) for line, long in true.items()}
    wrong = rng.choice(lines)
    false = slipped(rng, kind, read[wrong])
    if abs(false - read[wrong]) < 40:
        return "slip too small"
    read[wrong] = false
    names = "ABCDM" if len(lines) > 6 else "ABCD"
    fit = fit_tapes(
        names, [Tape(start=a, end=b, length_mm=mm) for (a, b), mm in read.items()], outline="ABCD"
    )
    told = f"{wrong[0]}-{wrong[1]}"
    if fit.verdict.agrees:
        return "not seen"
    if fit.verdict.wrong == (told,):
        return "named"
    if told in fit.verdict.wrong:
        return f"among {'3 or fewer' if len(fit.verdict.wrong) < 4 else '4 or more'}"
    return "another named" if len(fit.verdict.wrong) == 1 else "not among those told"


def main() -> None:
    for lines in (SIX, TEN):
        for kind in ("swapped", "100", "1000", "any"):
            rng = random.Random(f"{len(lines)} {kind}")
            counted = Counter(one(rng, lines, kind) for _ in range(GARDENS))
            print(f"{len(lines)} tapes, slip {kind}: {dict(sorted(counted.items()))}")


if __name__ == "__main__":
    main()
