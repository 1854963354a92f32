"""What a brief means: wishes that contradict each other, or that nothing could meet.

Each check looks at what could be read, under paths such as "cover.along_mm", and answers
with faults. A value given but unreadable is there as UNREADABLE and is not judged twice.
"""

from collections.abc import Callable, Iterator
from itertools import pairwise

from drylay.brief import day
from drylay.brief.levels import levels_make_sense
from drylay.brief.model import WAYS_OUT, BorderWish, Override
from drylay.brief.standing_checks import standing_makes_sense
from drylay.brief.tiles import tiles_make_sense
from drylay.errors import Fault

Read = dict[str, object]


def check_meaning(read: Read) -> Iterator[Fault]:
    """Yield everything that is wrong with the meaning of the values read."""
    for check in _CHECKS:
        yield from check(read)


def _fault(path: str, found: str, wanted: str, nearest: str) -> Fault:
    return Fault(path=path, found=found, wanted=wanted, nearest=nearest)


def check_overrides(overrides: tuple[Override, ...], read: Read) -> Iterator[Fault]:
    """Yield overrides of the gap that leave no gap possible, other wishes standing."""
    said = {override.path: (at, override.value) for at, override in enumerate(overrides)}
    for low, high in pairwise(("least", "preferred", "most")):
        yield from _no_gap_left(low, high, said, read)
    if "surface.gap_preferred_mm" not in said and "gap.preferred_mm" not in read:
        yield from _no_gap_left("least", "most", said, read)


def _no_gap_left(
    low: str, high: str, said: dict[str, tuple[int, float]], read: Read
) -> Iterator[Fault]:
    """Yield a fault where an override puts the `low` gap above the `high` one."""
    values, at = {}, -1
    for name in (low, high):
        path = f"surface.gap_{name}_mm"
        values[name] = said[path][1] if path in said else _number(read, f"gap.{name}_mm")
        at = said[path][0] if path in said else at
    lower, upper = values[low], values[high]
    if at >= 0 and lower is not None and upper is not None and lower > upper:
        yield _fault(
            f"overrides[{at}].value",
            f"a {low} gap of {lower:g} with a {high} gap of {upper:g}",
            f"a {low} gap no wider than the {high} one",
            "override both, or leave the gap to the brief",
        )


def _number(read: Read, path: str) -> float | None:
    value = read.get(path)
    return value if isinstance(value, float) else None


def _not_above(read: Read, low: str, high: str) -> Iterator[Fault]:
    """Yield a fault where the value at `low` is above the one at `high`."""
    lower, upper = _number(read, low), _number(read, high)
    if lower is not None and upper is not None and lower > upper:
        yield _fault(
            high,
            f"{upper:g} with {low} = {lower:g}",
            f"{lower:g} or more",
            f"{high.split('.')[1]} = {lower:g}",
        )


def _gaps(read: Read) -> Iterator[Fault]:
    preferred = _number(read, "gap.preferred_mm")
    yield from _not_above(read, "gap.least_mm", "gap.most_mm")
    if preferred is None:
        return
    yield from _not_above(read, "gap.preferred_mm", "gap.most_mm")
    least = _number(read, "gap.least_mm")
    if least is not None and preferred < least:
        yield _fault(
            "gap.preferred_mm",
            f"{preferred:g} with gap.least_mm = {least:g}",
            f"{least:g} or more",
            f"preferred_mm = {least:g}",
        )


def _change_of_size(read: Read) -> Iterator[Fault]:
    for way in ("along", "across"):
        size = _number(read, f"cover.{way}_mm")
        shrink = _number(read, f"cover.shrink_{way}_mm")
        grow = _number(read, f"cover.grow_{way}_mm")
        if size is None:
            continue
        if shrink is not None and size - shrink < 100:
            yield _fault(
                f"cover.shrink_{way}_mm",
                f"{shrink:g} with cover.{way}_mm = {size:g}",
                "a deck of at least 100 mm left",
                f"shrink_{way}_mm = {size - 100:g}",
            )
        if grow is not None and grow > size:
            yield _fault(
                f"cover.grow_{way}_mm",
                f"{grow:g} with cover.{way}_mm = {size:g}",
                "growth no larger than the deck itself",
                f"grow_{way}_mm = {size:g}",
            )


def _ends(read: Read) -> Iterator[Fault]:
    ends = read.get("board.ends", "cut_first")
    allowance = _number(read, "board.trim_allowance_mm")
    if ends == "trim_in_line" and "board.trim_allowance_mm" not in read:
        yield _fault(
            "board.trim_allowance_mm",
            "nothing with ends trimmed in line",
            "how far each outer piece is laid long",
            "trim_allowance_mm = 20",
        )
    if ends == "cut_first" and allowance is not None:
        yield _fault(
            "board.trim_allowance_mm",
            f"{allowance:g} with ends cut first",
            "an allowance only where ends are trimmed in line",
            'ends = "trim_in_line"',
        )


