"""Planted faults in what is sawn, bought, proven and reasoned."""

from decimal import Decimal

from audit.edits import at, change, put
from audit.planting import (
    EXTRA,
    NO_KIND,
    Edit,
    Fault,
    both,
    by,
    to,
    twice,
    without,
)
from drylay.cutting.model import Beside, Blend, Split, WindowPrice

BUY = "buying.purchases"
CUTTING: tuple[Fault, ...] = (
    ("AUD-701", "fascia not bought", without(BUY, 2)),
    ("AUD-701", "a purchase for nothing", to(f"{BUY}[2].article", "ZZ-1")),
    ("AUD-702", "a piece not sawn", to(f"{BUY}[0].lengths[0].pieces", ())),
    ("AUD-702", "a piece sawn twice", to(f"{BUY}[0].lengths[0].pieces", ("B1.2", "B1.1"))),
    ("AUD-703", "a mark for two pieces", to("frame.noggins[0].mark", "J1")),
    ("AUD-704", "a piece of no deck", to(f"{BUY}[0].lengths[0].pieces", ("B1.2", "B9.9"))),
    ("AUD-705", "kerf forgotten", to(f"{BUY}[0].lengths[4].length_mm", 2481.0)),
    ("AUD-706", "a piece longer than its board", to(f"{BUY}[0].lengths[0].length_mm", 2400.0)),
    ("AUD-707", "an offcut of other size", by(f"{BUY}[0].lengths[0].offcut_mm", 1.0)),
    (
        "AUD-708",
        "the shortest sawn first",
        to(f"{BUY}[1].lengths[0].pieces", ("S1", "RA.1")),
    ),
    ("AUD-708", "a board bought for nothing", to(f"{BUY}[0].lengths[0].pieces", ())),
    ("AUD-709", "a board cut twice", twice(f"{BUY}[0].lengths", 0)),
    ("AUD-710", "a kerf below nothing", to("buying.kerf_mm", -3.0)),
)

MONEY: tuple[Fault, ...] = (
    ("AUD-721", "a cost that does not add up", by(f"{BUY}[0].cost", Decimal("0.01"))),
    ("AUD-722", "joints without their price", to(f"{BUY}[0].joint_cost", Decimal(0))),
    ("AUD-723", "an objective that does not add up", by(f"{BUY}[0].objective", Decimal(1))),
    ("AUD-723", "a gap that does not add up", by(f"{BUY}[0].gap", Decimal(1))),
    ("AUD-723", "a plan below its own bound", by(f"{BUY}[0].gap", Decimal(-1))),
    ("AUD-724", "another price than proven", by(f"{BUY}[0].lengths[0].price", Decimal("0.01"))),
    ("AUD-724", "a length not on sale", to(f"{BUY}[0].lengths[0].length_mm", 3200.0)),
    ("AUD-725", "more than there are", to(f"{BUY}[2].proof.task.stock[0].limit", 2)),
    ("AUD-726", "an order of one too few", by("buying.order[0].quantity", -1)),
    ("AUD-726", "a line left out of the order", without("buying.order", 0)),
    ("AUD-727", "a line of another sum", by("buying.order[0].total", Decimal("0.01"))),
    ("AUD-727", "a line by length and pack", to("buying.order[0].pack", 10)),
    ("AUD-727", "a line of nothing", to("buying.order[0].quantity", 0)),
    ("AUD-728", "an order that does not add up", by("buying.order_total", Decimal("0.01"))),
    ("AUD-728", "spares that do not add up", by("buying.spares_total", Decimal("0.01"))),
    ("AUD-728", "a total that does not add up", by("buying.total", Decimal("0.01"))),
    ("AUD-729", "half a cent", by("buying.order[0].unit_price", Decimal("0.005"))),
    ("AUD-730", "no spare board", to("buying.spares", ())),
    ("AUD-730", "a spare too many", by("buying.spares[0].quantity", 1)),
    ("AUD-731", "a dearer spare", by("buying.spares[0].unit_price", Decimal(1))),
    ("AUD-730", "a pack's spare nobody wanted", by("buying.whole_packs[0].spare", 1)),
    ("AUD-732", "a pack too many", by("buying.whole_packs[0].packs", 1)),
    ("AUD-732", "more sawn than bought", by("buying.whole_packs[0].sawn", 1)),
    ("AUD-732", "a pack of one", to("buying.whole_packs[0].pack", 1)),
    ("AUD-732", "a length packed twice", twice("buying.whole_packs", 0)),
)

