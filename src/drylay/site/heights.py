"""Heights above the ground at which rules of some countries ask for more than a plan."""

from drylay.marks import exact
from drylay.reasons import Source
from drylay.site.model import HeightTrigger


def _said(title: str, clause: str) -> Source:
    return Source(kind="standard", title=title, clause=clause)


#: Name, height in mm, whether reaching it is enough, what the rule asks for, who says so.
TRIGGERS = (
    ("permission, England", 300.0, False,
     "England: a platform so high may need permission: ask the local planning authority",
     _said("General Permitted Development Order (England), guidance", "raised platforms")),
    ("guard, England", 600.0, False,
     "England: over so deep a drop a guard is needed",
     _said("Approved Document K (England)", "guards in dwellings")),
    ("guard, North America", 762.0, False,
     "North America: over so deep a drop a guard is needed",
     _said("International Residential Code", "guards, 30 in")),
    ("guard, Australia and New Zealand", 1000.0, True,
     "Australia and New Zealand: from so deep a drop on a barrier is needed",
     _said("National Construction Code; New Zealand Building Code F4", "barriers")),
)  # fmt: skip


def triggers_at(drop_mm: float) -> tuple[HeightTrigger, ...]:
    """Return every height that a rule names, with whether a drop reaches it."""
    return tuple(
        HeightTrigger(
            name=name,
            limit_mm=limit,
            reached=exact(drop_mm) > exact(limit) or (ends and exact(drop_mm) == exact(limit)),
            rule=rule,
            source=source,
        )
        for name, limit, ends, rule, source in TRIGGERS
    )
