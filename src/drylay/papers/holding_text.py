"""What holds the frame, the fascia and the joists, in words and as the rows of one table."""

from collections.abc import Iterator

from drylay.fixings.model import (
    BorderScrews,
    DeckScrews,
    FasciaScrews,
    Fixings,
    FrameScrews,
    Hangers,
)
from drylay.frame.model import Frame
from drylay.papers.outlined_fixed import (
    doubles_told,
    doubles_where,
    frame_ends_told,
    frame_ways_told,
)
from drylay.papers.wording import bare, bit, clean, many, marks_told, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.subframe.model import Subframe

#: What is said where the stock names no driver.
NO_DRIVER = "as marked on the box"
#: On an outline sides run so that each begins, for who stands outside and faces it, here.
FACED = "right"
#: Where a deck stands, in words.
PLACES = {
    "inland": "inland (assumed, where the brief does not say)",
    "coast": "within reach of salt spray",
    "pool": "beside a pool",
}
#: The end of a piece of fascia that is nearest the datum corner, by its side.
FROM_END = {"house": "left", "front": "left", "left": "house", "right": "house"}

FixingRow = tuple[str, str, str, str, str, str, str]


def fixing_rows(plan: Plan) -> list[FixingRow]:
    """Return each fixing: name and article, where, how many, size, pilot, driver, metal."""
    fixings, units = plan.fixings, plan.units
    if fixings is None:
        return []
    metals = {row.what: clean(row.metal) for row in fixings.metals}
    stays = stays_told(plan)
    return [
        (f"{what} {clean(article, 40)}", where, str(count), sized, pilot, driver,
         metals.get(what, "no metal" if what == "end caps" else "not told"))
        for what, article, where, count, sized, pilot, driver
        in _rows(fixings, units, stays, plan.subframe)
    ]  # fmt: skip


def _of_boards(
    deck: DeckScrews | BorderScrews, *, clipped: bool, units: str
) -> tuple[str, str, int, str, str, str]:
    joints = f" and as many again at {many(deck.joints, 'joint')}" if deck.joints else ""
    where = f"{deck.per_crossing} at each of {many(deck.crossings, 'crossing')}{joints}"
    where += " of the last row" if clipped else ""
    return (deck.article, where, deck.count, *_screw(deck, units))


def _rows(
    fixings: Fixings, units: str, stays: str, under: Subframe | None
) -> Iterator[tuple[str, str, str, int, str, str, str]]:
    deck, coach = fixings.deck_screws, fixings.coach_screws
    if deck is not None:
        yield ("deck screws", *_of_boards(deck, clipped=fixings.clips is not None, units=units))
    if (edge := fixings.border_screws) is not None:
        yield ("border screws", *_of_boards(edge, clipped=False, units=units))
    ends = many(coach.joist_ends, "joist end" if under is None else "carried end")
    where = f"{coach.per_joist_end} in each of {ends}"
    if coach.joist_ends:
        yield ("coach screws", coach.article, where, coach.count, *_screw(coach, units))
    if (frame := fixings.frame_screws) is not None:
        yield ("frame screws", frame.article, _where(frame, under), frame.count,
               *_screw(frame, units))  # fmt: skip
    if (double := fixings.double_screws) is not None:
        yield ("screws of doubles", double.article, doubles_where(double), double.count,
               *_screw(double, units))  # fmt: skip
    if (fascia := fixings.fascia_screws) is not None:
        where = f"{fascia.per_place} at each of {many(len(fascia.places), 'place')}"
        yield ("fascia screws", fascia.article, where, fascia.count, *_screw(fascia, units))
    if (hung := fixings.hangers) is not None:
        sized = f"for {size(hung.joist_mm, units)}, {size(hung.depth_mm, units)} deep"
        where = "both ends of every joist" + (f" but {stays}" if stays else "'s parts")
        yield ("hangers", hung.article, where, hung.count, sized, "", "")
        where = f"{many(hung.screws_each, 'screw')} in each of {many(hung.count, 'hanger')}"
        sized = f"{size(hung.screw_shank_mm, units)} x {size(hung.screw_length_mm, units)}"
        driver = clean(hung.driver) or NO_DRIVER
        yield ("hanger screws", hung.screw, where, hung.screw_count, sized, "", driver)
    if (packers := fixings.board_packers) is not None and packers.article:
        where = "under the thinner boards, on every joist"
        sized = f"{size(packers.height_mm, units)} high"
        yield ("board packers", packers.article, where, packers.count, sized, "", "")
    yield from _clip_rows(fixings, units)