PACK = "buying.packs"
PACKS: tuple[Fault, ...] = (
    ("AUD-741", "screws not bought", without(PACK, 0)),
    ("AUD-741", "screws for nothing", to(f"{PACK}[0].article", "ZZ-1")),
    ("AUD-741", "a need nobody counted", by(f"{PACK}[0].need", 1)),
    ("AUD-742", "spares off their ratio", by(f"{PACK}[0].spare", 1)),
    ("AUD-743", "packs that hold too few", to(f"{PACK}[0].packs[0].pack", 10)),
    ("AUD-744", "packs that do not add up", by(f"{PACK}[0].cost", Decimal(1))),
    ("AUD-744", "a bound that is not the least", by(f"{PACK}[0].bound", Decimal(-1))),
    (
        "AUD-745",
        "packs dearer than need be",
        both(
            to(f"{PACK}[0].packs[1].price", Decimal("13.00")),
            to(f"{PACK}[0].cost", Decimal("25.00")),
        ),
    ),
    ("AUD-747", "screws by the kg", to(f"{PACK}[0].unit", "kg")),
    ("AUD-746", "a pack bought not once", to(f"{PACK}[0].packs[0].packs", 0)),
)

PROOF = "proof.task"
TASKS: tuple[Fault, ...] = (
    ("AUD-801", "a proof without kerf", to(f"{BUY}[0].{PROOF}.kerf", 0)),
    ("AUD-801", "a proof with another trim", to(f"{BUY}[0].{PROOF}.stock[0].trim", 320)),
    ("AUD-802", "stock named as another length", to(f"{BUY}[0].{PROOF}.stock[0].name", "3600")),
    ("AUD-802", "stock without a length's name", to(f"{BUY}[0].{PROOF}.stock[0].name", "long")),
    ("AUD-802", "stock listed twice", twice(f"{BUY}[0].{PROOF}.stock", 0)),
    ("AUD-802", "stock below nothing", to(f"{BUY}[0].{PROOF}.stock[0].price", -1)),
    ("AUD-803", "a proof of fewer pieces", by(f"{BUY}[1].{PROOF}.pieces[0].count", -1)),
    ("AUD-803", "a proof of shorter pieces", by(f"{BUY}[2].{PROOF}.pieces[0].length", -320)),
    ("AUD-803", "a proof without its rims", to(f"{BUY}[1].{PROOF}.lines", ())),
    ("AUD-804", "a proof of fewer rows", by(f"{BUY}[0].{PROOF}.lines[0].count", -1)),
    ("AUD-804", "a proof of shorter rows", by(f"{BUY}[0].{PROOF}.lines[0].end", -320)),
    ("AUD-804", "a proof with another stagger", to(f"{BUY}[0].{PROOF}.lines[0].stagger", 1)),
    ("AUD-804", "a proof without its cap", to(f"{BUY}[0].{PROOF}.lines[0].most_joints", None)),
    ("AUD-804", "a proof on other joists", by(f"{BUY}[0].{PROOF}.lines[0].stations[3]", 320)),
    ("AUD-804", "a proof on fewer joists", without(f"{BUY}[0].{PROOF}.lines[0].stations", 3)),
    ("AUD-804", "a proof of no rows", to(f"{BUY}[0].{PROOF}.lines", ())),
    ("AUD-805", "a proof of one rim", by(f"{BUY}[1].{PROOF}.lines[0].count", -1)),
    ("AUD-805", "a proof of rims on other bays", by(f"{BUY}[1].{PROOF}.lines[0].stations[3]", 320)),
    ("AUD-805", "a proof of rims twice", twice(f"{BUY}[1].{PROOF}.lines", 0)),
    (
        "AUD-806",
        "a fascia jointed anywhere",
        lambda plan: put(plan, f"{BUY}[2].{PROOF}.lines", at(plan, f"{BUY}[1].{PROOF}.lines")),
    ),
    (
        "AUD-806",
        "a fabric jointed anywhere",
        lambda plan: put(plan, f"{BUY}[3].{PROOF}.lines", at(plan, f"{BUY}[1].{PROOF}.lines")),
    ),
    (
        "AUD-804",
        "rows counted from another joist",
        to(f"{BUY}[0].{PROOF}.lines[0].first_station", 1),
    ),
    ("AUD-805", "rims counted from another bay", to(f"{BUY}[1].{PROOF}.lines[0].first_station", 1)),
    ("AUD-807", "a proof of cheaper joints", to(f"{BUY}[0].{PROOF}.joint_price", 0)),
    (
        "AUD-808",
        "rows beside other rows",
        to(f"{BUY}[0].{PROOF}.beside", (Beside(one=0, other=1),)),
    ),
    (
        "AUD-808",
        "rims beside other rims",
        to(f"{BUY}[1].{PROOF}.beside", (Beside(one=0, other=0),)),
    ),
    ("AUD-808", "fascia beside others", to(f"{BUY}[2].{PROOF}.beside", (Beside(one=0, other=0),))),
)

