"""A deck that stands, put together: bearers, posts, ledger, bracing, strength, over one frame."""

from collections.abc import Iterator
from itertools import pairwise

from attrs import evolve, frozen

from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import Timber
from drylay.outline.model import Spot
from drylay.planner.arranging import Arranged, arrange
from drylay.planner.buy import Shape, longest_mm
from drylay.planner.carrying import (
    Under,
    brace_over_mm,
    broad_of,
    head_held,
    joist_asked,
    joist_bearing_mm,
    joist_supports,
    loads_mm,
    more_kn_m2,
    on_ledger_mm,
    post_loads_kn,
    shares_mm,
)
from drylay.planner.hanging import band_of, between_findings, hanger_kn
from drylay.planner.job import Job
from drylay.planner.loose import is_loose, ledger_holds
from drylay.planner.rows import PRACTICE
from drylay.planner.screening import (
    Asks,
    Screen,
    one_ply,
    screen_of,
    strength_of,
    unloaded,
    untold,
)
from drylay.planner.standing_ground import ground_levels
from drylay.planner.standing_ledger import Held, held_by, hung_findings, ledger_of
from drylay.planner.stood import hung, stands
from drylay.planner.treated import legs_treated_too_little
from drylay.raised.model import Bearer, Heights, RaisedDeck, RaisedFrame
from drylay.raised.plies import ply_joints
from drylay.raised.sawn import leg_pieces
from drylay.raised.standing import PostSpot, raised_frame
from drylay.site.model import Site
from drylay.strength.checks import passes
from drylay.strength.model import BeamAsked, BoardAsked, PostAsked, Section, Strength

#: Shorter posts are told of, higher decks not screened; how far braces reach,
#: what metal feet keep posts off the ground. Common practice, no source.
SHORT_MM, SCREENED_MM = 150.0, 1800.0
BRACE_LEG_MM, STAND_OFF_MM, EMBED_MM = 600.0, 50.0, 450.0
#: A board under a point load lies over two bays of the three that its least length has.
BOARD_BAYS = 2


@frozen(kw_only=True)
class Settled:
    """What was settled before anything is cut: the arrangement, or the stops; what is held up."""

    under: Under
    held: Held
    arranged: Arranged | None
    stops: tuple[Finding, ...]


def settled(job: Job, shaped: Shape, site: Site) -> Settled | None:
    """Return where bearers and posts stand; None where nothing stands or nothing screens it."""
    screen = screen_of(job)
    if screen is None or not stands(job.brief):
        return None
    held = held_by(job, site)
    under = under_of(job, shaped, site, held)
    stops = (*unloaded(screen), *untold(timbers_of(job)), *no_levels(site))
    if stops:
        return Settled(under=under, held=held, arranged=None, stops=stops)
    found = job.memory.get(under) or arrange(job, screen, under)
    job.memory[under] = found
    if isinstance(found, Arranged):
        return Settled(under=under, held=held, arranged=found, stops=())
    return Settled(under=under, held=held, arranged=None, stops=found)


def timbers_of(job: Job) -> tuple[Timber, ...]:
    """Return the timbers that have to be graded: of joists, posts and the bearers named."""
    articles = job.articles
    assert articles.post is not None
    bearer = (articles.bearer,) if articles.bearer else ()
    return (articles.timber, articles.post, *bearer)


def no_levels(site: Site) -> Iterator[Finding]:
    """Yield a stop where nobody tells the deck's top or the ground below it."""
    if site.levels is None or site.levels.ground_least_mm is None:
        yield Finding(
            code="STR-007", severity=Severity.STOP, subject="posts", source=PRACTICE,
            message="posts are as long as the ground is deep: give the deck's top and at least "
            "four ground heights in [[levels.points]]",
        )  # fmt: skip


def under_of(job: Job, shaped: Shape, site: Site, held: Held) -> Under:
    """Return what bearers and posts have to carry."""
    edges, levels, timber = shaped.edges, site.levels, job.articles.timber
    return Under(
        length_mm=edges.frame_length_mm,
        depth_mm=edges.frame_depth_mm,
        ledger_mm=timber.thickness_mm if held.ledger else None,
        joist=one_ply(timber),
        joist_count=shaped.supports.line_count,
        centres_mm=shaped.supports.centres_mm,
        underside_mm=levels.underside_mm if levels else 0.0,
        ground_least_mm=(levels.ground_least_mm or 0.0) if levels else 0.0,
        stand_off_mm=stand_off_mm(job),
        hung=hung(job.brief),
        house_mm=_house_mm(job, shaped, site, held),
    )


