"""What came of a study, as text."""

from drylay.compare.rows_seen import gaps_told
from drylay.compare.study_plan import StudyTold
from drylay.papers.layout import para
from drylay.papers.wording import many


def told_text(told: StudyTold) -> str:
    """Return a study as text: how many of what, the codes met most, every answer."""
    outcomes = ", ".join(f"{count} {outcome}" for outcome, count in told.outcomes)
    lines = [told.title, "", f"{many(told.count, 'deck')}: {outcomes or 'none'}"]
    lines += [f"  {code}: {count}" for code, count in told.codes]
    lines += para(gaps) if (gaps := gaps_told(told.seen, told.currency)) else []
    for name, answer in told.answers:
        lines += ["", f"[{name}]", str(answer).rstrip("\n")]
    return "\n".join(lines) + "\n"
