"""What posts stand on, and what of a raised frame is cut from the stock."""

from collections.abc import Sequence

from attrs import evolve

from drylay.buying.model import Purchase
from drylay.buying.purchase import pieces_of, purchase
from drylay.cutting.model import Task
from drylay.findings import Finding, Severity
from drylay.groundwork.footing_told import footing_findings, screw_findings
from drylay.groundwork.footings import (
    footing_for,
    footing_rules,
)
from drylay.groundwork.model import Footing, Footings, PostFooting
from drylay.marks import exact
from drylay.materials.stock_model import ConcreteMix, Pack, Timber
from drylay.planner.built import Wanted
from drylay.planner.buy import stock_for
from drylay.planner.cuts import Cutter, cut
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE
from drylay.planner.standing import embed_mm
from drylay.planner.stood import Legs, Named
from drylay.raised.model import RaisedDeck
from drylay.reasons import Source
from drylay.regions.model import Bag, RegionPack
from drylay.regions.packs import soil_named
from drylay.strength.model import PostAsked
from drylay.units import MM_PER_INCH

#: What sizes of footings are rounded up to, by units.
STEP_MM = {"metric": 10.0, "imperial": float(MM_PER_INCH)}


def footings_of(
    job: Job, pack: RegionPack, posts: tuple[PostAsked, ...]
) -> tuple[Footings | None, tuple[Finding, ...]]:
    """Return a footing under every post with what is told, or the stops."""
    wish, soil = job.brief.raised, soil_named(pack, job.brief.site.soil or "")
    if wish.footing == "ground screw":
        worst = max(asked.dead_kn + asked.live_kn for asked in posts)
        short = screw_findings(load_kn=worst, capacity_kn=wish.screw_kn)
        return None, short or (_screws_bear(worst, wish.screw_kn),)
    rules, made = footing_rules(pack), []
    told: dict[tuple[str, str], Finding] = {}
    for number, asked in enumerate(posts, 1):
        found = _footing(job, pack, asked)
        if not isinstance(found, Footing):
            return None, found
        made.append(PostFooting(mark=f"FT{number}", post=asked.subject, dead_kn=asked.dead_kn,
                                live_kn=asked.live_kn, footing=found))  # fmt: skip
        for each in footing_findings(found, soil, rules, frost_mm=job.brief.site.frost_mm):
            told.setdefault((each.code, each.subject), each)
    frost = [each for each in (job.brief.site.frost_mm, rules.frost.value) if each is not None]
    first, mix = made[0].footing, job.articles.concrete
    whole_m3 = round(sum(each.footing.concrete_m3 for each in made), 3)
    whole = Footings(
        kind=first.kind, shape=first.shape, soil=first.soil, soil_named=first.soil_named,
        bearing_kn_m2=first.bearing_kn_m2, frost_mm=max(frost, default=None), bag=first.bag,
        bags=sum(each.footing.bags for each in made),
        concrete_m3=whole_m3, under=tuple(made), mix_article=mix.code if mix else "",
        mix_kg_m3=mix.dry_kg_m3 if mix else None,
        mix_bag_kg=_bag_kg(mix) if mix else None,
        mix_kg=sum(each.footing.bags for each in made) * _bag_kg(mix) if mix else None,
    )  # fmt: skip
    return whole, tuple(told.values())


def _screws_bear(load_kn: float, capacity_kn: float | None) -> Finding:
    """Return what ground screws bear in the place of footings: the most, and what is declared."""
    source = Source(kind="merchant record", title="what the screw's maker declares")
    return Finding(
        code="FTG-009", severity=Severity.NOTE, subject="ground screw", measured=load_kn,
        limit=capacity_kn, unit="kN", source=source,
        message="every post stands on a screw by itself, set and tried as its maker says",
    )  # fmt: skip


def _footing(job: Job, pack: RegionPack, asked: PostAsked) -> Footing | tuple[Finding, ...]:
    wish, named = job.brief.raised, job.brief.site.soil
    return footing_for(
        kind=wish.footing, shape=wish.shape, load_kn=asked.dead_kn + asked.live_kn,
        soil=soil_named(pack, named or ""), soil_named=named is not None,
        post_mm=max(asked.section.breadth_mm, asked.section.depth_mm), rules=footing_rules(pack),
        bag=bag_of(job, pack), frost_mm=job.brief.site.frost_mm, post_depth_mm=embed_mm(job),
        step_mm=STEP_MM[job.brief.units], pier=wish.foot == "metal foot",
    )  # fmt: skip


#: How much broader a post's side may be than what a foot takes, or narrower. Common practice.
PLAY_MM = 3.0


def foot_findings(job: Job, posts: tuple[PostAsked, ...]) -> tuple[Finding, ...]:
    """Return stops for feet that do not take the post (RSD-014), or not its load (RSD-015)."""
    foot, post = job.articles.post_foot, job.articles.post
    if foot is None or post is None:
        return ()
    told = Source(kind="merchant record", title=job.stock.name, clause=foot.code)
    found = []
    if abs(foot.post_mm - post.thickness_mm) > PLAY_MM:
        found.append(Finding(
            code="RSD-014", severity=Severity.STOP, subject=foot.code, source=told,
            measured=post.thickness_mm, limit=foot.post_mm, unit="mm",
            message=f"{post.code} does not fit this foot: name one made for its side",
        ))  # fmt: skip
    worst = max(asked.dead_kn + asked.live_kn for asked in posts)
    if foot.capacity_kn is not None and worst > foot.capacity_kn:
        found.append(Finding(
            code="RSD-015", severity=Severity.STOP, subject=foot.code, source=told,
            measured=worst, limit=foot.capacity_kn, unit="kN",
            message="a post presses harder than its maker declares for it: more posts, or another "
            "foot",
        ))  # fmt: skip
    return tuple(found)


