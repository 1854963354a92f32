"""A sample's lives: what was drawn in place of the family's range, and what a year costs then."""

from collections.abc import Mapping
from decimal import localcontext
from typing import Any

from drylay.compare.decks import YearTerms, frame_first, year_cases
from drylay.compare.model import Lives, Outlay
from drylay.compare.row import years_row
from drylay.compare.spreads import BOARDS, FRAME, LIVES
from drylay.compare.study_model import Row
from drylay.counting import COUNTING

#: Columns of a row that a drawn life is put into, both ends of a range alike.
COLUMNS = {
    BOARDS: ("life_least_years", "life_most_years"),
    FRAME: ("frame_life_least_years", "frame_life_most_years"),
}
TOO_EARLY = "LIF-001"


def with_lives(row: Row, drawn: Mapping[str, float | int], terms: YearTerms) -> Row:
    """Return a sample's row with what was drawn for it, a year's cost reckoned with its lives.

    A life that was not drawn keeps the range it has: the least and the most that a year costs are
    then those at its two ends.
    """
    told: Row = {"case": row["case"], **drawn, **row}
    if row["surface_outlay"] is None or not drawn.keys() & set(LIVES):
        return told
    for path in drawn.keys() & set(LIVES):
        told |= dict.fromkeys(COLUMNS[path], drawn[path])
    with localcontext(COUNTING):  # as the plan's own money is counted
        return told | _over_years(told, terms)


def _over_years(row: Row, terms: YearTerms) -> Row:
    held: dict[str, Any] = row
    lives = Lives(
        surface_least_years=held["life_least_years"],
        surface_most_years=held["life_most_years"],
        frame_least_years=held["frame_life_least_years"],
        frame_most_years=held["frame_life_most_years"],
    )
    cost = Outlay(surface=held["surface_outlay"], frame=held["frame_outlay"])
    unknown = [name for name in str(row["not_known"]).split() if row[name] is None]
    early = {finding.code for finding in frame_first(lives)}
    remarks = ({*str(row["remarks"]).split()} - {TOO_EARLY}) | early
    return {
        **years_row(*year_cases(cost, held["upkeep_h"], lives, terms)),
        "not_known": " ".join(unknown),
        "remarks": " ".join(sorted(remarks)),
    }
