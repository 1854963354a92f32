"""TODO"""

from drylay.audit.model import ClosedCheck

CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = ()
