"""What may be typed of commands beside the plan: the garden before it, the deck after it."""

import argparse

from drylay.cli import after, asked, plugged
from drylay.cli.options import add_command, add_progress, add_stock

_PLAN = "plan file, JSON, or a folder of papers"


def add_asked(below: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add what is asked before there is a brief, beside it, and while it is built."""
    made = add_command(below, "garden", asked.garden, "say what a garden file comes to")
    made.add_argument("garden", metavar="FILE", help="garden file, TOML")
    made.add_argument("--best", metavar="STEP", help="look for places on a grid, such as 500mm")
    made.add_argument("--out", metavar="FOLDER", help="write text, plans and figures there")
    _steps(below)
    _correct(below)
    made = add_command(below, "profiles", asked.profiles, "say where lines and profiles stand")
    made.add_argument("plan", metavar="PLAN", help=_PLAN)
    made.add_argument("--clear", metavar="LENGTH", help="between dig and profiles, such as 600mm")
    ends = ("ALONG", "ACROSS", "ALONG", "ACROSS")
    made.add_argument("--datum", nargs=4, metavar=ends, help="two pegs of a datum line")
    made.add_argument("--out", metavar="FILE", help="write the drawing there, SVG")
    made = add_command(below, "pegs", asked.pegs, "say which pegs to move, by the tape")
    made.add_argument("plan", metavar="PLAN", help=_PLAN)
    made.add_argument("tapes", metavar="TAPE", nargs="+", help="such as P1-P3=4318mm")
    made.add_argument("--out", metavar="FILE", help="write the drawing there, SVG")


def _steps(below: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    says = "say at which sizes a deck changes, and what each change saves"
    made = add_command(below, "steps", asked.steps, says)
    made.add_argument("brief", metavar="BRIEF", help="brief, a TOML file")
    add_stock(made, required=True)
    made.add_argument(
        "--within", metavar="LENGTH", default="40mm", help="every value so far about, 40mm"
    )
    made.add_argument(
        "--counts-within", metavar="LENGTH", default="200mm", help="counts so far about, 200mm"
    )
    made.add_argument(
        "--change", metavar="PATH", action="append", help="what to change; may be given again"
    )
    made.add_argument("--out", metavar="FOLDER", help="write text and picture there")
    plugged.add_options(made)
    add_progress(made)


def _correct(below: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    says = "correct a plan by what was measured while laying"
    made = add_command(below, "correct", asked.correct, says)
    made.add_argument("plan", metavar="PLAN", help=_PLAN)
    made.add_argument("readings", metavar="READINGS", help="readings file, TOML")
    made.add_argument("--brief", metavar="BRIEF", help="the brief it was made from")
    add_stock(made, required=False)
    made.add_argument("--out", metavar="FOLDER", help="write the plan and its papers there")
    plugged.add_options(made)


def add_after(below: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add what is asked of a deck that is built."""
    made = add_command(below, "upkeep", after.upkeep, "list when to look at what of a deck")
    made.add_argument("plan", metavar="PLAN", help=_PLAN)
    made.add_argument("--handed-over", metavar="DAY", required=True, help="such as 2027-06-20")
    made.add_argument("--years", type=int, default=10, metavar="COUNT", help="how many, 10")
    made.add_argument("--out", metavar="FOLDER", help="write text, calendar and picture there")
    made = add_command(below, "locate", after.locate, "say what lies at a place, and what to lift")
    made.add_argument("plan", metavar="PLAN", help=_PLAN)
    made.add_argument("along", metavar="ALONG", help="along the house, such as 1.2m")
    made.add_argument("across", metavar="ACROSS", help="away from it")
    made.add_argument("--reach", metavar="LENGTH", default="200mm", help="a square below, 200mm")
    made.add_argument("--out", metavar="FILE", help="write the drawing there, SVG")
    _extend(below)
    made = add_command(below, "waste", after.waste, "say what is left over of an order, by class")
    made.add_argument("plan", metavar="PLAN", help=_PLAN)
    made.add_argument("--factors", metavar="FILE", help="carbon factors with their source, TOML")
    made.add_argument(
        "--untreated", metavar="CODE", action="append", default=[], help="an untreated article"
    )


def _extend(below: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    made = add_command(below, "extend", after.extend, "write the brief of an extension in phase")
    made.add_argument("plan", metavar="PLAN", help=_PLAN)
    made.add_argument("side", metavar="SIDE", help="front, right or left")
    made.add_argument("by", metavar="BY", help="how far, such as 1.2m")
    made.add_argument("--ten-rows", metavar="LENGTH", help="measured from a row to the tenth on")
    made.add_argument("--width", metavar="LENGTH", help="mean width of ten old boards")
    made.add_argument("--tied", action="store_true", help="tied to the old frame")
    made.add_argument(
        "--old-frame", default="not looked at", metavar="WORD", help="sound, soft or not looked at"
    )
    made.add_argument("--out", metavar="FILE", help="write the brief there, TOML")