CERT = "proof.certificate"


def window(**more: int) -> Edit:
    """Put a price on a window of the boards' proof; without more said it holds."""
    held = {"line": 0, "first": 3, "width": 2, "beside": 0, "beside_first": 3, "beside_width": 2}
    return to(f"{BUY}[0].{CERT}.vectors[0].windows", (WindowPrice(price=0, **{**held, **more}),))


PROOFS: tuple[Fault, ...] = (
    ("AUD-821", "a proof of another objective", by(f"{BUY}[0].proof.objective", 1)),
    ("AUD-821", "a proof of another bound", by(f"{BUY}[0].{CERT}.bound", -1)),
    ("AUD-822", "a grade nobody knows", to(f"{BUY}[0].grade", "gold")),
    ("AUD-822", "a mode nobody knows", to(f"{BUY}[0].mode", "lazy")),
    (
        "AUD-823",
        "a bound its worths do not bear out",
        to(f"{BUY}[0].{CERT}.vectors[0].worths[0]", 0),
    ),
    ("AUD-823", "a bound too high", by(f"{BUY}[2].{CERT}.bound", 600)),
    ("AUD-823", "worths out of step", without(f"{BUY}[0].{CERT}.vectors[0].worths", 0)),
    ("AUD-823", "rows no stock can make", to(f"{BUY}[0].{PROOF}.lines[0].most_joints", 0)),
    ("AUD-824", "splits called one vector", to(f"{BUY}[0].{CERT}.nodes", 7)),
    ("AUD-824", "two vectors called one", twice(f"{BUY}[0].{CERT}.vectors", 0)),
    (
        "AUD-824",
        "splits without a vector",
        both(
            to(f"{BUY}[0].{CERT}.vectors", ()),
            to(f"{BUY}[0].{CERT}.grade", "worth vectors and splits"),
        ),
    ),
    ("AUD-824", "nodes below nothing", to(f"{BUY}[0].{CERT}.nodes", -1)),
    ("AUD-825", "a bound above the plan", to(f"{BUY}[0].{CERT}.bound", 7401)),
    ("AUD-826", "a worth for another length", by(f"{BUY}[0].{CERT}.vectors[0].lengths[0]", 1)),
    ("AUD-827", "a window wider than a piece is long", window(width=3)),
    ("AUD-827", "a window wider than the stagger", window(beside_first=4)),
    ("AUD-827", "a window beyond the last joist", window(first=11, beside_first=11)),
    ("AUD-827", "a window of rows there are not", window(line=1, beside=1)),
    ("AUD-827", "a window of rows not side by side", window(beside=1)),
)

NOTHING_SHOWN = Blend(times=1, vectors=(0,), money=0, limits=(0,))
SPLIT = Split(weights=(1, 0), least=NOTHING_SHOWN, most=NOTHING_SHOWN)
PROOFS += (
    ("AUD-824", "a split that is not counted", to(f"{BUY}[0].{CERT}.splits", (SPLIT,))),
    ("AUD-828", "a split that shows nothing", to(f"{BUY}[0].{CERT}.splits", (SPLIT,))),
    (
        "AUD-828",
        "a split in a proof of rows no stock can make",
        both(
            to(f"{BUY}[0].{CERT}.splits", (SPLIT,)), to(f"{BUY}[0].{PROOF}.lines[0].most_joints", 0)
        ),
    ),
)

DECISION = "reasons.decisions"
REASONS: tuple[Fault, ...] = (
    ("AUD-901", "a reason of another number", to("pieces.end_gap_mm", 5.0)),
    ("AUD-901", "a reason of another word", to("surface.way_out", "gaps")),
    ("AUD-901", "a reason of no cap", to("pieces.most_joints_per_row", None)),
    (
        "AUD-902",
        "an input of another number",
        to(f"{DECISION}[0].inputs", (("board_width_mm", 146.0),)),
    ),
    ("AUD-902", "another number of rows", to(f"{DECISION}[0].inputs", (("rows", 5),))),
    ("AUD-902", "another wish", to(f"{DECISION}[0].inputs", (("wished_mm", 500.0),))),
    ("AUD-903", "a decision left out", without(DECISION, 0)),
    ("AUD-904", "a decision taken twice", twice(DECISION, 0)),
    (
        "AUD-905",
        "a decision about nothing",
        lambda p: change(p, DECISION, lambda old: (*old, EXTRA)),
    ),  # type: ignore[misc]
    ("AUD-905", "a decision on no part", to(f"{DECISION}[0].path", "roof.pitch_deg")),
    ("AUD-906", "a source by hearsay", to(f"{DECISION}[0].source", NO_KIND)),
    ("AUD-906", "a decision by no rule", to(f"{DECISION}[0].rule", " ")),
)
