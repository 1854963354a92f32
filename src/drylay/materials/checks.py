"""What a catalogue means: sizes that are names, faces the wrong way round, things twice."""

import re
from collections.abc import Hashable, Iterator, Mapping
from datetime import date
from fractions import Fraction
from itertools import pairwise

from drylay.errors import Fault
from drylay.intake.shown import shown_text
from drylay.marks import PER_MM, exact
from drylay.materials.stock_model import METALS
from drylay.materials.treatment import check_use_class, contradicts
from drylay.units import MM_PER_INCH

Read = dict[str, object]

#: "2 x 6", "5/4x6", "1 1/4 x 6", "2in by 6in", '2" x 6"'.
_SIDE = r"(?:(\d{1,2})[ -](?=\d{1,2}/))?(\d{1,2})(?:/([1-9]))? *(?:\"|″|''|in\b\.?|inch(?:es)?\b)?"
_NOMINAL = re.compile(rf"{_SIDE} *(?:x|×|by) *{_SIDE}", re.ASCII | re.IGNORECASE)
_IN_MM = re.compile(r"(\d{1,3}) *(?:mm)? *[xX×] *(\d{2,3}) *(?:mm)?", re.ASCII)
#: Both true sizes so near the nominal ones are these, rounded. Assumption.
_ROUNDED_MM = 1.0


_SAWN = ("boards", "timbers", "fascias")


def check_sizes(kind: str, read: Read) -> Iterator[Fault]:
    """Yield what is wrong with an article's sizes, under the key to look at."""
    wide = "width_mm" if kind == "boards" else "depth_mm"
    thickness, width = read.get("thickness_mm"), read.get(wide)
    if not isinstance(thickness, float) or not isinstance(width, float):
        return
    if thickness > width:
        yield Fault(
            path="thickness_mm",
            found=f"{thickness:g} with {wide} = {width:g}",
            wanted="the narrow face as thickness",
            nearest=f"thickness_mm = {width:g}, {wide} = {thickness:g}",
        )
    if "nominal" in read and _is_name(read["nominal"], thickness, width):
        yield Fault(
            path=wide,
            found=f"{thickness:g} x {width:g}, which is {read['nominal']} in inches",
            wanted="true sizes: a nominal size is a name, and dressed timber is smaller",
            nearest="measure ten pieces; if it is full sawn, leave out nominal",
        )


def _is_name(nominal: object, thickness: float, width: float) -> bool:
    """Whether the true sizes given are only the nominal size turned into mm.

    Source: American Softwood Lumber Standard PS 20, from memory: dressed is below nominal.
    """
    match = _NOMINAL.fullmatch(nominal) if isinstance(nominal, str) else None
    if match is None:
        return False
    sides = match.groups()
    named = _inches_mm(*sides[:3]), _inches_mm(*sides[3:])
    pairs = tuple(zip((thickness, width), named, strict=True))
    if any(exact(true) == round(told * PER_MM) for true, told in pairs):
        return True
    return all(abs(Fraction(true) - told) <= _ROUNDED_MM for true, told in pairs)


def _inches_mm(whole: str | None, over: str, under: str | None) -> Fraction:
    inches = int(whole or 0) + Fraction(int(over), int(under or 1))
    return inches * MM_PER_INCH


def is_its_nominal_mm(nominal: object, thickness: object, width: object) -> bool:
    """Return whether true sizes are the nominal ones in mm, which dressed timber seldom is."""
    match = _IN_MM.fullmatch(nominal) if isinstance(nominal, str) else None
    if match is None:
        return False
    return [float(side) for side in match.groups()] == [thickness, width]


def check_fixing(read: Read) -> Iterator[Fault]:
    """Yield what is wrong with a screw's sizes."""
    shank, size = read.get("shank_mm"), read.get("length_mm")
    if isinstance(shank, float) and isinstance(size, float) and shank >= size:
        yield Fault(
            path="shank_mm",
            found=f"{shank:g} with length_mm = {size:g}",
            wanted="a shank thinner than the screw is long",
            nearest=f"shank_mm = {size:g}, length_mm = {shank:g}",
        )


