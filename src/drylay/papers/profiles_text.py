"""Lines and profiles in tables and words."""

from drylay.papers.model import Table
from drylay.papers.sheets import held
from drylay.papers.wording import bare, many, size, size_least
from drylay.plan.model import Plan
from drylay.work.model import LineEnd, Profiles

#: The finding of a line that runs over another's profile.
RUNS_OVER = "SET-107"
FAST = {"wall": "wall", "none": "nothing"}


def line_table(found: Profiles, units: str) -> Table:
    """Return both ends of every line: made fast to what, how far past its peg, where from datum."""
    return Table(
        layer="line-ends", title="Lines, each end", aligned="<<<>>>",
        heads=(("", "line"), ("past", "peg"), ("made fast", "to"), ("past", "it"),
               ("from datum", "along"), ("line,", "off")),
        rows=tuple(
            (line.mark, end.peg, end.profile or FAST[end.kind], *_figures(end, units))
            for line in found.lines for end in (line.start, line.end)
        ),
    )  # fmt: skip


def _figures(end: LineEnd, units: str) -> tuple[str, str, str]:
    if end.kind == "none":
        return "", "", ""
    return (bare(end.beyond_mm, units), bare(end.datum_along_mm, units),
            bare(end.datum_off_mm, units))  # fmt: skip


def diagonal_table(found: Profiles, units: str) -> Table:
    """Return every diagonal that can be taped, and whether it proves a peg."""
    return Table(
        layer="diagonal-table", title="Diagonals within sight", aligned="<<><",
        heads=(("from",), ("to",), ("length",), ("",)),
        rows=tuple(
            (tie.start, tie.end, bare(tie.length_mm, units), "check" if tie.check else "")
            for tie in found.diagonals
        ),
    )  # fmt: skip


def profile_texts(plan: Plan, found: Profiles) -> tuple[str, ...]:
    """Return how lines and profiles are set, and what is poor about them."""
    units = plan.units
    clear = held(size_least(found.clear_mm, units))
    return (
        _source_told(found, units),
        f"{many(len(found.profiles), 'profile')}: a board {held(size(found.board_mm, units))} long "
        f"on two stakes, square to its line, {clear} clear of the dig unless told otherwise. Drive "
        "stakes where no pipe or cable lies: have the ground scanned first.",
        *_level_told(found, units),
        "Where two lines strung over their pegs cross, there is the peg. Nail, then tape the "
        "diagonals, and only then saw a notch beside the nail: a line taken off to dig comes back "
        "to the same place.",
        *(f"{line.mark}: {held(size(line.off_mm, units))} inside {line.start_peg} and "
          f"{line.end_peg}." for line in found.lines if line.off_mm),
        *(f"{each.subject}: {each.message}." for each in found.findings
          if each.severity.value == "caution" or each.code == RUNS_OVER),
    )  # fmt: skip


def _source_told(found: Profiles, units: str) -> str:
    if found.wall_off_mm is None:
        return (
            "Datum line: D1 to D2. Along it from D1, and off it to the right as one looks from D1 "
            "to D2; below 0 back, and to the left."
        )
    first = found.lines[0]
    return (
        f"Datum line: {first.mark}, {held(size(found.wall_off_mm, units))} from the house wall. No "
        "wall is straight or square: hold a straight edge to it, measure from where the wall "
        f"stands out furthest, and string {first.mark} parallel to that edge. Along it from "
        f"{first.start_peg}, off it away from the house; below 0 the other way."
    )


def _level_told(found: Profiles, units: str) -> tuple[str, ...]:
    over = found.over_top_mm
    if over is None:
        return ("All lines at one level, clear of the ground: the brief tells no levels.",)
    if not over:
        return ("All lines level with the deck's top: they tell heights too.",)
    way = "above" if over > 0 else "below"
    return (f"All lines level, {held(size(abs(over), units))} {way} the deck's top: they tell "
            "heights too.",)  # fmt: skip
