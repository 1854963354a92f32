"""The witnessed audit: what the plan quotes, held against brief, stock and families."""

from collections.abc import Iterator
from decimal import ROUND_CEILING, Decimal

from drylay.audit import board_asks, board_record, border_seen, ground_seen
from drylay.audit.between import hung
from drylay.audit.clips import HELD as CLIPS
from drylay.audit.coats import HELD as COATS
from drylay.audit.edges import edges_of, ends_of, thickness_at
from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, off_by, same_length, same_text
from drylay.audit.held import CHECKS as HELD
from drylay.audit.leaves import NoSuchPath
from drylay.audit.local import HELD as LOCAL
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.pieces import pieces_of
from drylay.audit.ranking import (
    LIMITS,
    Given,
    Limit,
    below,
    board_of,
    each_below,
    given,
    quoted,
    wish_here,
)
from drylay.audit.reasons import same_value
from drylay.audit.rows import surface_of
from drylay.audit.shops import CHECKS as SHOPS
from drylay.audit.site_witnessed import CHECKS as SITE
from drylay.audit.supports import counts_turned_down, paired
from drylay.audit.tile_seen import CHECKS as TILES
from drylay.audit.tiles import makes_silica
from drylay.audit.wishes import CHECKS as WISHES
from drylay.brief.model import Brief
from drylay.plan.model import Plan
from drylay.reasons import Scalar

BRIEF = conventions("Axes and datum; the brief's own wish")
JOISTS, BATTEN_FOR_PAIR = "supports.joists_under_joint", "supports.batten_for_pair"
RANKING = conventions("Reasons and paths: ranking")


def brief_of(witness: Witness) -> Brief:
    """Return the brief the plan was made from, if it is at hand."""
    return need(witness.brief, "brief as witness")


def said_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless title, units and use are the brief's."""
    brief = brief_of(witness)
    for name in ("title", "units", "use"):
        yield from same_text(
            name, "not the brief's", getattr(plan, name), getattr(brief, name), BRIEF
        )


def boards_run_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw where boards run otherwise than wished, unless the brief lets them turn."""
    surface, wish = surface_of(plan), brief_of(witness).board
    if surface.run != wish.run and not wish.may_turn:
        message = f"boards run {surface.run!r}, the brief wants {wish.run!r} and no turning"
        yield Flaw(subject="surface.run", message=message, source=BRIEF)


def cover_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the cover is the wished one, changed only as far as allowed."""
    surface, wish = surface_of(plan), brief_of(witness).cover
    change = ticks(surface.cover_change_mm)
    along, across = ticks(wish.along_mm), ticks(wish.across_mm)
    more = 0 if plan.tiling is None else ticks(plan.tiling.cover_change_mm)  # along the rows
    along, across = (along + more, across) if surface.run == "along" else (along, across + more)
    room = (ticks(wish.shrink_across_mm), ticks(wish.grow_across_mm))
    if surface.run == "along":
        across += change
    else:
        along += change
        room = (ticks(wish.shrink_along_mm), ticks(wish.grow_along_mm))
    message = "not the wished cover and its change"
    yield from same_length("surface.cover_along_mm", message, surface.cover_along_mm, along, BRIEF)
    yield from same_length(
        "surface.cover_across_mm", message, surface.cover_across_mm, across, BRIEF
    )
    if not -room[0] <= change <= room[1]:
        message = "the cover changes further than the brief allows"
        limit = room[1] if change > 0 else -room[0]
        yield off_by("surface.cover_change_mm", message, change, limit, BRIEF)


