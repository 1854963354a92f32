"""The bars: every way of cutting of every purchase, drawn to scale with its cuts in order."""

from itertools import accumulate, groupby
from operator import itemgetter

from attrs import evolve, frozen

from drylay.buying.model import BoughtLength, Buying, Purchase
from drylay.papers.arrows import LONG_MM, arrow, arrow_told, arrows_of
from drylay.papers.hatching import hatch
from drylay.papers.lettering import fitted, width_mm
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    MEMBER_MM,
    THIN_MM,
    Bar,
    Box,
    Lettering,
    Shape,
    Sheet,
)
from drylay.papers.outlined_saw import DRAWN_SQUARE, saw_notes
from drylay.papers.purchase import (
    NO_TRIM,
    SAWN_LONG,
    by_knife,
    counted,
    purchase_told,
    ripping_told,
)
from drylay.papers.ruled import FIGURE_MM, LINE_MM, paragraphs, paragraphs_height
from drylay.papers.sheets import (
    AIR_MM,
    INSET_MM,
    ROLL,
    SLACK_RATIO,
    body_notes,
    roll,
    room,
    sheets,
    title_block,
    wrapped,
)
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, many, size
from drylay.plan.model import Plan

#: A bar's height; air under a bar's texts; a purchase's heading; air between columns.
BAR_MM, UNDER_MM, HEADING_MM, BETWEEN_MM = 9.0, 4.0, 8.0, 8.0
#: The longest length is drawn at least this long, so that its pieces can be told apart.
LEAST_MM = 90.0
#: The height that a roll's columns are set to.
ROLL_MM = 780.0
#: A scale on which 6 m fill a small sheet, which ISO 5455 lacks: common practice, no source.
MORE_SCALES = {"metric": (20.0, 25.0, "1:25")}
#: Narrower offcuts than this are hatched closely.
SLIVER_MM = 3.0

Columns = list[list[Bar]]


@frozen(kw_only=True)
class Drawn:
    """How bars are drawn: mm of deck to one of paper, the saw's figures, room for the labels."""

    per_mm: float
    kerf_mm: float
    trim_mm: float
    left_mm: float
    wide_mm: float
    units: str


def bars_svg(plan: Plan) -> bytes:
    """Return the drawing of how everything bought is sawn; b"" where nothing is bought so."""
    buying = plan.buying
    tiled = plan.tiling is not None or plan.tiles is not None
    if buying is None or (tiled and not buying.purchases):
        return b""
    bars = all_bars(plan, buying)
    notes = _notes(plan, buying)
    left_mm = max((width_mm(bar.label, FIGURE_MM) for bar in bars), default=0.0) + AIR_MM
    sheet, columns = _placed(plan.units, bars, notes, left_mm, buying)
    wide = _column_width(sheet, len(columns), left_mm)
    drawn = Drawn(per_mm=sheet.per_mm, kerf_mm=buying.kerf_mm, trim_mm=buying.end_trim_mm,
                  left_mm=left_mm, wide_mm=wide, units=plan.units)  # fmt: skip
    body = body_notes(sheet, notes)
    shapes: list[Shape] = paragraphs(body, "notes", INSET_MM, INSET_MM, room(sheet)[0])
    for index, column in enumerate(columns):
        x = INSET_MM + index * (left_mm + wide + BETWEEN_MM)
        y = INSET_MM + room(sheet)[1] - _left(sheet, notes)
        for bar in column:
            shapes += _block(drawn, bar, x, y)
            y += _height(bar, wide)
    shapes += title_block(sheet, title=plan.title, drawing="Bars: how every length is sawn",
                          units=plan.units, notes=() if body else notes, counted="")  # fmt: skip
    ways = many(len(bars), "way", "ways")
    told = f"How everything bought for {clean(plan.title)} is sawn, in {ways}."
    return svg(shapes, sheet=sheet, name="bars", title=f"Bars of {clean(plan.title)}", told=told)


