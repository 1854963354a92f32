"""The order of work: drafts given marks, prerequisites, hold points, tools and hours."""

from drylay.work.cautions import cautions_at
from drylay.work.drafts import Deck, Draft
from drylay.work.holds import hold_points
from drylay.work.hours import hours
from drylay.work.model import Task, Work
from drylay.work.on_the_deck import drafts_on_the_deck
from drylay.work.on_the_ground import drafts_on_the_ground
from drylay.work.tools import tool_list


def order_work(deck: Deck, *, people: int, of_family: tuple[str, ...]) -> Work:
    """Return the whole work: tasks in an order in which each comes after all it waits for.

    Hours add up task by task: nothing is reckoned to go on at the same time.
    Source: common practice, no source; hours are an assumption.
    """
    drafts = [*drafts_on_the_ground(deck), *drafts_on_the_deck(deck)]
    marks = {draft.key: f"W{number}" for number, draft in enumerate(drafts, start=1)}
    tasks = tuple(_task(deck, draft, marks, people, of_family) for draft in drafts)
    keys = [key for draft in drafts for key in draft.tools]
    return Work(
        face_up=deck.face_up,
        people=people,
        setting_out=deck.setting_out,
        tasks=tasks,
        tools=tool_list(deck, keys),
        holds=sum(len(task.holds) for task in tasks),
        lighting=deck.lighting,
        least_h=sum(task.least_h for task in tasks),
        most_h=sum(task.most_h for task in tasks),
    )


def _task(
    deck: Deck, draft: Draft, marks: dict[str, str], people: int, of_family: tuple[str, ...]
) -> Task:
    least_h, most_h = hours(deck, draft.key, people)
    return Task(
        mark=marks[draft.key],
        kind=draft.key,
        title=draft.title,
        steps=draft.steps,
        after=tuple(marks[key] for key in draft.after if key in marks),
        holds=hold_points(draft.holds, clipped=deck.fixings.clips is not None),
        tools=tuple(tool.mark for tool in tool_list(deck, draft.tools)),
        cautions=cautions_at(draft.key, draft.care, of_family),
        people=draft.hands,
        least_h=least_h,
        most_h=most_h,
    )