def check_sold(read: Mapping[str, object]) -> Iterator[Fault]:
    """Yield a limit that whole packs do not come to: a part of a pack cannot be had."""
    pack, limit = read.get("pack"), read.get("limit")
    if isinstance(pack, int) and isinstance(limit, int) and limit % pack:
        yield Fault(
            path="limit",
            found=f"{limit} with pack = {pack}",
            wanted=f"whole packs of {pack}, which alone are sold",
            nearest=f"limit = {limit - limit % pack}",
        )


def check_days(read: Read, first: str, last: str) -> Iterator[Fault]:
    """Yield a span of days that ends before it begins."""
    since, until = read.get(first), read.get(last)
    if isinstance(since, date) and isinstance(until, date) and since > until:
        yield Fault(
            path=last,
            found=f"{until} with {first} = {since}",
            wanted=f"a day no earlier than {first}",
            nearest=f"{first} = {until}, {last} = {since}",
        )


def check_article(kind: str, read: Read) -> Iterator[Fault]:
    """Yield what is wrong inside one article, under the key to look at."""
    if "sold_from" in read and "sold_until" in read:
        yield from check_days(read, "sold_from", "sold_until")
    if kind in _SAWN:
        yield from check_sizes(kind, read)
        if "use_class" in read and contradicts(read["use_class"], read.get("treatment")):
            yield from check_use_class(read)
    elif kind in {"screws", "coach_screws"}:
        yield from check_fixing(read)
    elif kind == "tiles":
        yield from _check_tile(read)
    elif kind == "packers":
        yield from _check_packer(read)
    elif kind == "clips":
        yield from _check_clip(read)


def _check_clip(read: Read) -> Iterator[Fault]:
    """Yield a clip that is of no metal: only an end cap may be of none."""
    role = read.get("role")
    if isinstance(role, str) and role != "end cap" and "metal" not in read:
        yield Fault(
            path="metal",
            found=f"nothing with role = {shown_text(role)}",
            wanted=f"the metal of the clip, one of {', '.join(METALS)}",
        )


def _check_tile(read: Read) -> Iterator[Fault]:
    """Yield a tile that lies the wrong way round: its longer side is its length."""
    size, width = read.get("length_mm"), read.get("width_mm")
    if isinstance(size, float) and isinstance(width, float) and size < width:
        yield Fault(
            path="length_mm",
            found=f"{size:g} with width_mm = {width:g}",
            wanted="the longer side as length",
            nearest=f"length_mm = {width:g}, width_mm = {size:g}",
        )


def _check_packer(read: Read) -> Iterator[Fault]:
    least, most = read.get("least_mm"), read.get("most_mm")
    if isinstance(least, float) and isinstance(most, float) and least > most:
        yield Fault(
            path="least_mm",
            found=f"{least:g} with most_mm = {most:g}",
            wanted="the lowest it reaches, and the highest",
            nearest=f"least_mm = {most:g}, most_mm = {least:g}",
        )


def check_rules(rules: dict[str, float]) -> Iterator[Fault]:
    """Yield what is wrong between the merchant's own rules of one article."""
    order = ("gap_least_mm", "gap_preferred_mm", "gap_most_mm")
    given = [(name, rules[name]) for name in order if name in rules]
    for (low, lower), (high, upper) in pairwise(given):
        if lower > upper:
            yield Fault(
                path="rules",
                found=f"{low} = {lower:g} above {high} = {upper:g}",
                wanted=f"{low} to be the less",
            )


def repeated(values: list[Hashable]) -> Iterator[int]:
    """Yield the index of every value that stands earlier in the list too."""
    seen: set[Hashable] = set()
    for at, value in enumerate(values):
        if value in seen:
            yield at
        seen.add(value)


def shown_code(code: object) -> str:
    """Return an article's code in quotes."""
    return shown_text(str(code))
