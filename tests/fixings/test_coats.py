"""Sawn ends and what is brushed on: sums by hand, and laws."""

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.fixings.coats import (
    IN_LINE,
    Coat,
    Face,
    SawnLength,
    Tops,
    coat_ends,
    coat_faces,
    count_ends,
    face_up,
)

#: A board of 145 x 28: 4060 mm2 an end. A timber of 45 x 145: 6525 mm2.
BOARD = Face(length_mm=145.0, width_mm=28.0)
TIMBER = Face(length_mm=145.0, width_mm=45.0)
COAT = Coat(article="EP", coats=2, covers_m2_per_l=4.0)


def sawn(count: int, *, trimmed: bool = False, filled: bool = False, kind: str = "boards"):
    return SawnLength(kinds=(kind,) * count, trimmed=trimmed, filled=filled)


@pytest.mark.parametrize(
    ("pieces", "trimmed", "filled", "ends"),
    [
        (1, False, True, 0),  # used whole: both ends as bought
        (1, False, False, 1),  # sawn to length: one cut, one end of it is the offcut's
        (2, False, True, 2),  # one cut makes two ends
        (3, False, False, 5),  # 2 x 3 - 1
        (3, False, True, 4),  # 2 x 3 - 2
        (3, True, False, 6),  # both ends of the length sawn off first: 2 x 3
        (3, True, True, 6),
    ],
)
def test_ends_of_one_length(pieces: int, trimmed: bool, filled: bool, ends: int) -> None:
    assert count_ends([sawn(pieces, trimmed=trimmed, filled=filled)]) == {"boards": ends}


def test_each_end_belongs_to_its_own_piece() -> None:
    """A rim first and a noggin last: the rim keeps one end, the joist none, the noggin one."""
    length = SawnLength(kinds=("rims", "joists", "noggins"), trimmed=False, filled=True)
    assert count_ends([length]) == {"rims": 1, "joists": 2, "noggins": 1}


def test_twenty_boards_sawn_to_length() -> None:
    """20 x 1 sawn end x 4060 mm2 = 0.0812 m2; x 2 coats / 4 m2 a litre = 0.0406 l: 41 ml."""
    ends = count_ends([sawn(1)] * 20)
    preserver = coat_ends(COAT, ends, {"boards": BOARD}, ())
    assert preserver is not None
    assert (preserver.ends, preserver.area_m2, preserver.need_ml) == (20, 0.0812, 41)
    assert preserver.ripped_m2 == 0.0


def test_ends_and_ripped_edges_together() -> None:
    """4 x 4060 + 3 x 6525 + 2 x 6000 x 28 = 371815 mm2; x 2 / 4 = 0.1859075 l: 186 ml."""
    preserver = coat_ends(
        COAT, {"boards": 4, "joists": 3, "noggins": 0},
        {"boards": BOARD, IN_LINE: BOARD, "joists": TIMBER, "noggins": TIMBER},
        [Face(length_mm=6000.0, width_mm=28.0)] * 2,
    )  # fmt: skip
    assert preserver is not None
    told = [(part.what, part.ends, part.area_m2) for part in preserver.parts]
    assert told == [("boards", 4, 0.01624), ("joists", 3, 0.019575)]
    assert (preserver.ripped_m2, preserver.area_m2, preserver.need_ml) == (0.336, 0.371815, 186)


def test_nothing_sawn_wants_no_preserver() -> None:
    assert coat_ends(COAT, {"boards": 0}, {"boards": BOARD}, ()) is None


@pytest.mark.parametrize(
    ("faces", "wished", "up"),
    [
        ("smooth", None, "smooth"),
        ("grooved", None, "grooved"),
        ("one grooved", None, "smooth"),  # common practice: kinder to feet
        ("one grooved", "grooved", "grooved"),
        (None, None, "grooved"),  # not told: what takes more
        (None, "smooth", "smooth"),
    ],
)
def test_which_face_is_up(faces: str | None, wished: str | None, up: str) -> None:
    assert face_up(faces, wished) == up


