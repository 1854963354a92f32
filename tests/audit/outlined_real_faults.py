"""Faults planted in real plans of decks on an outline: what the hand-made L does not have."""

from collections.abc import Callable
from typing import Any

from attrs import evolve

from audit.outlined_planting import board, member
from audit.outlined_real import garden, leaning, long_joists, reference, wedge
from audit.outlined_sample import box, spot, spots
from audit.planting import Edit, both, by, to, without
from drylay.cutting.model import Beside, Line
from drylay.plan.model import Plan
from drylay.subframe.model import Member


def bordered() -> Plan:
    return reference("S10")


def jointed() -> Plan:
    return reference("S12")


def splayed() -> Plan:
    return reference("S09")


def _ledge(plan: Plan) -> Member:
    """Return the ledge under the panel's ends that lie nearest to the datum."""
    assert plan.subframe is not None
    assert plan.outline is not None
    left = min(spot.along_mm for spot in plan.outline.openings[1].corners)
    own = [each for each in plan.subframe.members if each.side == "O2" and each.kind == "trimmer"]
    return next(each for each in own if min(s.along_mm for s in each.corners) == left)


def ledge_as(**more: object) -> Edit:
    """Return the edit that tells that ledge otherwise."""
    return lambda plan: member(_ledge(plan).mark, **more)(plan)


def ledge_in(by_mm: float) -> Edit:
    """Return the edit that moves that ledge so far into the hole."""

    def run(plan: Plan) -> Plan:
        ledge = _ledge(plan)
        corners = tuple(evolve(spot, along_mm=spot.along_mm + by_mm) for spot in ledge.corners)
        return member(ledge.mark, corners=corners)(plan)

    return run


def no_ledge(plan: Plan) -> Plan:
    """Return the plan without that ledge."""
    assert plan.subframe is not None
    mark = _ledge(plan).mark
    members = tuple(each for each in plan.subframe.members if each.mark != mark)
    return to("subframe.members", members)(plan)


def span_told(span_mm: float | None) -> Edit:
    """Return an edit of what the plan tells of a panel's span; None for nothing."""

    def run(plan: Plan) -> Plan:
        others = tuple(each for each in plan.findings if each.code != "OUT-025")
        told = [each for each in plan.findings if each.code == "OUT-025"]
        more = () if span_mm is None else tuple(evolve(each, measured=span_mm) for each in told)
        return evolve(plan, findings=(*others, *more))

    return run


def told_sharp(**changes: Any) -> Edit:
    """Return an edit of the caution on sharp ends."""

    def run(plan: Plan) -> Plan:
        return evolve(plan, findings=tuple(
            evolve(each, **changes) if each.code == "FIX-026" else each for each in plan.findings
        ))  # fmt: skip

    return run


def unbarred(plan: Plan) -> Plan:
    """Return the plan without the hold that nobody stands on its panel at the hand-over."""
    assert plan.work is not None
    at = next(n for n, task in enumerate(plan.work.tasks) if task.kind == "hand_over")
    kept = tuple(h for h in plan.work.tasks[at].holds if h.mark != "panels_barred")
    return both(to(f"work.tasks[{at}].holds", kept), by("work.holds", -1))(plan)


LINE = "buying.purchases[0].proof.task.lines[0]"
TASK = "buying.purchases[0].proof.task"
#: Less than the fascia wide, outside the rim of the leaning side.
OVER_FASCIA = spots((3045.0, 0.0), (3060.0, 0.0), (3045.0, 217.0))
SHORT = Line(count=1, start=0, end=320000, stations=(160000,))

