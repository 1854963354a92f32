"""How the frame, the fascia and the joists are held, beyond deck and coach screws."""

from typing import Any

from attrs import frozen

from drylay.findings import Finding
from drylay.fixings.fascia import Behind, FasciaRules, clear_of_heads_mm, place_fascia_screws
from drylay.fixings.frame_screws import FrameScrewRules, count_frame_screws, count_hangers
from drylay.fixings.model import (
    FasciaScrews,
    FixingMetal,
    Fixings,
    FrameScrews,
    Hangers,
    TimberClass,
)
from drylay.frame.model import Frame
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import Board, FasciaBoard, Screw, Timber
from drylay.pieces.model import Pieces
from drylay.planner import clips, holding_notes
from drylay.planner.built import Framed, Wanted
from drylay.planner.buy import Shape, in_boxes
from drylay.planner.job import Articles, Job
from drylay.planner.metals import driven_into, metal_fixings, metal_ruling, metal_rulings
from drylay.planner.pairs import PER_BATTEN_JOINT, paired_joists
from drylay.planner.rows import ARITHMETIC, Row, merchant_says, row
from drylay.raised.model import RaisedDeck
from drylay.reasons import Source

FRAME, FASCIA = "fixings.frame_screws", "fixings.fascia_screws"
WASHER = Source(kind="from memory", title="ISO 7093", clause="washers three shanks across")
GUIDANCE = Source(
    kind="from memory", title="US residential deck guidance", clause="hangers 60 % of the joist"
)


def held(  # noqa: PLR0917 - what is held
    job: Job, shaped: Shape, frame: Frame, screwed: Fixings, pieces: Pieces | None,
    raised: RaisedDeck | None = None,
) -> dict[str, Any]:  # fmt: skip
    """Return the fields of the fixings that are counted here, beside those screwed already."""
    paired = paired_joists(shaped.supports)
    hangers, frame_screws = _hangers(job, frame, len(paired)), _frame_screws(job, frame, pieces)
    idle = {"frame screws"} if frame_screws is None else set()
    idle |= {"hangers", "hanger screws"} if hangers is None else set()
    idle |= clips.idle(job) | (set() if screwed.coach_screws.count else {"coach screws"})
    return {
        "frame_screws": frame_screws,
        "fascia_screws": _fascia_screws(job, shaped, frame, screwed, raised),
        "hangers": hangers,
        "metals": metals(job, idle),
        "board_use_class_least": job.rules.count("fixings.board_use_class_least"),
        "frame_use_class_least": job.rules.count("fixings.frame_use_class_least"),
        "use_classes": use_classes(job.articles),
    }


def _frame_screws(job: Job, frame: Frame, pieces: Pieces | None) -> FrameScrews | None:
    screw, rules = job.articles.frame_screw, job.rules
    if screw is None:
        return None
    joints = None if pieces is None or frame.batten_count is None else len(pieces.joints)
    return count_frame_screws(
        frame,
        FrameScrewRules(
            per_noggin_end=rules.count(f"{FRAME}.per_noggin_end"),
            per_splice_side=rules.count(f"{FRAME}.per_splice_side"),
            length_least_mm=rules.value(f"{FRAME}.length_least_mm"),
            pilot_ratio=rules.value(f"{FRAME}.pilot_ratio"),
            per_batten_joint=None if joints is None else PER_BATTEN_JOINT,
        ),
        batten_joints=joints,
        article=screw.code,
        shank_mm=screw.shank_mm,
        length_mm=screw.length_mm,
        driver=screw.driver,
    )


def _ply_joints(raised: RaisedDeck | None) -> tuple[tuple[str, float], ...]:
    """Return where plies of bearers are jointed, from the datum, each with its bearer's mark."""
    bearers = () if raised is None else raised.frame.bearers
    return tuple(
        (bearer.mark, to_mm(exact(bearer.start_mm) + exact(joint.at_mm)))
        for bearer in bearers
        for joint in bearer.joints
    )


