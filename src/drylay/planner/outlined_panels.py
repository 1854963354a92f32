"""Panels of hatches: the battens that tie their boards, and what one person lifts of it."""

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, dist

from attrs import evolve, frozen

from drylay.findings import Finding, Severity
from drylay.laying.axes import place_of
from drylay.laying.model import LaidPiece, Laying
from drylay.marks import PER_MM, exact, to_mm
from drylay.outline.model import Opening, Outline
from drylay.planner import lorry
from drylay.planner.buy import Blocked
from drylay.planner.job import Job
from drylay.planner.outlined_boards import BoardsLaid
from drylay.planner.outlined_job import sizes_of
from drylay.planner.outlined_rules import SQUARE
from drylay.planner.rows import PRACTICE, Row, row
from drylay.subframe.model import PanelBatten, Subframe
from drylay.subframe.panels import OURS, BattenWants, panel_battens, ripped_depth_mm

DECK = "fixings.deck_screws"


@frozen(kw_only=True)
class Panels:
    """All battens of panels, and the outline whose hatches tell what their panels weigh."""

    outline: Outline
    battens: tuple[PanelBatten, ...] = ()


def make_panels(job: Job, outline: Outline, boards: BoardsLaid) -> Panels | Blocked:
    """Return the panels of all hatches tied, or every stop that keeps one from being made."""
    wants = _wants(job)
    openings: list[Opening] = []
    battens: list[PanelBatten] = []
    stops: list[Finding] = []
    number = 0
    for opening in outline.openings:
        openings.append(opening)
        if opening.kind != "hatch":
            continue
        number += 1
        own = boards_of(boards.pieces, number)
        tied = panel_battens(opening, [each.corners for each in own], wants,
                             first=len(battens) + 1)  # fmt: skip
        if isinstance(tied, Finding):
            stops.append(tied)
            continue
        tied = _light_enough(job, opening, own, tied)
        battens += tied
        openings[-1] = evolve(opening, panel_kg=_kg(job, own, tied))
        stops += _too_heavy(openings[-1], _kg(job, (), tied))
    if stops:
        return Blocked(findings=tuple(stops))
    return Panels(outline=evolve(outline, openings=tuple(openings)), battens=tuple(battens))


def boards_of(pieces: tuple[LaidPiece, ...], number: int) -> list[LaidPiece]:
    """Return the boards of the panel of a hatch, by its number among hatches from 1."""
    return [piece for piece in pieces
            if piece.kind == "hatch" and piece.mark.startswith(f"H{number}.")]  # fmt: skip


def ties(laying: Laying, subframe: Subframe) -> int:
    """Return at how many places boards of panels are screwed to their battens."""
    marks = [batten.opening for batten in subframe.battens]
    return sum(
        len(boards_of(laying.pieces, number)) * marks.count(mark)
        for number, mark in enumerate(dict.fromkeys(marks), start=1)
    )


def _wants(job: Job) -> BattenWants:
    rules = job.rules
    return BattenWants(
        timber_thickness_mm=job.articles.timber.thickness_mm,
        timber_depth_mm=job.articles.timber.depth_mm,
        most_centres_mm=rules.value(SQUARE),
        reach_least_mm=rules.value(f"{DECK}.edge_least_mm") + rules.value(f"{DECK}.end_least_mm"),
        mark_320=sizes_of(job).mark_320,
    )


def _light_enough(
    job: Job, hatch: Opening, boards: Sequence[LaidPiece], battens: tuple[PanelBatten, ...]
) -> tuple[PanelBatten, ...]:
    """Return a panel's battens as they are, or ripped down the middle where it is too heavy so.

    They stay whole where screws would come out below.
    """
    sizes, screw, timber = sizes_of(job), job.articles.screw, job.articles.timber
    depth_mm = ripped_depth_mm(
        timber.depth_mm, kerf_mm=job.brief.cutting.kerf_mm, mark_320=sizes.mark_320
    )
    light = _kg(job, boards, battens) <= (hatch.panel_most_kg or 0.0)
    if light or depth_mm < screw.length_mm - sizes.thickness_mm:
        return battens
    return tuple(evolve(batten, depth_mm=depth_mm) for batten in battens)


def _kg(job: Job, boards: Sequence[LaidPiece], battens: Sequence[PanelBatten]) -> float:
    """Return what boards and battens weigh at their heaviest, up to a tenth."""
    per_mm, timber = lorry.kg_per_mm_of(job), job.articles.timber
    board, whole = per_mm[job.articles.board.code], per_mm[timber.code]
    kg = board * sum(exact(piece.cut_mm) for piece in boards) / PER_MM
    for batten in battens:
        ratio = Fraction(exact(batten.depth_mm), exact(timber.depth_mm))
        kg += whole * ratio * exact(batten.length_mm) / PER_MM
    return ceil(kg * 10) / 10


def _too_heavy(hatch: Opening, battens_kg: float) -> list[Finding]:
    """Return the stop for a panel that one person does not lift out."""
    if (hatch.panel_kg or 0.0) <= (hatch.panel_most_kg or 0.0):
        return []
    stop = Finding(
        code="OUT-010",
        severity=Severity.STOP,
        subject=hatch.mark,
        message="the hatch's panel is too heavy for one person to lift out, "
        f"{battens_kg:g} kg of it battens of the frame's timber: two hatches side by side, lighter "
        "boards, or a lighter frame timber",
        measured=hatch.panel_kg,
        limit=hatch.panel_most_kg,
        unit="kg",
        source=PRACTICE,
    )
    return [stop]


def wide_panels(
    outline: Outline, laying: Laying, frame: Subframe
) -> tuple[tuple[str, float], ...]:  # fmt: skip
    """Return each hatch whose panel spans more than loose boards may, and how much, in mm."""
    bears_mm = frame.timber_thickness_mm + laying.end_gap_mm / 2
    found = []
    for hatch in outline.openings:
        if hatch.kind != "hatch":
            continue
        # not tip to tip: boards of a fan are sawn off square
        right, right_end, left_end, left = map(place_of, hatch.corners)
        span_mm = max(dist(right, right_end), dist(left, left_end)) - bears_mm
        if span_mm > frame.square_centres_mm:
            found.append((hatch.mark, to_mm(exact(span_mm))))
    return tuple(found)


def rows(frame: Subframe) -> list[Row]:
    """Return the decisions taken here; none where there are no hatches."""
    if frame.batten_count is None:
        return []
    return [
        row("subframe.batten_count", frame.batten_count, "count",
            "one beside either ledge of each hatch, the fewest between them that stand close "
            "enough for its boards: they tie the panel, and lift out with it; ripped where whole "
            "ones would be too heavy", PRACTICE,
            (("square_centres_mm", frame.square_centres_mm),
             ("batten_play_mm", frame.batten_play_mm))),
        row("subframe.batten_play_mm", frame.batten_play_mm, "mm",
            "how far a panel's battens keep off every timber beside them, to lift out past heads "
            "of coach screws and swollen wood", OURS),
    ]  # fmt: skip