def _house_mm(job: Job, shaped: Shape, site: Site, held: Held) -> float | None:
    """Return how far posts may reach past the frame at a wall that a bearer stands beside."""
    beside = site.beside_house and shaped.surface.run == "along" and not held.ledger
    if not (hung(job.brief) and beside):
        return None
    return to_mm(exact(site.wall_gap_mm) + exact(shaped.edges.frame_near_mm))


def stand_off_mm(job: Job) -> float:
    """Return what keeps posts off the ground: 0 where they run into concrete."""
    wish, foot = job.brief.raised, job.articles.post_foot
    if wish.foot != "metal foot":
        return 0.0
    if wish.stand_off_mm is not None:
        return wish.stand_off_mm
    return foot.stand_off_mm if foot is not None else STAND_OFF_MM


def embed_mm(job: Job) -> float:
    """Return how far posts run into concrete: 0 where they stand on feet."""
    wish = job.brief.raised
    if wish.foot == "metal foot":
        return 0.0
    return EMBED_MM if wish.embed_mm is None else wish.embed_mm


def raised_on(
    job: Job, shaped: Shape, site: Site, found: Settled, screen: Screen
) -> tuple[RaisedDeck, tuple[Finding, ...]]:
    """Return the raised deck over its frame with what is told of it."""
    under, arranged = found.under, found.arranged
    assert arranged is not None
    bearers = bearers_of(job, shaped, under, arranged)
    asked = found.held.asked(job, screen, on_ledger_mm(under, arranged.lines_mm, _broad(arranged)))
    spacing_mm = asked[0].spacing_mm if asked else 0.0
    ledger, wall_told = ledger_of(job, shaped, found.held, spacing_mm)
    made = _frame_of(job, shaped, site, under, arranged, bearers)
    made = evolve(made, ledger=ledger)
    if asked and not passes(screen.basis.ledger(asked[0], screen.use)):
        wall_told = ()  # its fixings are told as too weak: room for them is another matter
    clean = evolve(made, findings=())
    deck = raised_deck(job, found, clean)
    told = (*found.held.findings, *hung_findings(job, found.held), *wall_told, *made.findings,
            *between_findings(job, deck, shaped.supports),
            *legs_treated_too_little(job))  # fmt: skip
    return deck, told


def raised_deck(job: Job, found: Settled, frame: RaisedFrame) -> RaisedDeck:
    """Return a raised frame as a plan holds it, with what was chosen."""
    under, arranged, screen = found.under, found.arranged, screen_of(job)
    assert arranged is not None
    assert screen is not None
    assert job.articles.post is not None
    made, post = arranged.made, job.articles.post
    supports, length_mm = joist_supports(under, arranged.lines_mm, _broad(arranged))
    end_mm = 0.0 if under.hung else _end(supports, length_mm, found.held)
    return RaisedDeck(
        bearer_article=made.timber.code, post_article=post.code,
        foot_article=job.articles.post_foot.code if job.articles.post_foot else "",
        bearer=f"{made.section.plies} x {made.timber.code}", post=post.code,
        foot=foot_told(job), joists=job.brief.raised.joists,
        hanger_kn=hanger_kn(screen, under, length_mm) if under.hung else None,
        line_count=len(frame.bearers), post_count=len(frame.posts),
        ledger_wall=found.held.wall, ledger_fixing=found.held.fixing,
        sharing="halved" if screen.basis.halved else "levered",
        joist_span_mm=_widest(supports), joist_end_mm=end_mm,
        bearer_span_mm=_widest(arranged.posts_mm),
        bearer_end_mm=_end(arranged.posts_mm, under.length_mm, None),
        post_top_mm=frame.posts[0].top_mm, brace_over_mm=frame.heights.brace_over_mm, frame=frame,
        pieces=leg_pieces(frame, under.joist.depth_mm),
    )  # fmt: skip


def foot_told(job: Job) -> str:
    """Return what posts stand on, in words."""
    if job.brief.raised.foot == "metal foot":
        return f"metal foot, {stand_off_mm(job):g} mm off the ground"
    return f"in concrete, {embed_mm(job):g} mm deep"


