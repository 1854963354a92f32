"""The nouns of a garden file: what it tells before there is a brief, and what follows of it."""

from attrs import frozen

from drylay.findings import Finding
from drylay.seating.model import Fitted, LeastSize, SeatingWish
from drylay.siting.model import Garden, Verdict
from drylay.survey.model import FieldBook, SurveyReport


@frozen(kw_only=True)
class GardenFile:
    """What a garden file tells: each None where the file has no such table."""

    survey: FieldBook | None = None
    siting: Garden | None = None
    seating: SeatingWish | None = None


@frozen(kw_only=True)
class PlaceSeen:
    """A place for a deck: the verdict on it, and what the region has to be asked about it."""

    verdict: Verdict
    notes: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class GardenReport:
    """What follows of a garden file.

    `places` are in the file's own order, `best` the best first, empty where none were looked for.
    `seating` is the least deck for the furniture, `fitted` says at either level whether it fits on
    the cover that the file fixes; without one it is empty.
    """

    file: GardenFile
    survey: SurveyReport | None = None
    places: tuple[PlaceSeen, ...] = ()
    best: tuple[Verdict, ...] = ()
    seating: LeastSize | None = None
    fitted: tuple[Fitted, ...] = ()

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything found, of survey, places and furniture in this order."""
        return (
            *(self.survey.findings if self.survey else ()),
            *(found for place in self.places for found in of_place(place)),
            *(found for one in self.fitted for found in one.findings),
            *(self.seating.least.findings if self.seating and not self.fitted else ()),
        )


def of_place(place: PlaceSeen) -> tuple[Finding, ...]:
    """Return what is found of a place: its answers in their order, then its region's notes."""
    answers = (found for answer in place.verdict.answers for found in answer.findings)
    return (*answers, *place.notes)
