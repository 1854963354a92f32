"""In words: what a deck stands on, from the bearers down to the concrete."""

from collections.abc import Iterable

from drylay.groundwork.model import Footing, Footings, PostFooting
from drylay.marks import exact
from drylay.papers.frame_text import courses
from drylay.papers.loads import borne, force
from drylay.papers.wording import bare, clean, many, marks_told, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.raised.model import Bearer, Ledger, RaisedDeck
from drylay.strength.model import Section
from drylay.units import volume_text

#: A footing's kind as it is counted, and what its size is.
KINDS = {"pad": "concrete pads", "concreted hole": "holes filled with concrete",
         "ground screw": "ground screws"}  # fmt: skip
SIDES = {"square": "square, side", "round": "round, diameter"}
MEASURE = (
    "Measure every post at its own foot before it is sawn: level from the datum, down to what it "
    "stands on. Between points measured the ground is taken as straight, and need not be."
)
GAP_TOLD = (
    "{marks}: the pad's top lies below what the post stands on. What stands between them, a pier "
    "of concrete say, is not planned: settle it before you dig."
)
BRACES_TOLD = "at 45 degrees, which is common practice and no proof against swaying"


def standing_told(plan: Plan) -> list[str]:
    """Return what a deck stands on, a line each, from the bearers down; nothing where none does."""
    raised, units = plan.raised, plan.units
    if raised is None:
        return []
    told = [*bearers_told(raised, units, along=courses(plan)), *ledger_told(raised, units),
            posts_told(raised, units)]  # fmt: skip
    told += [*braces_told(raised, units), MEASURE]
    told += [] if plan.footings is None else footings_told(plan.footings, units)
    return told + gap_told(plan)


def section_told(section: Section, units: str) -> str:
    """Return a section's sizes, plies in front: "2 x 45 x 195"."""
    plies = f"{section.plies} x " if section.plies > 1 else ""
    return f"{plies}{bare(section.breadth_mm, units)} x {bare(section.depth_mm, units)}"


def plies_told(section: Section) -> str:
    """Return how many plies stand side by side: "2 plies"."""
    return many(section.plies, "ply", "plies")


def bearers_told(raised: RaisedDeck, units: str, *, along: str = "boards") -> list[str]:
    """Return the bearers with their centres and joints, and what joists and they span at most.

    `along` is what they lie along: boards, or rows of tiles.
    """
    told = []
    for (section, long), bearers in _alike(raised.frame.bearers).items():
        marks = marks_told([clean(one.mark) for one in bearers])
        each = " each" if len(bearers) > 1 else ""
        told.append(
            f"{'Bearers' if len(bearers) > 1 else 'Bearer'} {marks} "
            f"({clean(raised.bearer_article, 40)}): {plies_told(section)} of "
            f"{bare(section.breadth_mm, units)} x {bare(section.depth_mm, units)} on edge, "
            f"{size(long, units)} long{each}. Centres across the {along}, from the datum corner: "
            f"{', '.join(f'{clean(one.mark)} {size(one.across_mm, units)}' for one in bearers)}."
        )
    told += [told_of for one in raised.frame.bearers if (told_of := joints_told(one, units))]
    return [*told, spans_told(raised, units)]


def _alike(bearers: Iterable[Bearer]) -> dict[tuple[Section, float], list[Bearer]]:
    groups: dict[tuple[Section, float], list[Bearer]] = {}
    for one in bearers:
        groups.setdefault((one.section, one.end_mm - one.start_mm), []).append(one)
    return groups


def joints_told(bearer: Bearer, units: str) -> str:
    """Return where a bearer's plies are jointed; "" where none is."""
    joints = [
        f"ply {one.ply} over its post {one.post}, {size(one.at_mm, units)} from its start"
        for one in bearer.joints
    ]
    return f"{clean(bearer.mark)} is jointed: {'; '.join(joints)}." if joints else ""


def spans_told(raised: RaisedDeck, units: str) -> str:
    """Return the widest that joists and bearers span and reach past what they stand on."""
    joists = (
        f"Centre to centre, joists go {size(raised.joist_span_mm, units)} between supports at the "
        f"most and {size(raised.joist_end_mm, units)} past the outer one; bearers "
    )
    if raised.hanger_kn is not None:
        joists = (
            f"Joists hang between the bearers, tops flush, {size(raised.joist_span_mm, units)} "
            "from face to face at the most, in hangers at both ends that each carry up to "
            f"{raised.hanger_kn:g} kN. Centre to centre, bearers go "
        )
    return (
        f"{joists}{size(raised.bearer_span_mm, units)} between posts and "
        f"{size(raised.bearer_end_mm, units)} past the outer ones."
    )


def ledger_told(raised: RaisedDeck, units: str) -> list[str]:
    """Return the ledger and its fixings; nothing for a deck that stands free of the house."""
    ledger = raised.frame.ledger
    if ledger is None:
        return ["No ledger: the deck stands free of the house."]
    fixing = f" by {clean(raised.ledger_fixing, 60)}" if raised.ledger_fixing else ""
    return [
        f"Ledger {clean(ledger.mark)}, the frame's rim at the house, on {clean(ledger.wall)}: "
        f"{section_told(ledger.section, units)}, fixed{fixing} at "
        f"{many(len(ledger.stations_mm), 'place')} no further apart than "
        f"{size_most(ledger.spacing_most_mm, units)}, by turns near its upper and its lower edge: "
        f"{_stations(ledger, units)} from the datum corner. A ledger that lets go brings the deck "
        "down: look at the wall itself before you fix it."
    ]


def _stations(ledger: Ledger, units: str) -> str:
    return ", ".join(bare(at, units) for at in ledger.stations_mm) + (
        " mm" if units != "imperial" else ""
    )


