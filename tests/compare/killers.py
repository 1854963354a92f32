"""Local rules that take their worker away: once, or each time. Workers import them by name."""

import os
import signal
from functools import partial
from pathlib import Path

from drylay.findings import Finding
from drylay.plan.model import Plan
from drylay.plugins.model import InstalledLocalRule, LocalRuleSet, Origin

#: At this size a worker dies.
DEADLY_MM = 2040.0


def die_once(flag: str, plan: Plan) -> tuple[Finding, ...]:
    """Take the worker away at the deadly size, unless a file says that it was done."""
    if plan.surface is not None and plan.surface.cover_along_mm == DEADLY_MM:
        try:
            Path(flag).touch(exist_ok=False)
        except FileExistsError:
            return ()
        os.kill(os.getpid(), signal.SIGKILL)
    return ()


def die(plan: Plan) -> tuple[Finding, ...]:
    """Take the worker away at the deadly size each time."""
    if plan.surface is not None and plan.surface.cover_along_mm == DEADLY_MM:
        os.kill(os.getpid(), signal.SIGKILL)
    return ()


def silent(_plan: Plan) -> tuple[Finding, ...]:
    """Find nothing."""
    return ()


def one_rule(look: object) -> LocalRuleSet:
    """A set of one rule, under one name whatever it does: rows must be the same."""
    rule = InstalledLocalRule(name="of a test", look=look, origin=Origin(plugin="a test"))  # type: ignore[arg-type]
    return LocalRuleSet(rules=(rule,))


def dying_once(flag: Path) -> LocalRuleSet:
    """A rule that kills the first worker that meets the deadly size."""
    return one_rule(partial(die_once, str(flag)))