def _fascia_screws(
    job: Job, shaped: Shape, frame: Frame, screwed: Fixings, raised: RaisedDeck | None
) -> FasciaScrews | None:
    screw, rules = job.articles.fascia_screw, job.rules
    if screw is None or not shaped.edges.faces:
        return None
    coach, per_place = screwed.coach_screws, rules.count(f"{FASCIA}.per_place")
    limits = FasciaRules(
        spacing_most_mm=rules.value(f"{FASCIA}.spacing_most_mm"),
        end_least_mm=rules.value(f"{FASCIA}.end_least_mm"),
        clear_mm=clear_of_heads_mm(coach.shank_mm, screw.shank_mm),
        shank_mm=screw.shank_mm,
    )
    behind = Behind(
        run=shaped.surface.run,
        edges=shaped.edges,
        frame=frame,
        coach=coach,
        on_hangers=job.articles.hanger is not None,
        units=job.brief.units,
        paired=paired_joists(shaped.supports),
        plies=_ply_joints(raised),
    )
    places = place_fascia_screws(behind, limits)
    ratio = rules.value(f"{FASCIA}.pilot_ratio")
    return FasciaScrews(
        article=screw.code,
        driver=screw.driver,
        shank_mm=screw.shank_mm,
        length_mm=screw.length_mm,
        length_least_mm=rules.value(f"{FASCIA}.length_least_mm"),
        per_place=per_place,
        spacing_most_mm=limits.spacing_most_mm,
        end_least_mm=limits.end_least_mm,
        clear_mm=limits.clear_mm,
        places=places,
        count=per_place * len(places),
        pilot_ratio=ratio,
        pilot_mm=to_mm(exact(screw.shank_mm * ratio)),
    )


def _hangers(job: Job, frame: Frame, paired: int) -> Hangers | None:
    hanger, screw = job.articles.hanger, job.articles.hanger_screw
    if hanger is None or screw is None:
        return None
    return count_hangers(
        frame,
        article=hanger.code,
        joist_mm=hanger.joist_mm,
        depth_mm=hanger.depth_mm,
        screw=screw.code,
        screw_shank_mm=screw.shank_mm,
        screw_length_mm=screw.length_mm,
        driver=screw.driver,
        screws_each=hanger.screws_each,
        paired=paired,
    )


def metals(job: Job, idle: set[str], doubles: Screw | None = None) -> tuple[FixingMetal, ...]:
    """Return the metal of each fixing counted, and whether the family allows it here.

    `doubles` is the screw that makes two timbers one, where any are: it comes after frame screws.
    """
    return tuple(
        FixingMetal(
            what=what,
            article=article.code,
            metal=article.metal,
            driven_into=driven_into(job.articles, what),
            allowed=all(
                article.metal in rulings and rulings[article.metal].value == 1
                for rulings in metal_rulings(job, what)
            ),
        )
        for what, article in metal_fixings(job.articles, doubles)
        if what not in idle
    )


def use_classes(articles: Articles) -> tuple[TimberClass, ...]:
    """Return the use class that each timber is sold as."""
    timbers: list[tuple[str, Board | Timber | FasciaBoard]]
    timbers = [] if articles.tile else [("deck boards", articles.board)]
    timbers += [("border boards", articles.border)] if articles.border else []
    timbers.append(("frame timber", articles.timber))
    timbers += [("fascia", articles.fascia)] if articles.fascia else []
    return tuple(
        TimberClass(what=what, article=timber.code, use_class=timber.use_class)
        for what, timber in timbers
    )


def wanted(job: Job, fixings: Fixings) -> tuple[Wanted, ...]:
    """Return what of them is to be bought."""
    articles, found = job.articles, []
    if articles.frame_screw and fixings.frame_screws:
        found.append(in_boxes("frame screws", articles.frame_screw, fixings.frame_screws.count))
    if articles.fascia_screw and fixings.fascia_screws:
        found.append(in_boxes("fascia screws", articles.fascia_screw, fixings.fascia_screws.count))
    if articles.hanger and articles.hanger_screw and fixings.hangers:
        hangers = fixings.hangers
        found.append(in_boxes("hangers", articles.hanger, hangers.count))
        found.append(in_boxes("hanger screws", articles.hanger_screw, hangers.screw_count))
    return tuple(found)


def rows(job: Job, built: Framed) -> list[Row]:
    """Return the decisions taken here."""
    timber_mm = built.frame.timber_thickness_mm
    behind = Section(
        thickness_mm=timber_mm,
        depth_mm=built.frame.timber_depth_mm,
        fascia_mm=built.edges.fascia_thickness_mm,
        line_count=built.supports.line_count,
        hung=built.frame.hung,
    )
    return rows_of(job, built.fixings, behind)


@frozen(kw_only=True)
class Section:
    """A frame's timber as its fixings see it: how thick and deep, what fascia, how many lines.

    `hung`: its joists hang between bearers.
    """

    thickness_mm: float
    depth_mm: float
    fascia_mm: float
    line_count: int
    hung: bool = False