def all_bars(plan: Plan, buying: Buying) -> list[Bar]:
    """Return one bar for each way of cutting of each purchase, in the order bought."""
    sizes, arrows = plan.sizes_mm(), arrows_of(plan)
    return _rolls_shrunk([
        bar
        for purchase in buying.purchases
        for bar in _headed(purchase, _bars(purchase, sizes, arrows, plan.units))
    ])  # fmt: skip


def _rolls_shrunk(bars: list[Bar]) -> list[Bar]:
    """Return the bars, those of rolls drawn no longer than the longest timber."""
    timber_mm = max((bar.length_mm for bar in bars if not bar.knife), default=0.0)
    rolls_mm = max((bar.length_mm for bar in bars if bar.knife), default=0.0)
    if not timber_mm or rolls_mm <= timber_mm:
        return bars
    ratio = rolls_mm / timber_mm
    return [
        evolve(bar, shown_ratio=ratio, heading=bar.heading and f"{bar.heading}, not to scale")
        if bar.knife
        else bar
        for bar in bars
    ]


def _headed(purchase: Purchase, bars: list[Bar]) -> list[Bar]:
    heading = purchase_told(purchase)
    return [evolve(bar, heading="" if index else heading) for index, bar in enumerate(bars)]


def _bars(
    purchase: Purchase, sizes: dict[str, float], arrows: dict[str, str], units: str
) -> list[Bar]:
    knife = by_knife(purchase)
    groups: dict[tuple[float, tuple[float, ...], float], list[BoughtLength]] = {}
    for length in purchase.lengths:
        cuts = tuple(sizes.get(mark, 0.0) for mark in length.pieces)
        groups.setdefault((length.length_mm, cuts, length.offcut_mm), []).append(length)
    return [
        Bar(
            heading="", label=f"{len(lengths)} x {bare(length_mm, units)}",
            saw=_saw([bare(cut, units) for cut in cuts], bare(length_mm, units),
                     bare(offcut_mm, units) if offcut_mm else "", "cut" if knife else "saw"),
            marks=tuple(f"{length.mark}: {' '.join(length.pieces)}" for length in lengths),
            length_mm=length_mm, cuts_mm=cuts, offcut_mm=offcut_mm, knife=knife,
            handed=any(mark in arrows for length in lengths for mark in length.pieces),
        )
        for (length_mm, cuts, offcut_mm), lengths in groups.items()
    ]  # fmt: skip


def _saw(cuts: list[str], length: str, offcut: str, verb: str) -> str:
    if cuts == [length]:
        return "use whole"
    return f"{verb} {counted(cuts)}; {f'offcut {offcut}' if offcut else 'no offcut'}"


def _notes(plan: Plan, buying: Buying) -> tuple[str, ...]:
    kerf, trim_mm = size(buying.kerf_mm, plan.units), buying.end_trim_mm
    notes = [
        f"Saw each length in the order drawn, from the left. Reckoned with a saw cut of {kerf}. "
        "Hatched: offcut. Under each bar: which length gives which pieces, in that order.",
        f"Black at both ends: {size(trim_mm, plan.units)} trimmed off." if trim_mm else NO_TRIM,
    ]
    if plan.pieces and plan.pieces.trim_allowance_mm:
        notes.append(SAWN_LONG)
    notes += [arrow_told(plan)] if arrow_told(plan) else []
    notes += [DRAWN_SQUARE] if saw_notes(plan) else []
    ripped = ripping_told(plan)
    return (*notes, ripped) if ripped else tuple(notes)


