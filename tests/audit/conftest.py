"""Statics of equal beams are worked out once.

Faults are planted in one place of a deck that stands, and most leave its beams as they were; what
a beam does under a load of 1 was nearly all the time that these tests took. Both are pure functions
of frozen nouns, so a check sees what it would have worked out itself.
"""

from collections.abc import Iterator
from functools import cache

import pytest

from drylay.audit import strength_checks, strength_sag


@pytest.fixture(autouse=True, scope="session")
def statics_once() -> Iterator[None]:
    sags, influences = strength_sag.sags, cache(strength_checks.influences)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(strength_sag, "sags", cache(lambda *beam: tuple(sags(*beam))))
        patch.setattr(strength_checks, "influences", influences)
        yield
