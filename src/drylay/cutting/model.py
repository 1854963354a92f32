"""The nouns of cutting, all in integers: lengths in one unit, money in another.

The engine does not care which units these are. drylay uses 1/320 mm and the
currency's minor unit (cents, pence). Only `StockCuts`, at the public door, speaks
millimetres and money as people write them.
"""

from decimal import Decimal

from attrs import field, frozen

#: Certificate grades, from the easiest to check to the hardest.
GRADES = ("one worth vector", "worth vectors and splits", "resting on the solver")


@frozen(kw_only=True)
class Stock:
    """One length on sale: `limit` is how many there are, None for as many as wanted."""

    name: str
    length: int
    price: int
    limit: int | None = None
    trim: int = 0  # lost at each end before the first cut


@frozen(kw_only=True)
class Piece:
    """A length wanted, and how many of it."""

    length: int
    count: int


@frozen(kw_only=True)
class Line:
    """`count` equal lines lying side by side, each made up of pieces end to end.

    Pieces may meet only at a station; a joint takes `joint_gap` centred on it. A piece
    from the start to station j spans j bays, one between stations i < j spans j - i, one
    from station j to the end spans (stations - 1) - j; each must span `least_bays`. A line
    in one piece is always allowed. Joints of side-by-side lines are at least `stagger`
    bays apart. At most `most_joints` joints in a line, None for no cap. `first_station` is
    the number of its first station where all sets of a task count their stations in one.
    """

    count: int
    start: int
    end: int
    stations: tuple[int, ...]
    joint_gap: int = 0
    least_bays: int = 1
    stagger: int = 0
    most_joints: int | None = None
    first_station: int = 0


@frozen(kw_only=True)
class Beside:
    """The last line of set `one` lies beside the first line of set `other`.

    Their joints, counted in the stations all sets share, are as many bays apart as the
    greater of both staggers.
    """

    one: int
    other: int


@frozen(kw_only=True)
class Task:
    """What to cut and from what: fixed pieces, lines to be jointed, stock, kerf.

    The objective is purchase + `joint_price` x joints, in money; of equals one with fewer
    boards is looked for, then fewer different cuts, then fewer joints.
    """

    stock: tuple[Stock, ...]
    kerf: int
    pieces: tuple[Piece, ...] = ()
    lines: tuple[Line, ...] = ()
    beside: tuple[Beside, ...] = ()
    joint_price: int = 0


@frozen(kw_only=True)
class Cut:
    """One way of cutting one stock length, done `boards` times; pieces longest first."""

    stock: str
    pieces: tuple[int, ...]
    boards: int


@frozen(kw_only=True)
class WindowPrice:
    """The price set on joints in two stretches of stations that neighbours share one joint of.

    The stretches are `width` stations of set `line` from its own station `first` on, and
    `beside_width` stations of set `beside` from its own `beside_first` on. Neither is wider
    than its set's least bays, so a line has at most one joint there; no station of the one is
    as far as the stagger from a station of the other, so two neighbours have one in all.

    Where `beside` is `line`, the stretches are of the odd (first, third ...) and the even
    lines of the set: with a odd and b even lines and g = gcd(a, b), a joint costs `price` x
    b/g more on an odd line, `price` x a/g more on an even one, and `price` x a b/g is taken
    off the demand. Else they are of the last line of `line` and the first of `beside`, which
    have to be told beside one another by the task: a joint costs `price` more on either, and
    `price` is taken off the demand.
    """

    line: int
    first: int
    width: int
    beside: int
    beside_first: int
    beside_width: int
    price: int


@frozen(kw_only=True)
class WorthVector:
    """Worths of the wanted lengths, in money x `scale`: no solver needed to check them.

    No board can carry pieces worth more than `most_worth` of its stock; all lines and
    pieces together are worth at least the `demand`. `lengths` and `worths` run in step.
    """

    scale: int
    lengths: tuple[int, ...]
    worths: tuple[int, ...]
    windows: tuple[WindowPrice, ...] = ()


@frozen(kw_only=True)
class Blend:
    """Inequalities added up, each so many times: what a form comes to at least, `times` over.

    `vectors` says how often what each worth vector demands is taken, told in money, `money` how
    often that all costs no more than the money, `limits` how often the limit of each stock in
    order (0 where there is none): none is below nothing. `splits` says how often the values given
    to the forms of the splits around are taken, the outermost first; these may be.
    """

    times: int
    vectors: tuple[int, ...]
    money: int
    limits: tuple[int, ...]
    splits: tuple[int, ...] = ()


