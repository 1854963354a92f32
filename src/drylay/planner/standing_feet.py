"""What posts stand on, and what of a raised frame is cut from the stock."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.buying.model import Purchase
from drylay.buying.purchase import pieces_of, purchase
from drylay.cutting.model import Task
from drylay.findings import Finding
from drylay.groundwork.footings import (
    footing_findings,
    footing_for,
    footing_rules,
    screw_findings,
)
from drylay.groundwork.model import Footing, Footings, PostFooting
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import Pack, Timber
from drylay.planner.buy import stock_for
from drylay.planner.built import Wanted
from drylay.planner.cuts import Cutter, cut
from drylay.planner.job import Job
from drylay.raised.model import Bearer, RaisedFrame
from drylay.regions.model import RegionPack
from drylay.regions.packs import soil_named
from drylay.strength.model import PostAsked
from drylay.units import MM_PER_INCH

#: What sizes of footings are rounded up to, by units.
STEP_MM = {"metric": 10.0, "imperial": MM_PER_INCH}


def footings_of(
    job: Job, pack: RegionPack, frame: RaisedFrame, posts: tuple[PostAsked, ...]
) -> tuple[Footings | None, tuple[Finding, ...]]:
    """Return a footing under every post with what is told, or the stops."""
    wish, soil = job.brief.raised, soil_named(pack, job.brief.site.soil or "")
    if wish.footing == "ground screw":
        worst = max(asked.dead_kn + asked.live_kn for asked in posts)
        return None, screw_findings(load_kn=worst, capacity_kn=wish.screw_kn)
    rules, made, told = footing_rules(pack), [], {}
    for number, asked in enumerate(posts, 1):
        found = _footing(job, pack, asked)
        if not isinstance(found, Footing):
            return None, found
        made.append(PostFooting(mark=f"FT{number}", post=asked.subject, dead_kn=asked.dead_kn,
                                live_kn=asked.live_kn, footing=found))  # fmt: skip
        for each in footing_findings(found, soil, rules, frost_mm=job.brief.site.frost_mm):
            told.setdefault((each.code, each.subject), each)
    frost = [each for each in (job.brief.site.frost_mm, rules.frost.value) if each is not None]
    first = made[0].footing
    whole = Footings(
        kind=first.kind, shape=first.shape, soil=first.soil, soil_named=first.soil_named,
        bearing_kn_m2=first.bearing_kn_m2, frost_mm=max(frost, default=None), bag=first.bag,
        bags=sum(each.footing.bags for each in made),
        concrete_m3=round(sum(each.footing.concrete_m3 for each in made), 3), under=tuple(made),
    )  # fmt: skip
    return whole, tuple(told.values())


def _footing(job: Job, pack: RegionPack, asked: PostAsked) -> Footing | tuple[Finding, ...]:
    wish, named = job.brief.raised, job.brief.site.soil
    return footing_for(
        kind=wish.footing, shape=wish.shape, load_kn=asked.dead_kn + asked.live_kn,
        soil=soil_named(pack, named or ""), soil_named=named is not None,
        post_mm=max(asked.section.breadth_mm, asked.section.depth_mm), rules=footing_rules(pack),
        bag=pack.bags[0], frost_mm=job.brief.site.frost_mm, post_depth_mm=_stands_in(job),
        step_mm=STEP_MM[job.brief.units],
    )  # fmt: skip


def _stands_in(job: Job) -> float:
    """Return how deep a post stands in its concrete: none of it on a metal foot."""
    from drylay.planner.standing import embed_mm

    return embed_mm(job)


def bearer_pieces(bearer: Bearer) -> Iterator[tuple[str, float]]:
    """Yield every piece of a bearer's plies with its length, from joint to joint."""
    start, end = exact(bearer.start_mm), exact(bearer.end_mm)
    for ply in range(1, bearer.section.plies + 1):
        at = [start, *(start + exact(j.at_mm) for j in bearer.joints if j.ply == ply), end]
        for part, (one, other) in enumerate(pairwise(at), 1):
            yield f"{bearer.mark}.{ply}.{part}", to_mm(other - one)


def cut_legs(
    cutter: Cutter, frame: RaisedFrame, bearer: Timber, post: Timber
) -> tuple[tuple[Purchase, ...], tuple[Finding, ...]]:
    """Return bearers, posts and braces cut from the stock, and the stops of those that cannot be."""
    depth_mm = cutter.job.articles.timber.depth_mm
    parts = (
        ("bearers", "BT", bearer, [p for each in frame.bearers for p in bearer_pieces(each)]),
        ("posts", "PT", post, [(each.mark, each.whole_mm) for each in frame.posts]),
        ("braces", "KT", cutter.job.articles.timber,
         [(each.mark, to_mm(exact(each.length_mm) + exact(depth_mm)))
          for each in frame.bracing.braces]),
    )  # fmt: skip
    bought: list[Purchase] = []
    stops: list[Finding] = []
    for what, mark, timber, named in parts:
        answer = _cut(cutter, what, mark, timber, named) if named else None
        if isinstance(answer, Finding):
            stops.append(answer)
        elif answer is not None:
            bought.append(answer)
    return tuple(bought), tuple(stops)


def _cut(
    cutter: Cutter, what: str, mark: str, timber: Timber, named: list[tuple[str, float]]
) -> Purchase | Finding:
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
        what=what, article=timber.code, mark=mark, plan=plan, named_mm=named,
        minor_digits=job.stock.minor_digits,
    )  # fmt: skip


def wanted(job: Job, raised: RaisedFrame | None, footings: Footings | None) -> tuple[Wanted, ...]:
    """Return what comes in packs: feet for posts, concrete for footings."""
    found = []
    foot, mix = job.articles.post_foot, job.articles.concrete
    if raised is not None and foot is not None:
        found.append(Wanted(what="post feet", article=foot.code, title=foot.title,
                            need=len(raised.posts), packs=foot.packs))  # fmt: skip
    if footings is not None and mix is not None:
        packs = tuple(Pack(count=bag.kg, price=bag.price) for bag in mix.packs)
        found.append(Wanted(what="concrete", article=mix.code, title=mix.title, need=0,
                            packs=packs, unit="kg"))  # fmt: skip
    return tuple(found)
