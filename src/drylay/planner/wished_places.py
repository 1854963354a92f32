"""Bearers and posts where the brief puts them: whether they find room, and why none passes."""

from collections.abc import Sequence
from itertools import pairwise

from attrs import evolve

from drylay.findings import Finding
from drylay.marks import exact, to_mm
from drylay.planner.carrying import Under
from drylay.raised.model import Trial, Tried


def beyond(depth_mm: float, ledger_mm: float | None, trial: Trial) -> str:
    """Return which bearer reaches past the frame that lies on it, "" where none does.

    A ledger's face is the frame's end at the house: no bearer stands in it.
    """
    section = trial.bearer.section
    broad = exact(section.breadth_mm) * section.plies
    first, last = exact(ledger_mm or 0.0), exact(depth_mm)
    for line in trial.lines_mm:
        if 2 * exact(line) - broad < 2 * first or 2 * exact(line) + broad > 2 * last:
            return (
                f"a bearer {to_mm(broad):g} broad at {line:g} reaches past the frame, from "
                f"{to_mm(first):g} to {to_mm(last):g} mm"
            )
    return ""


def open_ends(depth_mm: float, ledger_mm: float | None, trial: Trial) -> str:
    """Return which end of the frame no bearer closes that joists hang on, "" where all are.

    A ledger closes the end at the house.
    """
    broad = exact(trial.bearer.section.breadth_mm) * trial.bearer.section.plies
    half, lines = -(-broad // 2), trial.lines_mm
    ends = [(lines[-1], to_mm(exact(depth_mm) - half))]
    ends += [(lines[0], to_mm(half))] if ledger_mm is None else []
    for line, wanted in ends:
        if exact(line) != exact(wanted):
            return (
                f"joists hang between bearers, and the outer ones close the frame: a bearer "
                f"{to_mm(broad):g} broad at {line:g} would have to stand at {wanted:g}"
            )
    return ""


def lines_too_near(under: Under, post_mm: float, trial: Trial) -> str:
    """Return which bearers stand too near one another for what is between them, "" where none do.

    Their posts stand clear of one another; where joists hang each bay holds the seats of both
    hangers, each as long as the joist is thick. Common practice, no source.
    """
    broad = exact(trial.bearer.section.breadth_mm) * trial.bearer.section.plies
    least = max(exact(post_mm), broad + 2 * exact(under.joist.breadth_mm) * under.hung)
    for one, other in pairwise(trial.lines_mm):
        if exact(other) - exact(one) < least:
            return (
                f"bearers {to_mm(broad):g} broad at {one:g} and {other:g} stand too near: wanted "
                f"{to_mm(least):g} between their middles"
            )
    first = exact(trial.lines_mm[0]) - exact(under.ledger_mm or 0.0) - -(-broad // 2)
    if under.hung and under.ledger_mm is not None and first < 2 * exact(under.joist.breadth_mm):
        return f"a bearer at {trial.lines_mm[0]:g} leaves no room for hangers beside the ledger"
    return ""


def posts_beyond(length_mm: float, post_mm: float, posts_mm: Sequence[float]) -> str:
    """Return which post finds no room under its bearer, "" where all do."""
    post, end = exact(post_mm), exact(length_mm)
    out = [at for at in posts_mm if not post <= 2 * exact(at) <= 2 * end - post]
    near = [at for before, at in pairwise(posts_mm) if exact(at) - exact(before) < post]
    if not out and not near:
        return ""
    told = ", ".join(f"{at:g}" for at in out or near)
    why = f"a bearer of {length_mm:g} mm" if out else "beside the one before"
    return f"no room for posts {post_mm:g} broad with their middles at {told}: {why}"


def posts_in_wall(house_mm: float | None, post_mm: float, trial: Trial) -> str:
    """Return why posts under a bearer that closes the frame meet the house's wall, "" if not.

    `house_mm` is how far they may reach past the frame there.
    """
    section = trial.bearer.section
    reach = (exact(post_mm) - exact(section.breadth_mm) * section.plies + 1) // 2
    if house_mm is None or reach <= exact(house_mm):
        return ""
    return (
        f"posts {post_mm:g} broad reach {to_mm(reach):g} past a bearer that closes the frame at "
        f"the house, and the wall is {house_mm:g} off"
    )


def none_passes(finding: Finding, tried: Sequence[Tried]) -> Finding:
    """Return the stop where no arrangement passes, with the one that is nearest to passing.

    Where that fails for want of an answer, or of room, no share of a limit is told: it would look
    as if it passed.
    """
    told = evolve(finding, code="STR-005")
    if not tried:
        return told
    near = min(tried, key=lambda each: each.most_ratio or 1e9)
    why = f"{finding.message}; nearest: {near.trial.bearer.article}, {near.turned_down}"
    if (near.most_ratio or 0.0) > 1.0:
        return evolve(told, message=why, measured=near.most_ratio)
    return evolve(told, message=why, measured=None, limit=None)
