"""Commands beside the plan itself: the garden before it, questions of a plan after it.

Each reads, calls the library once, and says what came of it.
"""

from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path

from drylay.cli import codes, texts
from drylay.cli.files import named_in, read_brief_file, read_inputs, read_plan, writing
from drylay.cli.plugged import chosen, rules_asked, stock_reader
from drylay.cli.screen import Screen, answer, progress_of, say
from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.intake.keys import length
from drylay.intake.values import read_length_text
from drylay.survey.model import Tape

#: No garden and no tape is longer.
MOST_MM = 1_000_000.0


def mm_of(name: str, text: str) -> float:
    """Return a length given on the command line, with its unit.

    Raises:
        InputError: It is none.
    """
    found = read_length_text(length(name, -MOST_MM, MOST_MM), text)
    if isinstance(found, Fault):
        wanted = found.wanted or "a length with its unit"
        raise InputError((Fault(path=name, found=repr(text), wanted=wanted),))
    return found


def code_of(findings: Sequence[Finding]) -> int:
    """Return the exit code that findings come to: stopped where one of them is a stop."""
    stopped = any(each.severity is Severity.STOP for each in findings)
    return codes.STOPPED if stopped else codes.FINE


def written(path: str, held: bytes) -> str:
    """Write one file, and say so."""
    with writing(path, "a file that can be written"):
        Path(path).write_bytes(held)
    return f"written to {path}"


def garden(arguments: Namespace, screen: Screen) -> int:
    """Say what follows of a garden file: corners, ground, places for a deck, room for furniture."""
    import json

    from drylay.papers.writing import write_folder
    from drylay.planner.garden import look_at_garden, read_garden
    from drylay.planner.garden_papers import garden_json, garden_papers, garden_text

    told = read_garden(arguments.garden)
    step_mm = None if arguments.best is None else mm_of("--best", arguments.best)
    report = look_at_garden(told, step_mm=step_mm)
    if arguments.out:
        with writing(arguments.out, "a folder that can be written"):
            title = Path(arguments.garden).stem
            write_folder(garden_papers(report, title=title), arguments.out)
    answer(screen, garden_text(report), json.loads(garden_json(report)))
    return code_of(report.findings)


def steps(arguments: Namespace, screen: Screen) -> int:
    """Say at which sizes, gaps and centres a deck changes, and what each change saves."""
    from drylay.compare.step_chart import step_points_svg
    from drylay.compare.step_points import what_would_change
    from drylay.compare.step_text import step_points_text
    from drylay.papers.writing import write_folder

    choice = chosen(arguments)
    brief, stock = read_inputs(arguments.brief, stock_reader(arguments, choice))
    with named_in(arguments.brief):
        points = what_would_change(
            brief,
            stock=stock,
            within_mm=mm_of("--within", arguments.within),
            counts_within_mm=mm_of("--counts-within", arguments.counts_within),
            paths=arguments.change or None,
            progress=progress_of(screen),
            **rules_asked(screen, choice),
        )
    text = step_points_text(points)
    if arguments.out:
        papers = {"steps.txt": text.encode(), "steps.svg": step_points_svg(points)}
        with writing(arguments.out, "a folder that can be written"):
            write_folder(papers, arguments.out)
    answer(screen, text, texts.plain(points))
    return codes.FINE


def correct(arguments: Namespace, screen: Screen) -> int:
    """Correct a plan by what was measured while laying, reading by reading."""
    from drylay.correcting.reader import read_readings
    from drylay.papers.correcting_text import corrected_text
    from drylay.plan.codec import plan_to_json
    from drylay.planner.corrected import correct_plan
    from drylay.planner.folder import write_papers

    plan = read_plan(arguments.plan)
    brief = read_brief_file(arguments.brief) if arguments.brief else None
    choice = chosen(arguments)
    stock = stock_reader(arguments, choice)() if arguments.stock or arguments.stock_of else None
    known = plan.laid.rows_laid if plan.laid else 0
    readings = [each for each in read_readings(arguments.readings) if each.rows_laid > known]
    for reading in readings:
        plan = correct_plan(plan, reading, brief=brief, stock=stock)
    if arguments.out:
        with writing(arguments.out, "a folder that can be written"):
            write_papers(plan, arguments.out)
    if screen.as_json:
        say(screen.out, plan_to_json(plan))
    else:
        say(screen.out, corrected_text(plan, taken=len(readings)))
        say(screen.out, f"written to {arguments.out}" if arguments.out else "nothing written")
    return code_of(plan.findings)


def profiles(arguments: Namespace, screen: Screen) -> int:
    """Say where lines and profiles stand outside the dig, and draw them."""
    from drylay.papers.profiles_drawing import profiles_svg
    from drylay.papers.profiles_text import profile_texts
    from drylay.planner.profiles import profiles as find

    plan = read_plan(arguments.plan)
    clear_mm = None if arguments.clear is None else mm_of("--clear", arguments.clear)
    datum = _datum(arguments.datum)
    found = find(plan, clear_mm=clear_mm, source_line="datum line" if datum else None, datum=datum)
    said = written(arguments.out, profiles_svg(plan, found)) if arguments.out else ""
    answer(screen, "\n".join(filter(None, (*profile_texts(plan, found), said))), texts.plain(found))
    return code_of(found.findings)


Line = tuple[tuple[float, float], tuple[float, float]]


def _datum(told: Sequence[str] | None) -> Line | None:
    """Return the two pegs of a datum line: four lengths, along and across of either."""
    if told is None:
        return None
    a, b, c, d = (mm_of("--datum", text) for text in told)
    return (a, b), (c, d)


def pegs(arguments: Namespace, screen: Screen) -> int:
    """Say which pegs to move so that the tapes read as planned."""
    from drylay.papers.peg_moves_drawing import peg_moves_svg
    from drylay.papers.peg_moves_text import moves_texts
    from drylay.work.peg_moves import move_pegs

    plan = read_plan(arguments.plan)
    if plan.work is None:
        raise InputError((Fault(path=arguments.plan, found="a plan without pegs",
                                wanted="a plan that can be built"),))  # fmt: skip
    found = move_pegs(plan.work.setting_out, [_tape(text) for text in arguments.tapes])
    said = written(arguments.out, peg_moves_svg(plan, found)) if arguments.out else ""
    answer(screen, "\n".join(filter(None, (*moves_texts(found, plan.units), said))),
           texts.plain(found))  # fmt: skip
    return codes.FINE if found.verdict == "true" else codes.STOPPED


def _tape(text: str) -> Tape:
    pair, mark, long = text.partition("=")
    start, dash, end = pair.partition("-")
    if not (mark and dash):
        wanted = "two pegs and what was taped, such as P1-P3=4318mm"
        raise InputError((Fault(path="tape", found=repr(text), wanted=wanted),))
    return Tape(start=start.strip(), end=end.strip(), length_mm=mm_of(pair, long.strip()))