def beside_house(
    gap_mm: float, offs_mm: Sequence[float], footings: Footings
) -> tuple[Finding, ...]:
    """Return that footings reach under the house's wall, whose own lies there: FTG-010.

    `gap_mm` is what the site leaves between wall and cover, `offs_mm` how far each post's middle
    is from the cover's edge there. Half a round footing's diameter is its reach, half a square's
    side too: where the wall stands at an angle to a square one its corner may reach further.
    """
    reach = [
        each.footing.size_mm / 2 - off_mm
        for each, off_mm in zip(footings.under, offs_mm, strict=True)
    ]
    if max(reach) <= gap_mm:
        return ()
    return (Finding(
        code="FTG-010", severity=Severity.CAUTION, subject="footings", measured=max(reach),
        limit=gap_mm, unit="mm", source=PRACTICE,
        message="they reach under the house's wall, where its own footing lies: let a ledger carry "
        "that side, or have a licensed person say how close they may be dug",
    ),)  # fmt: skip


def bag_of(job: Job, pack: RegionPack) -> Bag:
    """Return the bag that concrete is reckoned in: the smallest of the mix named, else a usual one.

    What a bag makes is its mass over what a m3 takes of the mix.
    """
    mix = job.articles.concrete
    if mix is None:
        return pack.bags[0]
    least = min(mix.packs, key=lambda bag: bag.kg)
    made = pack.bags[0].made_m3
    told = Source(kind="merchant record", title=job.stock.name, clause=mix.code)
    return Bag(
        name=f"{least.kg} kg {mix.title}", mass_kg=float(least.kg),
        made_m3=evolve(made, value=least.kg / mix.dry_kg_m3, written="", standing="quoted",
                       source=told),
    )  # fmt: skip


def _bag_kg(mix: ConcreteMix) -> int:
    """Return what the smallest bag on sale holds: each footing is mixed by itself."""
    return min(bag.kg for bag in mix.packs)


def legs_of(job: Job, deck: RaisedDeck, bearer: Timber) -> Legs:
    """Return what is sawn, each article once: what is of the frame's timber is cut with it."""
    if any(post.length_mm <= 0 for post in deck.frame.posts):
        return Legs()  # the ground reaches a bearer: told, and nothing is sawn
    post, timber = job.articles.post, job.articles.timber
    assert post is not None
    parts = (
        ("bearers", "BT", bearer, _pieces(deck, "bearers")),
        ("posts", "PT", post, _pieces(deck, "posts")),
        ("braces", "KT", timber, _pieces(deck, "braces")),
    )
    framed = [named for *_, article, named in parts if article.code == timber.code]
    others: dict[str, tuple[str, str, Timber, Named]] = {}
    for what, mark, article, named in parts:
        if article.code == timber.code or not named:
            continue
        before = others.get(article.code)
        others[article.code] = (
            (what, mark, article, named) if before is None else (*before[:3], before[3] + named)
        )
    return Legs(framed=tuple(each for part in framed for each in part),
                others=tuple(others.values()))  # fmt: skip


def _pieces(deck: RaisedDeck, kind: str) -> Named:
    return tuple((each.mark, each.length_mm) for each in deck.pieces if each.kind == kind)


def cut_legs(cutter: Cutter, legs: Legs) -> tuple[tuple[Purchase, ...], tuple[Finding, ...]]:
    """Return what is of other timber than the frame, cut from the stock, or stops."""
    answers = [_cut(cutter, *each) for each in legs.others]
    bought = tuple(each for each in answers if isinstance(each, Purchase))
    return bought, tuple(each for each in answers if isinstance(each, Finding))


def _cut(cutter: Cutter, what: str, mark: str, timber: Timber, named: Named) -> Purchase | Finding:
    job = cutter.job
    task = Task(
        stock=stock_for(job, timber.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        pieces=pieces_of(named),
    )
    plan = cut(cutter, task, what=what)
    if isinstance(plan, Finding):
        return plan
    return purchase(
        what=what, article=timber.code, mark=mark, plan=plan, named_mm=list(named),
        minor_digits=job.stock.minor_digits,
    )  # fmt: skip


def wanted(job: Job, raised: RaisedDeck | None, footings: Footings | None) -> tuple[Wanted, ...]:
    """Return what comes in packs: feet for posts, concrete for footings."""
    found = []
    foot, mix = job.articles.post_foot, job.articles.concrete
    if raised is not None and foot is not None:
        found.append(Wanted(what="post feet", article=foot.code, title=foot.title,
                            need=raised.post_count, packs=foot.packs))  # fmt: skip
    if footings is not None and mix is not None:
        packs = tuple(Pack(count=bag.kg, price=bag.price) for bag in mix.packs)
        need = footings.mix_kg or 0
        found.append(Wanted(what="concrete", article=mix.code, title=mix.title, need=need,
                            packs=packs, unit="kg"))  # fmt: skip
    return tuple(found)
