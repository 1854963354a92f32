"""The gallery of shapes: designed, drawn, told. `python tests/gallery.py` writes it anew.

Each `docs/gallery/*.toml` is a brief whose first lines say what it shows. Its boards are drawn
into `docs/gallery/*.svg`, and `docs/gallery.md` shows them all.
"""

import sys
from collections.abc import Iterator
from pathlib import Path

import drylay
from drylay.papers.outlined_text import metres
from drylay.papers.quantities import area
from drylay.papers.wording import many
from drylay.plan.model import Plan

DOCS = Path(__file__).parents[1] / "docs"
FOLDER, PAGE = DOCS / "gallery", DOCS / "gallery.md"
STOCK = Path(__file__).parents[1] / "catalogs" / "hobbleden.toml"
HEAD = """# Gallery of shapes

Twelve decks that are no plain rectangle of whole boards, each designed from the brief beside it
with the stock of an invented merchant, `catalogs/hobbleden.toml`. Each picture is the plan's own
`boards.svg`: to scale on its paper, the house at the top. `python tests/gallery.py` designs, draws
and tells them anew.
"""


def briefs() -> list[Path]:
    """Return the briefs of the gallery, in the order of their names."""
    return sorted(FOLDER.glob("*.toml"))


def designed(path: Path) -> Plan:
    """Return the plan for one of the briefs; a blocked one is no picture for a gallery.

    Raises:
        SystemExit: The plan is blocked; tells its findings.
    """
    plan = drylay.design(drylay.read_brief(path), stock=drylay.load_catalogue(STOCK))
    if not plan.buildable:
        sys.exit("\n".join([f"{path.name} is blocked:", *map(str, plan.findings)]))
    return plan


def drawn(plan: Plan) -> bytes:
    """Return the picture of a plan."""
    return drylay.papers(plan, only="boards.svg")["boards.svg"]


def about(path: Path) -> str:
    """Return what a brief says of itself in its first lines."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return " ".join(line.removeprefix("# ") for line in lines[: lines.index("")])


def section(path: Path, plan: Plan) -> str:
    """Return the part of the page on one deck."""
    name = path.stem
    figures = "; ".join(_figures(plan))
    return (
        f"\n## {plan.title}\n\n{about(path)} [The brief](gallery/{name}.toml).\n\n"
        f'![The boards of "{plan.title}", seen from above](gallery/{name}.svg)\n\n{figures}.\n'
    )


def _figures(plan: Plan) -> Iterator[str]:
    outline, laying, frame, buying = plan.outline, plan.laying, plan.subframe, plan.buying
    if outline is None or laying is None or frame is None or buying is None:
        return
    yield area(outline.gross_m2, plan.units)
    yield f"{many(len(outline.sides), 'side')}, {many(outline.opening_count, 'opening')}"
    yield f"{many(laying.row_count, 'row')} in {many(laying.piece_count, 'piece')}"
    yield many(laying.joint_count, "joint")
    yield f"{metres(laying.tip_to_tip_m)} of board from tip to tip"
    yield f"{many(frame.line_count, 'joist line')}, {many(frame.member_count, 'member')}"
    yield f"order {buying.order_total:f} {buying.currency}"


def main(names: list[str]) -> None:
    """Write the pictures and the page; of `names` only their pictures."""
    parts = [HEAD]
    for path in briefs():
        if names and path.stem not in names:
            continue
        plan = designed(path)
        path.with_suffix(".svg").write_bytes(drawn(plan))
        parts.append(section(path, plan))
        sys.stdout.write(f"{path.stem}\n")
    if not names:
        PAGE.write_text("".join(parts), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
