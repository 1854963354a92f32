"""Linear programmes of a few counts in whole numbers: how little a form can come to, and why.

The counts are none below nothing, and satisfy rows: a sum of counts, each times a factor, comes
to so much at least. A corner is where as many of the counts and rows as there are counts are just
met. All is told as whole numbers over one divisor, which every turn about an edge divides out
again (J. Edmonds, Systems of distinct representatives and linear algebra, 1967).
"""

from collections.abc import Sequence
from fractions import Fraction
from math import gcd

from attrs import frozen


@frozen(kw_only=True)
class Sum:
    """Rows so many times each, and what their sum shows of a form, `times` over."""

    times: int
    rows: dict[int, int]  # number of the row: how often
    value: int  # the form, `times` over, comes to this at least

    @property
    def least(self) -> int:
        """Return what the form comes to at least, the counts being whole."""
        return -(-self.value // self.times)


class Corner:
    """A corner of what the rows leave. Entries: the counts by number, then the rows.

    `over` x entry `on[i]` = lines[i][0] + the sum of lines[i][1 + j] x entry `off[j]`, and all
    entries `off` are 0 here.
    """

    def __init__(self, prices: Sequence[int]) -> None:
        self.count, self.over = len(prices), 1
        self.off, self.on = list(range(self.count)), list[int]()
        self.lines: list[list[int]] = []
        self.goal = [0, *prices]

    def copy(self) -> "Corner":
        """Return a corner that can be turned without this one."""
        other = Corner([])
        other.count, other.over = self.count, self.over
        other.off, other.on = list(self.off), list(self.on)
        other.lines, other.goal = [*self.lines], self.goal
        return other

    def add(self, factors: Sequence[int], least: int) -> None:
        """Add a row, though it may not be met here: `mend` is to follow."""
        self.on.append(len(self.on) + len(self.off))
        self.lines.append(self._told(factors, -least))

    def _told(self, factors: Sequence[int], plus: int) -> list[int]:
        line = [plus * self.over] + [0] * self.count
        for entry, factor in enumerate(factors):
            if factor and entry in self.off:
                line[1 + self.off.index(entry)] += factor * self.over
            elif factor:
                its = self.lines[self.on.index(entry)]
                line = [a + factor * b for a, b in zip(line, its, strict=True)]
        return line

    def mend(self) -> Sum | None:
        """Go to the cheapest corner; where the rows leave none, return a sum of 0 and more."""
        while True:
            broken = [i for i, line in enumerate(self.lines) if line[0] < 0]
            if not broken:
                return None
            i = min(broken, key=self.on.__getitem__)
            line = self.lines[i]
            edges = [j for j in range(self.count) if line[1 + j] > 0]
            if not edges:
                often = {self.on[i]: self.over}
                often |= {e: -line[1 + j] for j, e in enumerate(self.off) if line[1 + j]}
                return self._sum(0, often, -line[0])
            j = _least_share([(self.goal[1 + j], line[1 + j], self.off[j], j) for j in edges])
            self._turn(i, j)

    def least(self, form: Sequence[int]) -> Sum:
        """Go to where a form comes to least, and return the sum that shows it."""
        self.goal = self._told(form, 0)
        while True:
            edges = [j for j in range(self.count) if self.goal[1 + j] < 0]
            if not edges:
                often = {e: self.goal[1 + j] for j, e in enumerate(self.off) if self.goal[1 + j]}
                return self._sum(self.over, often, self.goal[0])
            j = min(edges, key=self.off.__getitem__)
            column = 1 + j
            ends = [
                (line[0], -line[column], self.on[i], i)
                for i, line in enumerate(self.lines)
                if line[column] < 0
            ]
            self._turn(_least_share(ends), j)

    def _sum(self, times: int, often: dict[int, int], value: int) -> Sum:
        rows = {entry - self.count: n for entry, n in often.items() if entry >= self.count}
        common = gcd(times, *rows.values())
        rows = {row: n // common for row, n in rows.items()}
        return Sum(times=times // common or 1, rows=rows, value=value // common)

    def _turn(self, i: int, j: int) -> None:
        """Take entry on[i] off and entry off[j] on."""
        turned, was = self.lines[i], self.over
        pivot = turned[1 + j]
        sign = -1 if pivot < 0 else 1
        pivot *= sign

        def after(line: list[int]) -> list[int]:
            factor = sign * line[1 + j]
            if not factor:
                return [pivot * a // was for a in line]
            new = [(pivot * a - factor * b) // was for a, b in zip(line, turned, strict=True)]
            new[1 + j] = factor
            return new

        self.goal = after(self.goal)
        self.lines = [turned if line is turned else after(line) for line in self.lines]
        edge = [-sign * a for a in turned]
        edge[1 + j] = sign * was
        self.lines[i] = edge
        self.over = pivot
        self.on[i], self.off[j] = self.off[j], self.on[i]

    def whole_counts(self) -> tuple[int, ...] | None:
        """Return the counts here if all are whole."""
        here = dict(zip(self.on, self.lines, strict=True))
        counts = [here[k][0] if k in here else 0 for k in range(self.count)]
        if any(n % self.over for n in counts):
            return None
        return tuple(n // self.over for n in counts)

    def spare(self) -> list[Fraction]:
        """Return how much more than it has to each entry comes to here."""
        lines = zip(self.on, self.lines, strict=True)
        here = {entry: Fraction(line[0], self.over) for entry, line in lines}
        return [here.get(entry, Fraction(0)) for entry in range(len(self.on) + self.count)]


def _least_share(shares: Sequence[tuple[int, int, int, int]]) -> int:
    """Return the last of that (part, whole, entry, number) whose part is the least of its whole.

    Of equals the first entry is taken.
    """
    best = shares[0]
    for share in shares[1:]:
        one, other = share[0] * best[1], best[0] * share[1]
        if one < other or (one == other and share[2] < best[2]):
            best = share
    return best[3]
