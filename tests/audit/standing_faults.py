"""Planted faults in a deck that stands: levels, places, what holds it, what is sawn of it."""

from attrs import evolve

from audit.edits import at, put
from audit.planting import Edit, Fault, both, by, finding, to, turned, twice, without
from drylay.findings import Severity
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.raised.model import Brace, PlyJoint
from drylay.strength.model import Section

F = "raised.frame"
POST, ROW, BEARER = f"{F}.posts[4]", f"{F}.schedule[4]", f"{F}.bearers[1]"
LEDGER = f"{F}.ledger"
STOPPED = to("findings", (finding(severity=Severity.STOP),))


def calm(*codes: str) -> Edit:
    """Return an edit that leaves out findings of some codes."""

    def run(plan: Plan) -> Plan:
        return evolve(plan, findings=tuple(f for f in plan.findings if f.code not in codes))

    return run


def without_braces(*ways: str, post: str = "") -> Edit:
    """Return an edit that leaves out braces of some ways, of one post or of all."""

    def run(plan: Plan) -> Plan:
        braces = at(plan, f"{F}.bracing.braces")
        kept = tuple(b for b in braces if b.way not in ways or post not in {"", b.post})  # type: ignore[attr-defined]
        return put(plan, f"{F}.bracing.braces", kept)

    return run


def moved(mark: str, along_mm: float) -> Edit:
    """Return an edit that moves a post and its row of the schedule along its bearer."""

    def run(plan: Plan) -> Plan:
        posts = at(plan, f"{F}.posts")
        index = [post.mark for post in posts].index(mark)  # type: ignore[attr-defined]
        plan = put(plan, f"{F}.posts[{index}].place.along_mm", along_mm)
        return put(plan, f"{F}.schedule[{index}].along_mm", along_mm)

    return run


LEVELS: tuple[Fault, ...] = (
    ("AUD-310", "a post cut short", by(f"{POST}.length_mm", -1.0)),
    ("AUD-310", "a top that nothing reaches", by(f"{POST}.top_mm", 1.0)),
    ("AUD-310", "a deck a board higher", by(f"{F}.heights.finished_mm", 28.0)),
    ("AUD-310", "a post sawn without what runs into concrete", by(f"{POST}.embed_mm", 400.0)),
    ("AUD-310", "another top than the posts'", by("raised.post_top_mm", 1.0)),
    ("AUD-311", "boards thicker than they are", by(f"{F}.heights.board_mm", 1.0)),
    ("AUD-311", "braces over another height", by("raised.brace_over_mm", 1.0)),
    ("AUD-311", "a shallower bearer", by(f"{BEARER}.section.depth_mm", -20.0)),
    ("AUD-311", "a post on a higher foot", by(f"{POST}.stand_off_mm", 1.0)),
    ("AUD-311", "on a foot and in concrete", to(f"{F}.heights.embed_mm", 400.0)),
    ("AUD-311", "another top than the site's", by("site.levels.deck_top_mm", 1.0)),
    ("AUD-312", "a row left out", without(f"{F}.schedule", 4)),
    ("AUD-312", "another length scheduled", by(f"{ROW}.length_mm", 1.0)),
    ("AUD-312", "cut above the datum", by(f"{ROW}.cut_below_mm", -10.0)),
    ("AUD-312", "a row of another post", to(f"{ROW}.mark", "PO99")),
    ("AUD-312", "braces unscheduled", to(f"{ROW}.braces", ())),
    ("AUD-313", "a braced post called plain", to(f"{POST}.height_class", "plain")),
    ("AUD-313", "so high a deck passed", to(f"{F}.heights.screened_mm", 600.0)),
    ("AUD-313", "the plan's own limit of height raised", both(
        to(f"{F}.heights.screened_mm", 5000.0), by(f"{F}.heights.finished_mm", 2000.0))),
    ("AUD-313", "a post too short, hushed up", both(
        to(f"{F}.heights.short_mm", 200.0), calm("RSD-003"))),
    ("AUD-313", "a post of nothing", to(f"{POST}.length_mm", 0.0)),
    ("AUD-314", "ground that lies nowhere under the deck", by(f"{POST}.ground_mm", 500.0)),
    ("AUD-314", "ground lower than any", by(f"{POST}.ground_mm", -500.0)),
    ("AUD-314", "a hollow deeper than is screened", by("site.levels.ground_least_mm", -1500.0)),
    ("AUD-314", "ground that nobody knows", to("site.levels.ground_least_mm", None)),
)  # fmt: skip

