"""What a deck is looked at for, item by item, as far as this plan has what there is to look at."""

from collections.abc import Iterable, Iterator
from itertools import chain

from attrs import frozen

from drylay.guards.model import Guards
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.upkeep.model import Item
from drylay.upkeep.parts import members, standing, tops
from drylay.work.model import HoldPoint

#: A probe that goes in deeper finds soft wood; wood at a joint that is wetter has water below it.
SOFT_MM, WET_PCT = 5.0, 22.0
#: A guard's top may give so much under a firm push. Assumption: a hand sees no less.
GIVES_MM = 10.0
ANYBODY, LICENSED = "anybody", "a licensed professional"
ELECTRICIAN = "a licensed electrician"
PRACTICE = Source(kind="common practice", title="common practice, no source", clause="inspection")
GIVING = Source(kind="assumption", title="docs/upkeep.md", clause="what a guard may give")
BUTTON = Source(
    kind="common practice", title="common practice, no source", clause="the button of an RCD"
)


@frozen(kw_only=True)
class _Look:
    """What an item is made of, before it has its figures."""

    what: str
    where: tuple[str, ...]
    rule: str
    holds: tuple[HoldPoint, ...] = ()
    if_not: str = ""
    then_by: str = ""
    who: str = ANYBODY
    source: Source = PRACTICE


def _item(look: _Look) -> Item:
    return Item(
        what=look.what,
        where=look.where,
        holds=look.holds,
        rule=look.rule,
        source=look.source,
        who=look.who,
        if_not=look.if_not,
        then_by=look.then_by or (look.who if look.if_not else ""),
    )


def _hold(mark: str, check: str, limit: float | None, unit: str, source: Source) -> HoldPoint:
    return HoldPoint(
        mark=mark, check=check, limit=limit, unit=unit, source=source, signed_by=ANYBODY
    )


def at_hand_over(plan: Plan) -> tuple[Item, ...]:
    """Return what is looked at when the deck is handed over."""
    looks = [
        _Look(what="Keep the plan file and write down what was laid otherwise",
              where=("the whole deck",), rule="later repairs are found by the plan as laid"),
        *_gap_record(plan),
        *_push(plan), *_lights(plan),
    ]  # fmt: skip
    return tuple(_item(look) for look in looks)


def after_three_months(plan: Plan) -> tuple[Item, ...]:
    """Return what is looked at three months later: boards have dried, and screws stand proud."""
    looks = [*_screws(plan), *_pads(plan), *_push(plan)]
    return tuple(_item(look) for look in looks)


def each_season(plan: Plan, season: str) -> tuple[Item, ...]:
    """Return what is looked at every spring and autumn."""
    looks = [
        *_gaps(plan), *_probed(plan), *_feet(plan), *_wet(plan), *_push(plan),
        *_fixings(plan), *_green(season), *_ledger(plan), *_drains(plan), *_lights(plan),
    ]  # fmt: skip
    return tuple(_item(look) for look in looks)


def told(marks: Iterable[str]) -> tuple[str, ...]:
    """Return marks with none left out, runs of them by their first and last: "B1 to B20"."""
    runs: list[list[str]] = []
    for mark in dict.fromkeys(marks):
        if runs and mark == _next(runs[-1][-1]):
            runs[-1].append(mark)
        else:
            runs.append([mark])
    short = [[f"{run[0]} to {run[-1]}"] if len(run) > 2 else run for run in runs]
    return tuple(chain.from_iterable(short))


def _next(mark: str) -> str:
    """Return the mark that follows one: J12 after J11; "" where it ends in no number."""
    head = mark.rstrip("0123456789")
    return f"{head}{int(mark[len(head) :]) + 1}" if head != mark else ""


def rows_of(plan: Plan) -> tuple[str, ...]:
    """Return the marks of all rows."""
    return tuple(dict.fromkeys(top.row for top in tops(plan)))


def is_tiled(plan: Plan) -> bool:
    """Return whether tiles lie on the deck."""
    return plan.tiling is not None or plan.tiles is not None


def is_timber(plan: Plan) -> bool:
    """Return whether what lies on top is of wood, or nobody tells."""
    found = [part.timber for part in (plan.surface, plan.laying, plan.tiles) if part is not None]
    return not is_tiled(plan) and not any(timber is False for timber in found)


def _gap_record(plan: Plan) -> Iterator[_Look]:
    if not is_tiled(plan):
        yield _Look(what="Measure over ten rows at both ends and note it with the day",
                    where=told(rows_of(plan)[:10]),
                    rule="the gap of a repair or an extension is counted from it")  # fmt: skip


def _screws(plan: Plan) -> Iterator[_Look]:
    fixings = plan.fixings
    if fixings is None or fixings.deck_screws is None:
        return
    where = told(rows_of(plan)) if fixings.clips is None else told(rows_of(plan)[-1:])
    yield _Look(what="Drive screws home", where=where,
                rule="boards dry and screws stand proud in their first months",
                holds=(_hold("U1", "no head stands above the board", None, "", PRACTICE),),
                if_not="drive it flush; where it does not hold, a longer one")  # fmt: skip


def _pads(plan: Plan) -> Iterator[_Look]:
    if is_tiled(plan):
        yield _Look(what="Try every tile underfoot", where=told(rows_of(plan)),
                    rule="pads settle in their first months",
                    holds=(_hold("U2", "no tile rocks", None, "", PRACTICE),),
                    if_not="lift it and level its pads")  # fmt: skip


#: What a family calls the task that clears the gaps.
CLEARS = ("sweep", "leaves")
CLEAR = _hold("U3", "daylight or a blade goes through", None, "", PRACTICE)