def _widest(places_mm: tuple[float, ...]) -> float:
    return to_mm(max((exact(b) - exact(a) for a, b in pairwise(places_mm)), default=0))


def _end(places_mm: tuple[float, ...], length_mm: float, held: Held | None) -> float:
    far = exact(length_mm) - exact(places_mm[-1])
    near = 0 if held is not None and held.ledger else exact(places_mm[0])
    return to_mm(max(far, near))


def bearers_of(job: Job, shaped: Shape, under: Under, arranged: Arranged) -> tuple[Bearer, ...]:
    """Return the bearers with their loads and the joints of their plies, in the cover's axes."""
    edges, made = shaped.edges, arranged.made
    start, end = (
        edges.frame_start_mm,
        to_mm(exact(edges.frame_start_mm) + exact(edges.frame_length_mm)),
    )
    joints = ply_joints(
        length_mm=under.length_mm, posts_mm=arranged.posts_mm, plies=made.section.plies,
        longest_mm=longest_mm(made.timber.lengths, job.brief),
    )  # fmt: skip
    return tuple(
        Bearer(
            mark=f"BR{number}", line=f"line {number}", section=made.section,
            across_mm=to_mm(exact(edges.frame_near_mm) + exact(line)), start_mm=start, end_mm=end,
            carried_mm=share, joints=joints or (),
        )
        for number, (line, share) in enumerate(
            zip(
                arranged.lines_mm,
                loads_mm(under, arranged.lines_mm, _broad(arranged)),
                strict=True,
            ),
            1,
        )
    )  # fmt: skip


def _broad(arranged: Arranged) -> float:
    return broad_of(arranged.made.section)


def heights_of(job: Job, site: Site, bearer: Section, *, held: bool) -> Heights:
    """Return what stands on what, and the heights at which more is asked."""
    levels, timber = site.levels, job.articles.timber
    assert levels is not None
    return Heights(
        finished_mm=levels.deck_top_mm,
        board_mm=to_mm(
            exact(levels.deck_top_mm) - exact(levels.underside_mm) - exact(timber.depth_mm)
        ),
        joist_over_mm=0.0 if hung(job.brief) else timber.depth_mm, bearer_mm=bearer.depth_mm,
        stand_off_mm=stand_off_mm(job), embed_mm=embed_mm(job), short_mm=SHORT_MM,
        brace_over_mm=brace_over_mm(job, held=held), screened_mm=SCREENED_MM,
    )  # fmt: skip


def _frame_of(  # noqa: PLR0917 - what a frame is put together of
    job: Job, shaped: Shape, site: Site, under: Under, arranged: Arranged,
    bearers: tuple[Bearer, ...],
) -> RaisedFrame:  # fmt: skip
    post = job.articles.post
    assert post is not None
    held = ledger_holds(job, ledger=under.ledger_mm is not None)
    heights = heights_of(job, site, arranged.made.section, held=held)
    spots = [
        [
            PostSpot(along_mm=along, ground_mm=ground, joist_from_mm=near, joist_to_mm=far)
            for along, ground in _grounds(job, shaped, bearer, arranged.posts_mm)
        ]
        for bearer, (near, far) in zip(bearers, _beside(shaped, under, bearers), strict=True)
    ]
    leg = min(max(BRACE_LEG_MM, heights.bearer_mm + under.joist.depth_mm), heights.brace_over_mm)
    return raised_frame(
        bearers=bearers, spots=spots, post_section=one_ply(post), heights=heights,
        brace_leg_mm=leg,
    )  # fmt: skip


def _beside(shaped: Shape, under: Under, bearers: tuple[Bearer, ...]) -> list[tuple[float, float]]:
    """Return from where to where joists run at each bearer's posts: the bays beside it, if hung."""
    edges = shaped.edges
    near, far = exact(edges.frame_near_mm), exact(edges.frame_near_mm) + exact(edges.frame_depth_mm)
    if not under.hung:
        return [(to_mm(near), to_mm(far))] * len(bearers)
    first = [to_mm(near + exact(under.ledger_mm))] if under.ledger_mm is not None else []
    bands = [band_of(bearer) for bearer in bearers]
    starts = [*first, *(to_mm(exact(band.near_mm) + exact(band.broad_mm)) for band in bands)]
    starts = starts if first else [bands[0].near_mm, *starts]
    ends = [*(band.near_mm for band in bands[1:]), to_mm(far)]
    return list(zip(starts, ends, strict=False))


