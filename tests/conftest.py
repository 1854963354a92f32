"""Laws are looked for alike on every machine: no test depends on a clock or on chance.

`pytest --hypothesis-profile=search` looks elsewhere each time instead.

Where branches are counted (`--cov`), they are not while a deck is designed, unless `COUNT_DESIGNS`
is set: tracing makes that three times as slow, and what the gate counts is the audit and the rows.
"""

import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from functools import wraps
from typing import Any

import pytest
from coverage import Coverage
from hypothesis import HealthCheck, settings

import drylay
from drylay.brief.model import Brief
from drylay.plan.model import Plan

settings.register_profile(
    "gate", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile(
    "search", deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("gate")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    # two workers must collect the same names: what tells where an object lies in memory, even cut
    # off after its first digit, is now and then another name in each of them
    loose = [each.nodeid for each in items if re.search(r"<function | at 0x", each.nodeid)]
    if loose:
        raise pytest.UsageError(f"{len(loose)} tests named by an address in memory: {loose[0]}")


@contextmanager
def uncounted() -> Iterator[None]:
    stopped = []
    # a worker of two counts twice, one count within the other
    while (counting := Coverage.current()) is not None:
        counting.stop()
        stopped.append(counting)
    try:
        yield
    finally:
        for each in reversed(stopped):
            each.start()


@pytest.fixture(autouse=True, scope="session")
def slow_designs_uncounted() -> Iterator[None]:
    if Coverage.current() is None or os.environ.get("COUNT_DESIGNS"):
        yield
        return
    design = drylay.design

    @wraps(design)
    def designed(brief: Brief, **named: Any) -> Plan:
        with uncounted():
            return design(brief, **named)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(drylay, "design", designed)
        yield