def posts_told(raised: RaisedDeck, units: str, *, listed: bool = True) -> str:
    """Return the posts: timber, what they stand on, their tops; lengths where they are `listed`."""
    posts, heights = raised.frame.posts, raised.frame.heights
    marks = marks_told([clean(post.mark) for post in posts])
    section = f"{section_told(posts[0].section, units)}" if posts else "none"
    foot = foot_told(raised)
    if heights.stand_off_mm:
        foot += f" that hold them {size(heights.stand_off_mm, units)} over the ground"
    if heights.embed_mm:
        foot += f", {size(heights.embed_mm, units)} deep"
    sawn = f" As sawn: {lengths_told(raised, units)}." if listed else ""
    return (
        f"Posts {marks} ({clean(raised.post_article, 40)}): {section}{foot}. All tops lie at "
        f"level {size(raised.post_top_mm, units)}.{sawn}"
    )


def lengths_told(raised: RaisedDeck, units: str) -> str:
    """Return the lengths that posts are sawn to, those alike together."""
    alike: dict[str, list[str]] = {}
    for row in raised.frame.schedule:
        alike.setdefault(size(row.whole_mm, units), []).append(clean(row.mark))
    return "; ".join(f"{marks_told(marks)} {length}" for length, marks in alike.items())


def foot_told(raised: RaisedDeck) -> str:
    """Return what posts stand on, as it follows their section."""
    if raised.frame.heights.embed_mm:
        return ", set in concrete"
    article = f" ({clean(raised.foot_article, 40)})" if raised.foot_article else ""
    return f", on metal feet{article}"


def braces_told(raised: RaisedDeck, units: str) -> list[str]:
    """Return which posts are braced and how; nothing where none is."""
    bracing = raised.frame.bracing
    if not bracing.braces:
        return []
    posts = marks_told([clean(mark) for mark in dict.fromkeys(one.post for one in bracing.braces)])
    marks = marks_told([clean(one.mark) for one in bracing.braces])
    sawn = dict.fromkeys(one.length_mm for one in raised.pieces if one.kind == "braces")
    long = f" Long edge, as sawn: {', '.join(size(each, units) for each in sawn)}." if sawn else ""
    return [
        f"Braces {marks}, {BRACES_TOLD}: posts longer than {size(bracing.over_mm, units)} have "
        f"them ({posts}), {size(bracing.leg_mm, units)} down the post and as far out.{long}"
    ]


def footings_told(footings: Footings, units: str) -> list[str]:
    """Return the footings: kind, soil, sizes, concrete."""
    soil = f"Soil: {clean(footings.soil)}, taken to bear {borne(footings.bearing_kn_m2, units)}"
    soil += "" if footings.soil_named else "; the brief names none: dig and look before you build"
    frost = "no frost line was told"
    if footings.frost_mm is not None:
        frost = f"frost line {size(footings.frost_mm, units)} below the ground"
    kind = KINDS.get(footings.kind, clean(footings.kind))
    marks = marks_told([clean(one.mark) for one in footings.under])
    told = [f"Footings {marks}: {kind}. {soil}; {frost}."]
    told += [f"{marks}: {sizes}." for marks, sizes in groups_told(footings, units)]
    if footings.bags:
        told.append(
            f"Concrete in all: {volume_text(footings.concrete_m3, units)}, "
            f"{footings.bags} x {clean(footings.bag, 40)}, each footing its own whole bags."
        )
    return told


def gap_told(plan: Plan) -> list[str]:
    """Return that pads lie deeper than what stands on them reaches; nothing where none does."""
    raised, footings = plan.raised, plan.footings
    if raised is None or footings is None:
        return []
    reach = exact(raised.frame.heights.embed_mm)
    low = [
        clean(one.mark)
        for one in footings.under
        if exact(one.footing.depth_mm) - exact(one.footing.thickness_mm) > reach
        and not one.footing.pier_mm
    ]
    return [GAP_TOLD.format(marks=marks_told(low))] if low else []


def footing_groups(plan: Plan) -> list[tuple[str, str]]:
    """Return footings of one size together, with their marks; nothing where a plan has none."""
    return [] if plan.footings is None else groups_told(plan.footings, plan.units)


def groups_told(footings: Footings, units: str) -> list[tuple[str, str]]:
    """Return the marks of footings of one size, and that size."""
    groups: dict[str, list[str]] = {}
    for one in footings.under:
        groups.setdefault(sizes_told(one.footing, units), []).append(clean(one.mark))
    return [(marks_told(marks), sizes) for sizes, marks in groups.items()]


def sizes_told(footing: Footing, units: str) -> str:
    """Return a footing's size, thickness and depth; of a screw nothing is reckoned."""
    if footing.kind == "ground screw":
        return "as its maker declares"
    shape = SIDES.get(footing.shape, clean(footing.shape))
    return (
        f"{shape} {size_least(footing.size_mm, units)}, "
        f"{size_least(footing.thickness_mm, units)} thick, "
        f"underside {size_least(footing.depth_mm, units)} below the ground"
        f"{pier_told(footing, units)}"
    )


def pier_told(footing: Footing, units: str) -> str:
    """Return the pier on a pad, up to the ground; "" where none stands on it."""
    if not footing.pier_mm:
        return ""
    shape = SIDES.get(footing.shape, clean(footing.shape))
    return f", a pier on it up to the ground ({shape} {size_least(footing.pier_mm, units)})"


def least_told(footing: Footing, units: str) -> str:
    """Return a footing's size for a drawing, never smaller than it is."""
    return size_least(footing.size_mm, units).removesuffix(" mm")


def load_told(one: PostFooting, units: str) -> str:
    """Return what comes down on a footing."""
    return force(one.footing.load_kn, units)