REAL_FAULTS: tuple[tuple[str, str, Callable[[], Plan], Edit], ...] = (
    ("AUD-797", "no fascia under a tip", wedge, without("subframe.facings", 0)),
    ("AUD-797", "no rim behind the fascia", wedge, without("subframe.members", 1)),
    ("AUD-989", "a scrap over fascia, untold", wedge, board("B1.1", corners=OVER_FASCIA)),
    ("AUD-980", "a crossing more", garden, by("fixings.deck_screws.crossings", 1)),
    ("AUD-980", "a joint more", garden, by("fixings.deck_screws.joints", 1)),
    ("AUD-980", "a screw more", garden, by("fixings.deck_screws.count", 1)),
    ("AUD-980", "a joint elsewhere", jointed, by("laying.joints[0].at.along_mm", 300.0)),
    ("AUD-981", "an end more", garden, by("fixings.coach_screws.joist_ends", 1)),
    ("AUD-981", "a coach screw more", garden, by("fixings.coach_screws.count", 1)),
    ("AUD-981", "a noggin end more", garden, by("fixings.frame_screws.noggin_ends", 1)),
    ("AUD-981", "a splice side more", jointed, by("fixings.frame_screws.splice_sides", 1)),
    ("AUD-981", "a frame screw more", garden, by("fixings.frame_screws.count", 1)),
    ("AUD-982", "a fascia screw more", garden, by("fixings.fascia_screws.count", 1)),
    ("AUD-982", "on no fascia", garden, to("fixings.fascia_screws.places[0].fascia", "F99")),
    ("AUD-982", "nothing holds it", garden, to("fixings.fascia_screws.places", ())),
    ("AUD-982", "beside its end", garden, to("fixings.fascia_screws.places[0].offset_mm", 1.0)),
    ("AUD-982", "far apart", garden, to("fixings.fascia_screws.spacing_most_mm", 200.0)),
    ("AUD-982", "over a screw behind", garden, to("fixings.fascia_screws.clear_mm", 500.0)),
    ("AUD-997", "sharp ends not told", leaning, to("findings", ())),
    ("AUD-997", "an end sharper than told", leaning, told_sharp(measured=65.0)),
    ("AUD-997", "another limit", leaning, told_sharp(limit=70.0)),
    ("AUD-997", "another member named", leaning, told_sharp(subject="J99")),
    ("AUD-990", "no stations told", jointed, to("laying.stations_met", ())),
    ("AUD-990", "no lines of a set", jointed, to("laying.stations_met[0]", ())),
    ("AUD-990", "a joint not told", jointed, to("laying.stations_met[0][0]", ())),
    ("AUD-990", "a station that is none", jointed, to("laying.stations_met[0][0]", (99,))),
    ("AUD-985", "a line fewer", jointed, by(f"{LINE}.count", -1)),
    ("AUD-985", "another length", jointed, by(f"{LINE}.end", 3200)),
    ("AUD-985", "a station fewer", jointed, without(f"{LINE}.stations", 3)),
    ("AUD-986", "another gap", jointed, by(f"{LINE}.joint_gap", 320)),
    ("AUD-986", "another stagger", jointed, by(f"{LINE}.stagger", 1)),
    ("AUD-986", "other bays", jointed, by(f"{LINE}.least_bays", 1)),
    ("AUD-986", "longer pieces asked", jointed, to("laying.least_piece_mm", 1500.0)),
    ("AUD-987", "beside what is not", jointed, to(f"{TASK}.beside", (Beside(one=0, other=1),))),
    ("AUD-803", "a piece more", garden, to(f"{TASK}.pieces[0].count", 9)),
    ("AUD-807", "another price", jointed, by(f"{TASK}.joint_price", 5)),
    ("AUD-806", "a line of timber", jointed, to("buying.purchases[1].proof.task.lines", (SHORT,))),
    ("AUD-702", "a piece not sawn", garden, without("buying.purchases[0].lengths[0].pieces", 0)),
    ("AUD-758", "a span not told", garden, span_told(None)),
    ("AUD-916", "a panel barred, and no hold for it", garden, unbarred),
    ("AUD-758", "another span", garden, span_told(400.0)),
    ("AUD-758", "a span that is short enough", garden, to("subframe.square_centres_mm", 600.0)),
    ("AUD-757", "another way off the ledges", garden, by("outline.openings[1].clear_mm", 5.0)),
    ("AUD-757", "a ledge over the cover", garden, ledge_in(50.0)),
    ("AUD-800", "a ledge that the panel's ends do not reach", garden, ledge_in(25.0)),
    ("AUD-800", "no ledge", garden, no_ledge),
    ("AUD-798", "a ledge of another opening", garden, ledge_as(side="O1")),
    ("AUD-798", "a joist for a ledge", garden, ledge_as(kind="joist")),
    (
        "AUD-771",
        "a panel's board short",
        garden,
        board("H1.1", corners=box(3600.0, 1000.0, 4000.0, 1145.0)),
    ),
    ("AUD-774", "another splay", splayed, by("laying.pieces[0].end_deg", 1.0)),
    (
        "AUD-935",
        "a border board elsewhere",
        bordered,
        board("K1.1", corners=box(0.0, 10.0, 4180.0, 155.0)),
    ),
    ("AUD-998", "a mitre square", bordered, board("K1.1", start_deg=0.0)),
    ("AUD-998", "a mitre the other way", bordered, board("K1.2", end_deg=45.0)),
    ("AUD-998", "a mitre marked out", bordered, board("K1.3", shaped=True)),
    ("AUD-935", "another letter", bordered, board("K1.1", mark="B99.1")),
    ("AUD-936", "a mitre elsewhere", bordered, to("laying.mitres[0].start", spot((100.0, 0.0)))),
    ("AUD-936", "a mitre crooked", bordered, to("laying.mitres[0].end", spot((145.0, 150.0)))),
    ("AUD-936", "a longer mitre", bordered, by("laying.mitres[0].length_mm", 1.0)),
    ("AUD-936", "another saw", bordered, by("laying.mitres[0].saw_deg", 1.0)),
    ("AUD-936", "a mitre of one board", bordered, to("laying.mitres[0].pieces", ("K1.1",))),
    ("AUD-937", "one opens more", bordered, by("laying.mitres[1].opens_mm", 1.0)),
    ("AUD-937", "one untold", bordered, to("laying.mitres[1].opens_mm", None)),
    (
        "AUD-775",
        "borders over each other",
        bordered,
        board("K1.1", corners=box(0.0, 0.0, 4180.0, 145.0)),
    ),
    ("AUD-761", "a field off its border", bordered, to("laying.end_gap_mm", 9.0)),
    ("AUD-931", "a seam beside", bordered, by("subframe.seams[0].start.along_mm", 20.0)),
    (
        "AUD-799",
        "a trimmer laden",
        garden,
        both(member("J2", start_on="U1"), member("J3", start_on="U1")),
    ),
    ("AUD-792", "no joint where it ends", long_joists, member("J3.1", end_deg=1.0)),
    ("AUD-988", "a short length", long_joists, member("J3.2", length_mm=1100.0)),
    ("AUD-988", "borne over a joint", long_joists, member("J3.2", start_on="J2.1")),
    ("AUD-988", "a splice elsewhere", long_joists, member("S5", corners=box(0, 0, 600, 45))),
    (
        "AUD-932",
        "no splice",
        jointed,
        both(
            to(
                "subframe.members",
                tuple(
                    each
                    for each in jointed().subframe.members
                    if each.kind != "splice"  # type: ignore[union-attr]
                ),
            ),
        ),
    ),
)
