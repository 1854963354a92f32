"""The nouns of what cut plans are put to: jobs together, a saw list, a frontier, a repeat, a shed.

Lengths and money are the integers of the task, whatever their units.
"""

from attrs import frozen

from drylay.cutting.model import CutPlan


@frozen(kw_only=True)
class Place:
    """What one piece is for; all numbers from 1.

    `job` is "" where there is only one. A piece of a line is the `piece`th from the start of
    the `line`th line of set `lines`. A single piece has no `lines` and no `line`; `piece`
    counts the single pieces of its job.
    """

    job: str
    lines: int | None
    line: int | None
    piece: int


@frozen(kw_only=True)
class SharedBoard:
    """One board and what each of its pieces, longest first, is for."""

    stock: str
    pieces: tuple[int, ...]
    places: tuple[Place, ...]


@frozen(kw_only=True)
class SawnPiece:
    """A piece in its board: from where to where, measured from the board's first end."""

    length: int
    starts: int
    ends: int
    place: Place


@frozen(kw_only=True)
class SawCut:
    """A cut: the tape is read `at`, the saw takes what lies from there to `to`."""

    at: int
    to: int


@frozen(kw_only=True)
class SawnBoard:
    """One board, opened once: pieces and cuts in order, what is left over.

    `offcut` is the sound wood beyond the last cut, without the trim of the far end; it is
    `usable` where it is as long as the list was asked to keep.
    """

    number: int
    stock: str
    length: int
    pieces: tuple[SawnPiece, ...]
    cuts: tuple[SawCut, ...]
    offcut: int
    usable: bool


@frozen(kw_only=True)
class SawList:
    """Boards in the order to open them.

    Between two boards, no more than `most_open` lines are begun and not finished.
    """

    boards: tuple[SawnBoard, ...]
    least_offcut: int
    most_open: int


@frozen(kw_only=True)
class Job:
    """One job of several cut as one order: its share of the merged task, and itself alone.

    Its lines are the sets from `first_lines` on, as many as `lines`, in the merged task; its
    single pieces come in turn too. `alone` is the plan of the job by itself, from what the
    jobs before it left of limited stock; None where that is too little.
    """

    name: str
    first_lines: int
    lines: int
    first_pieces: int
    pieces: int
    alone: CutPlan | None


@frozen(kw_only=True)
class TogetherPlan:
    """Several jobs cut as one order: one plan with one proof, what it saves, whose each piece is.

    `apart` is what the jobs cost one by one, and `saving` what one order spares; both None
    where a job has no plan by itself. What it spares truly, with the cheapest plans there
    are, lies between `least_saving` and `most_saving`. `sawn` has an entry for each board:
    its stock, and what each of its pieces, longest first, is for.
    """

    plan: CutPlan
    jobs: tuple[Job, ...]
    sawn: tuple[SharedBoard, ...]
    apart: int | None
    saving: int | None
    least_saving: int | None
    most_saving: int | None


@frozen(kw_only=True)
class FrontierPoint:
    """A purchase and its number of joints, the cheapest there is at `joint_price`.

    `plan` is of the task at that price: `plan.proof` says that no plan has purchase +
    `joint_price` x joints below `bound`, and this one is `gap` above it.
    """

    joints: int
    cost: int
    joint_price: int
    bound: int
    gap: int
    plan: CutPlan


@frozen(kw_only=True)
class RepeatedCuts:
    """A plan whose lines repeat after `period` lines, and what that costs against free lines.

    `dearer` is `plan.objective` less `free.objective`. `plan.bound` is the free task's, with
    its proof. No plan that repeats costs less than `least`; where that is above `plan.bound`,
    it rests on the solver, which looked at all of them, and has no certificate.
    """

    plan: CutPlan
    free: CutPlan
    period: int
    dearer: int
    least: int


@frozen(kw_only=True)
class Offcut:
    """A length that lies in the shed: what it is called, how long, how many there are.

    `trim` is lost at each end before the first cut; ends already sawn need none.
    """

    name: str
    length: int
    count: int = 1
    trim: int = 0


@frozen(kw_only=True)
class ShedUse:
    """What a plan takes of one offcut: so many `used`, so many `left` as they lie.

    `sawn` has the pieces of each one used, longest first, and `rests` in step what is left of
    it beyond the last cut.
    """

    offcut: str
    length: int
    used: int
    left: int
    sawn: tuple[tuple[int, ...], ...]
    rests: tuple[int, ...]


@frozen(kw_only=True)
class ShedPlan:
    """A plan that takes from the shed first, what it takes, and what that spares.

    `bought` is the plan without the shed, None where the stock is then too little; `saving` is
    what it costs more, and then None too. What the shed spares truly lies between
    `least_saving` and `most_saving`.
    """

    plan: CutPlan
    uses: tuple[ShedUse, ...]
    bought: CutPlan | None
    saving: int | None
    least_saving: int | None
    most_saving: int | None
