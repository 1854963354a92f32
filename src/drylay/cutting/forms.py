"""Forms, sums of counts with whole weights, that range over little where the counts range far.

Forms are a basis of all of them, turned about till none can be made shorter by taking others off
it: A. K. Lenstra, H. W. Lenstra, L. Lovasz, Factoring polynomials with rational coefficients
(Math. Ann. 261, 1982), in whole numbers as in H. Cohen, A Course in Computational Algebraic
Number Theory, 2.6.3. K. Aardal, C. Hurkens and A. Lenstra found by them that equations have no
whole solutions (Math. Oper. Res. 25, 2000).
"""

from collections.abc import Sequence
from fractions import Fraction

from drylay.cutting.corner import Corner

FINE = 1 << 16  # a step of a count is told in so many parts of what a row has to spare
THIN = 10_000  # at the most a row's greatest factor is so many times what it has to spare


def thin_forms(factors: Sequence[Sequence[int]], corner: Corner) -> list[list[int]]:
    """Return as many forms as counts, the one that is thought to range over least the first.

    `factors` are those of the rows of the corner. Any whole values of the forms are those of
    whole counts.
    """
    count = corner.count
    counts = [[int(k == j) for j in range(count)] for k in range(count)]
    spare, turning = corner.spare(), corner.copy()
    for one in counts:
        for form in (one, [-n for n in one]):
            turning.least(form)
            spare = [max(pair) for pair in zip(spare, turning.spare(), strict=True)]
    rows = zip([*counts, *factors], spare, strict=True)
    measured = [_measured(row, most) for row, most in rows]
    steps = [[sum(row[a] * row[b] for row in measured) for b in range(count)] for a in range(count)]
    return _Basis(steps).forms()[::-1]


def _measured(row: Sequence[int], spare: Fraction) -> list[int]:
    """Return each factor of a row in parts of what it has to spare, a part at least if any."""
    spare = max(spare, Fraction(max(map(abs, row)), THIN))
    # a step of a count that is no part of any row would be told from no step at all
    return [int(FINE * n / spare) or (n > 0) - (n < 0) for n in row]


class _Basis:
    """Steps from counts to counts, short and nearly square to one another, and their forms.

    `tops[k]` is the volume, squared, of the first k steps; `tilts[k][l]` is tops[l + 1] times
    how far step k leans along step l, square to those before.
    """

    def __init__(self, lengths: Sequence[Sequence[int]]) -> None:
        self.count = len(lengths)
        self.forms_of = [[int(k == j) for j in range(self.count)] for k in range(self.count)]
        self.tops = [1] + [0] * self.count
        self.tilts = [[0] * self.count for _ in range(self.count)]
        for k in range(self.count):
            for j in range(k + 1):
                u = lengths[k][j]
                for i in range(j):
                    u = (self.tops[i + 1] * u - self.tilts[k][i] * self.tilts[j][i]) // self.tops[i]
                if j < k:
                    self.tilts[k][j] = u
                else:
                    self.tops[k + 1] = u

    def forms(self) -> list[list[int]]:
        k = 1
        while k < self.count:
            self._shorten(k, k - 1)
            tops, tilt = self.tops, self.tilts[k][k - 1]
            if 100 * (tops[k + 1] * tops[k - 1] + tilt**2) < 99 * tops[k] ** 2:
                self._swap(k)
                k = max(1, k - 1)
            else:
                for j in range(k - 2, -1, -1):
                    self._shorten(k, j)
                k += 1
        return self.forms_of

    def _shorten(self, k: int, j: int) -> None:
        """Take step j off step k as often as makes it shortest."""
        tilt, top = self.tilts[k], self.tops[j + 1]
        often = (2 * tilt[j] + top) // (2 * top)
        if often:
            tilt[j] -= often * top
            for i in range(j):
                tilt[i] -= often * self.tilts[j][i]
            forms = self.forms_of
            forms[j] = [a + often * b for a, b in zip(forms[j], forms[k], strict=True)]

    def _swap(self, k: int) -> None:
        tops, tilts, forms = self.tops, self.tilts, self.forms_of
        forms[k], forms[k - 1] = forms[k - 1], forms[k]
        tilts[k][: k - 1], tilts[k - 1][: k - 1] = tilts[k - 1][: k - 1], tilts[k][: k - 1]
        tilt = tilts[k][k - 1]
        top = (tops[k - 1] * tops[k + 1] + tilt * tilt) // tops[k]
        for i in range(k + 1, self.count):
            was = tilts[i][k]
            tilts[i][k] = (tops[k + 1] * tilts[i][k - 1] - tilt * was) // tops[k]
            tilts[i][k - 1] = (top * was + tilt * tilts[i][k]) // tops[k + 1]
        tops[k] = top
