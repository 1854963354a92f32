"""Compare importing drylay with `import numpy` side by side, in fresh interpreters.

    python tests/benchmarks/import_time.py [ROUNDS]

`from drylay import *` loads every public name. Prints medians and ratios. This measures and
asserts nothing, and pytest does not collect it.
"""

import statistics
import subprocess
import sys

TIMED = """
import time
begun = time.perf_counter()
{statement}
print(time.perf_counter() - begun)
"""
STATEMENTS = ("import drylay", "from drylay import *", "import numpy")


def seconds_for(statement: str) -> float:
    """Return the seconds one fresh interpreter takes for an import."""
    command = [sys.executable, "-c", TIMED.format(statement=statement)]
    return float(subprocess.run(command, check=True, capture_output=True, text=True).stdout)


def main(rounds: int) -> None:
    """Time all imports turn by turn, so that a busy machine slows all of them."""
    times: dict[str, list[float]] = {statement: [] for statement in STATEMENTS}
    for _ in range(rounds):
        for statement, taken in times.items():
            taken.append(seconds_for(statement))
    medians = {statement: statistics.median(taken) for statement, taken in times.items()}
    for statement, median in medians.items():
        ratio = median / medians["import numpy"]
        print(f"{statement}: {median * 1000:.2f} ms, {ratio:.3f} of import numpy ({rounds} rounds)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
