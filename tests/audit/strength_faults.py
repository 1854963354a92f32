"""Planted faults in the strength of a deck that stands, and in what it stands on."""

from collections.abc import Callable

from attrs import evolve

from audit.border_faults import FITS
from audit.edits import at, put
from audit.planting import Edit, Fault, both, by, to, turned, twice, without
from audit.standing_faults import calm
from drylay.plan.model import Plan
from drylay.strength.model import Check, Section

S = "strength"
JOISTS, BEARER = f"{S}.beams[0]", f"{S}.beams[2]"
OTHER = Section(breadth_mm=60.0, depth_mm=195.0, plies=2)


def checked(subject: str, name: str, how: Callable[[Check], Check]) -> Edit:
    """Return an edit of one check of one member, ranked again."""

    def run(plan: Plan) -> Plan:
        assert plan.strength is not None
        screened = tuple(
            evolve(one, checks=tuple(
                sorted((how(c) if c.name == name else c for c in one.checks),
                       key=lambda c: -c.utilisation_ratio)))
            if one.subject == subject else one
            for one in plan.strength.screened
        )  # fmt: skip
        used = max(c.utilisation_ratio for one in screened for c in one.checks)
        return evolve(plan, strength=evolve(plan.strength, screened=screened, most_ratio=used))

    return run


def quoting(check: Check, **figures: float | str) -> Check:
    """Return a check with other figures quoted; _ stands for what a name cannot hold."""
    names = {"f_m_k": "f_m,k", "f_v_k": "f_v,k", "k_c_90": "k_c,90", "f_c_0_d": "f_c,0,d"}
    told = {names.get(name, name): value for name, value in figures.items()}
    return evolve(check, inputs=tuple((n, told.get(n, v)) for n, v in check.inputs))


def scaled(check: Check, share: float, name: str) -> Check:
    """Return a check whose effect and stress are a share of what they were."""
    effect = dict(check.inputs)[name]
    assert isinstance(effect, float)
    less = quoting(check, **{name: effect * share})
    return evolve(less, measured=check.measured * share,
                  utilisation_ratio=check.utilisation_ratio * share)  # fmt: skip


def limited(check: Check, share: float) -> Check:
    """Return a check with another limit."""
    return evolve(check, limit=check.limit * share,
                  utilisation_ratio=check.utilisation_ratio / share)  # fmt: skip


def renamed(check: Check, case: str) -> Check:
    return evolve(check, case=case)


