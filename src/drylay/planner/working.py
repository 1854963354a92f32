"""How the deck is built: setting out, tasks with hold points, tools, hours, lights."""

from attrs import evolve

from drylay.buying.model import Purchase
from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Board
from drylay.planner.built import Built, Sited, Standing
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, row
from drylay.planner.standing_work import STANDS, legs_at_work, legs_upkeep, legs_work_rows
from drylay.reasons import Source
from drylay.work.cautions import FamilyCautions
from drylay.work.drafts import Deck
from drylay.work.lighting import place_lights
from drylay.work.model import Lighting, Work
from drylay.work.order import order_work
from drylay.work.posts_out import with_posts
from drylay.work.setting_out import ACCEPTED_MM, set_out

OURS = Source(kind="assumption", title="docs/conventions.md", clause="Work")


def plan_work(job: Job, built: Built) -> Work:
    """Return how the deck is built."""
    deck = Deck(
        surface=built.surface,
        edges=built.edges,
        supports=built.supports,
        pieces=built.pieces,
        frame=built.frame,
        fixings=built.fixings,
        buying=built.buying,
        site=built.site,
        groundwork=built.groundwork,
        setting_out=with_posts(
            set_out(built.edges, run=built.surface.run, units=job.brief.units),
            built.stood.raised, run=built.surface.run,
        ),
        lighting=_lighting(job, built),
        face_up=face_up(job.brief.board.face_up, job.articles.board),
        legs=legs_at_work(built),
    )  # fmt: skip
    work = order_work(deck, people=job.brief.crew.people, families=_cautions(job, built))
    upkeep = (*job.upkeep, *legs_upkeep(deck.legs))
    return evolve(work, upkeep=upkeep, upkeep_count=len(upkeep) or None,
                  not_ordered=deck.legs.not_ordered,
                  not_ordered_count=len(deck.legs.not_ordered) or None)  # fmt: skip


#: The family whose timber a frame is of.
FRAME_FAMILY = "softwood"


def _cautions(job: Job, built: Built) -> tuple[FamilyCautions, ...]:
    """Return the cautions of field and border, each with whether its boards are sawn."""
    kinds = {"boards": job.articles.board, "border boards": job.articles.border}
    sawn = {bought.what for bought in built.buying.purchases if _sawn(built, bought)}
    return tuple(
        FamilyCautions(
            texts=job.cautions_by.get(board.family, ()),
            sawn=what in sawn,
            like_frame=board.family == FRAME_FAMILY,
        )
        for what, board in kinds.items()
        if board is not None
    )


def _sawn(built: Built, bought: Purchase) -> bool:
    """Whether a saw touches anything of a purchase, or its rows once they lie."""
    trimmed = built.pieces.trim_allowance_mm > 0 or built.buying.end_trim_mm > 0
    ripped = bought.what == "boards" and any(row.ripped for row in built.surface.rows)
    cut = any(len(length.pieces) > 1 or length.offcut_mm > 0 for length in bought.lengths)
    return trimmed or ripped or cut


def face_up(wished: str | None, board: Board) -> str:
    """Return which face lies up: the wish, else the smooth one; "" where boards have no two faces.

    Smooth is kinder to feet, and neither is grip. Source: common practice, no source.
    """
    if wished or not board.faces:
        return wished or ""
    return "grooved" if board.faces == "grooved" else "smooth"


def _lighting(job: Job, built: Built) -> Lighting | None:
    wish = job.brief.lights
    if not wish.count or wish.hole_mm is None or wish.depth_mm is None:
        return None
    return place_lights(
        built.surface,
        built.frame,
        side=wish.side,
        count=wish.count,
        hole_mm=wish.hole_mm,
        depth_mm=wish.depth_mm,
        units=job.brief.units,
    )


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    work = built.work
    if work is None:
        return []
    wish, board = job.brief.board.face_up, job.articles.board
    found = [
        row("work.face_up", work.face_up, "", "as the brief wishes" if wish else
            "the smooth face, kinder to feet, where there is one",
            brief_says("board.face_up") if wish else PRACTICE, (("faces", board.faces),)),
        *shared_rows(job, built, work),
    ]  # fmt: skip
    return found + _lighting_rows(work.lighting)


