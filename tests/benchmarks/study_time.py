"""How many decks a second a study plans, where the time goes, and what a second process brings.

    python tests/benchmarks/study_time.py

plans the same decks here and in two processes, in turn, three times, and tells the middle ratio;
then what share of the time goes into planning, the audit and the rest. Wants a quiet machine.
"""

import statistics
import sys
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import Any

import drylay
from drylay.compare import worker
from drylay.compare.cases import Cases, vary
from drylay.compare.processes import processes

ROOT = Path(__file__).parents[2]
STOCK = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
DECKS = {
    "a terrace on the ground": ("docs/examples/studies/terrace.toml", range(2400, 6000, 15)),
    "the garden of README": ("docs/examples/garden.toml", range(4800, 6000, 12)),
}


def cases_of(file: str, along_mm: range) -> Cases:
    """A brief at many lengths."""
    return vary(drylay.read_brief(ROOT / file), {"cover.along_mm": along_mm})


def took_s(cases: Cases, pool: ProcessPoolExecutor | None) -> float:
    """How long all rows take; processes that stand already, as in a long study."""
    began = time.perf_counter()
    rows = drylay.compare(
        cases, stock=STOCK, mode="quick", executor=pool, workers=2 if pool else None
    )
    assert sum(1 for _ in rows) == len(cases)
    return time.perf_counter() - began


def shares(cases: Cases) -> dict[str, float]:
    """What share of the time goes into planning, and into the audit."""
    spent = {"glance": 0.0, "audit_plan": 0.0}

    def timed(name: str, verb: Callable[..., Any]) -> Callable[..., Any]:
        def run(*given: Any) -> Any:
            began = time.perf_counter()
            try:
                return verb(*given)
            finally:
                spent[name] += time.perf_counter() - began

        return run

    kept = {name: getattr(worker, name) for name in spent}
    for name, verb in kept.items():
        setattr(worker, name, timed(name, verb))
    try:
        whole_s = took_s(cases, None)
    finally:
        for name, verb in kept.items():
            setattr(worker, name, verb)
    told = {name: seconds / whole_s for name, seconds in spent.items()}
    return {**told, "the rest": 1 - sum(told.values())}


def main() -> None:
    """Measure."""
    for name, (file, along_mm) in DECKS.items():
        cases = cases_of(file, along_mm)
        with processes(2) as pool:
            took_s(cases[:8], pool)  # type: ignore[arg-type]
            times = [(took_s(cases, None), took_s(cases, pool)) for _ in range(3)]
        here_s = statistics.median(here for here, _ in times)
        ratio = statistics.median(here / two for here, two in times)
        told = ", ".join(f"{part} {share:.0%}" for part, share in shares(cases).items())
        print(f"{name}: {len(cases) / here_s:.1f} decks a second here, two processes {ratio:.2f} "
              f"times that; {told}", flush=True)  # fmt: skip


if __name__ == "__main__":
    sys.exit(main())
