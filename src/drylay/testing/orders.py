"""Laws of order: what may not be more than what, from board to board."""

from collections.abc import Callable, Iterator
from itertools import pairwise

from attrs import evolve

from drylay.materials.model import RuleQuery
from drylay.testing.asking import numbers
from drylay.testing.model import BrokenLaw, Heard

Values = dict[tuple[str, RuleQuery], float]
#: What of a question is compared along, and whether more of it is looser.
_CENTRES = "most_centres_mm"
_DUST_MM = 1e-6


def values_of(heard: Heard) -> Values:
    """Return every number answered, by rule and question."""
    return {(answer.rule, answer.query): value for answer, _, value in numbers(heard)}


def gaps_in_order(heard: Heard) -> Iterator[BrokenLaw]:
    """Yield the first board whose least gap exceeds its preferred, or that its most."""
    yield from _in_order(heard, "gaps", ("gap_least_mm", "gap_preferred_mm", "gap_most_mm"))


def lives_in_order(heard: Heard) -> Iterator[BrokenLaw]:
    """Yield where a shortest life is longer than the longest."""
    for what in ("life", "frame_life"):
        yield from _in_order(heard, "lives", (f"{what}_least_years", f"{what}_most_years"))


def _in_order(heard: Heard, law: str, names: tuple[str, ...]) -> Iterator[BrokenLaw]:
    values = values_of(heard)
    for query in dict.fromkeys(query for _, query in values):
        told = [values[name, query] for name in names if (name, query) in values]
        if told != sorted(told):
            found = ", ".join(f"{value:g}" for value in told)
            wanted = " <= ".join(name for name in names if (name, query) in values)
            yield BrokenLaw(law=law, subject=board_told(query), found=found, wanted=wanted)
            return


def centres_by_angle(heard: Heard) -> Iterator[BrokenLaw]:
    """Yield where joists may stand further apart because boards turn from square."""
    yield from _never_more(
        heard,
        law="centres by angle",
        alike=lambda query: evolve(query, board_to_joist_deg=90.0),
        looser=lambda query: query.board_to_joist_deg,
        wanted="no more than with boards nearer to square",
    )


def centres_by_thickness(heard: Heard) -> Iterator[BrokenLaw]:
    """Yield where joists may stand further apart because boards are thinner."""
    yield from _never_more(
        heard,
        law="centres by thickness",
        alike=lambda query: evolve(query, board_thickness_mm=0.0, fascia_thickness_mm=0.0),
        looser=lambda query: query.board_thickness_mm,
        wanted="no more than with thicker boards",
    )


def centres_by_use(heard: Heard) -> Iterator[BrokenLaw]:
    """Yield where joists may stand further apart because the deck is a public one."""
    yield from _never_more(
        heard,
        law="centres by use",
        alike=lambda query: evolve(query, use="dwelling"),
        looser=lambda query: float(query.use == "dwelling"),
        wanted="no more than at a dwelling",
    )


def _never_more(
    heard: Heard,
    *,
    law: str,
    alike: Callable[[RuleQuery], RuleQuery],
    looser: Callable[[RuleQuery], float],
    wanted: str,
) -> Iterator[BrokenLaw]:
    """Yield the first pair of boards, else alike, of which the stricter has wider centres."""
    groups: dict[RuleQuery, list[tuple[float, float, RuleQuery]]] = {}
    for (rule, query), value in values_of(heard).items():
        if rule == _CENTRES:
            groups.setdefault(alike(query), []).append((looser(query), value, query))
    for group in groups.values():
        # of several that are as strict, the widest comes last, beside the closest of the looser
        ranked = sorted(group, key=lambda each: each[:2])
        for (least, strict, query), (most, loose, _) in pairwise(ranked):
            if least < most and strict > loose + _DUST_MM:
                found = f"{strict:g} where {loose:g} is the most"
                yield BrokenLaw(law=law, subject=board_told(query), found=found, wanted=wanted)
                return


def board_told(query: RuleQuery) -> str:
    """Return a question in few words."""
    words = [f"{query.board_width_mm:g} x {query.board_thickness_mm:g} board"]
    words += [f"at {query.board_to_joist_deg:g} degrees"] if query.board_to_joist_deg != 90 else []
    words += [query.use] if query.use != "dwelling" else []
    words += [query.exposure] if query.exposure != "inland" else []
    words += [query.metal] if query.metal else []
    return ", ".join(words)