ASKED: tuple[Fault, ...] = (
    ("AUD-330", "a member left unanswered", without(f"{S}.screened", 2)),
    ("AUD-330", "answers in another order", turned(f"{S}.screened", 1, 2)),
    ("AUD-330", "a bearer never asked about", without(f"{S}.beams", 1)),
    ("AUD-330", "a post never asked about", without(f"{S}.posts", 0)),
    ("AUD-330", "a post asked about twice", twice(f"{S}.posts", 0)),
    ("AUD-330", "a member that stands nowhere", to(f"{BEARER}.subject", "BR77")),
    ("AUD-330", "two bases", to(f"{S}.screened[0].basis", "another")),
    ("AUD-330", "no basis", to(f"{S}.screened[0].basis", "")),
    ("AUD-331", "joists deeper than built", to(f"{JOISTS}.section.depth_mm", 195.0)),
    ("AUD-331", "joists closer than built", by(f"{JOISTS}.carried_mm", -50.0)),
    ("AUD-331", "joists of two plies", to(f"{JOISTS}.section.plies", 2)),
    ("AUD-331", "joists of another kind", to(f"{JOISTS}.kind", "bearer")),
    ("AUD-331", "joists over other lines", to(f"{JOISTS}.supports_mm", (251.0, 1506.0, 2700.0))),
    ("AUD-331", "joists over a line too many", to(
        f"{JOISTS}.supports_mm", (251.0, 900.0, 1506.0, 2761.0))),
    ("AUD-331", "joists shorter than built", by(f"{JOISTS}.length_mm", -100.0)),
    ("AUD-332", "a bearer broader than built", to(f"{BEARER}.section", OTHER)),
    ("AUD-332", "a bearer that carries less", by(f"{BEARER}.carried_mm", -100.0)),
    ("AUD-332", "a bearer over posts closer together", to(
        f"{BEARER}.supports_mm", (225.5, 1324.0, 2422.5, 3521.0, 4620.0, 5700.0))),
    ("AUD-332", "a bearer as a joist", to(f"{BEARER}.kind", "joist")),
    ("AUD-332", "a bearing broader than the post", to(f"{BEARER}.bearing_mm", 200.0)),
    ("AUD-333", "a post shorter than built", by(f"{S}.posts[4].length_mm", -50.0)),
    ("AUD-333", "a post of other timber", to(f"{S}.posts[4].section.breadth_mm", 150.0)),
    ("AUD-333", "half the live load", to(f"{S}.posts[4].live_kn", 1.0)),
    ("AUD-333", "no dead load", to(f"{S}.posts[4].dead_kn", 0.1)),
    ("AUD-334", "a utilisation made up", to(f"{S}.screened[0].checks[0].utilisation_ratio", 0.7)),
    ("AUD-334", "a limit of nothing", to(f"{S}.screened[0].checks[0].limit", 0.0)),
    ("AUD-334", "checks in another order", turned(f"{S}.screened[0].checks", 0, 1)),
    ("AUD-334", "another most used", to(f"{S}.most_ratio", 0.1)),
    ("AUD-334", "a check of another member", to(f"{S}.screened[0].checks[0].subject", "BR1")),
    ("AUD-334", "no check and no stop", to(f"{S}.screened[0].checks", ())),
    ("AUD-335", "a member over its limit", checked("BR2", "bending", lambda c: limited(c, 0.05))),
    ("AUD-335", "a member not covered", to(f"{S}.screened[1].stops", ("not covered",))),
    ("AUD-336", "no load", to(f"{S}.imposed_kn_m2", 0.0)),
    ("AUD-336", "assumptions hushed up", calm("STR-003")),
)  # fmt: skip

