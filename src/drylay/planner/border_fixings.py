"""What holds the border's boards: its own screws, or the field's, counted apart."""

from typing import Any

from drylay.fixings.model import BorderScrews, Fixings
from drylay.fixings.screws import ScrewRules, count_deck_screws
from drylay.materials.stock_model import Screw
from drylay.pieces.model import Pieces
from drylay.planner import board_packers
from drylay.planner.border_rules import SCREWS
from drylay.planner.built import Built, Wanted
from drylay.planner.buy import Shape, in_boxes
from drylay.planner.job import Articles, Job
from drylay.planner.rows import ARITHMETIC, Row, merchant_says, row


def screw_of(articles: Articles) -> Screw:
    """Return the screw of the border's boards: its own, else the field's."""
    return articles.border_screw or articles.screw


def border_fixings(job: Job, shaped: Shape, pieces: Pieces) -> dict[str, Any]:
    """Return the fields of the fixings that a border has, none without one."""
    if pieces.border is None:
        return {}
    rules, screw = job.rules, screw_of(job.articles)
    counted = count_deck_screws(
        rows=sum(line.border for line in shaped.surface.rows),
        joists=shaped.supports.line_count,
        pairs=shaped.supports.seam_count or 0,
        joints=pieces.border.joint_count,
        rules=ScrewRules(
            per_crossing=rules.count(f"{SCREWS}.per_crossing"),
            length_least_mm=rules.value(f"{SCREWS}.length_least_mm"),
            edge_least_mm=rules.value(f"{SCREWS}.edge_least_mm"),
            end_least_mm=rules.value(f"{SCREWS}.end_least_mm"),
            pilot_ratio=rules.value(f"{SCREWS}.pilot_ratio"),
            predrill_all=rules.count(f"{SCREWS}.predrill_all") == 1,
        ),
        article=screw.code,
        shank_mm=screw.shank_mm,
        length_mm=screw.length_mm,
        driver=screw.driver,
    )
    return {
        "border_screws": BorderScrews(
            **{name: getattr(counted, name) for name in BorderScrews.__annotations__}
        ),
        "board_packers": board_packers.board_packers(job, shaped, pieces),
        "border_use_class_least": rules.count("fixings.border_use_class_least"),
        "border_finish_coats": rules.count("fixings.border_finish_coats"),
        "seal_border_ends": rules.count("fixings.seal_border_ends") == 1,
        "wax_border_ends": rules.count("fixings.wax_border_ends") == 1,
    }


def wanted(job: Job, fixings: Fixings) -> tuple[Wanted, ...]:
    """Return the border's screws to buy, and what packs boards up; nothing without a border."""
    screws = fixings.border_screws
    if screws is None:
        return ()
    held = in_boxes("border screws", screw_of(job.articles), screws.count)
    return (held, *board_packers.wanted(job, fixings))


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    screws = built.fixings.border_screws
    if screws is None:
        return []
    return [
        row(f"{SCREWS}.length_mm", screws.length_mm, "mm",
            "the border's own screw" if job.articles.border_screw else "the field's screw",
            merchant_says(job, screws.article), (("length_least_mm", screws.length_least_mm),)),
        row(f"{SCREWS}.count", screws.count, "count",
            "so many at each crossing, as many again at each joint", ARITHMETIC,
            (("per_crossing", screws.per_crossing), ("crossings", screws.crossings),
             ("joints", screws.joints))),
    ]  # fmt: skip