def _gaps(plan: Plan) -> Iterator[_Look]:
    if any(task.what in CLEARS for task in (plan.work.upkeep if plan.work else ())):
        return  # the family's own task clears them
    yield _Look(what="Clear the joints" if is_tiled(plan) else "Clear the gaps",
                where=told(rows_of(plan)),
                rule="leaves packed in a gap keep timber wet",
                holds=(CLEAR,),
                if_not="rake it out; do not press it through with water")  # fmt: skip


def _joints(plan: Plan) -> tuple[str, ...]:
    """Return all joints, timber by timber: "joints over J5: B1, B3"."""
    rows: dict[str, list[str]] = {}
    for joint in plan.pieces.joints if plan.pieces else ():
        rows.setdefault(joint.joist, []).append(joint.row)
    for laid in plan.laying.joints if plan.laying else ():
        rows.setdefault(laid.member, []).append(laid.row)
    return tuple(f"joints over {mark}: {', '.join(rows[mark])}" for mark in rows)


def _soft(mark: str, what: str) -> HoldPoint:
    return _hold(mark, f"a blunt probe pressed into {what} goes in", SOFT_MM, "mm", PRACTICE)


def _probed(plan: Plan) -> Iterator[_Look]:
    if is_timber(plan):
        joints = _joints(plan)
        yield _Look(what="Probe board ends, at joints and at the deck's edge",
                    where=joints or ("all board ends",),
                    rule="end grain takes up water, and rots first",
                    holds=(_soft("U4", "the end"),),
                    if_not="replace the soft board, and look at the joist below")  # fmt: skip
    marks = [its.mark for its in members(plan) if its.kind not in {"noggin", "batten"}]
    if marks:
        yield _Look(what="Probe the frame where it can be reached: joists' tops at gaps, rims",
                    where=told(marks), rule="water lies on joists and behind rims",
                    holds=(_soft("U5", "the timber"),),
                    if_not="a soft joist is doubled or replaced before anybody stands there",
                    then_by=LICENSED)  # fmt: skip


def _feet(plan: Plan) -> Iterator[_Look]:
    legs = standing(plan)
    if legs:
        yield _Look(what="Probe post feet and bearers, and look whether any post has moved",
                    where=told(leg.mark for leg in legs),
                    rule="a post rots where it stands, and carries all the rest",
                    holds=(_soft("U6", "the post or bearer"),),
                    if_not="keep everybody off the deck until it is propped and replaced",
                    then_by=LICENSED)  # fmt: skip


def _wet(plan: Plan) -> Iterator[_Look]:
    joints = _joints(plan)
    if is_timber(plan) and joints:
        yield _Look(what="Measure moisture at joints after three dry days", where=joints,
                    rule="wood that stays wet there has water standing below it",
                    holds=(_hold("U7", "moisture content", WET_PCT, "%", PRACTICE),),
                    if_not="lift the board there and look below")  # fmt: skip


def _push(plan: Plan) -> Iterator[_Look]:
    guards: Guards | None = plan.guards
    if guards is not None and guards.runs:
        yield _Look(what="Push hard outwards at every guard post, at the top",
                    where=told(run.mark for run in guards.runs),
                    rule="loose guards do the worst harm",
                    holds=(_hold("U8", "the top gives", GIVES_MM, "mm", GIVING),
                           _hold("U9", "nothing creaks or stays bent", None, "", PRACTICE)),
                    if_not="close that side off until its bolts are seen to",
                    then_by=LICENSED)  # fmt: skip


def _fixings(plan: Plan) -> Iterator[_Look]:
    if plan.fixings is not None:
        yield _Look(what="Look over fixings: heads, clips, hangers, coach screws",
                    where=told(rows_of(plan)),
                    rule="rust and black stains tell of a metal that does not suit",
                    holds=(_hold("U10", "none is loose, rusted or missing", None, "", PRACTICE),),
                    if_not="replace it by one of the plan's metal")  # fmt: skip


def _green(season: str) -> Iterator[_Look]:
    yield _Look(what="Look for algae where it is shaded", where=("the whole deck",),
                rule=f"green boards are slippery when wet, most in {season}",
                holds=(_hold("U11", "a wet sole does not slide", None, "", PRACTICE),),
                if_not="scrub it with water and a stiff brush")  # fmt: skip


def _ledger(plan: Plan) -> Iterator[_Look]:
    ledger = plan.raised.frame.ledger if plan.raised else None
    if ledger is not None:
        yield _Look(what="Look along the ledger for a gap at the wall or a fixing that has drawn",
                    where=(ledger.mark,), rule="a ledger that moves lets the deck down",
                    holds=(_hold("U12", "no gap has opened, no fixing has moved", None, "",
                                 PRACTICE),),
                    if_not="keep everybody off the deck until it has been looked at",
                    then_by=LICENSED)  # fmt: skip


def _drains(plan: Plan) -> Iterator[_Look]:
    hatches = [o for o in (plan.outline.openings if plan.outline else ()) if o.kind == "hatch"]
    if hatches:
        yield _Look(what="Lift the hatches and look into the drains",
                    where=told(hatch.mark for hatch in hatches),
                    rule="a drain under a deck is forgotten until it floods",
                    holds=(_hold("U13", "water runs away, the panel seats", None, "", PRACTICE),),
                    if_not="clear the drain")  # fmt: skip


def _lights(plan: Plan) -> Iterator[_Look]:
    lighting = plan.work.lighting if plan.work else None
    if lighting is not None:
        yield _Look(what="Press the RCD's test button, then see every light burn",
                    where=told(light.mark for light in lighting.lights),
                    rule="an RCD that does not trip protects nobody",
                    holds=(_hold("U14", "it trips, and all lights come back", None, "", BUTTON),),
                    if_not="leave it off", then_by=ELECTRICIAN, source=BUTTON)  # fmt: skip
