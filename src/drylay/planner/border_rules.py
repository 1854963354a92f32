"""Rules of a deck with a border: its own for its rows, the stricter of both for what they share."""

from attrs import evolve

from drylay.brief.model import Brief, GapWish, RowsWish
from drylay.findings import Finding
from drylay.planner.border_asked import asked_of_both
from drylay.planner.governed import GOVERNED, GovernedPath
from drylay.planner.job import Articles, Governance
from drylay.planner.metals import with_metals
from drylay.planner.rules import govern
from drylay.plugins.model import FamilySet
from drylay.reasons import Ruling, TurnedDown

SCREWS = "fixings.border_screws"
#: Where the border's own answer stands, by the path of the field's.
OWN = {
    "surface.gap_least_mm": "surface.border.gap_least_mm",
    "surface.gap_preferred_mm": "surface.border.gap_preferred_mm",
    "surface.gap_most_mm": "surface.border.gap_most_mm",
    "surface.timber": "surface.border.timber",
    "pieces.end_gap_mm": "pieces.border.end_gap_mm",
    "pieces.end_bearing_least_mm": "pieces.border.end_bearing_least_mm",
    "pieces.least_supports": "pieces.border.least_supports",
    "pieces.stagger_bays": "pieces.border.stagger_bays",
    "pieces.least_piece_mm": "pieces.border.least_piece_mm",
    "pieces.handed": "pieces.border.handed",
    "pieces.movement.growth_per_k": "pieces.border.movement.growth_per_k",
    "pieces.movement.hottest_c": "pieces.border.movement.hottest_c",
    "fixings.deck_screws.per_crossing": f"{SCREWS}.per_crossing",
    "fixings.deck_screws.length_least_mm": f"{SCREWS}.length_least_mm",
    "fixings.deck_screws.edge_least_mm": f"{SCREWS}.edge_least_mm",
    "fixings.deck_screws.end_least_mm": f"{SCREWS}.end_least_mm",
    "fixings.deck_screws.predrill_all": f"{SCREWS}.predrill_all",
    "fixings.deck_screws.pilot_ratio": f"{SCREWS}.pilot_ratio",
    "fixings.board_use_class_least": "fixings.border_use_class_least",
    "fixings.seal_board_ends": "fixings.seal_border_ends",
    "fixings.wax_board_ends": "fixings.wax_border_ends",
    "fixings.board_finish_coats": "fixings.border_finish_coats",
    "fixings.finish.groove_ratio": "fixings.finish.border_groove_ratio",
    "buying.delivery.density_kg_m3": "buying.delivery.border_density_kg_m3",
    "buying.delivery.extra_mass_kg_m2": "buying.delivery.border_extra_mass_kg_m2",
}
#: What inputs on a board are called where the border's answers for the whole deck.
BORDERS = {
    "board_width_mm": "border_width_mm", "board_thickness_mm": "border_thickness_mm",
    "board_length_mm": "border_length_mm", "groove_mm": "border_groove_mm",
}  # fmt: skip
#: What frame and coatings share: the stricter answer governs.
SHARED = (
    "surface.fall_least_ratio", "surface.combustible", "supports.most_centres_mm",
    "frame.noggin_spacing_most_mm",
    "fixings.coach_screws.per_joist_end", "fixings.coach_screws.length_least_mm",
    "fixings.frame_screws.per_noggin_end", "fixings.frame_screws.per_splice_side",
    "fixings.frame_screws.length_least_mm", "fixings.fascia_screws.per_place",
    "fixings.fascia_screws.spacing_most_mm", "fixings.fascia_screws.end_least_mm",
    "fixings.fascia_screws.length_least_mm", "fixings.frame_use_class_least",
    "fixings.preserver.coats", "fixings.finish.coats", "supports.joists_under_joint",
    "supports.battens_per_joint", "supports.batten_for_pair", "supports.overhang_most_mm",
    "site.wall_gap_least_mm", "site.air_below_least_mm",
    "buying.delivery.frame_density_kg_m3",
)  # fmt: skip


