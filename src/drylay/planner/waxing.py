"""End-grain wax: its decisions, and what is said where boards want it and none is named."""

from fractions import Fraction
from math import ceil

from drylay.findings import Finding, Severity
from drylay.fixings.model import EndWax
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, Row, merchant_says, row

AT = "fixings.wax"


def area_up(area_m2: float) -> str:
    """Return an area to the next hundredth of a square metre up."""
    return f"{ceil(Fraction(repr(area_m2)) * 100) / 100:.2f}"


def rows(job: Job, wax: EndWax | None) -> list[Row]:
    """Return the decisions taken on the wax, none where there is none."""
    if wax is None:
        return []
    return [
        row(f"{AT}.covers_m2_per_l", wax.covers_m2_per_l, "m2 per l",
            "what a litre covers once, as sold", merchant_says(job, wax.article)),
        row(f"{AT}.need_ml", wax.need_ml, "ml",
            "area over what a litre covers, rounded up: one coat", ARITHMETIC,
            (("area_m2", wax.area_m2), ("covers_m2_per_l", wax.covers_m2_per_l))),
        row(f"{AT}.ends", wax.ends, "count",
            "the ends that are sawn of boards that are waxed, by their section", ARITHMETIC,
            (("area_m2", wax.area_m2),)),
    ]  # fmt: skip


def remarks(job: Job, unnamed: EndWax | None) -> list[Finding]:
    """Return that boards' sawn ends want wax where their family says so and none is named.

    `unnamed`: what would be needed, None where the brief names an article.
    """
    paths = ["fixings.wax_board_ends"]
    paths += ["fixings.wax_border_ends"] if job.articles.border else []
    asking = [] if unnamed is None else [path for path in paths if job.rules.count(path) == 1]
    if unnamed is None or not asking:
        return []
    return [
        Finding(
            code="COT-005",
            severity=Severity.CAUTION,
            subject="end wax",
            message=f"{unnamed.ends} sawn ends of boards, {area_up(unnamed.area_m2)} m2, want "
            "end-grain wax within hours of sawing, which is not in the order: name one in the "
            "brief's finish.end_wax",
            source=job.rules.source(asking[0]),
        )
    ]
