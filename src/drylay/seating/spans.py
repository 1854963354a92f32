"""Least differences of places along one axis: what follows from what, and where all lies at least.

A table holds for every two places how much the second lies beyond the first at least; place 0 is
the near side of the deck, place 1 the far side. Counted in grid steps.
"""

Table = list[list[int]]
#: Nothing is known of two places.
NOTHING = -(10**9)
NEAR, FAR = 0, 1


def nothing_known(places: int) -> Table:
    """Return a table of places of which nothing is known."""
    return [[0 if a == b else NOTHING for b in range(places)] for a in range(places)]


def contradicts(table: Table, one: int, other: int, least: int) -> bool:
    """Return whether the other place cannot lie so far beyond the one."""
    return table[other][one] + least > 0


def follows(table: Table, one: int, other: int, least: int) -> bool:
    """Return whether it is known that the other place lies so far beyond the one."""
    return table[one][other] >= least


def told(table: Table, one: int, other: int, least: int) -> Table:
    """Return the table with one more difference and all that follows from it.

    Source: geometry; longest paths, one edge added (from memory: all-pairs paths kept closed).
    """
    if follows(table, one, other, least):
        return table
    beyond = table[other]
    new = []
    for row in table:
        start = row[one] + least
        if start > NOTHING // 2:
            new.append(
                [a if a >= start + b else start + b for a, b in zip(row, beyond, strict=True)]
            )
        else:
            new.append(row)
    return new


def size(table: Table) -> int:
    """Return the least distance of the far side from the near one."""
    return table[NEAR][FAR]


def size_with(table: Table, one: int, other: int, least: int) -> int:
    """Return the least distance of the sides if the other place lay so far beyond the one."""
    return max(table[NEAR][FAR], table[NEAR][one] + least + table[other][FAR])