def _fascia(read: Read) -> Iterator[Fault]:
    sides = read.get("fascia.sides")
    if sides and isinstance(sides, tuple) and "fascia.article" not in read:
        yield _fault(
            "fascia.article",
            f"nothing with fascia on {', '.join(sides)}",
            "which fascia board these sides carry",
            "sides = [], if none is wanted",
        )


def _finish(read: Read) -> Iterator[Fault]:
    if "finish.coats" in read and "finish.article" not in read:
        yield _fault(
            "finish.article",
            "nothing with finish.coats",
            "which oil, stain or paint so many coats are of",
            "leave coats out, if none is wanted",
        )


def _border(read: Read) -> Iterator[Fault]:
    """Yield keys of a border without its board, and a border of the field's own board."""
    article = read.get("border.article")
    for key in ("rows", "measured_width_mm", "screw"):
        given = read.get(f"border.{key}")
        if given not in {None, BorderWish().rows} and article is None:
            yield _fault(
                "border.article",
                f"nothing with border.{key}",
                "which board the border is of",
                f"leave {key.removesuffix('_mm')} out, if none is wanted",
            )
    if isinstance(article, str) and article == read.get("board.article"):
        yield _fault(
            "border.article",
            f"{article!r}, the field's own board",
            "another board than board.article",
            "leave the border out: its rows look as all others do",
        )


#: Keys of the groundwork that mean nothing without an article: key, its article's key, what it is.
_GROUNDWORK = (
    ("lap_mm", "fabric", "which fabric is laid with this lap"),
    ("packer_spacing_mm", "packer", "which packers stand so far apart"),
    ("below_lawn_mm", "gravel", "which gravel ends so far under the lawn"),
)


def _groundwork(read: Read) -> Iterator[Fault]:
    for key, article, wanted in _GROUNDWORK:
        if f"groundwork.{key}" in read and f"groundwork.{article}" not in read:
            yield _fault(
                f"groundwork.{article}",
                f"nothing with groundwork.{key}",
                wanted,
                f"leave {key.removesuffix('_mm')} out, if none is wanted",
            )


def _lights(read: Read) -> Iterator[Fault]:
    """Yield sizes of lights left out: no figure is offered, for each light has its own."""
    if not read.get("lights.count"):
        return
    for key in ("hole_mm", "depth_mm"):
        if f"lights.{key}" not in read:
            yield _fault(
                f"lights.{key}",
                f"nothing with lights.count = {read['lights.count']}",
                "the size that stands in the light's own instructions",
                "count = 0, if no lights are wanted yet",
            )


def _rips(read: Read) -> Iterator[Fault]:
    width = _number(read, "board.measured_width_mm")
    for wish in ("rows.sliver_mm", "rows.least_rip_mm"):
        value = _number(read, wish)
        if width is not None and value is not None and value > width:
            yield _fault(
                wish,
                f"{value:g} with board.measured_width_mm = {width:g}",
                "no wider than the board",
                f"{wish.split('.')[1]} = {width:g}",
            )


def _ways_out(read: Read) -> Iterator[Fault]:
    prefer = read.get("rows.prefer", WAYS_OUT)
    if isinstance(prefer, tuple) and not any(_possible(way, read) for way in prefer):
        yield _fault(
            "rows.prefer",
            ", ".join(prefer),
            "at least one way out that this brief allows",
            'prefer = ["as_wished", "gaps"]',
        )


def _possible(way: str, read: Read) -> bool:
    """Whether the brief allows a way out; one whose wish could not be read counts as allowed."""
    match way:
        case "rip_both" | "rip_last":
            return read.get("rows.may_rip", True) is not False
        case "turn":
            return read.get("board.may_turn", False) is not False
        case "grow" | "shrink":
            wishes = [f"cover.{way}_{axis}_mm" for axis in ("along", "across")]
            return any(read.get(wish, 0.0) != 0.0 for wish in wishes)
    return True


def _tub(read: Read) -> Iterator[Fault]:
    """Yield what a tub lacks, and a tub on a deck that is not told to carry one."""
    told = [f"tub.{key}" for key in ("foot_along_mm", "foot_across_mm", "filled_kg")]
    if not any(path in read for path in told):
        return
    for path in told:
        if path not in read:
            yield _fault(
                path, "nothing beside the tub's other figures", "its foot's size and its mass "
                "filled, with those in it", f"give {path.split('.')[1]} too",
            )  # fmt: skip
    use = read.get("use")
    if use != "hot tub":
        yield _fault("use", f"{use or 'dwelling'!r} with a hot tub", "hot tub", 'use = "hot tub"')


_CHECKS: tuple[Callable[[Read], Iterator[Fault]], ...] = (
    _gaps,
    _change_of_size,
    _ends,
    _fascia,
    _finish,
    _border,
    _groundwork,
    _lights,
    _rips,
    _ways_out,
    levels_make_sense,
    tiles_make_sense,
    standing_makes_sense,
    _tub,
    *day.CHECKS,
)
