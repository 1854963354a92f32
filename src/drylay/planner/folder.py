"""A plan's papers: as bytes by name, as a folder, or shown in a notebook."""

import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from decimal import Decimal
from difflib import get_close_matches
from html import escape
from pathlib import Path

from attrs import evolve, frozen

from drylay.buying.model import Purchase
from drylay.counting import counted
from drylay.cutting.slip import slip
from drylay.errors import Fault, PapersError
from drylay.papers.bars import bars_svg
from drylay.papers.correcting_drawing import correction_svg
from drylay.papers.jobsheet import jobsheet
from drylay.papers.layout import heading, points
from drylay.papers.outlined_drawings import (
    FRAME_PAGES,
    boards_drawn,
    edges_drawn,
    frame_drawn,
    frame_pages,
    posts_drawn,
    setting_out_drawn,
    tiles_drawn,
)
from drylay.papers.posts_drawing import standing_front_svg, standing_svg
from drylay.papers.rod import rod_svg
from drylay.papers.section import section_svg
from drylay.papers.standing_tables import footings_csv, posts_csv, strength_csv
from drylay.papers.summary import summary
from drylay.papers.tables import cuts_csv, labels_csv, order_csv
from drylay.papers.wording import clean
from drylay.papers.writing import CONTENTS, write_folder
from drylay.plan.codec import plan_to_json
from drylay.plan.model import Plan
from drylay.planner.orders import proven_orders
from drylay.plugins.guard import make_paper
from drylay.plugins.loading import offered_papers
from drylay.plugins.model import InstalledPaper, Paper, PaperSet, PluginFault
from drylay.plugins.single import EntryPoint

#: How many of a proof's units (1/320 mm) make a metre.
UNITS_PER_M = 320_000
#: The file that tells which papers of plugins are not in a folder; there only if any are not.
LEFT_OUT = "left-out.txt"
#: What a plan that contradicts itself may raise in the middle of a paper.
FAULTY = (LookupError, ValueError, ArithmeticError)
NO_PLUGINS = PaperSet()


@counted
def installed_papers(
    *,
    blocked: Iterable[str] = (),
    extra: Iterable[Paper] = (),
    more: Mapping[str, object] | None = None,
    entry_points: Iterable[EntryPoint] | None = None,
    strict: bool = False,
) -> PaperSet:
    """Return the papers that plugins make, and the plugins that failed: for `papers`.

    A plugin with anything wrong in what it offers makes nothing. None may claim a name of
    drylay's own; where two claim one name, neither makes it.

    Args:
        blocked: Names of entry points or packages that are not to be asked.
        extra: Papers handed in by the caller, each a file name and a function of one plan.
        more: Plugins handed in by name: modules, or objects with hooks.
        entry_points: What to ask instead of everything installed.
        strict: Raise where any plugin is faulty.

    Raises:
        PluginsError: `strict`, and a plugin is faulty; lists every fault.
    """
    return offered_papers(
        ours=(*MAKERS, *FRAME_PAGES, CONTENTS, LEFT_OUT),
        blocked=blocked,
        extra=extra,
        more=more,
        entry_points=entry_points,
        strict=strict,
    )


@counted
def papers(
    plan: Plan, *, only: Iterable[str] | None = None, plugins: PaperSet = NO_PLUGINS
) -> dict[str, bytes]:
    """Return a plan's papers by file name, all of them or `only` those named.

    A blocked plan has its summary and its plan file: no drawing, no order, no proof. Those of
    `plugins` are made for a whole plan; what fails is left out and told in `left-out.txt`.

    Raises:
        PapersError: `only` names a paper that there is not or that a plugin did not make;
            lists every such name. Or the plan was edited by hand and contradicts itself.
    """
    whole = _is_whole(plan)
    made = _makers(plan)
    if only is None:
        return _everything(plan, made, plugins if whole else NO_PLUGINS)
    names = _asked(only, plugins, tuple(made), whole=whole)
    ours = {name: _made(name, made[name], plan) for name in names if name in made}
    theirs, failed = _theirs(plan, [paper for paper in plugins.papers if paper.name in names])
    if failed:
        wanted = "a paper that its plugin makes"
        raise PapersError(
            tuple(Fault(path="only", found=_told(fault), wanted=wanted) for fault in failed)
        )
    files = theirs | ours
    return {name: files[name] for name in names}


