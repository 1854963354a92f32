"""The order of work on tiles over an outline: tasks with marks, hold points, tools and hours."""

from collections.abc import Callable, Iterable
from fractions import Fraction

from attrs import evolve

from drylay.work.cautions import FamilyCautions, cautions_at
from drylay.work.drafts import Draft, OutlinedTiles
from drylay.work.holds import hold_points
from drylay.work.hours import GROUND_RATES, Rate, by_the_clock
from drylay.work.model import Task, Tool, Work
from drylay.work.on_outline_tiles import outlined_tile_drafts
from drylay.work.tools import PENCIL, plain_tools

#: What each task is made of, and hours each; besides, whatever the deck. Assumption.
RATES: dict[str, tuple[Rate, tuple[tuple[Callable[[OutlinedTiles], int], Rate], ...]]] = {
    "set_out": (("1", "2"), ((lambda deck: len(deck.setting_out.ties), ("0.05", "0.1")),)),
    "pads": (("0.25", "0.5"), ((lambda deck: deck.tiles.pads.count, ("0.03", "0.08")),)),
    "tiles": (("0.5", "1"), ((lambda deck: deck.tiles.whole, ("0.1", "0.2")),)),
    "cut_tiles": (("0.5", "1"), ((lambda deck: deck.tiles.cut, ("0.2", "0.4")),
                                 (lambda deck: deck.tiles.shaped_count, ("0.1", "0.3")))),
}  # fmt: skip


def order_outlined_tiles(
    deck: OutlinedTiles, *, people: int, of_family: tuple[str, ...]
) -> Work:  # fmt: skip
    """Return the whole work, in an order in which each task may be done.

    Source: common practice, no source; hours are an assumption.
    """
    drafts = outlined_tile_drafts(deck)
    marks = {draft.key: f"W{number}" for number, draft in enumerate(drafts, start=1)}
    tasks = tuple(_task(deck, draft, marks, people, of_family) for draft in drafts)
    return Work(
        face_up="",
        people=people,
        setting_out=deck.setting_out,
        tasks=tasks,
        tools=_tools(key for draft in drafts for key in draft.tools),
        holds=sum(len(task.holds) for task in tasks),
        lighting=None,
        least_h=sum(task.least_h for task in tasks),
        most_h=sum(task.most_h for task in tasks),
    )


def _tools(keys: Iterable[str]) -> tuple[Tool, ...]:
    return tuple(
        evolve(tool, size_at="tiles.joint_mm")
        if tool.mark == "joint_spacer"
        else evolve(tool, what=PENCIL)
        if tool.mark == "pencil"
        else tool
        for tool in plain_tools(keys)
    )


def _task(
    deck: OutlinedTiles, draft: Draft, marks: dict[str, str], people: int,
    of_family: tuple[str, ...],
) -> Task:  # fmt: skip
    least_h, most_h = by_the_clock(*_reckoned(deck, draft.key), people)
    return Task(
        mark=marks[draft.key],
        kind=draft.key,
        title=draft.title,
        steps=draft.steps,
        after=tuple(marks[key] for key in draft.after if key in marks),
        holds=hold_points(draft.holds, tiled=True, outlined=True),
        tools=tuple(tool.mark for tool in _tools(draft.tools)),
        cautions=cautions_at(draft.key, draft.care, (FamilyCautions(texts=of_family),)),
        people=draft.hands,
        least_h=least_h,
        most_h=most_h,
    )


def _reckoned(deck: OutlinedTiles, key: str) -> tuple[Rate, list[tuple[Rate, int | Fraction]]]:
    """Return a task's hours whatever the deck, and its rates with what each is for."""
    if key in RATES:
        fixed, each = RATES[key]
        return fixed, [(rate, count(deck)) for count, rate in each]
    fixed, on_ground = GROUND_RATES[key]
    return fixed, [(rate, count(deck)) for count, rate in on_ground]