@frozen(kw_only=True)
class Split:
    """A form with whole weights, and blends that show between which whole values it stays.

    The form is the sum of the boards of each stock in order, and last the joints beyond the
    fewest, each times its weight. `least` shows what it comes to at least, `most` what the form
    with all weights turned about does. Any whole values between are split further by the splits
    that follow, those of the least value first.
    """

    weights: tuple[int, ...]
    least: Blend
    most: Blend


@frozen(kw_only=True)
class Certificate:
    """Why no cheaper plan exists than `bound` (money): grade, worth vectors, splits.

    `splits` show that no board counts are left that cost less; `nodes` is how many there are.
    """

    grade: str
    bound: int
    vectors: tuple[WorthVector, ...]
    nodes: int = 0
    splits: tuple[Split, ...] = ()


@frozen(kw_only=True)
class Proof:
    """A task, a plan's objective and the certificate of its bound: all `verify` needs."""

    task: Task
    objective: int
    certificate: Certificate


@frozen(kw_only=True)
class ProvenOrder:
    """What a proof slip checks: boards bought, how each is sawn, joints by row, the proof.

    `joints` holds, for each line set of the proof's task, the joint stations of each of its
    lines in order.
    """

    name: str
    proof: Proof
    cuts: tuple[Cut, ...]
    joints: tuple[tuple[tuple[int, ...], ...], ...] = ()


@frozen(kw_only=True)
class Effort:
    """Work done, in counts that do not depend on the clock."""

    columns: int = 0
    lp_solves: int = 0
    pivots: int = 0
    search_nodes: int = 0


@frozen(kw_only=True)
class CutPlan:
    """The answer: cuts, joints, cost, bound and proof.

    `joints` holds, for each line set, the joint stations of each of its lines in order.
    `objective` = `cost` + joint price x number of joints. `gap` = objective - bound.
    """

    mode: str
    cuts: tuple[Cut, ...]
    joints: tuple[tuple[tuple[int, ...], ...], ...] = field(default=())
    cost: int
    joint_count: int
    objective: int
    bound: int
    proof: Proof
    effort: Effort

    @property
    def gap(self) -> int:
        """What the plan may cost over the cheapest there is, at most."""
        return self.objective - self.bound


@frozen(kw_only=True)
class Verdict:
    """What a check of a proof came to: whether it holds, the bound supported, and why."""

    holds: bool
    bound: int
    why: str


@frozen(kw_only=True)
class WorkLimits:
    """How much work a solve may do, in counts: the clock never decides.

    `rounds` of pattern generation for one set of prices, `bound_cuts` on the board counts,
    `nodes` in one whole-number search of the solver, `wide_nodes` in one that also chooses
    the stations of odd and even lines, `splits` in a certificate, `fill_nodes` in one
    depth-first search for a pattern before a table is used instead, `fillings` of one board
    listed for the whole-number search, `tries` at making a plan within whole board counts,
    each with up to `leans` to unlike lines, `sides` of linear programmes solved to settle
    which stations lanes joint on, `retries` in laying the lines of one plan. After
    so many `pivots` of the simplex method no further plan is tried. A gap that is no greater
    than `gap_ratio` of the cost will do: then nothing further is tried.
    """

    rounds: int = 2_000
    bound_cuts: int = 60
    nodes: int = 40
    wide_nodes: int = 5
    splits: int = 1_000
    fill_nodes: int = 20_000
    fillings: int = 1000
    tries: int = 4
    sides: int = 60
    retries: int = 6
    pivots: int = 150_000
    leans: int = 6
    gap_ratio: float = 0.0


@frozen(kw_only=True)
class SawnLength:
    """`boards` lengths of one kind, each sawn into the same pieces, longest first."""

    length_mm: float
    price: Decimal
    pieces_mm: tuple[float, ...]
    boards: int


@frozen(kw_only=True)
class StockCuts:
    """What to buy and how to saw it: `gap` = `cost` - `bound`, and the proof of the bound."""

    lengths: tuple[SawnLength, ...]
    cost: Decimal
    bound: Decimal
    gap: Decimal
    grade: str
    proof: Proof