CHECKED: tuple[Fault, ...] = (
    ("AUD-337", "a moment made smaller", checked(
        "BR2", "bending", lambda c: scaled(c, 0.9, "moment_kn_m"))),
    ("AUD-337", "a shear made smaller", checked(
        "BR2", "shear", lambda c: scaled(c, 0.95, "shear_kn"))),
    ("AUD-337", "a bearing made smaller", checked(
        "joists", "bearing", lambda c: scaled(c, 0.95, "force_kn"))),
    ("AUD-337", "dead load alone told to govern", checked(
        "BR2", "bearing", lambda c: renamed(scaled(c, 0.2, "force_kn"),
                                            "6.10: permanent load alone"))),
    ("AUD-338", "a stress that no moment makes", checked(
        "BR2", "bending", lambda c: evolve(c, measured=c.measured / 2,
                                           utilisation_ratio=c.utilisation_ratio / 2))),
    ("AUD-338", "a bearing over more than there is", checked(
        "joists", "bearing", lambda c: quoting(c, l_ef=900.0))),
    ("AUD-338", "a bearing on nothing", checked(
        "joists", "bearing", lambda c: quoting(c, l_ef=0.0, bearing_mm=0.0))),
    ("AUD-338", "a shear with cracks forgotten", checked(
        "BR2", "shear", lambda c: quoting(c, k_cr=1.0))),
    ("AUD-339", "a limit doubled", checked("BR2", "bending", lambda c: limited(c, 2.0))),
    ("AUD-339", "wood stronger than its class", checked(
        "BR2", "bending", lambda c: limited(quoting(c, f_m_k=30.0), 30 / 24))),
    ("AUD-339", "load that lasts shorter than it does", checked(
        "BR2", "bending", lambda c: limited(quoting(c, k_mod=0.9), 0.9 / 0.65))),
    ("AUD-339", "another partial factor", checked(
        "BR2", "bending", lambda c: limited(quoting(c, gamma_M=1.0), 1.3))),
    ("AUD-339", "a deep beam's strength raised", checked(
        "joists", "bending", lambda c: limited(quoting(c, k_h=1.2), 1.2 / 1.0068)),
     ),
    ("AUD-339", "more plies than stand there", checked(
        "BR2", "bending", lambda c: quoting(c, plies=4))),
    ("AUD-339", "loads with lesser factors", checked(
        "BR2", "bending", lambda c: renamed(c, c.case.replace("+ 1.5 ", "+ 1.2 ")))),
    ("AUD-340", "a post under less load", checked(
        "PO5", "post buckling", lambda c: scaled(c, 0.5, "force_kn"))),
    ("AUD-340", "dead load alone on a post", checked(
        "PO5", "post buckling", lambda c: renamed(scaled(c, 0.1, "force_kn"),
                                                  "6.10: permanent load alone"))),
    ("AUD-340", "a post checked short", checked(
        "PO5", "post buckling", lambda c: quoting(c, length_mm=100.0))),
    ("AUD-340", "a post that may sway taken as held", checked(
        "PO1", "post buckling", lambda c: quoting(c, effective_length_over_length=1.0))),
    ("AUD-340", "a slender post that does not buckle", both(
        to(f"{S}.posts[4].length_mm", 3000.0),
        checked("PO5", "post buckling", lambda c: quoting(c, length_mm=3000.0, k_c_weak=1.0)))),
    ("AUD-340", "a post stronger than its class", checked(
        "PO5", "post buckling", lambda c: quoting(c, f_c_0_d=20.0))),
    ("AUD-340", "values that come to more", checked(
        "PO5", "post buckling", lambda c: limited(evolve(
            c, measured=c.measured / 2, utilisation_ratio=c.utilisation_ratio / 2), 1.0))),
    ("AUD-340", "a post not checked for buckling", lambda plan: put(
        plan, f"{S}.screened[8].checks", tuple(
            c for c in at(plan, f"{S}.screened[8].checks") if c.name != "post buckling"))),  # type: ignore[attr-defined]
)  # fmt: skip


def sagging(check: Check, share: float) -> Check:
    """Return a check of a deflection that is told a share of what it was, both its parts alike."""
    known = dict(check.inputs)
    less = quoting(check, w_G_mm=known["w_G_mm"] * share, w_Q_mm=known["w_Q_mm"] * share)  # type: ignore[operator]
    return evolve(less, measured=check.measured * share,
                  utilisation_ratio=check.utilisation_ratio * share)  # fmt: skip


SAGS: tuple[Fault, ...] = (
    ("AUD-361", "a span that goes down less", checked(
        "joists", "deflection, instant", lambda c: sagging(c, 0.9))),
    ("AUD-361", "a tip that goes down less in the end", checked(
        "joists", "cantilever deflection, final", lambda c: sagging(c, 0.9))),
    ("AUD-361", "creep forgotten", checked(
        "BR2", "deflection, final", lambda c: quoting(c, w_G_mm=10.0))),
    ("AUD-361", "no creep outdoors", checked(
        "BR2", "deflection, final", lambda c: evolve(
            quoting(c, k_def=0.0), measured=c.measured / 2,
            utilisation_ratio=c.utilisation_ratio / 2))),
    ("AUD-361", "parts that come to more", checked(
        "joists", "deflection, instant", lambda c: quoting(c, w_Q_mm=9.0))),
)  # fmt: skip

