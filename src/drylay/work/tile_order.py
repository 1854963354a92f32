"""The order of work on a deck of tiles: its tasks with marks, hold points, tools and hours."""

from collections.abc import Callable
from fractions import Fraction

from drylay.work.cautions import FamilyCautions, cautions_at
from drylay.work.drafts import Draft, FramedDeck, TiledDeck
from drylay.work.holds import hold_points
from drylay.work.hours import FRAME_RATES, GROUND_RATES, Rate, by_the_clock
from drylay.work.legs_hours import legs_rates, rates_besides
from drylay.work.model import Task, Tool, Work
from drylay.work.on_the_tiles import tile_drafts
from drylay.work.tools import plain_tools

#: What each task of tiles is made of, and hours each; besides, whatever the deck. Assumption.
TILE_RATES: dict[str, tuple[Rate, tuple[tuple[Callable[[TiledDeck], int], Rate], ...]]] = {
    "pads": (("0.25", "0.5"), ((lambda deck: deck.tiling.pads.count if deck.tiling.pads else 0,
                                ("0.03", "0.08")),)),
    "tiles": (("0.5", "1"), ((lambda deck: deck.tiling.whole, ("0.1", "0.2")),)),
    "cut_tiles": (("0.5", "1"), ((lambda deck: deck.tiling.cut, ("0.2", "0.4")),)),
}  # fmt: skip
#: The same of the frame under them, and of what that stands on.
FRAMED_RATES: dict[
    str, tuple[Rate, tuple[tuple[Callable[[FramedDeck], int | Fraction], Rate], ...]]
] = {
    **FRAME_RATES,
    **{key: (FRAME_RATES[key][0], (*FRAME_RATES[key][1], each))
       for key, each in rates_besides().items()},
    **legs_rates(),
}  # fmt: skip


def order_tile_work(deck: TiledDeck, *, people: int, of_family: tuple[str, ...]) -> Work:
    """Return the whole work on a deck of tiles, in an order in which each task may be done.

    Source: common practice, no source; hours are an assumption.
    """
    drafts = tile_drafts(deck)
    marks = {draft.key: f"W{number}" for number, draft in enumerate(drafts, start=1)}
    tasks = tuple(_task(deck, draft, marks, people, of_family) for draft in drafts)
    return Work(
        face_up="",
        people=people,
        setting_out=deck.setting_out,
        tasks=tasks,
        tools=plain_tools(key for draft in drafts for key in draft.tools),
        holds=sum(len(task.holds) for task in tasks),
        lighting=None,
        least_h=sum(task.least_h for task in tasks),
        most_h=sum(task.most_h for task in tasks),
    )


def _task(
    deck: TiledDeck, draft: Draft, marks: dict[str, str], people: int, of_family: tuple[str, ...]
) -> Task:
    least_h, most_h = by_the_clock(*_reckoned(deck, draft.key), people)
    tools: tuple[Tool, ...] = plain_tools(draft.tools)
    return Task(
        mark=marks[draft.key],
        kind=draft.key,
        title=draft.title,
        steps=draft.steps,
        after=tuple(marks[key] for key in draft.after if key in marks),
        holds=hold_points(draft.holds, tiled=True),
        tools=tuple(tool.mark for tool in tools),
        cautions=cautions_at(draft.key, draft.care, (FamilyCautions(texts=of_family),)),
        people=draft.hands,
        least_h=least_h,
        most_h=most_h,
    )


def _reckoned(deck: TiledDeck, key: str) -> tuple[Rate, list[tuple[Rate, int | Fraction]]]:
    """Return a task's hours whatever the deck, and its rates with what each is for."""
    if key in TILE_RATES:
        fixed, each = TILE_RATES[key]
        return fixed, [(rate, count(deck)) for count, rate in each]
    if key in FRAMED_RATES and deck.framed is not None:
        framed = deck.framed
        fixed, on_frame = FRAMED_RATES[key]
        return fixed, [(rate, count(framed)) for count, rate in on_frame]
    fixed, on_ground = GROUND_RATES[key]
    return fixed, [(rate, count(deck)) for count, rate in on_ground]
