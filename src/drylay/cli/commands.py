"""The commands. Each reads, calls the library once, and says what came of it."""

from argparse import Namespace
from collections.abc import Callable, Iterable, Sequence
from contextlib import AbstractContextManager
from itertools import chain
from pathlib import Path

from drylay.cli import codes, texts
from drylay.cli.days import told_of_days
from drylay.cli.files import (
    mapping_file,
    named_in,
    read_brief_file,
    read_inputs,
    read_plan,
    read_to_compare,
    writing,
)
from drylay.cli.plugged import Choice, chosen, rules_asked, stock_reader
from drylay.cli.screen import Screen, answer, progress_of, say
from drylay.errors import Fault, InputError
from drylay.intake.words import nearest_of
from drylay.plugins.model import PluginFault

Command = Callable[[Namespace, Screen], int]
#: From so many faults on, how many there are is told behind them.
MANY = 10


def design(arguments: Namespace, screen: Screen) -> int:
    """Make a plan, write it with its papers if asked, and show its summary."""
    from drylay.plan.codec import plan_to_json
    from drylay.planner.design import design as make
    from drylay.planner.folder import LEFT_OUT, installed_papers, papers, write_papers

    choice = chosen(arguments)
    brief, stock = read_inputs(arguments.brief, stock_reader(arguments, choice))
    asked, theirs = rules_asked(screen, choice), installed_papers(**choice)
    with named_in(arguments.brief), _told_of_days(arguments, choice):
        plan = make(brief, stock=stock, progress=progress_of(screen), **asked)
    if arguments.out:
        with writing(arguments.out, "a folder that can be written"):
            folder = write_papers(plan, arguments.out, plugins=theirs)
        if (folder / LEFT_OUT).is_file():
            say(screen.err, (folder / LEFT_OUT).read_text(encoding="utf-8"))
    if screen.as_json:
        say(screen.out, plan_to_json(plan))
    else:
        say(screen.out, papers(plan, only=[texts.SUMMARY])[texts.SUMMARY].decode("utf-8"))
        say(screen.out, f"written to {arguments.out}" if arguments.out else "nothing written")
    return codes.FINE if plan.buildable else codes.STOPPED


def _told_of_days(arguments: Namespace, choice: Choice) -> AbstractContextManager[None]:
    return told_of_days(arguments, lambda asked: stock_reader(asked, choice))


def compare(arguments: Namespace, screen: Screen) -> int:
    """Plan one brief in several families, and say what each costs a year."""
    from drylay.compare.families import across_families
    from drylay.compare.papers import comparison_csv
    from drylay.papers.writing import write_folder

    choice = chosen(arguments)
    read_stock = stock_reader(arguments, choice)
    brief, stock = read_to_compare(arguments.brief, read_stock, arguments.alternatives)
    with _told_of_days(arguments, choice):
        comparison = across_families(
            brief,
            arguments.alternatives,
            stock=stock,
            rate_ratio=arguments.rate,
            hour_price=arguments.hour_price,
            progress=progress_of(screen),
            **rules_asked(screen, choice),
        )
    if arguments.out:
        with writing(arguments.out, "a folder that can be written"):
            write_folder(comparison.papers(), arguments.out)
    if arguments.csv:
        say(screen.out, comparison_csv(comparison).decode("utf-8").replace("\r\n", "\n"))
    else:
        answer(screen, str(comparison), texts.comparison_plain(comparison))
    blocked = any(not deck.plan.buildable for deck in comparison.decks)
    return codes.STOPPED if blocked else codes.FINE


def audit(arguments: Namespace, screen: Screen) -> int:
    """Measure a plan again, with whatever witnesses are given."""
    from drylay.planner.audited import audit as measure
    from drylay.plugins.loading import installed_families, installed_local_rules

    choice = chosen(arguments)
    plan = read_plan(arguments.plan)
    brief = read_brief_file(arguments.brief) if arguments.brief else None
    stock = stock_reader(arguments, choice)() if arguments.stock or arguments.stock_of else None
    local_rules = installed_local_rules(**choice) if brief or stock else None
    report = measure(
        plan,
        brief=brief,
        stock=stock,
        families=installed_families(**choice),
        local_rules=local_rules,
    )
    answer(screen, texts.report_text(report), texts.plain(report))
    return codes.FINE if report.sound else codes.STOPPED


def why(arguments: Namespace, screen: Screen) -> int:
    """Say which decision governs a path of a plan, and who says so."""
    decision = read_plan(arguments.plan).why(arguments.path)
    answer(screen, texts.decision_text(decision), texts.plain(decision))
    return codes.FINE


def check_brief(arguments: Namespace, screen: Screen) -> int:
    """List everything that is wrong with a brief, and with stock what would stop its deck."""
    from drylay.brief.reader import check_brief as check

    if arguments.stock or arguments.stock_of:
        return _reviewed(arguments, screen)
    return _checked(screen, arguments.brief, check(Path(arguments.brief)))


