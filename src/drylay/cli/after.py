"""Commands for a deck that is built: when to look at what, where a fault lies, what is left."""

from argparse import Namespace
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from drylay.cli import codes, texts
from drylay.cli.asked import code_of, mm_of, written
from drylay.cli.files import read_plan, writing
from drylay.cli.screen import Screen, answer
from drylay.errors import Fault, InputError
from drylay.intake.days import read_day
from drylay.intake.keys import day as day_key
from drylay.upkeep.model import Calendar, Lift, Located
from drylay.upkeep.stock_model import Carbon, Waste

#: No calendar reaches further. Assumption: no deck does.
MOST_YEARS = 60


def upkeep(arguments: Namespace, screen: Screen) -> int:
    """List when to look at what of a deck, from its hand-over on."""
    from drylay.papers.upkeep_drawing import calendar_svg
    from drylay.papers.writing import write_folder
    from drylay.upkeep.calendar import inspection_calendar
    from drylay.upkeep.ics import calendar_ics

    plan = read_plan(arguments.plan)
    day = _day("--handed-over", arguments.handed_over)
    if not 1 <= arguments.years <= MOST_YEARS:
        found, wanted = str(arguments.years), f"1 to {MOST_YEARS}"
        raise InputError((Fault(path="--years", found=found, wanted=wanted),))
    calendar = inspection_calendar(plan, handed_over=day, years=arguments.years)
    if arguments.out:
        papers = {
            "upkeep.txt": _calendar_text(calendar).encode(),
            "upkeep.ics": calendar_ics(calendar),
            "upkeep.svg": calendar_svg(calendar),
        }
        with writing(arguments.out, "a folder that can be written"):
            write_folder(papers, arguments.out)
    answer(screen, _calendar_text(calendar), texts.plain(calendar))
    return code_of(calendar.findings)


def _day(name: str, text: str) -> date:
    found = read_day(day_key("day"), text)
    if isinstance(found, Fault):
        raise InputError((Fault(path=name, found=found.found, wanted=found.wanted),))
    return found


def _calendar_text(found: Calendar) -> str:
    return "\n".join(_visits(found))


def _visits(found: Calendar) -> Iterator[str]:
    yield f"{found.title}: inspections for {found.years} years from {found.handed_over}"
    for visit in found.visits:
        yield ""
        yield f"{visit.mark}  {visit.day}  {visit.title}"
        for item in visit.items:
            figures = "; ".join(f"{hold.check}, {hold.limit:g} {hold.unit}" for hold in item.holds
                                if hold.limit is not None)  # fmt: skip
            yield f"  - {item.what}" + (f" ({figures})" if figures else "")
            yield from (f"      {place}" for place in item.where)
            if item.if_not:
                who = f" ({item.then_by})" if item.then_by else ""
                yield f"      if not: {item.if_not}{who}"
    yield from (str(each) for each in found.findings)


def locate(arguments: Namespace, screen: Screen) -> int:
    """Say what lies at a place of a deck, and which boards to lift to reach below it."""
    from drylay.papers.upkeep_drawing import lift_svg
    from drylay.upkeep.lift import boards_to_lift
    from drylay.upkeep.locate import locate as find
    from drylay.upkeep.model import Below

    plan = read_plan(arguments.plan)
    along_mm, across_mm = mm_of("ALONG", arguments.along), mm_of("ACROSS", arguments.across)
    spot = find(plan, along_mm, across_mm)
    half = _above_nothing("--reach", arguments.reach) / 2
    below = Below(
        from_along_mm=along_mm - half, to_along_mm=along_mm + half,
        from_across_mm=across_mm - half, to_across_mm=across_mm + half,
    )  # fmt: skip
    lift = boards_to_lift(plan, reach=below)
    said = written(arguments.out, lift_svg(plan, lift, spot=spot)) if arguments.out else ""
    lines = [*_spot(spot), *_lift(lift), *filter(None, [said])]
    answer(screen, "\n".join(lines), {"located": texts.plain(spot), "lift": texts.plain(lift)})
    return code_of((*spot.findings, *lift.findings))


def _above_nothing(name: str, text: str) -> float:
    found = mm_of(name, text)
    if found <= 0:
        raise InputError((Fault(path=name, found=repr(text), wanted="a length above 0"),))
    return found


