"""The order of work on a deck on an outline: its tasks with marks, hold points, tools and hours."""

from collections.abc import Callable, Iterable
from fractions import Fraction

from attrs import evolve

from drylay.work.cautions import FamilyCautions, cautions_at, dust_tools
from drylay.work.drafts import Draft, OutlinedDeck
from drylay.work.holds import hold_points
from drylay.work.hours import GROUND_RATES, Rate, by_the_clock
from drylay.work.legs_hours import bearer_pieces, legs_rates, ties
from drylay.work.model import Task, Tool, Work
from drylay.work.on_the_outline import outlined_drafts
from drylay.work.outlined_boards import openings_of
from drylay.work.outlined_holding import clipped, inserted
from drylay.work.tools import PENCIL, tool_of

#: Members whose ends are carried, and screwed, one by one.
HUNG = ("joist", "pair", "trimmer", "double")


def _hung_ends(deck: OutlinedDeck) -> int:
    return sum(
        bool(on)
        for member in deck.subframe.members
        if member.kind in HUNG
        for on in (member.start_on, member.end_on)
    )


def _of_kind(kind: str) -> Callable[[OutlinedDeck], int]:
    return lambda deck: sum(member.kind == kind for member in deck.subframe.members)


def _sawn_timbers(deck: OutlinedDeck) -> int:
    return len(deck.subframe.members) + len(deck.subframe.battens)


def _crossings(deck: OutlinedDeck) -> int:
    screws, clips = deck.fixings.deck_screws, deck.fixings.clips
    return (screws.crossings if screws else 0) + (clips.crossings if clips else 0)


def _with_strips(deck: OutlinedDeck) -> int:
    return len(deck.laying.pieces) if inserted(deck) else 0


def _predrilled(deck: OutlinedDeck) -> int:
    screws = deck.fixings.deck_screws
    return screws.count if screws and screws.predrill_all else 0


def _waxed(deck: OutlinedDeck) -> int:
    return deck.fixings.wax.ends if deck.fixings.wax else 0


def _coated_m2(deck: OutlinedDeck) -> Fraction:
    finish = deck.fixings.finish
    return Fraction(repr(finish.area_m2)) * finish.coats if finish else Fraction(0)


def _hatches(deck: OutlinedDeck) -> int:
    return len(openings_of(deck, "hatch"))


#: What each task is made of that other decks have not, or not so. Assumption.
OUTLINE_RATES: dict[
    str, tuple[Rate, tuple[tuple[Callable[[OutlinedDeck], int | Fraction], Rate], ...]]
] = {
    "set_out": (("1", "2"), ((lambda deck: len(deck.setting_out.ties), ("0.05", "0.1")),)),
    "cut_frame": (("0.5", "1"), ((_sawn_timbers, ("0.05", "0.1")),
                                (bearer_pieces, ("0.05", "0.1")))),
    "frame": (("0.5", "1"), ((_hung_ends, ("0.1", "0.25")),
                            (_of_kind("noggin"), ("0.08", "0.15")),
                            (_of_kind("splice"), ("0.15", "0.3")),
                            (ties, ("0.05", "0.1")))),
    "boards": (("0.5", "1"), ((lambda deck: len(deck.laying.pieces), ("0.1", "0.2")),
                             (lambda deck: sum(each.shaped for each in deck.laying.pieces),
                              ("0.1", "0.3")),
                             (lambda deck: deck.laying.mitre_count, ("0.1", "0.2")),
                             (_crossings, ("0.02", "0.05")),
                             (_predrilled, ("0.01", "0.02")), (_waxed, ("0.02", "0.05")),
                             (_with_strips, ("0.1", "0.2")))),
    "hatches": (("0.25", "0.5"), ((_hatches, ("0.5", "1")),)),
    "fascia": (("0.25", "0.5"), ((lambda deck: len(deck.subframe.facings), ("0.3", "0.6")),)),
    "finish": (("0.25", "0.5"), ((_coated_m2, ("0.06", "0.15")),)),
    **legs_rates(),
}  # fmt: skip


