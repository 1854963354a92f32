"""Hidden clips, starters and end caps: counted, bought, and what must be said of them."""

from typing import Any

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.fixings.clips import (
    ClipRules,
    OnBattens,
    count_clips,
    count_end_caps,
    count_on_battens,
    fixed_at,
    fixed_points,
)
from drylay.fixings.model import Clips, EndCaps, Fixings
from drylay.pieces.model import Pieces
from drylay.planner import ripped_clips
from drylay.planner.built import Built, Wanted
from drylay.planner.buy import Shape, in_boxes
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, Row, merchant_says, row
from drylay.reasons import Ruling, Source
from drylay.supports.model import Supports

PATH, CAPS, HIDDEN = "fixings.clips", "fixings.end_caps", "fixings.hidden_clips"
OURS = Source(kind="assumption", title="docs/conventions.md", clause="Clips")
#: The governed path that the last row's screws take their number from, instead of their own.
PER_CROSSING = "fixings.deck_screws.per_crossing"


def clipped(job: Job, shaped: Shape, pieces: Pieces) -> dict[str, Any]:
    """Return the clips and end caps, and who rules on them, as fields of the fixings."""
    return {
        "hidden_clips": job.rules.count(HIDDEN),
        "clips": _clips(job, shaped, pieces),
        "end_caps": _end_caps(job, pieces),
    }


def on_battens(shaped: Shape, pieces: Pieces) -> OnBattens:
    """Return what battens beside joints want besides the joists."""
    rows = tuple(each.mark for each in shaped.surface.rows)
    return count_on_battens(rows, pieces.joints, paired=shaped.supports.seam_count is not None)


def _clips(job: Job, shaped: Shape, pieces: Pieces) -> Clips | None:
    clip, starter = job.articles.clip, job.articles.starter_clip
    if clip is None:
        return None
    counted = count_clips(
        rows=len(shaped.surface.rows),
        joists=shaped.supports.line_count,
        rules=clip_rules(job),
        on_battens=on_battens(shaped, pieces),
        pieces=pieces,
        lines=shaped.supports.lines,
        article=clip.code,
        gap_mm=clip.gap_mm or 0.0,
        starter=starter.code if starter and "starter clips" not in idle(job) else "",
        shank_mm=job.articles.screw.shank_mm,
    )
    screws = ripped_clips.edge_screws(
        shaped, on_battens(shaped, pieces), per_joist=counted.end_row_screws_per_joist
    )
    return evolve(counted, edge_screws=screws)


def clip_rules(job: Job) -> ClipRules:
    """Return what governs clips."""
    return ClipRules(
        per_crossing=job.rules.count(f"{PATH}.per_crossing"),
        starter_per_joist=job.rules.count(f"{PATH}.starter_per_joist"),
        end_row_screws_per_joist=job.rules.count(f"{PATH}.end_row_screws_per_joist"),
    )


def fixed_mm(job: Job, supports: Supports, pieces: Pieces) -> dict[str, float]:
    """Return where clips fix each piece, by its mark; nothing where they hold none."""
    if job.articles.clip is None:
        return {}
    return fixed_at(fixed_points(pieces, supports.lines), supports.lines)


def idle(job: Job) -> set[str]:
    """Return which of them are named and not counted, for nothing wants them."""
    no_caps = not _caps_per_end(job)
    no_starters = job.articles.clip is None or not job.rules.count(f"{PATH}.starter_per_joist")
    return ({"end caps"} if no_caps else set()) | ({"starter clips"} if no_starters else set())


def _caps_per_end(job: Job) -> int:
    return job.rules.count(f"{CAPS}.per_end") if job.articles.board.hollow else 0


def _end_caps(job: Job, pieces: Pieces) -> EndCaps | None:
    cap, per_end = job.articles.end_cap, _caps_per_end(job)
    if cap is None or not per_end:
        return None
    return count_end_caps(len(pieces.pieces), per_end=per_end, article=cap.code)


def wanted(job: Job, fixings: Fixings) -> tuple[Wanted, ...]:
    """Return what of them is to be bought."""
    articles, clips, caps = job.articles, fixings.clips, fixings.end_caps
    found = []
    if clips is not None:
        found.append(in_boxes("screws at fixed points", articles.screw, clips.fixed_screws or 0))
    if articles.clip is not None and clips is not None:
        found.append(in_boxes("clips", articles.clip, clips.count))
        if articles.starter_clip is not None:
            found.append(in_boxes("starter clips", articles.starter_clip, clips.starter_count))
        found += ripped_clips.wanted(job, clips)
    if articles.end_cap is not None and caps is not None:
        found.append(in_boxes("end caps", articles.end_cap, caps.count))
    return tuple(each for each in found if each.need)


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    clips, caps = built.fixings.clips, built.fixings.end_caps
    return [
        _per_crossing_row(job, built),
        *(_clip_rows(job, built, clips) if clips is not None else ()),
        *(_cap_rows(caps) if caps is not None else ()),
    ]


def _per_crossing_row(job: Job, built: Built) -> Row:
    """Return who says how many deck screws there are at a crossing: of a clip deck's last row."""
    path = PER_CROSSING if built.fixings.clips is None else f"{PATH}.end_row_screws_per_joist"
    ruling = job.rules.rulings[path]
    screws = built.fixings.deck_screws
    return PER_CROSSING, screws.per_crossing if screws else 0, ruling, ()