def _spot(spot: Located) -> Iterator[str]:
    pieces = ", ".join(spot.pieces)
    yield f"at {spot.along_mm:g} along, {spot.across_mm:g} across: {spot.what} {pieces}"
    if spot.bay:
        yield f"between joists {', '.join(spot.bay)}"
    for what, near in (("timber", spot.nearest), ("bearer", spot.bearer), ("post", spot.post)):
        if near is not None:
            yield f"nearest {what}: {near.mark}, {near.off_mm:g} mm off"
    yield from (str(each) for each in spot.findings)


def _lift(lift: Lift) -> Iterator[str]:
    for number, way in enumerate(lift.ways, 1):
        yield f"to reach {lift.reach}, way {number}: lift {len(way.steps)}, in this order"
        for each in way.steps:
            screws = "" if each.screws is None else f", {each.screws} screws"
            yield f"  {each.turn}. {each.piece}{screws}"
    yield from (str(each) for each in lift.findings)


def extend(arguments: Namespace, screen: Screen) -> int:
    """Write the brief of an extension that runs on in phase with a deck."""
    from drylay.papers.brief_toml import brief_toml
    from drylay.upkeep.extension import extension

    plan = read_plan(arguments.plan)
    found = extension(
        plan, arguments.side, mm_of("BY", arguments.by),
        ten_rows_mm=_told_mm("--ten-rows", arguments.ten_rows),
        width_mm=_told_mm("--width", arguments.width),
        tied=arguments.tied, old_frame=arguments.old_frame,
    )  # fmt: skip
    if found.brief is not None:
        notes = (f"{found.rows} rows, the first at {found.first_near_mm:g} mm as the old ones are "
                 f"counted; {found.remainder_mm:g} mm are left", *found.questions,
                 *map(str, found.findings))  # fmt: skip
        text = brief_toml(found.brief.to_dict(), comments=notes)
        if arguments.out:
            with writing(arguments.out, "a file that can be written"):
                Path(arguments.out).write_text(text, encoding="utf-8")
        plain = {"brief": found.brief.to_dict(), "questions": list(found.questions),
                 "findings": [texts.plain(each) for each in found.findings]}  # fmt: skip
        answer(screen, text, plain)
    else:
        answer(screen, "\n".join(map(str, found.findings)),
               {"findings": [texts.plain(each) for each in found.findings]})  # fmt: skip
    return code_of(found.findings)


def _told_mm(name: str, text: str | None) -> float | None:
    return None if text is None else mm_of(name, text)


def waste(arguments: Namespace, screen: Screen) -> int:
    """Say what is left over of a deck's order by class, and its carbon by factors given."""
    from drylay.upkeep.reader import read_factors
    from drylay.upkeep.waste import carbon
    from drylay.upkeep.waste import waste as weigh

    plan = read_plan(arguments.plan)
    found = weigh(plan, untreated=arguments.untreated)
    spent = carbon(plan, read_factors(arguments.factors)) if arguments.factors else None
    lines = [*_waste(found), *(_carbon(spent) if spent else ())]
    plain = {"waste": texts.plain(found), "carbon": texts.plain(spent) if spent else None}
    answer(screen, "\n".join(lines), plain)
    if screen.as_json:
        return codes.FINE
    return code_of((*found.findings, *(spent.findings if spent else ())))


def _waste(found: Waste) -> Iterator[str]:
    for part in found.parts:
        mass = "mass not known" if part.mass_kg is None else f"{part.mass_kg:g} kg"
        yield f"{part.waste_class}: {part.what}, {mass}"
    yield f"known in all: {found.known_kg:g} kg"
    yield from (str(each) for each in found.findings)


def _carbon(spent: Carbon) -> Iterator[str]:
    for part in spent.parts:
        by = part.factor.source.title
        yield f"{part.article}: {part.least_kg:g} to {part.most_kg:g} kg CO2e ({by})"
    whole = "" if spent.whole else f", without {', '.join(spent.missing)}"
    yield f"carbon by these factors: {spent.least_kg:g} to {spent.most_kg:g} kg CO2e{whole}"
    yield from (str(each) for each in spent.findings)
