"""What may be typed after `drylay`."""

import argparse

from drylay.cli import commands, plugged
from drylay.cli.codes import MEANINGS
from drylay.cli.options import add_command, add_progress, add_stock
from drylay.cli.parser_asked import add_after, add_asked
from drylay.cli.study import add_study

EXAMPLE = "drylay design deck.toml --stock stock.toml --out my-deck"


def parser() -> argparse.ArgumentParser:
    """Return the parser of the whole command line."""
    top = argparse.ArgumentParser(
        prog="drylay",
        description="Deck carpentry: brief in, checked buildable plan out.",
        epilog=_epilog(),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    top.add_argument("--version", action="store_true", help="show the release and stop")
    _add_commands(top)
    return top


def _epilog() -> str:
    codes = "\n".join(f"  {code:>3}  {meaning}" for code, meaning in MEANINGS.items())
    return f"for example:\n  {EXAMPLE}\n\nexit codes:\n{codes}"


def _add_commands(top: argparse.ArgumentParser) -> None:
    below = top.add_subparsers(title="commands", metavar="COMMAND")
    _design(add_command(below, "design", commands.design, "make a plan from a brief and a stock"))
    _audit(add_command(below, "audit", commands.audit, "measure a finished plan again"))
    _why(add_command(below, "why", commands.why, "say why a number of a plan is what it is"))
    check = "list everything that is wrong with"
    brief = add_command(below, "check-brief", commands.check_brief, f"{check} a brief")
    brief.add_argument("brief", metavar="BRIEF", help="brief, a TOML file")
    add_stock(brief, required=False)
    plugged.add_options(brief)
    stock = add_command(below, "check-stock", commands.check_stock, f"{check} a stock file")
    stock.add_argument("stock", metavar="FILE", help="stock file, TOML or CSV")
    stock.add_argument("--mapping", metavar="MAP", help="what a CSV file's columns mean, TOML")
    plugged.add_options(stock)
    near = add_command(below, "nearest", commands.nearest, "list what may stand in for an article")
    near.add_argument("code", metavar="CODE", help="the article that is out")
    add_stock(near, required=True)
    plugged.add_options(near)
    says = "plan one brief in several families and compare them over the years"
    _compare(add_command(below, "compare", commands.compare, says, csv=True))
    families = "list the installed families of boards"
    plugged.add_options(add_command(below, "families", commands.families, families))
    plugins = "list the installed plugins, what each supplies and what is wrong with it"
    plugged.add_options(add_command(below, "plugins", commands.plugins, plugins))
    says = "work out every cell of a folder of outside tables, and say which match"
    tables = add_command(below, "timber-tables", commands.timber_tables, says)
    tables.add_argument("folder", metavar="FOLDER", help="folder with tables, CSV and TOML")
    add_asked(below)
    add_study(below)
    add_after(below)
    _start(add_command(below, "start", commands.start, "write a commented brief to begin with"))


def _design(made: argparse.ArgumentParser) -> None:
    made.add_argument("brief", metavar="BRIEF", help="brief, a TOML file")
    add_stock(made, required=True)
    made.add_argument("--out", metavar="FOLDER", help="write the plan and its papers there")
    plugged.add_options(made)
    add_progress(made)


def _compare(made: argparse.ArgumentParser) -> None:
    made.add_argument("brief", metavar="BRIEF", help="brief, a TOML file")
    add_stock(made, required=True)
    made.add_argument(
        "--with",
        dest="alternatives",
        metavar="FILE",
        required=True,
        help="alternatives, TOML: a table for each, with what it puts into the brief",
    )
    made.add_argument(
        "--rate", type=float, default=0.0, metavar="RATIO", help="interest a year, 0.04 for 4 %%"
    )
    made.add_argument("--hour-price", metavar="MONEY", help="what an hour of upkeep is worth")
    made.add_argument("--out", metavar="FOLDER", help="write text, table and chart there")
    plugged.add_options(made)
    add_progress(made)


def _audit(made: argparse.ArgumentParser) -> None:
    made.add_argument("plan", metavar="PLAN", help="plan file, JSON")
    made.add_argument("--brief", metavar="BRIEF", help="witness: the brief it was made from")
    add_stock(made, required=False)
    plugged.add_options(made)


def _why(made: argparse.ArgumentParser) -> None:
    made.add_argument("plan", metavar="PLAN", help="plan file, JSON")
    made.add_argument("path", metavar="PATH", help="for example frame.joists[3].offset_mm")


def _start(made: argparse.ArgumentParser) -> None:
    made.add_argument("--imperial", action="store_true", help="in feet and inches")
    made.add_argument("--out", metavar="FILE", help="write it there; an existing file is kept")