def fascia_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless just the wished sides carry a fascia, of the wished article."""
    edges, wish = edges_of(plan), brief_of(witness).fascia
    faced, wished = {face.side for face in edges.faces}, set(wish.sides)
    for side in sorted(faced ^ wished):
        message = "faced, against the brief" if side in faced else "not faced, against the brief"
        yield Flaw(subject=f"edges.faces: {side}", message=message, source=BRIEF)
    if wished:
        article, wanted = edges.fascia_article, wish.article or ""
        yield from same_text("edges.fascia_article", "not the brief's", article, wanted, BRIEF)


def articles_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless board, timber and screws are the articles of the brief."""
    brief, fixings = brief_of(witness), plan.fixings
    pairs = [("surface.board_article", surface_of(plan).board_article, brief.board.article)]
    if plan.frame is not None:
        timber = brief.frame.article or ""
        pairs.append(("frame.timber_article", plan.frame.timber_article, timber))
    if fixings is not None:
        deck = fixings.deck_screws.article if fixings.deck_screws else ""
        coach = fixings.coach_screws.article
        pairs.append(("fixings.deck_screws.article", deck, brief.fixings.screw or ""))
        pairs.append(("fixings.coach_screws.article", coach, brief.fixings.coach_screw or ""))
    for path, found, wanted in pairs:
        yield from same_text(path, "not the brief's article", found, wanted, BRIEF)


