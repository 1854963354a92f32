"""What may be typed after `drylay`."""

import argparse

from drylay.cli import commands, plugged
from drylay.cli.codes import MEANINGS

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
    _design(_command(below, "design", commands.design, "make a plan from a brief and a stock"))
    _audit(_command(below, "audit", commands.audit, "measure a finished plan again"))
    _why(_command(below, "why", commands.why, "say why a number of a plan is what it is"))
    check = "list everything that is wrong with"
    brief = _command(below, "check-brief", commands.check_brief, f"{check} a brief")
    brief.add_argument("brief", metavar="BRIEF", help="brief, a TOML file")
    _stock(brief, required=False)
    plugged.add_options(brief)
    stock = _command(below, "check-stock", commands.check_stock, f"{check} a stock file")
    stock.add_argument("stock", metavar="FILE", help="stock file, TOML or CSV")
    stock.add_argument("--mapping", metavar="MAP", help="what a CSV file's columns mean, TOML")
    plugged.add_options(stock)
    near = _command(below, "nearest", commands.nearest, "list what may stand in for an article")
    near.add_argument("code", metavar="CODE", help="the article that is out")
    _stock(near, required=True)
    plugged.add_options(near)
    says = "plan one brief in several families and compare them over the years"
    _compare(_command(below, "compare", commands.compare, says, csv=True))
    families = "list the installed families of boards"
    plugged.add_options(_command(below, "families", commands.families, families))
    plugins = "list the installed plugins, what each supplies and what is wrong with it"
    plugged.add_options(_command(below, "plugins", commands.plugins, plugins))
    says = "work out every cell of a folder of outside tables, and say which match"
    tables = _command(below, "timber-tables", commands.timber_tables, says)
    tables.add_argument("folder", metavar="FOLDER", help="folder with tables, CSV and TOML")
    _start(_command(below, "start", commands.start, "write a commented brief to begin with"))


def _command(
    below: "argparse._SubParsersAction[argparse.ArgumentParser]",
    name: str,
    run: commands.Command,
    says: str,
    *,
    csv: bool = False,
) -> argparse.ArgumentParser:
    made = below.add_parser(
        name, help=says, description=says.capitalize() + ".", allow_abbrev=False
    )
    made.set_defaults(run=run)
    answers = made.add_mutually_exclusive_group()
    answers.add_argument("--json", action="store_true", help="answer in JSON and nothing else")
    if csv:
        answers.add_argument("--csv", action="store_true", help="answer as a table of CSV")
    return made


def _design(made: argparse.ArgumentParser) -> None:
    made.add_argument("brief", metavar="BRIEF", help="brief, a TOML file")
    _stock(made, required=True)
    made.add_argument("--out", metavar="FOLDER", help="write the plan and its papers there")
    plugged.add_options(made)
    _progress(made)


def _progress(made: argparse.ArgumentParser) -> None:
    made.add_argument(
        "--progress", action="store_true", help="show progress where stderr is no terminal too"
    )


def _compare(made: argparse.ArgumentParser) -> None:
    made.add_argument("brief", metavar="BRIEF", help="brief, a TOML file")
    _stock(made, required=True)
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
    _progress(made)


def _audit(made: argparse.ArgumentParser) -> None:
    made.add_argument("plan", metavar="PLAN", help="plan file, JSON")
    made.add_argument("--brief", metavar="BRIEF", help="witness: the brief it was made from")
    _stock(made, required=False)
    plugged.add_options(made)


def _why(made: argparse.ArgumentParser) -> None:
    made.add_argument("plan", metavar="PLAN", help="plan file, JSON")
    made.add_argument("path", metavar="PATH", help="for example frame.joists[3].offset_mm")


def _start(made: argparse.ArgumentParser) -> None:
    made.add_argument("--imperial", action="store_true", help="in feet and inches")
    made.add_argument("--out", metavar="FILE", help="write it there; an existing file is kept")


def _stock(made: argparse.ArgumentParser, *, required: bool) -> None:
    one_of = made.add_mutually_exclusive_group(required=required)
    one_of.add_argument(
        "--stock",
        metavar="FILE",
        action="append",
        default=[],
        help="stock file, TOML or CSV; may be given more than once",
    )
    one_of.add_argument(
        "--stock-of",
        metavar="PLUGIN",
        action="append",
        default=[],
        help="stock that an installed plugin brings along; may be given more than once",
    )
    made.add_argument(
        "--mapping",
        metavar="MAP",
        action="append",
        default=[],
        help="what a CSV file's columns mean, TOML; one for all, or one for each in their order",
    )
    made.add_argument("--on", metavar="DAY", help="only what is on sale on this day, 2027-03-31")