PLACES: tuple[Fault, ...] = (
    ("AUD-315", "a bearer past the frame", to(f"{BEARER}.across_mm", 3100.0)),
    ("AUD-315", "a bearer behind the house", to(f"{F}.bearers[0].across_mm", -100.0)),
    ("AUD-315", "a bearer that ends past the frame", by(f"{BEARER}.end_mm", 100.0)),
    ("AUD-315", "a bearer of another mark", to(f"{BEARER}.mark", "BR9")),
    ("AUD-315", "bearers in one another", to(f"{BEARER}.across_mm", 300.0)),
    ("AUD-316", "a bearer that starts beside the first joist", by(f"{BEARER}.start_mm", 45.0)),
    ("AUD-316", "a bearer that ends short of the last", by(f"{BEARER}.end_mm", -1.0)),
    ("AUD-317", "a post off its bearer", to(f"{POST}.place", Spot(along_mm=4000.0, across_mm=1.0))),
    ("AUD-317", "a post past its bearer's end", moved("PO1", 10.0)),
    ("AUD-317", "a post past its bearer's other end", moved("PO6", 6100.0)),
    ("AUD-317", "two posts in one place", moved("PO2", 300.0)),
    ("AUD-317", "a post under no bearer", to(f"{POST}.bearer", "BR99")),
    ("AUD-317", "a post of another mark", to(f"{POST}.mark", "PO99")),
    ("AUD-317", "posts out of order", turned(f"{F}.posts", 0, 10)),
    ("AUD-317", "a bearer on one post", to(f"{F}.posts", ())),
    ("AUD-318", "a joists' span told short", by("raised.joist_span_mm", -10.0)),
    ("AUD-318", "a joists' free end told short", by("raised.joist_end_mm", -10.0)),
    ("AUD-318", "a bearers' span told short", by("raised.bearer_span_mm", -10.0)),
    ("AUD-318", "a bearers' free end told short", by("raised.bearer_end_mm", -10.0)),
    ("AUD-319", "a bearer said to carry less", by(f"{BEARER}.carried_mm", -100.0)),
    ("AUD-319", "another way of sharing", to("raised.sharing", "by guess")),
    ("AUD-319", "joists on one line", to(f"{F}.bearers", ())),
    ("AUD-320", "a ply jointed over the first post", to(f"{BEARER}.joints[0].post", 1)),
    ("AUD-320", "a ply jointed beside its post", by(f"{BEARER}.joints[0].at_mm", 30.0)),
    ("AUD-320", "a ply that is none", to(f"{BEARER}.joints[0].ply", 3)),
    ("AUD-320", "two plies jointed over one post", to(
        f"{BEARER}.joints", tuple(PlyJoint(ply=ply, post=3, at_mm=2423.0) for ply in (1, 2)))),
    ("AUD-321", "a line too many", by("raised.line_count", 1)),
    ("AUD-321", "a post too few", by("raised.post_count", -1)),
)  # fmt: skip

BRACE = Brace(mark="K99", post="PO1", way="along", hand=1, leg_mm=250.0, length_mm=353.553125)
HELD: tuple[Fault, ...] = (
    ("AUD-324", "a brace left out", without(f"{F}.bracing.braces", 0)),
    ("AUD-324", "a brace of a low post", to(f"{F}.bracing.braces", (BRACE,))),
    ("AUD-324", "a brace told twice", twice(f"{F}.bracing.braces", 0)),
    ("AUD-324", "a high post unbraced one way", without_braces("along", post="PO5")),
    ("AUD-324", "all braces away from the house, hushed up", both(
        lambda plan: put(plan, f"{F}.bracing.braces", tuple(
            b for b in at(plan, f"{F}.bracing.braces") if b.way == "along" or b.hand == 1)),  # type: ignore[attr-defined]
        calm("RSD-006"))),
    ("AUD-324", "braces over another height than told", by(f"{F}.bracing.over_mm", 10.0)),
    ("AUD-325", "a brace cut short", by(f"{F}.bracing.braces[0].length_mm", -1.0)),
    ("AUD-325", "a brace of another leg", by(f"{F}.bracing.braces[0].leg_mm", 1.0)),
    ("AUD-325", "a brace of another mark", to(f"{F}.bracing.braces[0].mark", "K9")),
    ("AUD-325", "legs that miss the post", to(f"{F}.bracing.leg_mm", 150.0)),
    ("AUD-325", "legs longer than posts", to(f"{F}.bracing.leg_mm", 1500.0)),
    ("AUD-326", "joists past the frame", by(f"{F}.joist_to_mm", 500.0)),
    ("AUD-326", "joists short of a bearer", to(f"{F}.joist_to_mm", 1500.0)),
    ("AUD-327", "a bearer's piece cut short", by("raised.pieces[0].length_mm", -1.0)),
    ("AUD-327", "a piece left out", without("raised.pieces", 0)),
    ("AUD-327", "a post sawn as a brace", to("raised.pieces[14].kind", "braces")),
    ("AUD-327", "a bearer of other timber than told", to("raised.bearer_article", "BE-9")),
    ("AUD-327", "posts of other timber than told", to("raised.post", "oak")),
    ("AUD-327", "three plies told", to("raised.bearer", "3 x BE-45-195")),
    ("AUD-328", "nothing screened", to("strength", None)),
    ("AUD-328", "no footings", to("footings", None)),
    ("AUD-329", "a finding kept back", to(f"{F}.findings", (finding(),))),
    ("AUD-329", "not buildable, and built", to(f"{F}.buildable", False)),
)  # fmt: skip

ON_A_LEDGER: tuple[Fault, ...] = (
    ("AUD-322", "a ledger on veneer", both(
        to(f"{LEDGER}.wall", "veneer"), to("raised.ledger_wall", "veneer"))),
    ("AUD-322", "another wall told", to("raised.ledger_wall", "solid masonry")),
    ("AUD-322", "boards that run away from the house", to("surface.run", "across")),
    ("AUD-322", "a ledger held by nothing", to("raised.ledger_fixing", "")),
    ("AUD-322", "a ledger longer than the frame", by(f"{LEDGER}.end_mm", 10.0)),
    ("AUD-322", "a ledger of other timber", to(
        f"{LEDGER}.section", Section(breadth_mm=47.0, depth_mm=145.0))),
    ("AUD-323", "a fixing left out", without(f"{LEDGER}.stations_mm", 0)),
    ("AUD-323", "fixings told out of order", lambda plan: put(
        plan, f"{LEDGER}.stations_mm", at(plan, f"{LEDGER}.stations_mm")[::-1])),  # type: ignore[index]
    ("AUD-323", "a fixing behind a joist", lambda plan: put(
        plan, f"{LEDGER}.stations_mm[1]", at(plan, "supports.lines[1].offset_mm"))),
    ("AUD-318", "a span from the ledger told short", by("raised.joist_span_mm", -10.0)),
)  # fmt: skip

STANDING_FAULTS = (*LEVELS, *PLACES, *HELD)