def _placed(
    units: str, bars: list[Bar], notes: tuple[str, ...], left_mm: float, buying: Buying
) -> tuple[Sheet, Columns]:
    """Return the smallest paper on which all bars find room, and the bars in columns."""
    longest_mm = max((_reach(bar, buying) for bar in bars), default=0.0)
    for sheet in _all_sheets(units):
        drawn_mm = longest_mm / sheet.per_mm
        most = int((room(sheet)[0] + BETWEEN_MM) // (left_mm + drawn_mm + BETWEEN_MM))
        for count in range(1, most + 1 if drawn_mm >= LEAST_MM else 1):
            columns = _in_columns(bars, _column_width(sheet, count, left_mm), _left(sheet, notes))
            if columns is not None and len(columns) <= count:
                return sheet, columns
    return _on_roll(units, bars, notes, left_mm, longest_mm / ROLL[units][0])


def _reach(bar: Bar, buying: Buying) -> float:
    """Return how far a bar is drawn: its length, or its pieces where an edited plan has more."""
    kerf_mm = 0.0 if bar.knife else buying.kerf_mm
    return max(bar.length_mm, sum(bar.cuts_mm) + kerf_mm * len(bar.cuts_mm)) / bar.shown_ratio


def _left(sheet: Sheet, notes: tuple[str, ...]) -> float:
    """Return the height that the notes leave for the bars."""
    wide, high = room(sheet)
    body_mm = paragraphs_height(body_notes(sheet, notes), wide)
    return high - (body_mm + AIR_MM if body_mm else 0.0)


def _all_sheets(units: str) -> list[Sheet]:
    found = list(sheets(units))
    if units in MORE_SCALES:
        beside, per_mm, scale = MORE_SCALES[units]
        found += [evolve(s, per_mm=per_mm, scale=scale) for s in found if s.per_mm == beside]
    return sorted(found, key=lambda sheet: (sheet.width_mm, sheet.per_mm))


def _on_roll(
    units: str, bars: list[Bar], notes: tuple[str, ...], left_mm: float, wide_mm: float
) -> tuple[Sheet, Columns]:
    high = max([ROLL_MM, *(_height(bar, wide_mm) for bar in bars)])
    columns = _in_columns(bars, wide_mm, high) or []
    wide = max(1, len(columns)) * (left_mm + wide_mm + BETWEEN_MM)
    return roll(units, wide, high + paragraphs_height(notes, wide) + AIR_MM), columns


def _column_width(sheet: Sheet, count: int, left_mm: float) -> float:
    """Return the width under the bars of each column, their labels not counted."""
    return (room(sheet)[0] + BETWEEN_MM) / max(1, count) - BETWEEN_MM - left_mm


def _in_columns(bars: list[Bar], wide: float, high: float) -> Columns | None:
    """Return bars one under the other in columns of this size; None where one is too high."""
    columns: Columns = []
    left = 0.0
    for bar in bars:
        need = _height(bar, wide)
        if need > high:
            return None
        if need > left:
            columns.append([])
            left = high
        columns[-1].append(bar)
        left -= need
    return columns


def _height(bar: Bar, wide: float) -> float:
    text_mm = paragraphs_height((bar.saw,), wide) + LINE_MM * len(_mark_lines(bar, wide))
    return (HEADING_MM if bar.heading else 0.0) + BAR_MM + 1.0 + text_mm + UNDER_MM


def _mark_lines(bar: Bar, wide: float) -> list[list[tuple[float, str]]]:
    """Return the lengths with their pieces as a grid: lines of texts, each with its place."""
    step = max((width_mm(text, LETTER_MM) for text in bar.marks), default=0.0) + AIR_MM
    most_mm = wide * SLACK_RATIO
    if step > most_mm:
        return [[(0.0, line)] for text in bar.marks for line in wrapped(text, LETTER_MM, most_mm)]
    each = int(most_mm // step)
    return [
        [(at * step, text) for at, text in enumerate(bar.marks[first : first + each])]
        for first in range(0, len(bar.marks), each)
    ]


def _block(drawn: Drawn, bar: Bar, x: float, y: float) -> list[Shape]:
    """Return one bar with its heading, label and texts."""
    wide = drawn.wide_mm
    shapes: list[Shape] = []
    if bar.heading:
        shapes.append(_text("headings", x, y + 3.0, fitted(bar.heading, 3.5, wide), 3.5))
        y += HEADING_MM
    shapes.append(_text("labels", x, y + BAR_MM / 2, bar.label, FIGURE_MM))
    x += drawn.left_mm
    shapes += _bar(drawn, bar, x, y)
    y += BAR_MM + 1.0
    shapes += paragraphs((bar.saw,), "saw", x, y, wide)
    y += paragraphs_height((bar.saw,), wide) + LINE_MM / 2
    grid = _mark_lines(bar, wide)
    return [*shapes, *(
        _text("marks", x + aside, y + LINE_MM * down, text)
        for down, line in enumerate(grid) for aside, text in line
    )]  # fmt: skip


def _text(layer: str, x: float, y: float, text: str, size_mm: float = LETTER_MM) -> Lettering:
    return Lettering(layer=layer, x_mm=x, y_mm=y, text=text, size_mm=size_mm, anchor="start")


def _bar(drawn: Drawn, bar: Bar, x: float, y: float) -> list[Shape]:
    """Return the length as bought, its pieces a saw cut apart, what is trimmed and left over."""

    def box(layer: str, at_mm: float, long_mm: float, pen_mm: float) -> Box:
        return Box(layer=layer, x_mm=x + at_mm / per_mm, y_mm=y, height_mm=BAR_MM,
                   width_mm=long_mm / per_mm, pen_mm=pen_mm)  # fmt: skip

    per_mm, units = drawn.per_mm * bar.shown_ratio, drawn.units
    trim_mm, kerf_mm = (0.0, 0.0) if bar.knife else (drawn.trim_mm, drawn.kerf_mm)
    *starts, end_mm = accumulate((cut + kerf_mm for cut in bar.cuts_mm), initial=trim_mm)
    pieces = [box("pieces", at, cut, THIN_MM) for at, cut in zip(starts, bar.cuts_mm, strict=True)]
    shapes: list[Shape] = [box("lengths", 0.0, bar.length_mm, MEMBER_MM), *pieces]
    shapes += _cut_texts(pieces, [bare(cut, units) for cut in bar.cuts_mm])
    shapes += [line for piece in pieces if bar.handed for line in _arrow(piece)]
    if bar.offcut_mm > 0:
        left = box("offcuts", end_mm, bar.offcut_mm, FINE_MM)
        shapes += [left, *hatch(left, 2.0 if left.width_mm >= SLIVER_MM else 0.7)]
        shapes += _inside(left, f"offcut {bare(bar.offcut_mm, units)}", knocked=True)
    if trim_mm:
        ends = (box("trims", at, trim_mm, FINE_MM) for at in (0.0, bar.length_mm - trim_mm))
        shapes += [evolve(end, fill="black") for end in ends]
    return shapes


def _arrow(piece: Box) -> list[Shape]:
    """Return the arrow of a handed piece, low in it, away from the end sawn first."""
    y, middle = piece.y_mm + BAR_MM - 1.3, piece.x_mm + piece.width_mm / 2
    half = min(LONG_MM, piece.width_mm * 0.8) / 2
    return arrow("arrows", (middle - half, y), (middle + half, y))


def _cut_texts(pieces: list[Box], cuts: list[str]) -> list[Shape]:
    """Return each piece's length in it; of equal pieces too short for that, once for them all."""
    texts: list[Shape] = []
    for cut, run in groupby(zip(cuts, pieces, strict=True), key=itemgetter(0)):
        boxes = [box for _, box in run]
        inside = [text for box in boxes for text in _inside(box, cut)]
        if not inside and len(boxes) > 1:
            end = boxes[-1].x_mm + boxes[-1].width_mm
            whole = evolve(boxes[0], width_mm=end - boxes[0].x_mm)
            inside = _inside(whole, f"{len(boxes)} x {cut}", knocked=True)
        texts += inside
    return texts


def _inside(box: Box, text: str, *, knocked: bool = False) -> list[Shape]:
    """Return a text in a rectangle, turned where that is the only way it fits, or none."""
    x, y = box.x_mm + box.width_mm / 2, box.y_mm + BAR_MM / 2
    long_mm = width_mm(text, LETTER_MM) + 1.0
    flat, upright = long_mm <= box.width_mm, long_mm <= BAR_MM and box.width_mm >= LETTER_MM + 1.0
    if not flat and not upright:
        return []
    return [Lettering(layer="cuts", x_mm=x, y_mm=y, text=text, turned=not flat, knocked=knocked)]
