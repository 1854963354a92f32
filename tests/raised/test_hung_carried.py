"""What bearers carry of joists that hang between them: laws, and the page's numbers by hand."""

from hypothesis import given
from hypothesis import strategies as st

from drylay.marks import PER_MM, exact
from drylay.raised.carried import hung_carried_mm

#: Two bearers 90 broad on a ledger of 45: (3600 - 45 - 180) / 2 = 1687.5 each bay.
BY_HAND = (1777.5, 933.75)


def test_the_pages_bearers_carry_what_is_worked_by_hand() -> None:
    found = hung_carried_mm(lines_mm=(1777.5, 3555.0), bearer_mm=90.0, ledger_mm=45.0)
    assert found == BY_HAND


def test_a_free_deck_rests_on_its_outer_bearers_alike() -> None:
    """3300 long, three of 90: bays of (3300 - 270) / 2 = 1515; 90 + 757.5, and 90 + 1515."""
    found = hung_carried_mm(lines_mm=(45.0, 1650.0, 3255.0), bearer_mm=90.0, ledger_mm=None)
    assert found == (847.5, 1605.0, 847.5)


@given(
    bays=st.lists(st.integers(300, 4000), min_size=1, max_size=6),
    bearer=st.integers(19, 150),
    ledger=st.none() | st.integers(19, 75),
)
def test_bearers_and_ledger_carry_the_whole_deck_and_no_less(
    bays: list[int], bearer: int, ledger: int | None
) -> None:
    """The ledger has half the first bay; each bearer rounds up by less than 1/320 mm."""
    at, lines = float(ledger or 0), []
    if ledger is None:
        lines.append(bearer / 2)
        at = float(bearer)
    for bay in bays:
        lines.append(at + bay + bearer / 2)
        at += bay + bearer
    held = None if ledger is None else float(ledger)
    found = hung_carried_mm(lines_mm=lines, bearer_mm=float(bearer), ledger_mm=held)
    whole = exact(at) - exact(float(ledger or 0))
    own = bays[0] * PER_MM / 2 if ledger is not None else 0
    carried = sum(exact(each) for each in found)
    assert whole - own <= carried <= whole - own + len(found)
