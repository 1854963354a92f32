"""What came of a study, as text."""

from drylay.compare.study_plan import StudyTold


def told_text(told: StudyTold) -> str:
    """Return a study as text: how many of what, the codes met most, every answer."""
    outcomes = ", ".join(f"{count} {outcome}" for outcome, count in told.outcomes)
    lines = [told.title, "", f"{told.count} decks: {outcomes or 'none'}"]
    lines += [f"  {code}: {count}" for code, count in told.codes]
    for name, answer in told.answers:
        lines += ["", f"[{name}]", str(answer).rstrip("\n")]
    return "\n".join(lines) + "\n"