def rows_of(job: Job, fixings: Fixings, behind: Section) -> list[Row]:
    """Return the decisions taken on these fixings."""
    frame, fascia, hangers = fixings.frame_screws, fixings.fascia_screws, fixings.hangers
    return [
        *(_frame_screw_rows(job, behind, frame) if frame else ()),
        *(_fascia_screw_rows(job, fixings, behind, fascia) if fascia else ()),
        *(_hanger_rows(job, behind, hangers) if hangers else ()),
        *_metal_rows(job, fixings),
        *_class_rows(job, fixings),
    ]


def _frame_screw_rows(job: Job, behind: Section, screws: FrameScrews) -> list[Row]:
    both_mm = to_mm(2 * exact(behind.thickness_mm))
    return [
        row(f"{FRAME}.length_mm", screws.length_mm, "mm", "the screw the brief names",
            merchant_says(job, screws.article), (("length_least_mm", screws.length_least_mm),
                                                 ("both_timbers_mm", both_mm))),
        row(f"{FRAME}.count", screws.count, "count",
            "so many at each end of each noggin, and each side of each joint of a rim", ARITHMETIC,
            (("per_noggin_end", screws.per_noggin_end), ("noggin_ends", screws.noggin_ends),
             ("per_splice_side", screws.per_splice_side),
             ("splice_sides", screws.splice_sides))),
    ]  # fmt: skip


def _fascia_screw_rows(
    job: Job, fixings: Fixings, behind: Section, screws: FasciaScrews
) -> list[Row]:
    through_mm = to_mm(exact(behind.fascia_mm) + exact(behind.thickness_mm))
    return [
        row(f"{FASCIA}.length_mm", screws.length_mm, "mm", "the screw the brief names",
            merchant_says(job, screws.article), (("length_least_mm", screws.length_least_mm),
                                                 ("through_mm", through_mm))),
        row(f"{FASCIA}.clear_mm", screws.clear_mm, "mm",
            "half a washer of three shanks and half the fascia screw's own", WASHER,
            (("coach_shank_mm", fixings.coach_screws.shank_mm),
             ("shank_mm", screws.shank_mm))),
        row(f"{FASCIA}.count", screws.count, "count",
            "so many at each place; the fewest places within the spacing, evenly, clear of what "
            "is behind", ARITHMETIC, (("per_place", screws.per_place),
                                      ("places", len(screws.places)))),
    ]  # fmt: skip


def _hanger_rows(job: Job, behind: Section, hangers: Hangers) -> list[Row]:
    path = "fixings.hangers"
    return [
        row(f"{path}.depth_mm", hangers.depth_mm, "mm", "the hanger the brief names",
            merchant_says(job, hangers.article), (("joist_mm", hangers.joist_mm),)),
        row(f"{path}.depth_least_mm", hangers.depth_least_mm, "mm",
            "a hanger holds at least 60 % of the joist's depth", GUIDANCE,
            (("timber_depth_mm", behind.depth_mm),)),
        row(f"{path}.count", hangers.count, "count",
            "both ends of every part of every joist that hangs between bearers" if behind.hung
            else "both ends of every joist but the outer two, which stay on coach screws",
            ARITHMETIC, (("line_count", behind.line_count),)),
        row(f"{path}.screw_count", hangers.screw_count, "count",
            "as many for each hanger as its record says", merchant_says(job, hangers.article),
            (("count", hangers.count), ("screws_each", hangers.screws_each))),
    ]  # fmt: skip


def _metal_rows(job: Job, fixings: Fixings) -> list[Row]:
    ruled = [metal_ruling(job, held_by.what, held_by.metal) for held_by in fixings.metals]
    return [
        row(f"fixings.metals[{at}].metal", held_by.metal, "",
            f"{held_by.what}: {ruling.rule}", ruling.source, ruling.inputs)
        for at, (held_by, ruling) in enumerate(zip(fixings.metals, ruled, strict=True))
        if ruling is not None
    ]  # fmt: skip


def _class_rows(job: Job, fixings: Fixings) -> list[Row]:
    return [
        row(f"fixings.use_classes[{at}].use_class", timber.use_class, "use class",
            f"{timber.what}: the use class it is sold as; empty where the stock does not tell",
            merchant_says(job, timber.article))
        for at, timber in enumerate(fixings.use_classes)
    ]  # fmt: skip


def remarks(job: Job, built: Framed) -> list[Finding]:
    """Return what is worth telling about them."""
    return holding_notes.remarks(job, built)