def order_outlined_work(
    deck: OutlinedDeck, *, people: int, families: tuple[FamilyCautions, ...]
) -> Work:
    """Return the whole work on an outline, in an order in which each task may be done.

    Source: common practice, no source; hours are an assumption.
    """
    drafts = [_told(draft, families) for draft in outlined_drafts(deck)]
    marks = {draft.key: f"W{number}" for number, draft in enumerate(drafts, start=1)}
    tasks = tuple(_task(deck, draft, marks, people) for draft in drafts)
    return Work(
        face_up=deck.face_up,
        people=people,
        setting_out=deck.setting_out,
        tasks=tasks,
        tools=outlined_tools(deck, (key for draft in drafts for key in draft.tools)),
        holds=sum(len(task.holds) for task in tasks),
        lighting=None,
        least_h=sum(task.least_h for task in tasks),
        most_h=sum(task.most_h for task in tasks),
    )


def _told(draft: Draft, families: tuple[FamilyCautions, ...]) -> Draft:
    """Return a draft with its cautions, and the tools that these ask for."""
    cautions = cautions_at(draft.key, draft.care, families)
    return evolve(draft, cautions=cautions, tools=(*draft.tools, *dust_tools(cautions)))


def _task(deck: OutlinedDeck, draft: Draft, marks: dict[str, str], people: int) -> Task:
    least_h, most_h = by_the_clock(*_reckoned(deck, draft.key), people)
    return Task(
        mark=marks[draft.key],
        kind=draft.key,
        title=draft.title,
        steps=draft.steps,
        after=tuple(marks[key] for key in draft.after if key in marks),
        holds=hold_points(draft.holds, clipped=clipped(deck), outlined=True),
        tools=tuple(tool.mark for tool in outlined_tools(deck, draft.tools)),
        cautions=draft.cautions,
        people=draft.hands,
        least_h=least_h,
        most_h=most_h,
    )


def _reckoned(deck: OutlinedDeck, key: str) -> tuple[Rate, list[tuple[Rate, int | Fraction]]]:
    """Return a task's hours whatever the deck, and its rates with what each is for."""
    if key in OUTLINE_RATES:
        fixed, each = OUTLINE_RATES[key]
        return fixed, [(rate, count(deck)) for count, rate in each]
    fixed, on_ground = GROUND_RATES[key]
    return fixed, [(rate, count(deck)) for count, rate in on_ground]


def outlined_tools(deck: OutlinedDeck, keys: Iterable[str]) -> tuple[Tool, ...]:
    """Return the tools of these keys, each once, in the order in which they are first needed."""
    tools: dict[str, Tool] = {}
    for key in keys:
        for tool in _spacers(deck) if key == "gap_spacer" else (_tool(key),):
            tools.setdefault(tool.mark, tool)
    return tuple(tools.values())


def _tool(key: str) -> Tool:
    tool = tool_of(key)
    if key == "pencil":
        return evolve(tool, what=PENCIL)
    return evolve(tool, size_at="laying.end_gap_mm") if key == "end_spacer" else tool


def _spacers(deck: OutlinedDeck) -> tuple[Tool, ...]:
    """Return a spacer for each field's gap, those alike to a tenth of a millimetre as one."""
    first: dict[float, int] = {}
    for index, zone in enumerate(deck.laying.zones):
        if zone.row_count > 1:
            first.setdefault(round(zone.gap_mm, 1), index)
    return tuple(
        Tool(
            mark="gap_spacer" if len(first) == 1 else f"gap_spacer_{number}",
            what="two spacers for gaps between rows of",
            purpose="boards",
            size_at=f"laying.zones[{index}].gap_mm",
        )
        for number, index in enumerate(first.values(), start=1)
    )
