"""Finds counts of boards and joints within some money that every worth vector allows, or splits.

Counts that cost little enough and carry enough lie in a thin slice of space: hundreds of a kind,
but hardly any room across. Kind by kind that is not to be seen; to go through the counts may take
a hundred thousand steps. A form may tell it at once: over the whole slice it stays between two
whole numbers. (Often it is the length of all boards in some unit that they have in common.) Where
whole values are left to it, each is a thinner slice, which the next form splits. Nothing here has
to be believed: `verify` adds the blends up again.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction

from attrs import evolve, frozen

from drylay.cutting.corner import Corner, Row, Sum, is_long, shortened
from drylay.cutting.counting import Kind, Open, what_is_open
from drylay.cutting.forms import thin_forms
from drylay.cutting.model import GRADES, Blend, Proof, Split, Task
from drylay.cutting.weighing import Weighed, direct_bound, weigh

FEW = 24  # splits by forms of an earlier search, before new ones are found

Forms = tuple[tuple[int, ...], list[list[int]]]  # numbers of the kinds, forms of their counts
Outdone = dict[int, tuple[Kind, int]]  # by number of a kind: the one that outdoes it, how many


@frozen(kw_only=True)
class Searched:
    """What a search came to: boards of each stock and joints, or the splits that leave none.

    Not `finished`: it stopped at its most splits, having come to nothing. `forms` are those it
    split by.
    """

    finished: bool
    boards: tuple[int, ...] | None
    joints: int
    splits: tuple[Split, ...] = ()
    forms: Forms | None = None


def search(
    task: Task,
    weighed: Sequence[Weighed],
    money: int,
    most: int,
    tick: Callable[[], None] | None = None,
    *,
    forms: Forms | None = None,
    told: bool = True,
) -> Searched:
    """Return counts within `money` that satisfy every vector, or at most so many splits.

    `tick` may end it. Forms of an earlier search are tried first: to find new ones takes longer
    than a few splits. Where they are not to be `told`, no splits are returned, only whether there
    are counts; they are not told either where no numbers would hold them.
    """
    found = what_is_open(task, weighed, money)
    few = most if forms is None else min(most, FEW)
    splitting = _Splitting(task, found, few, tick, forms, told=told)
    try:
        counts = splitting.counts()
    except OverflowError:
        if forms is not None:
            return search(task, weighed, money, most, tick, told=told)
        return Searched(finished=False, boards=None, joints=0)
    used = splitting.numbers, splitting.forms
    if counts is None:
        splits = tuple(splitting.splits)
        return Searched(finished=True, boards=None, joints=0, splits=splits, forms=used)
    counts |= found.free
    return Searched(
        finished=True,
        boards=tuple(counts.get(number, 0) for number in range(len(task.stock))),
        joints=found.fewest + counts.get(len(task.stock), 0),
        forms=used,
    )


def least_money(task: Task, weighed: Sequence[Weighed]) -> int:
    """Return what counts cost at least that satisfy every vector and need not be whole."""
    found = what_is_open(task, weighed, 0)
    kinds = found.kinds
    corner = Corner([kind.price for kind in kinds])
    for vector, need in enumerate(found.needs):
        if need > 0:
            corner.add([kind.worths[vector] for kind in kinds], need)
    for one in kinds:
        if one.limit is not None:
            corner.add([-int(kind is one) for kind in kinds], -one.limit)
    cost = 0 if corner.mend() is not None else -(-corner.goal[0] // corner.over)
    return cost + found.fewest * task.joint_price


def with_splits(proof: Proof, most: int = 1_000) -> Proof:
    """Return a proof with the splits that show its bound, where these are needed and not told."""
    certificate = proof.certificate
    if certificate.grade != GRADES[1] or certificate.splits:
        return proof
    weighed = [weigh(proof.task, vector) for vector in certificate.vectors]
    if direct_bound(proof.task, weighed) >= certificate.bound:
        return proof
    splits = search(proof.task, weighed, certificate.bound - 1, most).splits
    return evolve(proof, certificate=evolve(certificate, splits=splits))


def _outdone(kinds: Sequence[Kind]) -> Outdone:
    """Return the kinds that others outdo, any number of which may be bought.

    Where the money a kind costs buys as much of each worth in copies of another, every plan
    with the first is a plan with the other.
    """
    found: Outdone = {}
    for kind in kinds:
        for other in kinds:
            if other is not kind and other.number not in found and _outdoes(other, kind):
                found[kind.number] = other, kind.price // other.price
                break
    return found


def _outdoes(one: Kind, other: Kind) -> bool:
    copies = other.price // one.price
    both = zip(one.worths, other.worths, strict=True)
    return one.limit is None and copies > 0 and all(copies * mine >= its for mine, its in both)


class _Splitting:
    """The splits found so far, of one slice after the other."""

    def __init__(
        self,
        task: Task,
        found: Open,
        most: int,
        tick: Callable[[], None] | None,
        known: Forms | None,
        *,
        told: bool,
    ) -> None:
        self.task, self.found, self.left, self.tick, self.told = task, found, most, tick, told
        self.outdone = _outdone(found.kinds)
        self.kinds = [k for k in found.kinds if k.number not in self.outdone]
        self.wanting = [v for v, need in enumerate(found.needs) if need > 0]
        self.limited = [k for k in self.kinds if k.limit is not None]
        self.numbers = tuple(kind.number for kind in self.kinds)
        self.forms = known[1] if known is not None and known[0] == self.numbers else []
        self.rows: list[Row] = []
        self.splits: list[Split] = []

    def counts(self) -> dict[int, int] | None:
        """Return counts by number of the kind, None where the splits leave none.

        Raises:
            OverflowError: they are more than the most.
        """
        corner = Corner([kind.price for kind in self.kinds])
        self.rows = rows = self._rows()
        for factors, least in rows:
            corner.add(factors, least)
        broken = corner.mend()
        if broken is not None:
            self._keep([0] * len(self.kinds), broken, Sum(times=1, rows={}, value=0), 0)
            return None
        counts = corner.whole_counts()
        if counts is None:
            self.forms = self.forms or thin_forms([factors for factors, _ in rows], corner)
            counts = self._split(corner, 0)
        if counts is None:
            return None
        return {kind.number: n for kind, n in zip(self.kinds, counts, strict=True)}

    def _rows(self) -> list[Row]:
        """Return what counts have to satisfy: factors, and what they come to at least."""
        needs = self.found.needs
        rows: list[Row] = [([k.worths[v] for k in self.kinds], needs[v]) for v in self.wanting]
        rows.append(([-kind.price for kind in self.kinds], -self.found.money))
        for one in self.limited:
            rows.append(([-int(kind is one) for kind in self.kinds], -(one.limit or 0)))
        return rows

    def _split(self, corner: Corner, depth: int) -> tuple[int, ...] | None:
        """Return whole counts of a slice, None where its splits leave none."""
        counts = corner.whole_counts()
        if counts is not None:
            return counts
        form, turning = self.forms[depth], corner.copy()
        turned = [-weight for weight in form]
        least, most = turning.least(form), turning.least(turned)
        self._keep(form, least, most, depth)
        for value in range(least.least, 1 - most.least):
            thinner = corner.copy()
            around: list[Row] = [(form, value), (turned, -value)]
            for factors, at_least in around:
                thinner.add(factors, at_least)
            thinner.mend()
            self.rows += around
            counts = self._split(thinner, depth + 1)
            del self.rows[-2:]
            if counts is not None:
                return counts
        return None

    def _keep(self, form: Sequence[int], least: Sum, most: Sum, depth: int) -> None:
        self.left -= 1
        if self.left < 0:
            raise OverflowError
        if self.tick is not None:
            self.tick()
        if not self.told:
            return
        weights = [0] * (len(self.task.stock) + 1)
        for kind, weight in zip(self.kinds, form, strict=True):
            weights[kind.number] = weight
        # what outdoes a kind may be outdone itself, by one found later
        for number, (other, copies) in reversed(self.outdone.items()):
            weights[number] = copies * weights[other.number]
        turned = [-weight for weight in form]
        self.splits.append(
            Split(
                weights=tuple(weights),
                least=self._blend(self._in_money(least, form), depth),
                most=self._blend(self._in_money(most, turned), depth),
            )
        )

    def _in_money(self, shown: Sum, form: Sequence[int]) -> Sum:
        """Return a sum of rows that are told in money, those of vectors as often as their scale."""
        scales = [self.found.scales[v] for v in self.wanting]
        scales += [1] * (len(self.rows) - len(scales))
        shown = evolve(shown, rows={row: n * scales[row] for row, n in shown.rows.items()})
        if not is_long(shown):
            return shown
        rows = [
            ([Fraction(n, scale) for n in factors], Fraction(least, scale))
            for scale, (factors, least) in zip(scales, self.rows, strict=True)
        ]
        prices = [kind.price for kind in self.kinds]
        return shortened(shown, form, rows, prices, len(self.wanting))

    def _blend(self, shown: Sum, depth: int) -> Blend:
        often = shown.rows.get
        vectors, limits = [0] * len(self.found.needs), [0] * len(self.task.stock)
        for row, v in enumerate(self.wanting):
            vectors[v] = often(row, 0)
        money = len(self.wanting)
        for row, kind in enumerate(self.limited, money + 1):
            limits[kind.number] = often(row, 0)
        first = money + 1 + len(self.limited)
        around = range(first, first + 2 * depth, 2)
        return Blend(
            times=shown.times,
            vectors=tuple(vectors),
            money=often(money, 0),
            limits=tuple(limits),
            splits=tuple(often(row, 0) - often(row + 1, 0) for row in around),
        )