U = "footings.under"
FEET: tuple[Fault, ...] = (
    ("AUD-341", "a footing left out", without(U, 3)),
    ("AUD-341", "a footing under another post", to(f"{U}[3].post", "PO9")),
    ("AUD-341", "a footing under no post", to(f"{U}[3].post", "PO99")),
    ("AUD-341", "a footing of another mark", to(f"{U}[3].mark", "FT9")),
    ("AUD-341", "a footing made for less", to(f"{U}[3].footing.load_kn", 0.5)),
    ("AUD-341", "less than the post brings", to(f"{U}[3].live_kn", 0.5)),
    ("AUD-342", "a footing too small", to(f"{U}[9].footing.size_mm", 150.0)),
    ("AUD-342", "concrete that weighs nothing", to(f"{U}[9].footing.own_kn_m2", 0.0)),
    ("AUD-342", "ground that carries more", by(f"{U}[9].footing.carries_kn", 5.0)),
    ("AUD-342", "a footing of no kind", to(f"{U}[9].footing.kind", "raft")),
    ("AUD-343", "a footing above the frost", to(f"{U}[9].footing.depth_mm", 300.0)),
    ("AUD-343", "a thin footing", to(f"{U}[9].footing.thickness_mm", 50.0)),
    ("AUD-343", "a footing narrower than its post", to(f"{U}[9].footing.size_mm", 90.0)),
    ("AUD-343", "a foot over a pad, and no pier", to(f"{U}[9].footing.pier_mm", 0.0)),
    ("AUD-343", "a pier narrower than its post", to(f"{U}[9].footing.pier_mm", 80.0)),
    ("AUD-343", "a pier broader than its pad", to(f"{U}[9].footing.pier_mm", 900.0)),
    ("AUD-342", "a pier that weighs nothing", to(f"{U}[9].footing.own_kn_m2", 3.6)),
    ("AUD-343", "a hole half filled", to(f"{U}[9].footing.kind", "concreted hole")),
    ("AUD-343", "a post through its footing", to("raised.frame.posts[9].embed_mm", 900.0)),
    ("AUD-344", "too little concrete", by(f"{U}[9].footing.concrete_m3", -0.005)),
    ("AUD-360", "a bag too few", by(f"{U}[9].footing.bags", -1)),
    ("AUD-360", "no bag", to(f"{U}[0].footing.bags", 0)),
    ("AUD-360", "bags that do not add up", by("footings.bags", -1)),
    ("AUD-344", "concrete that does not add up", by("footings.concrete_m3", -0.01)),
    ("AUD-360", "a kg of mix too few", both(
        to("footings.mix_kg_m3", 2000.0),
        both(to("footings.mix_bag_kg", 25), to("footings.mix_kg", 1)))),
    ("AUD-360", "bags that do not fill a footing", both(
        to("footings.mix_kg_m3", 2_000_000.0), to("footings.mix_bag_kg", 25))),
    ("AUD-345", "a footing on another soil", to(f"{U}[9].footing.soil", "rock")),
    ("AUD-345", "a soil that bears more", to(f"{U}[9].footing.bearing_kn_m2", 400.0)),
    ("AUD-345", "a soil assumed and hushed up", calm("FTG-001")),
)  # fmt: skip

COVER: tuple[Fault, ...] = (
    ("AUD-368", "boards that weigh more than is reckoned", to("buying.delivery.board_kg_m", 9.0)),
    ("AUD-368", "a border heavier than the field", both(
        to("surface.border", FITS), to("buying.delivery.border_kg_m", 9.0))),
    ("AUD-368", "a figure that no member knows", to(f"{S}.heavier_kn_m2", 0.1)),
    ("AUD-368", "joists without it", both(
        to(f"{S}.heavier_kn_m2", 0.05), to(f"{JOISTS}.more_dead_kn_m2", 0.0))),
    ("AUD-333", "posts without it", to(f"{S}.heavier_kn_m2", 0.2)),
)  # fmt: skip
STRENGTH_FAULTS = (*COVER, *ASKED, *CHECKED, *SAGS, *FEET)