def _makers(plan: Plan) -> dict[str, Callable[[Plan], bytes]]:
    """Return what makes each of our own papers that a plan has."""
    made = {name: MAKERS[name] for name in _names(plan)}
    try:
        return made | (frame_pages(plan) if "frame.svg" in made else {})
    except FAULTY:
        return made  # what is wrong is told of the frame itself


def _everything(
    plan: Plan, made: dict[str, Callable[[Plan], bytes]], plugins: PaperSet
) -> dict[str, bytes]:
    """Return our own papers and those of plugins, and which of theirs were left out."""
    theirs, failed = _theirs(plan, plugins.papers)
    faults = [fault for fault in (*plugins.faults, *failed) if fault.kind != "blocked"]
    files = theirs | {name: _made(name, make, plan) for name, make in made.items()}
    files |= {LEFT_OUT: _left_out(faults)} if faults else {}
    return dict(sorted(files.items()))


def _theirs(
    plan: Plan, papers: Iterable[InstalledPaper]
) -> tuple[dict[str, bytes], list[PluginFault]]:
    answers = {paper.name: make_paper(paper, plan) for paper in papers}
    files = {name: made for name, made in answers.items() if isinstance(made, bytes)}
    return files, [made for made in answers.values() if isinstance(made, PluginFault)]


def _left_out(faults: Iterable[PluginFault]) -> bytes:
    lines = [*heading("Papers of plugins that are not here:"), *points(_told(f) for f in faults)]
    return ("\n".join(lines).strip("\n") + "\n").encode("utf-8")


def _told(fault: PluginFault) -> str:
    return clean(str(fault), 400)


def _made(name: str, make: Callable[[Plan], bytes], plan: Plan) -> bytes:
    """Return a paper; a plan edited by hand may contradict itself too much for one."""
    try:
        return make(plan)
    except FAULTY as wrong:
        found = f"a plan that contradicts itself ({type(wrong).__name__}: {wrong})"
        fault = Fault(path=name, found=found, wanted="a plan that its audit finds sound")
        raise PapersError((evolve(fault, nearest="see drylay.audit(plan)"),)) from wrong


@counted
def write_papers(
    plan: Plan,
    folder: str | os.PathLike[str],
    *,
    only: Iterable[str] | None = None,
    plugins: PaperSet = NO_PLUGINS,
) -> Path:
    """Return the folder with a plan's papers, written whole: a killed run changes nothing.

    Raises:
        PapersError: `only` names a paper that there is not or that a plugin did not make, or
            the folder holds files that were not written here.
    """
    return write_folder(papers(plan, only=only, plugins=plugins), folder)


@frozen(kw_only=True)
class Shown:
    """A plan as notebooks display it: the boards' drawing, and the summary as text."""

    drawing: str
    text: str

    def __str__(self) -> str:
        """Return the summary."""
        return self.text

    def _repr_svg_(self) -> str | None:
        return self.drawing or None

    def _repr_html_(self) -> str:
        return f"<div>{self.drawing}<pre>{escape(self.text)}</pre></div>"


@counted
def show(plan: Plan) -> Shown:
    """Return a plan as something that notebooks display: drawing and summary."""
    shown = "boards.svg" if plan.tiling is None and plan.tiles is None else "tiles.svg"
    made = papers(plan, only=(shown, "summary.txt") if _is_whole(plan) else "summary.txt")
    drawing = made.get(shown, b"").decode("utf-8")
    return Shown(
        drawing=drawing[drawing.find("<svg") :] if drawing else "",
        text=made["summary.txt"].decode("utf-8"),
    )


def _is_whole(plan: Plan) -> bool:
    if plan.outline is not None:
        laid = [plan.laying, plan.subframe] if plan.tiles is None else [plan.tiles]
        return plan.buildable and None not in [*laid, plan.buying]
    rooms: list[object] = [plan.surface, plan.edges, plan.buying]
    if plan.tiling is None or plan.tiling.pads is None:
        rooms += [plan.supports, plan.frame]
    return plan.buildable and None not in [*rooms, plan.tiling or plan.pieces]