def of_the_border(brief: Brief, articles: Articles) -> tuple[Brief, Articles]:
    """Return brief and articles as if the border's board were all there is.

    Wishes on gaps and rips speak of the field; overrides of what both share hold for both.
    """
    assert articles.border is not None
    board = evolve(
        brief.board,
        article=articles.border.code,
        measured_width_mm=brief.border.measured_width_mm,
        face_up=None,
    )
    kept = tuple(override for override in brief.overrides if override.path in SHARED)
    alone = evolve(brief, board=board, gap=GapWish(), rows=RowsWish(), overrides=kept)
    return alone, evolve(articles, board=articles.border)


def with_border(
    rules: Governance, brief: Brief, articles: Articles, families: FamilySet
) -> Governance:
    """Return the rules with those of the border, where the brief has one."""
    if articles.border is None:
        return rules
    alone, own_articles = of_the_border(brief, articles)
    own = with_metals(govern(alone, own_articles, families), alone, own_articles, families)
    moved = {there: own.rulings[here] for here, there in OWN.items() if here in own.rulings}
    shared = {
        governed.path: _stricter(governed, rules.rulings[governed.path], own, articles)
        for governed in GOVERNED
        if governed.path in SHARED and {governed.path} <= rules.rulings.keys() & own.rulings.keys()
    }
    return evolve(
        rules,
        rulings={
            **rules.rulings,
            **{path: ruling for path, (ruling, _) in shared.items()},
            **moved,
        },
        findings=(
            *rules.findings,
            *_told_of_the_border(own, rules.findings),
            *asked_of_both((brief, articles), (alone, own_articles), families),
        ),
        border_metals=own.metals,
        turned_down={path: left for path, (_, left) in shared.items() if left},
    )


def _stricter(
    governed: GovernedPath, field: Ruling, own: Governance, articles: Articles
) -> tuple[Ruling, tuple[TurnedDown, ...]]:
    """Return the ruling that is stricter, the field's of equals, and what the other would allow."""
    border = _asked_of_the_border(own.rulings[governed.path])
    over = (float(border.value or 0) - float(field.value or 0)) * governed.looser
    if not over:
        return _outranking(governed, field, border), ()
    board = articles.border if over > 0 else articles.board
    looser, stricter = (border, field) if over > 0 else (field, border)
    part = {True: "border", False: "field"}
    code = board.code if board else ""
    told = f"the {part[over > 0]}'s {code}: {looser.rule}; of both the stricter holds"
    ruling = evolve(stricter, rule=f"the {part[over < 0]}'s: {stricter.rule}")
    return ruling, (TurnedDown(value=looser.value, because=told),)


def _asked_of_the_border(ruling: Ruling) -> Ruling:
    """Return a ruling whose inputs say that it was the border's board which was asked about."""
    return evolve(
        ruling, inputs=tuple((BORDERS.get(name, name), value) for name, value in ruling.inputs)
    )


def _outranking(governed: GovernedPath, field: Ruling, border: Ruling) -> Ruling:
    """Return the one of two equal rulings that outranks the stricter rule: a wish has both."""
    outranked = [dict(ruling.inputs).get("otherwise") for ruling in (field, border)]
    if not all(isinstance(value, int | float) for value in outranked):
        return field
    one, other = (float(value or 0) for value in outranked)
    return border if (other - one) * governed.looser < 0 else field


def _told_of_the_border(own: Governance, told: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return what the border's rules say that the field's have not said, at the border's paths."""
    found = []
    for finding in own.findings:
        subject = OWN.get(finding.subject, finding.subject)
        if subject != finding.subject or subject in SHARED or subject.startswith("fixings of "):
            moved = evolve(finding, subject=subject)
            found += [] if moved in told else [moved]
    return tuple(found)