def _clip_rows(fixings: Fixings, units: str) -> Iterator[tuple[str, str, str, int, str, str, str]]:
    clips, caps = fixings.clips, fixings.end_caps
    if clips is not None:
        if clips.fixed_screws and (deck := fixings.deck_screws) is not None:
            where = f"1 at each of {many(clips.fixed_screws, 'fixed point')} of other rows"
            yield ("deck screws", deck.article, where, clips.fixed_screws, *_screw(deck, units))
        where = f"{clips.per_crossing} at each of {many(clips.crossings, 'crossing')}"
        gap = f"gap {size(clips.gap_mm, units)}"
        yield ("clips", clips.article, where, clips.count, gap, "", "")
        if clips.starter_article:
            where = f"{clips.starter_per_joist} on each joist, first row"
            starters = clips.starter_count
            yield ("starter clips", clips.starter_article, where, starters, "", "", "")
        if clips.edge_screws and (deck := fixings.deck_screws) is not None:
            where = "beside the ripped edges"
            yield ("deck screws", deck.article, where, clips.edge_screws, *_screw(deck, units))
    if caps is not None:
        where = f"{caps.per_end} on each of {many(caps.ends, 'open end')}"
        yield ("end caps", caps.article, where, caps.count, "", "", "")


def _screw(screws: object, units: str) -> tuple[str, str, str]:
    """Return a screw's size, pilot and driver."""
    shank_mm, length_mm, pilot_mm, driver = (
        getattr(screws, name) for name in ("shank_mm", "length_mm", "pilot_mm", "driver")
    )
    sized = f"{size(shank_mm, units)} x {size(length_mm, units)}"
    pilot = "as its maker says" if pilot_mm is None else bit(pilot_mm, units)
    return sized, pilot, clean(driver) or NO_DRIVER


def _where(frame: FrameScrews, under: Subframe | None) -> str:
    noggins = f"{frame.per_noggin_end} at each of {many(frame.noggin_ends, 'noggin end')}"
    noggins = noggins if under is None else frame_ends_told(frame, under)
    splices = f"{frame.per_splice_side} on each of {many(frame.splice_sides, 'splice side')}"
    parts = [noggins] * bool(frame.noggin_ends) + [splices] * bool(frame.splice_sides)
    if frame.batten_joints:
        held = f"{frame.per_batten_joint} for each of {many(frame.batten_joints, 'joint')}"
        parts.append(f"{held} on battens")
    return "; ".join(parts) or "nothing to hold"


def holding_told(plan: Plan) -> tuple[str, ...]:
    """Return what holds noggins, splices, fascia and joists, and of which metal all is."""
    fixings, units = plan.fixings, plan.units
    if fixings is None:
        return ()
    texts = [frame_screws_told(plan)]
    if fixings.double_screws is not None:
        texts.append(doubles_told(fixings.double_screws, units))
    if fixings.fascia_screws is not None:
        texts += [_fascia(fixings, fixings.fascia_screws, units), fascia_places_told(plan)]
    if fixings.hangers is not None:
        texts.append(_hangers(fixings.hangers, units, stays_told(plan)))
    return tuple(text for text in (*texts, metals_told(plan)) if text)


def frame_screws_told(plan: Plan) -> str:
    """Return how noggins and splices are held; "" where there are neither."""
    screws = plan.fixings.frame_screws if plan.fixings is not None else None
    if screws is None:
        return _uncounted(plan.frame) if plan.frame is not None else ""
    if not screws.count:
        return ""
    units = plan.units
    noggins = " Noggins through the joist into their ends." if screws.noggin_ends else ""
    noggins = noggins if plan.subframe is None else frame_ways_told(screws, plan.subframe)
    splices = ""
    if screws.splice_sides:
        splices = (
            " Splices through the rim into the plate, spread over height and length on each side "
            "of the joint."
        )
    if screws.batten_joints:
        splices += " Battens through their side into the joist, spread over length and height."
    return (
        f"{screws.count} frame screws {clean(screws.article, 40)}, {size(screws.shank_mm, units)} "
        f"x {size(screws.length_mm, units)}: {_where(screws, plan.subframe)}; near ends "
        f"a pilot of {bit(screws.pilot_mm, units)}.{noggins}{splices}"
    )


