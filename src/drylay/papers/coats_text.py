"""In words: what is brushed on."""

from drylay.buying.model import PackPurchase
from drylay.fixings.model import Finish, Preserver
from drylay.papers.quantities import area, litres, pack_told
from drylay.papers.wording import clean, many
from drylay.plan.model import Plan

HOLES = "{} and other holes are not counted: give them preserver as well, before anything goes in."
BRUSHED_FIRST = (
    "Preserver goes on each end after sawing and before it is hidden, and between its coats dries "
    "as the tin says."
)
NO_FINISH = "{} boards want no finish: none is in the order, and none is brushed on them."
NO_PRESERVER = "The {} own ends want no preserver: the {}frame's do."
LATER = (
    "Finish goes on dry timber: wait until it is under 20 % moisture (common practice, no "
    "source). What the tin says comes first."
)


def coats_told(plan: Plan) -> list[str]:
    """Return what is brushed on, a line each."""
    if plan.fixings is None:
        return []
    preserver = plan.fixings.preserver
    return [
        *((parts_told(preserver, plan.units),) if preserver is not None else ()),
        *brushed_told(plan),
    ]


def parts_told(preserver: Preserver, units: str) -> str:
    """Return how many ends of each kind of piece are sawn, and their area."""
    told = (
        f"{clean(part.what, 40)} {part.ends}, {area(part.area_m2, units)}"
        for part in preserver.parts
    )
    return f"Sawn ends: {'; '.join(told)}."


def brushed_told(plan: Plan) -> list[str]:
    """Return how much of what is brushed on in all, and when."""
    if plan.fixings is None:
        return []
    preserver, finish = plan.fixings.preserver, plan.fixings.finish
    return [
        *(preserver_told(plan, preserver) if preserver is not None else ()),
        *board_ends_told(plan),
        *(finish_told(plan, finish) if finish is not None else ()),
        *no_finish_told(plan),
    ]


def preserver_told(plan: Plan, preserver: Preserver) -> list[str]:
    """Return how much preserver is for how many ends."""
    coach = plan.fixings is not None and plan.fixings.coach_screws.joist_ends
    units = plan.units
    ripped = preserver.ripped_m2
    edges = f", {area(ripped, units)} of it ripped edges" if ripped else ""
    return [
        f"End-grain preserver {clean(preserver.article, 40)}: "
        f"{many(preserver.ends, 'sawn end')}, {area(preserver.area_m2, units)}{edges}; "
        f"{many(preserver.coats, 'coat')}: {litres(preserver.need_ml, units)}"
        f"{tins_told(plan, preserver.article)}.",
        BRUSHED_FIRST,
        HOLES.format("Holes of coach screws, notches" if coach else "Notches"),
    ]


def board_ends_told(plan: Plan) -> list[str]:
    """Return what the boards' own sawn ends get, where that is not preserver alone."""
    fixings, units = plan.fixings, plan.units
    if fixings is None:
        return []
    wax = fixings.wax
    bare = {"boards'": fixings.seal_board_ends, "border boards'": fixings.seal_border_ends}
    field = "field's and the " if fixings.seal_board_ends is not False else ""
    told = [NO_PRESERVER.format(what, field) for what, sealed in bare.items() if sealed is False]
    if wax is not None:
        told.append(
            f"End-grain wax {clean(wax.article, 40)}: {many(wax.ends, 'sawn end')} of boards, "
            f"{area(wax.area_m2, units)}, once: {litres(wax.need_ml, units)}"
            f"{tins_told(plan, wax.article)}. Within hours of sawing."
        )
    return told


def no_finish_told(plan: Plan) -> list[str]:
    """Return which boards want no finish."""
    fixings = plan.fixings
    if fixings is None:
        return []
    field, border = fixings.board_finish_coats == 0, fixings.border_finish_coats == 0
    if field and (border or fixings.border_finish_coats is None):
        return [NO_FINISH.format("The")]
    return [NO_FINISH.format(who) for who, none in (("The field's", field),
                                                    ("The border's", border)) if none]  # fmt: skip


def finish_told(plan: Plan, finish: Finish) -> list[str]:
    """Return how much finish is for what."""
    units = plan.units
    more = ", grooves reckoned in" if finish.groove_ratio or finish.border_groove_ratio else ""
    up = f", {clean(finish.face_up, 20)} face up" if finish.boards_m2 else ""
    faces = f" and fascia's outer faces {area(finish.fascia_m2, units)}" if finish.fascia_m2 else ""
    return [
        f"Finish {clean(finish.article, 40)}: {_tops_told(finish, units)}{faces}{up}; "
        f"{many(finish.coats, 'coat')} on {area(finish.area_m2, units)}{more}: "
        f"{litres(finish.need_ml, units)}{tins_told(plan, finish.article)}.",
        LATER,
    ]


def _tops_told(finish: Finish, units: str) -> str:
    """Return the tops that are brushed: those of boards that want no finish are left out."""
    told = [f"boards' tops {area(finish.boards_m2, units)}"] if finish.boards_m2 else []
    if finish.border_m2:
        up = clean(finish.border_face_up, 20)
        told.append(f"the border's {area(finish.border_m2, units)} {up} face up")
    return ", ".join(told)


def tins_told(plan: Plan, article: str) -> str:
    """Return which tins are bought of a coating; "" where none is."""
    packs: tuple[PackPurchase, ...] = plan.buying.packs if plan.buying else ()
    tins = [
        f"{box.packs} x {pack_told(box.pack, pack.unit, plan.units)}"
        for pack in packs
        if pack.article == article
        for box in pack.packs
    ]
    return f"; bought: {', '.join(tins)}" if tins else ""