def _reviewed(arguments: Namespace, screen: Screen) -> int:
    from drylay.brief.reader import check_brief as check
    from drylay.planner.review import review

    choice = chosen(arguments)
    try:
        stock = stock_reader(arguments, choice)()
    except InputError as error:  # the brief's faults beside the stock's, not after them
        raise InputError((*check(Path(arguments.brief)), *error.faults)) from None
    found = review(Path(arguments.brief), stock=stock, **rules_asked(screen, choice))
    answer(screen, texts.review_text(found, arguments.brief), texts.review_plain(found))
    if found.faults:
        return codes.UNUSABLE
    return codes.STOPPED if found.stops else codes.FINE


def check_stock(arguments: Namespace, screen: Screen) -> int:
    """List everything that is wrong with a stock file, each fault as it is met."""
    from drylay.materials.loader import each_fault

    choice = chosen(arguments)
    path, mapping = Path(arguments.stock), mapping_file(arguments.mapping)
    found = each_fault(path, mapping=mapping)
    first = next(found, None)
    if first is None:
        return _checked(screen, arguments.stock, (), _stock_notes(path, mapping, choice))
    if screen.as_json:
        return _checked(screen, arguments.stock, (first, *found))
    count = 0
    for fault in chain([first], found):
        say(screen.out, str(fault))
        count += 1
    if count >= MANY:
        say(screen.out, f"{arguments.stock}: {count} faults")
    return codes.UNUSABLE


def _stock_notes(path: Path, mapping: Path | None, choice: Choice) -> list[str]:
    """Return what is not wrong with a stock file and should be known."""
    from drylay.materials.survey import survey_stock
    from drylay.plugins.loading import installed_families

    known = {each.family.id for each in installed_families(**choice).families}
    survey = survey_stock(path, mapping=mapping)
    notes = [
        f"{code}: no plugin here supplies the family {family!r}, it cannot be planned with "
        f"until one is installed{_meant(family, known)}"
        for family, code in survey.families.items()
        if family not in known
    ]
    if survey.rounded:
        notes.append(
            f"{survey.first_rounded}: at so much a metre the prices of {survey.rounded} lengths "
            "come to no whole coin and are rounded up"
        )
    notes += [f"{slip}: is a price wrong?" for slip in survey.first_slips]
    if survey.slips > len(survey.first_slips):
        notes.append(f"{survey.slips - len(survey.first_slips)} more prices like these")
    if survey.nominal:
        notes.append(
            f"{survey.first_nominal}: as large as its nominal size, so of {survey.nominal} in all: "
            "measured?"
        )
    return notes


def _meant(family: str, known: Iterable[str]) -> str:
    near = nearest_of(family, tuple(sorted(known)))
    return f"; did you mean {near!r}?" if near else ""


def nearest(arguments: Namespace, screen: Screen) -> int:
    """List what may stand in for an article that is out, best first, with all that changes."""
    stock = stock_reader(arguments, chosen(arguments))()
    found = stock.nearest(arguments.code)
    lines = [str(each) for each in found] or [
        f"nothing in this stock stands in for {arguments.code}"
    ]
    answer(screen, "\n".join(lines), [texts.substitute_plain(each) for each in found])
    return codes.FINE


def families(arguments: Namespace, screen: Screen) -> int:
    """List the installed families and the plugins that failed."""
    from drylay.plugins.loading import installed_families

    found = installed_families(**chosen(arguments))
    answer(screen, texts.families_text(found), texts.families_plain(found))
    return _faulty(found.faults)


def plugins(arguments: Namespace, screen: Screen) -> int:
    """List what every installed plugin supplies, and what is wrong with it."""
    from drylay.planner.plugged import installed_plugins

    found = installed_plugins(**chosen(arguments))
    answer(screen, texts.plugins_text(found), texts.plugins_plain(found))
    return _faulty(fault for plugin in found for fault in plugin.faults)


def _faulty(faults: Iterable[PluginFault]) -> int:
    """Return the exit code for plugins: one that was blocked is no fault."""
    return codes.STOPPED if any(f.kind != "blocked" for f in faults) else codes.FINE


def timber_tables(arguments: Namespace, screen: Screen) -> int:
    """Work out every cell of a folder of outside tables, and say which match."""
    from drylay.testing.table_texts import tables_plain, tables_text
    from drylay.testing.timber_tables import all_match, read_timber_tables

    tables = read_timber_tables(arguments.folder)
    answer(screen, tables_text(tables), tables_plain(tables))
    return codes.FINE if all_match(tables) else codes.STOPPED


def start(arguments: Namespace, screen: Screen) -> int:
    """Write a commented brief, to a new file or to the screen."""
    from drylay.brief.starter import starter_brief

    brief = starter_brief(units="imperial" if arguments.imperial else "metric")
    if not arguments.out:
        answer(screen, brief, {"brief": brief})
        return codes.FINE
    with (
        writing(arguments.out, "a new file that can be written"),
        open(arguments.out, "x", encoding="utf-8", newline="\n") as file,
    ):
        file.write(brief)
    answer(screen, f"written to {arguments.out}", {"written": arguments.out})
    return codes.FINE


def _checked(
    screen: Screen, path: str, faults: tuple[Fault, ...], notes: Sequence[str] = ()
) -> int:
    lines = [str(fault) for fault in faults] or [f"{path}: nothing wrong", *notes]
    plain = {"faults": [fault.to_dict() for fault in faults], "notes": list(notes)}
    answer(screen, "\n".join(lines), plain)
    return codes.UNUSABLE if faults else codes.FINE