def rips_as_allowed(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each ripped row where the brief allows no ripping."""
    if not brief_of(witness).rows.may_rip:
        for row in surface_of(plan).rows:
            if row.ripped:
                message = "ripped, and the brief allows no ripping"
                yield Flaw(subject=row.mark, message=message, source=BRIEF)


def ends_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless boards run long by the brief's allowance, or not at all if cut first."""
    wish = brief_of(witness).board
    wanted = 0.0 if wish.ends == "cut_first" else wish.trim_allowance_mm
    allowance = pieces_of(plan).trim_allowance_mm
    wanted_320 = ticks(need(wanted, "trim allowance in the brief"))
    message = "not the brief's trim allowance"
    yield from same_length("pieces.trim_allowance_mm", message, allowance, wanted_320, BRIEF)


def lines_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw where counts of lines were weighed though the brief wants the fewest."""
    if brief_of(witness).frame.lines == "fewest" and counts_turned_down(plan):
        message = "other counts were weighed, but the brief wants the fewest joists"
        yield Flaw(subject="supports.line_count", message=message, source=BRIEF)


def joints_priced_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless a joint has the brief's price, else that of 100 mm of board."""
    wished = brief_of(witness).joints.price_each
    price = pieces_of(plan).joint_price
    if wished is None:
        stock = need(witness.stock, "stock as witness")
        board = need(board_of(plan, stock), "board in the stock")
        to_be_had = [sold for sold in board.lengths if sold.limit != 0] or board.lengths
        each = [100 * sold.price / Decimal(str(sold.length_mm)) for sold in to_be_had]
        minor_unit = Decimal(1).scaleb(-stock.minor_digits)
        wished = min(each).quantize(minor_unit, rounding=ROUND_CEILING)
    if price != wished:
        yield Flaw(
            subject="pieces.joint_price",
            message="not the brief's price of a joint, nor that of 100 mm of board",
            measured=float(price),
            limit=float(wished),
            unit="money",
            source=BRIEF,
        )


def _held(plan: Plan, witness: Witness) -> Iterator[tuple[Limit, Scalar, Given]]:
    """Yield each limit that the plan quotes and the witnesses can tell."""
    for limit in LIMITS:
        try:
            value = quoted(plan, limit)
        except NoSuchPath:
            continue
        ought = given(plan, limit, witness)
        if ought is not None:
            yield limit, value, _where_it_applies(plan, limit, ought)


def _where_it_applies(plan: Plan, limit: Limit, ought: Given) -> Given:
    """Return the limit as it holds here.

    Heads are sunk only into rims under a fascia, and where joists hang between bearers no coach
    screw has a head to sink; a smooth face has no grooves; a pair of joists needs no batten.
    """
    if limit.rule == "battens_per_joint" and paired(plan):
        return Given(value=0, source=None)
    finish = plan.fixings.finish if plan.fixings is not None else None
    if limit.rule == "groove_ratio" and finish is not None:
        up = finish.border_face_up if limit.border else finish.face_up
        return Given(value=0.0, source=None) if up == "smooth" else ought
    if limit.rule == "coach_screw_sink_mm":
        edges, ends = edges_of(plan), ends_of(surface_of(plan).run)
        if hung(plan) or thickness_at(edges, ends.near) + thickness_at(edges, ends.far) == 0:
            return Given(value=0.0, source=None)
    return ought


def limits_as_given(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each limit that is not what its highest-ranking source gives."""
    for limit, value, ought in _held(plan, witness):
        if not same_value(value, ought.value):
            yield Flaw(
                subject=limit.path,
                message=f"the plan quotes {value}, its source gives {ought.value}",
                measured=_figure(value),
                limit=_figure(ought.value),
                source=ought.source or RANKING,
            )


def _figure(value: Scalar) -> float | None:
    return float(value) if isinstance(value, int | float) else None


def sources_as_ranked(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each limit whose reason names another source than outranks."""
    decisions = {decision.path: decision for decision in plan.reasons.decisions}
    for limit, _value, ought in _held(plan, witness):
        decision = decisions.get(limit.path)
        kind = ought.source.kind if ought.source is not None else None
        if decision is not None and kind is not None and decision.source.kind != kind:
            message = f"its source is {decision.source.kind!r}, it should be {kind!r}"
            yield Flaw(subject=decision.path, message=message, source=RANKING)


def inputs_as_asked(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each input of a limit's reason that its family was not asked with.

    Where someone outranks the family, the reason may tell what would hold otherwise.
    """
    decisions = {decision.path: decision for decision in plan.reasons.decisions}
    for limit in LIMITS:
        decision, ruled = decisions.get(limit.path), below(plan, limit, witness)
        if decision is None or ruled is None:
            continue
        asked = {
            "otherwise": ruled.value,
            "family_sink_mm": ruled.value,
            **dict(ruled.inputs or ()),
        }
        for name, value in decision.inputs:
            plain = name.replace("border_", "board_", 1)  # a border is asked about as a board
            wanted = asked.get(name, asked.get(plain, value))
            if not same_value(value, wanted):
                message = f"{name} = {value}, its source was asked with {wanted}"
                yield Flaw(subject=decision.path, message=message, source=RANKING)


def ways_as_allowed(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each way out whose cover may change otherwise than the brief allows."""
    brief = brief_of(witness)
    for index, way in enumerate(surface_of(plan).ways_out):
        side = "across" if way.run == "along" else "along"
        allowed = {
            f"cover may {verb}": float(getattr(brief.cover, f"{verb}_{side}_mm"))
            for verb in ("grow", "shrink")
        }
        for rule in way.rules:
            limit = allowed.get(rule.rule, rule.limit)
            subject = f"surface.ways_out[{index}]: {rule.rule}"
            yield from same_length(
                subject, "not the brief's limit", rule.limit, ticks(limit), BRIEF
            )


def way_as_preferred(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw where a way out that is honest and priced comes earlier in the brief's order."""
    surface, order = surface_of(plan), brief_of(witness).rows.prefer
    rank = {kind: place for place, kind in enumerate(order)}
    last = len(rank)
    chosen = rank.get(surface.way_out, last)
    for way in surface.ways_out:
        if way.honest and way.cost is not None and rank.get(way.kind, last) < chosen:
            message = f"{surface.way_out} is chosen, the brief prefers {way.kind}"
            yield Flaw(subject="surface.way_out", message=message, source=BRIEF)


def cautions_as_given(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each caution of the family that the plan leaves out, and each other one."""
    given = need(witness.cautions, "the family's cautions")
    if plan.tiling is not None or plan.tiles is not None:
        idle: tuple[str, ...] = () if makes_silica(plan) else ("silica",)
        idle += () if plan.frame is not None else ("treated", "preserver", "copper")
        given = tuple(text for text in given if not any(word in text.lower() for word in idle))
    yield from _same_lines("cautions", plan.cautions, given)


def not_checked_as_given(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each thing that nobody checks and the plan does not say so."""
    given = need(witness.not_checked, "what every plan does not check")
    yield from _same_lines("not_checked", plan.not_checked, given)


def _same_lines(part: str, told: tuple[str, ...], given: tuple[str, ...]) -> Iterator[Flaw]:
    for text in dict.fromkeys((*given, *told)):
        if (text in given) != (text in told):
            message = "left out" if text in given else "put in by somebody else"
            yield Flaw(subject=f"{part}: {text[:60]}", message=message, source=BRIEF)


#: Limits that a lower wish loosens, besides those whose name says `least`.
LOWER_IS_LOOSER = ("pieces.stagger_bays", "pieces.border.stagger_bays", "fixings.finish.coats",
                   "supports.joists_under_joint", "supports.battens_per_joint",
                   "pieces.movement.hottest_c")  # fmt: skip


def loosened_is_told(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each wish of the brief looser than the rule below it, and untold."""
    brief = brief_of(witness)
    told = {finding.subject for finding in plan.findings if finding.code == "MAT-002"}
    overridden = {override.path for override in brief.overrides}
    for limit in LIMITS:
        wish, ought = wish_here(plan, brief, limit), below(plan, limit, witness)
        ruled = None if ought is None else ought.value
        if limit.path in overridden | told or not isinstance(wish, int | float):
            continue
        battens = limit.path == JOISTS and brief.joints.support == "batten"
        if isinstance(ruled, int | float) and _looser(limit.path, wish, ruled):
            if battens and _do_for_pairs(plan, witness):
                continue
            message = "a wish looser than its rule, and no finding tells it"
            yield Flaw(
                subject=limit.path, message=message, measured=wish, limit=ruled, source=RANKING
            )


def _do_for_pairs(plan: Plan, witness: Witness) -> bool:
    """Return whether battens under joints do for field and border, wherever pairs are wanted."""
    wanted, battens = (each_below(plan, path, witness) for path in (JOISTS, BATTEN_FOR_PAIR))
    return not [1 for joists, does in zip(wanted, battens, strict=True) if joists > 1 and not does]


def _looser(path: str, wish: float, ruled: float) -> bool:
    name = path.rsplit(".", 1)[-1]
    if path in LOWER_IS_LOOSER or "least" in name:
        return wish < ruled
    return "most" in name and wish > ruled


def digests_as_found(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each digest that is not that of the witness at hand."""
    pairs = (
        ("brief", plan.digests.brief, witness.brief_digest),
        ("stock", plan.digests.stock, witness.stock_digest),
    )
    for name, told, found in pairs:
        if found is not None:
            yield from same_text(f"digests.{name}", "another digest", told, found, BRIEF)


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W01", "title, units and use are the brief's", said_as_wished),
    ("AUD-W02", "boards run as the brief wants or allows", boards_run_as_wished),
    ("AUD-W03", "the cover is the wished one, changed as allowed", cover_as_wished),
    ("AUD-W04", "the wished sides carry the wished fascia", fascia_as_wished),
    ("AUD-W05", "articles are the brief's", articles_as_wished),
    ("AUD-W06", "nothing is ripped against the brief", rips_as_allowed),
    ("AUD-W07", "boards run long as the brief says", ends_as_wished),
    (
        "AUD-W08",
        "a joint has the brief's price, or that of 100 mm of board",
        joints_priced_as_wished,
    ),
    ("AUD-W09", "every limit is what its source gives", limits_as_given),
    ("AUD-W10", "every limit names the source that outranks", sources_as_ranked),
    ("AUD-W12", "inputs of reasons are what the families were asked with", inputs_as_asked),
    ("AUD-W13", "ways out change the cover as the brief allows", ways_as_allowed),
    ("AUD-W14", "the way out is the first the brief prefers", way_as_preferred),
    ("AUD-W15", "joists are the fewest unless the brief asks for the cheapest", lines_as_wished),
    ("AUD-W16", "cautions are the family's own", cautions_as_given),
    ("AUD-W17", "what was not checked is told in full", not_checked_as_given),
    ("AUD-W18", "a wish looser than its rule stands among the findings", loosened_is_told),
    ("AUD-W11", "digests are those of the witnesses", digests_as_found),
    *LOCAL,
    *SHOPS,
    *board_record.CHECKS,
    *board_asks.HELD,
    *border_seen.CHECKS,
    *HELD,
    *COATS,
    *CLIPS,
    *ground_seen.CHECKS,
    *SITE,
    *WISHES,
    *TILES,
)