def _clip_rows(job: Job, built: Built, clips: Clips) -> list[Row]:
    joists = ("line_count", built.supports.line_count)
    return [
        row(f"{PATH}.gap_mm", clips.gap_mm, "mm", "the gap that the clip leaves",
            merchant_says(job, clips.article)),
        row(f"{PATH}.count", clips.count, "count",
            "so many where each gap between rows crosses a joist, both joists of a pair, and a "
            "batten beside a joint", ARITHMETIC,
            (("rows", len(built.surface.rows)), joists, ("per_crossing", clips.per_crossing),
             ("crossings", clips.crossings))),
        row(f"{PATH}.starter_count", clips.starter_count, "count",
            "so many under the first row's outer edge on each joist", ARITHMETIC,
            (joists, ("starter_per_joist", clips.starter_per_joist))),
        row(f"{PATH}.fixed_screws", clips.fixed_screws, "count",
            "a deck screw at the fixed point of each board that the last row's do not hold", OURS,
            (("pieces", len(built.pieces.pieces)),)),
        row(f"{PATH}.slot_mm", clips.slot_mm, "mm",
            "slots that let the last row move on its screws either way, a half millimetre up",
            OURS, (("slot_width_mm", clips.slot_width_mm),)),
        *ripped_clips.rows(built, clips),
    ]  # fmt: skip


def _cap_rows(caps: EndCaps) -> list[Row]:
    return [
        row(f"{CAPS}.count", caps.count, "count", "both ends of every piece of a hollow board",
            ARITHMETIC, (("per_end", caps.per_end), ("ends", caps.ends))),
    ]  # fmt: skip


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about them."""
    return [*remarks_anywhere(job, built), *ripped_clips.remarks(job, built)]


def remarks_anywhere(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about clips of any deck, wherever ripped rows lie."""
    return [
        *_no_clip(job),
        *_unwanted_clip(job),
        *_other_gap(job, built),
        *_no_starter(job, built),
        *_open_ends(job, built),
        *hollow_boards(job),
        *_unclipped_caps(job),
    ]


def _finding(  # noqa: PLR0917 - read as the row of a table
    code: str,
    severity: Severity,
    subject: str,
    message: str,
    ruling: Ruling,
    measured: float | None = None,
    limit: float | None = None,
    unit: str = "",
) -> Finding:
    return Finding(
        code=code, severity=severity, subject=subject, message=message, measured=measured,
        limit=limit, unit=unit, source=ruling.source,
    )  # fmt: skip


def _no_clip(job: Job) -> list[Finding]:
    if job.articles.clip is not None or not job.rules.count(HIDDEN):
        return []
    message = "these boards are held by clips between the rows: name one in fixings.clip"
    return [_finding("CLP-001", Severity.STOP, "clips", message, job.rules.rulings[HIDDEN])]


def _unwanted_clip(job: Job) -> list[Finding]:
    clip = job.articles.clip
    if clip is None or job.rules.count(HIDDEN):
        return []
    message = (
        "these boards are held by screws, not by clips: leave fixings.clip out, unless the "
        "merchant's record of the board rules hidden_clips"
    )
    return [_finding("CLP-002", Severity.STOP, "clips", message, job.rules.rulings[HIDDEN])]


def _other_gap(job: Job, built: Built) -> list[Finding]:
    """Return the stop for rows laid at other gaps than the clip leaves."""
    clips = built.fixings.clips
    off = [each.gap_mm for each in built.surface.rows[1:] if clips and each.gap_mm != clips.gap_mm]
    if clips is None or not off:
        return []
    message = (
        "a clip leaves its own gap, and rows cannot be laid at another: leave the wish for one "
        "out, name a clip that leaves it, or change the cover"
    )
    ruling = job.rules.rulings["surface.gap_preferred_mm"]
    return [_finding("CLP-003", Severity.STOP, "gaps", message, ruling, off[0], clips.gap_mm, "mm")]


def _no_starter(job: Job, built: Built) -> list[Finding]:
    clips = built.fixings.clips
    if clips is None or clips.starter_article or not clips.starter_count:
        return []
    message = "the first row's outer edge wants starter clips, which are not in the order: name "
    return [
        _finding("CLP-004", Severity.CAUTION, "starter clips",
                 f"{message}one in fixings.starter_clip",
                 job.rules.rulings[f"{PATH}.starter_per_joist"], float(clips.starter_count), None,
                 "clips")
    ]  # fmt: skip


def _open_ends(job: Job, built: Built) -> list[Finding]:
    per_end = _caps_per_end(job)
    if not per_end or job.articles.end_cap is not None:
        return []
    caps = count_end_caps(len(built.pieces.pieces), per_end=per_end, article="")
    message = (
        f"{caps.ends} open ends of hollow boards want {caps.count} caps, which are not in the "
        "order: name one in fixings.end_cap"
    )
    ruling = job.rules.rulings[f"{CAPS}.per_end"]
    return [_finding("CLP-005", Severity.CAUTION, "end caps", message, ruling)]


def hollow_boards(job: Job) -> list[Finding]:
    """Return the note that hollow boards are not ripped, nothing for others."""
    if not job.articles.board.hollow:
        return []
    message = "hollow boards: do not rip them, the chambers would lie open; crosscut them only"
    return [_finding("CLP-006", Severity.NOTE, "boards", message,
                     job.rules.rulings["surface.may_rip"])]  # fmt: skip


def _unclipped_caps(job: Job) -> list[Finding]:
    """Return that end caps are named for boards that take none."""
    if job.articles.end_cap is None or _caps_per_end(job):
        return []
    message = "end caps are named, and these boards take none: none is in the order"
    return [_finding("CLP-007", Severity.NOTE, "end caps", message,
                     job.rules.rulings[f"{CAPS}.per_end"])]  # fmt: skip