@pytest.mark.parametrize(("up", "area_m2", "need_ml"), [
    # 20 rows of 6000 x 145: 17.4 m2; a fascia of 6000 x 145: 0.87 m2; x 2 coats / 8 m2 a litre
    ("smooth", 18.27, 4568),  # 18.27 x 2 / 8 = 4.5675 l
    ("grooved", 23.49, 5873),  # 17.4 x 1.3 + 0.87 = 23.49; x 2 / 8 = 5.8725 l
])  # fmt: skip
def test_a_finish(up: str, area_m2: float, need_ml: int) -> None:
    coat = Coat(article="DO", coats=2, covers_m2_per_l=8.0)
    row = Face(length_mm=6000.0, width_mm=145.0)
    finish = coat_faces(
        coat, field=Tops(up=up, groove_ratio=0.3, rows=(row,) * 20), border=None, fascia=[row]
    )
    assert (finish.boards_m2, finish.fascia_m2) == (17.4, 0.87)
    assert (finish.area_m2, finish.need_ml) == (area_m2, need_ml)
    assert finish.groove_ratio == (0.3 if up == "grooved" else 0.0)


# ----- laws ---------------------------------------------------------------------------

lengths = st.builds(
    SawnLength,
    kinds=st.lists(st.sampled_from(["boards", "joists"]), min_size=1, max_size=6).map(tuple),
    trimmed=st.booleans(),
    filled=st.booleans(),
)
decks = st.lists(lengths, max_size=12)
covers = st.floats(0.5, 30).map(lambda value: round(value, 2))
coats = st.integers(1, 10)


@given(decks, lengths)
def test_more_lengths_never_have_fewer_ends(deck: list[SawnLength], more: SawnLength) -> None:
    before, after = count_ends(deck), count_ends([*deck, more])
    assert all(after[kind] >= ends for kind, ends in before.items())


@given(lengths, st.sampled_from(["boards", "joists"]))
def test_one_more_piece_of_a_length_is_two_more_ends(length: SawnLength, kind: str) -> None:
    longer = SawnLength(kinds=(*length.kinds, kind), trimmed=length.trimmed, filled=length.filled)
    before, after = count_ends([length]), count_ends([longer])
    assert sum(after.values()) == sum(before.values()) + 2


@given(lengths)
def test_a_trim_never_saws_fewer_ends(length: SawnLength) -> None:
    trimmed = SawnLength(kinds=length.kinds, trimmed=True, filled=length.filled)
    ends = sum(count_ends([trimmed]).values())
    assert ends == 2 * len(length.kinds) >= sum(count_ends([length]).values())


@given(decks, covers, coats, st.integers(0, 3))
def test_area_is_the_sum_of_parts_and_the_need_covers_it(
    deck: list[SawnLength], covers_m2_per_l: float, coats: int, rips: int
) -> None:
    coat = Coat(article="EP", coats=coats, covers_m2_per_l=covers_m2_per_l)
    edges = [Face(length_mm=3210.5, width_mm=28.0)] * rips
    ends = count_ends(deck)
    preserver = coat_ends(coat, ends, {"boards": BOARD, "joists": TIMBER}, edges)
    if preserver is None:
        assert not sum(ends.values())
        assert not rips
        return
    parts = sum(Fraction(repr(part.area_m2)) for part in preserver.parts)
    area = Fraction(repr(preserver.area_m2))
    assert area == pytest.approx(parts + Fraction(repr(preserver.ripped_m2)))
    covered = Fraction(preserver.need_ml, 1000) * Fraction(repr(covers_m2_per_l)) / coats
    assert covered >= area
    assert preserver.need_ml == ceil(area * coats * 1000 / Fraction(repr(covers_m2_per_l)))
    assert preserver.ends == sum(part.ends for part in preserver.parts) == sum(ends.values())
    assert all(part.ends for part in preserver.parts)


@given(covers, coats, st.floats(0, 1), st.integers(1, 30))
def test_a_grooved_face_never_takes_less(
    covers_m2_per_l: float, coats: int, groove_ratio: float, rows: int
) -> None:
    coat = Coat(article="DO", coats=coats, covers_m2_per_l=covers_m2_per_l)
    tops = (Face(length_mm=4021.5, width_mm=145.0),) * rows
    smooth, grooved = (
        coat_faces(
            coat,
            field=Tops(up=up, groove_ratio=groove_ratio, rows=tops),
            border=None,
            fascia=(),
        )
        for up in ("smooth", "grooved")
    )
    assert grooved.need_ml >= smooth.need_ml
    assert smooth.area_m2 == smooth.boards_m2 == grooved.boards_m2