def _uncounted(frame: Frame) -> str:
    """Return that screws are not counted, of what there is to screw; "" where there is nothing."""
    if frame.battens:
        return "Screws of noggins, splices and battens are not counted in this plan."
    loose = bool(frame.noggins or frame.splices)
    return "Screws of noggins and splices are not counted in this plan." * loose


def _fascia(fixings: Fixings, screws: FasciaScrews, units: str) -> str:
    """Return the fascia's screws; no heads to keep from where no coach screws are driven."""
    heads = f"{size_least(screws.clear_mm, units)} or more from the middle of a coach screw's head"
    ends = f"{size_least(screws.end_least_mm, units)} or more from ends"
    clear = f"{ends}, and {heads}" if fixings.coach_screws.joist_ends else f"and {ends}"
    return (
        f"{screws.count} fascia screws {clean(screws.article, 40)}, {size(screws.shank_mm, units)} "
        f"x {size(screws.length_mm, units)}: {screws.per_place} one above the other at each of "
        f"{many(len(screws.places), 'place')}, a quarter of the fascia's depth in from its upper "
        f"and lower edge and into the frame; pilot {bit(screws.pilot_mm, units)}. Places lie "
        f"{size_most(screws.spacing_most_mm, units)} or less apart, {clear}."
    )


def fascia_places_told(plan: Plan) -> str:
    """Return where each piece of fascia is screwed, pieces that are alike together."""
    screws = plan.fixings.fascia_screws if plan.fixings is not None else None
    pieces = _fascia_ends(plan)
    if screws is None or not pieces:
        return ""
    spots: dict[str, list[str]] = {}
    for place in screws.places:
        spots.setdefault(place.fascia, []).append(bare(place.offset_mm, plan.units))
    alike: dict[tuple[str, str], list[str]] = {}
    for mark, end in pieces:
        alike.setdefault((end, ", ".join(spots.get(mark, []))), []).append(mark)
    told = "; ".join(
        f"{marks_told(marks)} from the {end} end: {at}" for (end, at), marks in alike.items() if at
    )
    return f"Fascia is screwed, on each piece from its own end, at: {told}."


def _fascia_ends(plan: Plan) -> list[tuple[str, str]]:
    """Return every piece of fascia with the end that its screws are counted from."""
    if plan.subframe is not None:
        return [(facing.mark, FACED) for facing in plan.subframe.facings]
    faces = plan.edges.faces if plan.edges else ()
    return [(piece.mark, FROM_END.get(f.side, "near")) for f in faces for piece in f.pieces]


def stays_told(plan: Plan) -> str:
    """Return which joists stay on coach screws where the others hang: "" where all do."""
    if plan.frame is not None and plan.frame.hung:
        return ""
    paired = plan.supports is not None and bool(plan.supports.seams)
    return "the outer two and those of pairs" if paired else "the outer two"


def _hangers(hung: Hangers, units: str, stays: str) -> str:
    where = f"joist but {stays}, which the coach screws hold" if stays else (
        "part of every joist; those of the outer two, at the bearers' ends, of a kind with flanges "
        "turned in"
    )  # fmt: skip
    return (
        f"{hung.count} hangers {clean(hung.article, 40)}, for joists of "
        f"{size(hung.joist_mm, units)}, {size(hung.depth_mm, units)} deep: at both ends of every "
        f"{where}. {hung.screw_count} hanger screws "
        f"{clean(hung.screw, 40)}: {hung.screws_each} in each, every hole that its maker marks for "
        "them."
    )


def metals_told(plan: Plan) -> str:
    """Return the driver and the metal of each fixing, and for which place they were judged."""
    fixings = plan.fixings
    if fixings is None or not fixings.metals:
        return ""
    rows = fixing_rows(plan)
    each = [f"{row[0]}, {row[6]}{f', driver {row[5]}' if row[5] else ''}" for row in rows]
    told = "; ".join(dict.fromkeys(each))
    exposure = plan.site.exposure if plan.site is not None else "inland"
    where = PLACES.get(exposure, clean(exposure))
    return f"Metals, held against boards and treatment for a deck {where}: {told}."
