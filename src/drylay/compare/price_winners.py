"""Which of several decks is the cheapest at each price, out of what each costs over all of them."""

from collections.abc import Mapping, Sequence

from attrs import evolve, frozen

from drylay.compare.price_lines import Run


@frozen(kw_only=True)
class Win:
    """Prices at which one deck's order is the cheapest of all."""

    name: str
    first: int
    last: int
    run: Run


def wins_of(runs: Mapping[str, Sequence[Run]]) -> list[Win]:
    """Return all prices in rising order by the deck whose whole order costs least.

    Of equals the one that was the cheapest before, else the first by name in order. `runs` of all
    decks reach over the same prices.
    """
    first, *_ = runs.values()
    at, most = first[0].first, first[-1].last
    wins: list[Win] = []
    while at <= most:
        here = {name: _at(its, at) for name, its in runs.items()}
        name = _cheapest(here, at, wins[-1] if wins else None)
        last = min([run.last for run in here.values()] + [_until(here, name, at)])
        before = wins[-1] if wins else None
        if before is not None and (before.name, before.run) == (name, here[name]):
            wins[-1] = evolve(before, last=last)
        else:
            wins.append(Win(name=name, first=at, last=last, run=here[name]))
        at = last + 1
    return wins


def _at(runs: Sequence[Run], price: int) -> Run:
    return next(run for run in runs if run.first <= price <= run.last)


def _cheapest(here: Mapping[str, Run], at: int, before: Win | None) -> str:
    totals = {name: run.seen.total_at(at) for name, run in here.items()}
    least = min(totals.values())
    if before is not None and totals[before.name] == least:
        return before.name
    return next(name for name, total in totals.items() if total == least)


def _until(here: Mapping[str, Run], name: str, at: int) -> int:
    """Return the last price, from one on, at which no other deck is cheaper than this one."""
    own, last = here[name].seen, here[name].last
    for other in here.values():
        steeper = own.every - other.seen.every
        if steeper > 0:
            room = other.seen.total_at(at) - own.total_at(at)
            last = min(last, at + room // steeper)
    return last
