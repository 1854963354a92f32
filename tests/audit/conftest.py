"""What these tests do over and over, and need not.

Statics of equal beams are worked out once. Faults are planted in one place of a deck that stands,
and most leave its beams as they were; what a beam does under a load of 1 was nearly all the time
that these tests took. Both are pure functions of frozen nouns, so a check sees what it would have
worked out itself.

Branches are not counted while a deck that stands on an outline is designed to be audited: tracing
makes that three times as slow, and these few took a sixth of the traced run.
"""

from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from functools import cache
from typing import Any

import pytest
from coverage import Coverage

import drylay
from drylay.audit import strength_checks, strength_sag
from drylay.brief.model import Brief
from drylay.brief.outline_model import OutlineWish
from drylay.plan.model import Plan


@pytest.fixture(autouse=True, scope="session")
def statics_once() -> Iterator[None]:
    sags, influences = strength_sag.sags, cache(strength_checks.influences)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(strength_sag, "sags", cache(lambda *beam: tuple(sags(*beam))))
        patch.setattr(strength_checks, "influences", influences)
        yield


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


@pytest.fixture(autouse=True)
def designs_uncounted(monkeypatch: pytest.MonkeyPatch) -> None:
    design = drylay.design

    def designed(brief: Brief, **named: Any) -> Plan:
        slow = brief.raised.post is not None and brief.outline != OutlineWish()
        with uncounted() if slow else nullcontext():
            return design(brief, **named)

    monkeypatch.setattr(drylay, "design", designed)