def shared_rows(job: Job, built: Standing, work: Work) -> list[Row]:
    """Return the decisions taken on the work of any deck."""
    out = work.setting_out
    sides = (("frame_length_mm", built.edges.frame_length_mm),
             ("frame_depth_mm", built.edges.frame_depth_mm))  # fmt: skip
    framed = "the frame's sides" if job.articles.timber.code else "the cover's sides"
    return [
        people_row(work),
        row("work.setting_out.slant_mm", out.slant_mm, "mm",
            f"the largest 3-4-5 {framed} carry", ARITHMETIC, sides),
        row("work.setting_out.accepted_mm", ACCEPTED_MM, "mm",
            "how far the diagonals may differ", PRACTICE),
        *legs_work_rows(work),
        *whole_rows(work),
    ]  # fmt: skip


def people_row(work: Work) -> Row:
    """Return the decision on how many build."""
    return row("work.people", work.people, "count", "how many build", brief_says("crew.people"))


def whole_rows(work: Work) -> list[Row]:
    """Return the decisions taken on the whole of the work, whatever the deck."""
    return [
        row("work.holds", work.holds, "count", "what must be right before going on; each says who "
            "says so", PRACTICE, (("tasks", len(work.tasks)),)),
        *_upkeep_rows(work),
        row("work.most_h", work.most_h, "h", "hours by our own rates, for a careful amateur", OURS,
            (("least_h", work.least_h), ("people", work.people))),
    ]  # fmt: skip


def _of_what_stands(work: Work) -> bool:
    return any(task.source.clause == STANDS for task in work.upkeep)


def _upkeep_rows(work: Work) -> list[Row]:
    if not work.upkeep:
        return []
    often = tuple((task.what, task.times / task.in_years) for task in work.upkeep)
    return [
        row("work.upkeep_count", work.upkeep_count, "count", "tasks of upkeep that the boards' "
            "family names" + (", and what stands wants" if _of_what_stands(work) else "")
            + ", each so many times a year", work.upkeep[0].source, often)
    ]  # fmt: skip


def _lighting_rows(lighting: Lighting | None) -> list[Row]:
    if lighting is None:
        return []
    return [
        row("work.lighting.count", lighting.count, "count", "as the brief wishes",
            brief_says("lights.count"), (("side", lighting.side),)),
        row("work.lighting.hole_mm", lighting.hole_mm, "mm", "as the brief wishes",
            brief_says("lights.hole_mm")),
        row("work.lighting.depth_mm", lighting.depth_mm, "mm", "as the brief wishes",
            brief_says("lights.depth_mm")),
        row("work.lighting.clear_least_mm", lighting.clear_least_mm, "mm",
            "how far a hole stays from timber below", OURS),
        row("work.lighting.cable_mm", lighting.cable_mm, "mm",
            "from the datum corner, there and back to each light, a loop at each", OURS),
    ]  # fmt: skip


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about them."""
    return [*_lights_told(job, built), *lift_told(job, built)]


def _lights_told(job: Job, built: Built) -> list[Finding]:
    wish, work = job.brief.lights, built.work
    if not wish.count or wish.hole_mm is None or wish.depth_mm is None or work is None:
        return []
    surface = built.surface
    thick_mm = max(surface.board_thickness_mm, surface.border.thickness_mm if surface.border else 0)
    below_mm = thick_mm + built.frame.timber_depth_mm
    found: list[tuple[str, str, float, float | None, str]] = []
    if work.lighting is None:
        found.append(
            (
                "LIT-001",
                "so many lights do not fit clear of joists, rims and noggins: "
                "fewer, a smaller hole, or another side",
                float(wish.count),
                None,
                "lights",
            )
        )
    if wish.depth_mm > below_mm:
        found.append(("LIT-002", "the lights reach below the frame: name shallower ones",
                      wish.depth_mm, below_mm, "mm"))  # fmt: skip
    return [
        Finding(
            code=code, severity=Severity.STOP, subject="lights", message=message,
            measured=measured, limit=limit, unit=unit, source=OURS,
        )
        for code, message, measured, limit, unit in found
    ]  # fmt: skip


def lift_told(job: Job, built: Sited) -> list[Finding]:
    """Return the caution for one who builds alone what takes two."""
    work, alone = built.work, job.brief.crew.people == 1
    hard = [task.title.lower() for task in work.tasks if task.people > 1] if work else []
    if not alone or not hard:
        return []
    return [
        Finding(
            code="WRK-001",
            severity=Severity.CAUTION,
            subject="work",
            message=f"these take a second pair of hands: {', '.join(hard)}",
            measured=1.0,
            limit=2.0,
            unit="people",
            source=PRACTICE,
        )
    ]