def _grounds(
    job: Job, shaped: Shape, bearer: Bearer, posts_mm: tuple[float, ...]
) -> list[tuple[float, float]]:
    places = [to_mm(exact(bearer.start_mm) + exact(at)) for at in posts_mm]
    spots = tuple(Spot(along_mm=at, across_mm=bearer.across_mm) for at in places)
    return list(zip(places, ground_levels(job, shaped, spots), strict=True))


def strength_on(
    job: Job, shaped: Shape, screen: Screen, found: Settled, raised: RaisedDeck
) -> Strength:
    """Return every member of a raised deck as its basis screens it."""
    under, arranged = found.under, found.arranged
    assert arranged is not None
    wood = job.articles.timber.strength_class
    broad_mm = _broad(arranged)
    supports, length_mm = joist_supports(under, arranged.lines_mm, broad_mm)
    joists = evolve(
        joist_asked(under, wood, supports, length_mm, screen),
        bearing_mm=joist_bearing_mm(under, broad_mm),
    )
    bearers = tuple(_bearer_asked(job, screen, found, each) for each in raised.frame.bearers)
    asks = Asks(
        beams=(joists, *bearers),
        posts=tuple(_posts_asked(job, screen, found, raised)),
        boards=boards_asked(job, shaped),
        ledgers=found.held.asked(job, screen, on_ledger_mm(under, arranged.lines_mm, broad_mm)),
    )
    return strength_of(screen, asks)


def _bearer_asked(job: Job, screen: Screen, found: Settled, bearer: Bearer) -> BeamAsked:
    under, arranged, post = found.under, found.arranged, job.articles.post
    assert arranged is not None
    assert post is not None
    return BeamAsked(
        kind="bearer", subject=bearer.mark, wood=arranged.made.timber.strength_class,
        section=bearer.section, length_mm=under.length_mm, supports_mm=arranged.posts_mm,
        carried_mm=bearer.carried_mm, bearing_mm=post.thickness_mm,
        held_each_mm=under.centres_mm, sharing=screen.sharing,
        more_dead_kn_m2=more_kn_m2(screen, under), hold_down_kn=screen.hold_down_kn,
    )  # fmt: skip


def _posts_asked(
    job: Job, screen: Screen, found: Settled, raised: RaisedDeck
) -> Iterator[PostAsked]:
    under, arranged, post = found.under, found.arranged, job.articles.post
    assert arranged is not None
    assert post is not None
    shares = shares_mm(screen, under.length_mm, arranged.posts_mm)
    braced = {brace.post for brace in raised.frame.bracing.braces}
    held = ledger_holds(job, ledger=found.held.ledger)
    standing = iter(raised.frame.posts)
    for bearer in raised.frame.bearers:
        for along_mm in shares:
            each = next(standing)
            area_m2 = along_mm * bearer.carried_mm / 1e6
            dead, live = post_loads_kn(screen, under, bearer.section, area_m2, along_mm)
            yield PostAsked(
                subject=each.mark, wood=post.strength_class, section=each.section,
                length_mm=max(each.length_mm, 1.0), dead_kn=dead,
                live_kn=max(live, screen.loads.point_kn),
                braced=head_held(each.length_mm, held=held, braced=each.mark in braced),
            )  # fmt: skip


def boards_asked(job: Job, shaped: Shape) -> tuple[BoardAsked, ...]:
    """Return the boards as a basis is asked for them; none where nobody tells their class."""
    return bay_asked(job, shaped.supports.centres_mm)


def bay_asked(job: Job, bay_mm: float) -> tuple[BoardAsked, ...]:
    """Return the boards over bays so wide; none where nobody tells their class."""
    told, board = job.brief.strength.board_class, job.articles.board
    if told is None or is_loose(job):
        return ()
    section = Section(breadth_mm=board.width_mm, depth_mm=board.thickness_mm)
    return (
        BoardAsked(subject="boards", wood=told, section=section, bay_mm=bay_mm, bays=BOARD_BAYS),
    )
