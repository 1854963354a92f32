"""What every part of the job sheet shares: headings, drawings, and cautions where they bite."""

import re
from collections.abc import Callable, Iterable

from drylay.papers.bars import bars_svg
from drylay.papers.html import Html, block, joined, para, points, tag, words
from drylay.papers.outlined_drawings import (
    boards_drawn,
    edges_drawn,
    frame_drawn,
    frame_pages,
    posts_drawn,
    setting_out_drawn,
    tiles_drawn,
)
from drylay.papers.pads_section import pads_section_svg
from drylay.papers.posts_drawing import standing_front_svg, standing_svg
from drylay.papers.rod import rod_svg
from drylay.papers.section import section_svg
from drylay.papers.wording import clean
from drylay.plan.model import Plan

#: The parts of the job that a caution or a drawing can belong to.
BUY, CUT, SET_OUT, FRAME, BOARDS, TILES, FIXINGS, COATS = (
    "buy", "cut", "setting-out", "frame", "boards", "tiles", "fixings", "coats",
)  # fmt: skip
STANDING, STRENGTH, EDGES = "standing", "strength", "edges"

#: Drawings in the sheet: the part each stands in, the file that is to scale, what it shows.
DRAWINGS: tuple[tuple[str, str, str, Callable[[Plan], bytes]], ...] = (
    (CUT, "bars.svg", "Every length bought, with its cuts in order", bars_svg),
    (SET_OUT, "setting-out.svg", "Setting out: pegs, diagonals, a 3-4-5", setting_out_drawn),
    (STANDING, "posts.svg", "Bearers, posts and footings, seen from above", posts_drawn),
    (STANDING, "standing.svg", "The deck from its side, with every post's length", standing_svg),
    (STANDING, "standing-front.svg", "The bearer with the longest post", standing_front_svg),
    (FRAME, "frame.svg", "The frame, seen from above", frame_drawn),
    (BOARDS, "boards.svg", "The boards, seen from above", boards_drawn),
    (TILES, "tiles.svg", "The tiles, seen from above", tiles_drawn),
    (TILES, "section.svg", "A section through the edge: tiles on pads", pads_section_svg),
    (BOARDS, "rod.svg", "The rod: joists and rows from one datum, with cells to write in", rod_svg),
    (FIXINGS, "section.svg", "A section through the edge", section_svg),
    (EDGES, "edges.svg", "Guards and steps, seen from above", edges_drawn),
)
#: What further pages of the frame show.
ENLARGED = "The frame round openings, enlarged"
NOT_TO_SCALE = "Not to scale here: take no size off it. To scale on its own sheet: {file}."

#: Words in a caution that say at which part of the job it bites. Families write cautions as
#: sentences, so this finds as much as their words allow; all of them stand at the front anyway.
#: Common practice, no source.
BITES = {
    BUY: r"zinc|galvanised|galvanized|stainless",
    CUT: r"saw|sawing|sawn|sanding|dust|rip|ripped|preserver|offcuts?|notch|clamp|blade",
    SET_OUT: r"take out|taken out|old timber|dig|digging|buried|services",
    STANDING: r"dig|digging|buried|services|lift|lifting|heavy|ledger|concrete|cement",
    EDGES: r"guards?|steps?",
    FRAME: r"lift|lifting|heavy|notch|wall|ground",
    BOARDS: r"slippery|joints?|gaps?|kneel|walk",
    TILES: r"slippery|silica|dust|lift|heavy|loose|kneel|knee",
    COATS: r"preserver|ripped|sawn|oil|stain|paint|finish|brush",
    FIXINGS: r"screws?|nails?|drill|drilling|pilot|zinc|galvanised|galvanized|stainless",
}


def part(key: str, title: str, inside: Iterable[Html]) -> Html:
    """Return one part of the sheet under its heading; nothing where there is nothing to say."""
    parts = [each for each in inside if each]
    if not parts:
        return Html("")
    heading = tag("h2", words(title), id=f"sheet-{key}")
    return block("section", [heading, *parts], aria_labelledby=f"sheet-{key}")


def below(title: str, *inside: Html) -> Html:
    """Return something under a heading of the third rank; nothing where it is empty."""
    return joined([tag("h3", words(title)), *inside]) if any(inside) else Html("")


def cautions_told(plan: Plan) -> list[str]:
    """Return every caution, cut off where the summary cuts it off."""
    return [clean(text, 400) for text in plan.cautions]


def care(plan: Plan, key: str) -> Html:
    """Return the cautions that bite at one part of the job; nothing where none does.

    Nothing either where the plan has its tasks: there each caution stands at its task.
    """
    if plan.work is not None and key != BUY:
        return Html("")
    bites = re.compile(rf"\b(?:{BITES[key]})\b", re.IGNORECASE)
    found = [text for text in cautions_told(plan) if bites.search(text)]
    if not found:
        return Html("")
    return block("div", [para("Take care here:"), points(found)], class_="care", role="note")


def drawings(plan: Plan, key: str) -> list[Html]:
    """Return the drawings of one part of the job, each with what must be known of it."""
    found = [
        _drawing(file, told, drawn)
        for where, file, told, draw in DRAWINGS
        if where == key and (drawn := draw(plan))
    ]
    pages = frame_pages(plan) if key == FRAME else {}
    return [*found, *(_drawing(file, ENLARGED, draw(plan)) for file, draw in pages.items())]


def _drawing(file: str, told: str, drawn: bytes) -> Html:
    text = drawn.decode("utf-8")
    inline = Html(text[text.index("<svg") :].strip())  # written and escaped by papers/svg.py
    caption = tag("figcaption", words(f"{told}. {NOT_TO_SCALE.format(file=file)}"))
    slide = block("div", [inline], class_="drawn", tabindex="0", role="group", aria_label=told)
    return block("figure", [caption, slide])