def _names(plan: Plan) -> tuple[str, ...]:
    """Return which of our own papers a plan has: not those of boards for tiles, nor of frames.

    On an outline there is no one section that holds all round, and no one rod for rows that begin
    and end where the sides let them: the drawings have details and running dimensions.
    """
    if not _is_whole(plan):
        return WHEN_BLOCKED
    tiled = plan.tiling is not None or plan.tiles is not None
    left_out = {"boards.svg"} if tiled else {"tiles.svg"}
    left_out |= {"frame.svg"} if plan.tiles is not None else set()
    if plan.outline is not None:
        left_out |= {"rod.svg", "section.svg"}
        pegs = plan.work.setting_out.pegs if plan.work else ()
        left_out |= set() if pegs else {"setting-out.svg"}
    elif plan.frame is None:
        left_out |= {"frame.svg", "rod.svg"}
    left_out |= _not_standing(plan)
    left_out |= set() if plan.laid else {"correction.svg"}
    if plan.buying is not None and not plan.buying.purchases:
        left_out |= {"bars.svg", "check_proof.py", "proof.json"}
    return tuple(name for name in MAKERS if name not in left_out)


def _not_standing(plan: Plan) -> set[str]:
    """Return which papers on posts, footings, strength, guards and steps a plan has not."""
    left_out = set() if plan.strength else {"strength.csv"}
    left_out |= set() if plan.footings else {"footings.csv"}
    stands = plan.raised is not None and bool(plan.raised.frame.posts)
    if not stands:
        left_out |= {"posts.csv", "standing.svg", "standing-front.svg"}
    seen = plan.surface is not None or plan.outline is not None
    left_out |= set() if stands and seen else {"posts.svg"}
    edged = plan.steps is not None or bool(plan.guards and plan.guards.runs)
    return left_out | (set() if edged and seen else {"edges.svg"})


def _asked(
    only: Iterable[str], plugins: PaperSet, ours: Sequence[str], *, whole: bool
) -> list[str]:  # fmt: skip
    names = [only] if isinstance(only, str) else list(dict.fromkeys(only))
    known = [*MAKERS, *FRAME_PAGES, *(paper.name for paper in plugins.papers)]
    lacks = "this plan" if whole else "a blocked plan"
    there = [*ours, *(paper.name for paper in plugins.papers if whole)]
    faults = [
        _fault(name, there, plugins, is_known=name in known, lacks=lacks)
        for name in names
        if name not in there
    ]
    if faults:
        raise PapersError(tuple(faults))
    return names


def _fault(
    name: str, there: Sequence[str], plugins: PaperSet, *, is_known: bool, lacks: str
) -> Fault:  # fmt: skip
    """Return what is wrong with a name asked for, and the plugins that may be why."""
    near = get_close_matches(name, there, n=1)
    found = f"{name!r}, which {lacks} has not" if is_known else repr(name)
    failed = [] if is_known else [_told(fault) for fault in plugins.faults]
    wanted = "one of " + ", ".join(sorted(there))
    found = "; ".join([found, *failed])
    return Fault(path="only", found=found, wanted=wanted, nearest="".join(near))


def _slip(plan: Plan) -> dict[str, bytes]:
    buying = plan.buying
    purchases = buying.purchases if buying else ()
    return slip(
        proven_orders(plan),
        currency=buying.currency if buying else "",
        money_places=_money_places(purchases),
        units_per_m=UNITS_PER_M,
    )


def _money_places(purchases: tuple[Purchase, ...]) -> int:
    """Return how many digits the minor unit has: what turns a proof's money into the plan's."""
    for places in range(5):
        scale = Decimal(10) ** places
        if all(part.objective * scale == part.proof.objective for part in purchases):
            return places
    return 2


MAKERS: dict[str, Callable[[Plan], bytes]] = {
    "bars.svg": bars_svg,
    "boards.svg": boards_drawn,
    "check_proof.py": lambda plan: _slip(plan)["check_proof.py"],
    "correction.svg": correction_svg,
    "cuts.csv": cuts_csv,
    "edges.svg": edges_drawn,
    "footings.csv": footings_csv,
    "frame.svg": frame_drawn,
    "jobsheet.html": jobsheet,
    "labels.csv": labels_csv,
    "order.csv": order_csv,
    "plan.json": lambda plan: plan_to_json(plan).encode("ascii"),
    "posts.csv": posts_csv,
    "posts.svg": posts_drawn,
    "proof.json": lambda plan: _slip(plan)["proof.json"],
    "rod.svg": rod_svg,
    "section.svg": section_svg,
    "setting-out.svg": setting_out_drawn,
    "standing-front.svg": standing_front_svg,
    "standing.svg": standing_svg,
    "strength.csv": strength_csv,
    "summary.txt": lambda plan: summary(plan).encode("utf-8"),
    "tiles.svg": tiles_drawn,
}
WHEN_BLOCKED = ("plan.json", "summary.txt")
