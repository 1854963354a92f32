"""The order of work: drafts given marks, prerequisites, hold points, tools and hours."""

from attrs import evolve

from drylay.work.cautions import FamilyCautions, cautions_at, dust_tools
from drylay.work.drafts import Deck, Draft
from drylay.work.holds import hold_points
from drylay.work.hours import hours
from drylay.work.model import Task, Work
from drylay.work.on_the_deck import drafts_on_the_deck
from drylay.work.on_the_ground import drafts_on_the_ground
from drylay.work.tools import tool_list


def order_work(deck: Deck, *, people: int, families: tuple[FamilyCautions, ...]) -> Work:
    """Return the whole work: tasks in an order in which each comes after all it waits for.

    Hours add up task by task: nothing is reckoned to go on at the same time.
    Source: common practice, no source; hours are an assumption.
    """
    drafts = [*drafts_on_the_ground(deck), *drafts_on_the_deck(deck)]
    marks = {draft.key: f"W{number}" for number, draft in enumerate(drafts, start=1)}
    drafts = [_told(draft, families) for draft in drafts]
    tasks = tuple(_task(deck, draft, marks, people) for draft in drafts)
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


def _told(draft: Draft, families: tuple[FamilyCautions, ...]) -> Draft:
    """Return a draft with its cautions, and the tools that these ask for."""
    cautions = cautions_at(draft.key, draft.care, families)
    return evolve(draft, cautions=cautions, tools=(*draft.tools, *dust_tools(cautions)))


def _task(deck: Deck, draft: Draft, marks: dict[str, str], people: int) -> Task:
    least_h, most_h = hours(deck, draft.key, people)
    return Task(
        mark=marks[draft.key],
        kind=draft.key,
        title=draft.title,
        steps=draft.steps,
        after=tuple(marks[key] for key in draft.after if key in marks),
        holds=hold_points(draft.holds, clipped=deck.fixings.clips is not None),
        tools=tuple(tool.mark for tool in tool_list(deck, draft.tools)),
        cautions=draft.cautions,
        people=draft.hands,
        least_h=least_h,
        most_h=most_h,
    )
