"""A plan's papers: as bytes by name, as a folder, or shown in a notebook."""

import os
from collections.abc import Callable, Iterable
from decimal import Decimal
from difflib import get_close_matches
from html import escape
from pathlib import Path

from attrs import frozen

from drylay.buying.model import Purchase
from drylay.cutting.slip import slip
from drylay.errors import Fault, PapersError
from drylay.papers.bars import bars_svg
from drylay.papers.boards_drawing import boards_svg
from drylay.papers.frame_drawing import frame_svg
from drylay.papers.rod import rod_svg
from drylay.papers.section import section_svg
from drylay.papers.setting_out import setting_out_svg
from drylay.papers.summary import summary
from drylay.papers.writing import write_folder
from drylay.plan.codec import plan_to_json
from drylay.plan.model import Plan
from drylay.planner.orders import proven_orders

#: How many of a proof's units (1/320 mm) make a metre.
UNITS_PER_M = 320_000


def papers(plan: Plan, *, only: Iterable[str] | None = None) -> dict[str, bytes]:
    """Return a plan's papers by file name, all of them or `only` those named.

    A blocked plan has its summary and its plan file: no drawing, no order, no proof.

    Raises:
        PapersError: `only` names a paper that there is not; lists every such name.
    """
    made = MAKERS if _is_whole(plan) else {name: MAKERS[name] for name in WHEN_BLOCKED}
    names = sorted(made) if only is None else _asked(only, made)
    return {name: made[name](plan) for name in names}


def write_papers(
    plan: Plan, folder: str | os.PathLike[str], *, only: Iterable[str] | None = None
) -> Path:
    """Return the folder with a plan's papers, written whole: a killed run changes nothing.

    Raises:
        PapersError: `only` names a paper that there is not, or the folder holds files that
            were not written here.
    """
    return write_folder(papers(plan, only=only), folder)


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


def show(plan: Plan) -> Shown:
    """Return a plan as something that notebooks display: drawing and summary."""
    made = papers(plan)
    drawing = made.get("boards.svg", b"").decode("utf-8")
    return Shown(
        drawing=drawing[drawing.find("<svg") :] if drawing else "",
        text=made["summary.txt"].decode("utf-8"),
    )


def _is_whole(plan: Plan) -> bool:
    rooms = (plan.surface, plan.supports, plan.pieces, plan.frame, plan.edges, plan.buying)
    return plan.buildable and None not in rooms


def _asked(only: Iterable[str], made: dict[str, Callable[[Plan], bytes]]) -> list[str]:
    names = [only] if isinstance(only, str) else list(dict.fromkeys(only))
    faults = tuple(_fault(name, made) for name in names if name not in made)
    if faults:
        raise PapersError(faults)
    return names


def _fault(name: str, made: dict[str, Callable[[Plan], bytes]]) -> Fault:
    near = get_close_matches(name, made, n=1)
    found = f"{name!r}, which a blocked plan has not" if name in MAKERS else repr(name)
    wanted = "one of " + ", ".join(sorted(made))
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
    "boards.svg": boards_svg,
    "check_proof.py": lambda plan: _slip(plan)["check_proof.py"],
    "frame.svg": frame_svg,
    "plan.json": lambda plan: plan_to_json(plan).encode("ascii"),
    "proof.json": lambda plan: _slip(plan)["proof.json"],
    "rod.svg": rod_svg,
    "section.svg": section_svg,
    "setting-out.svg": setting_out_svg,
    "summary.txt": lambda plan: summary(plan).encode("utf-8"),
}
WHEN_BLOCKED = ("plan.json", "summary.txt")
