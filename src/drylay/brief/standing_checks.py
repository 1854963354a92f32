"""What a brief means where its deck stands: contradictions of strength, legs, guards and steps.

Nothing here is guessed for whoever builds: what holds a deck up is told, or asked for.
"""

from collections.abc import Callable, Iterator
from itertools import pairwise

import attrs

from drylay.brief.raised_model import GuardsWish, RaisedWish, StepsWish, StrengthWish
from drylay.errors import Fault

Read = dict[str, object]

#: Which basis: never guessed, for the two of them differ in loads, factors and words.
BASES = "the design basis: eurocode-5 or us-allowable-stress"
REGIONS = "one of united-kingdom, north-america, australia, new-zealand"
#: Which of the cover's sizes each side is as long as.
_LENGTHS = {"front": "along", "house": "along", "left": "across", "right": "across"}
_NOUNS: dict[str, type] = {
    "strength": StrengthWish, "raised": RaisedWish, "guards": GuardsWish, "steps": StepsWish,
}  # fmt: skip
#: Of each section the key that the others mean nothing without, and what it says.
_FIRST = (
    ("raised", "post", "which timber the posts are of"),
    ("strength", "basis", BASES),
    ("steps", "side", "which side the steps go down from"),
)


def standing_makes_sense(read: Read) -> Iterator[Fault]:
    """Yield everything that contradicts itself in what a deck stands on, and what it lacks."""
    for check in _CHECKS:
        yield from check(read)


def _number(read: Read, path: str) -> float | None:
    value = read.get(path)
    return value if isinstance(value, float) else None


def _said(read: Read, section: str) -> list[str]:
    """Return the keys of a section that say something beyond what holds without them."""
    plain = {field.name: field.default for field in attrs.fields(_NOUNS[section])}
    return [key for key in plain if read.get(f"{section}.{key}") not in {None, plain[key]}]


def _bare(keys: list[str]) -> str:
    return ", ".join(key.removesuffix("_mm") for key in keys)


def _first_keys(read: Read) -> Iterator[Fault]:
    """Yield sections told of without the key that all of it hangs on."""
    for section, first, wanted in _FIRST:
        keys = _said(read, section)
        if keys and f"{section}.{first}" not in read:
            yield Fault(
                path=f"{section}.{first}",
                found=f"nothing with {', '.join(f'{section}.{key}' for key in keys)}",
                wanted=wanted,
                nearest=f"leave {_bare(keys)} out, if none is wanted",
            )


def _needs(read: Read) -> Iterator[Fault]:
    """Yield what a deck that stands has to be told of: its ground, and who says what carries."""
    if "raised.post" not in read or read.get("board.support") == "pads":
        return
    if not read.get("levels.points"):
        yield Fault(
            path="levels.points",
            found="nothing with raised.post",
            wanted="how the ground lies under the deck",
            nearest="give at least four ground heights, one near each corner",
        )
    if "strength.basis" not in read and not _said(read, "strength"):
        yield Fault(
            path="strength.basis",
            found="nothing with raised.post",
            wanted=BASES,
            nearest="leave post out, if the deck lies on the ground",
        )


def _on_what(read: Read) -> Iterator[Fault]:
    """Yield posts under what has no frame, and posts beside packers."""
    post, packer = read.get("raised.post"), read.get("groundwork.packer")
    if post is None:
        return
    if read.get("board.support") == "pads":
        yield Fault(
            path="raised.post",
            found=f"{_told(post)} with board.support = pads",
            wanted="nothing of frames",
            nearest="leave post out",
        )
    elif packer is not None:
        yield Fault(
            path="groundwork.packer",
            found=f"{_told(packer)} with raised.post = {_told(post)}",
            wanted="packers or posts under the frame, not both",
            nearest="leave packer out",
        )


def _told(value: object) -> str:
    return value if isinstance(value, str) else "one"


def _feet(read: Read) -> Iterator[Fault]:
    """Yield lengths of the other kind of foot, and feet that a ground screw cannot take."""
    foot = read.get("raised.foot", RaisedWish().foot)
    embed, stand_off = _number(read, "raised.embed_mm"), _number(read, "raised.stand_off_mm")
    if embed and foot == "metal foot":
        yield Fault(
            path="raised.embed_mm",
            found=f"{embed:g} with raised.foot = metal foot",
            wanted="a depth only where posts run into concrete",
            nearest='foot = "in concrete", or leave embed out',
        )
    if stand_off and foot == "in concrete":
        yield Fault(
            path="raised.stand_off_mm",
            found=f"{stand_off:g} with raised.foot = in concrete",
            wanted="a stand-off only where posts stand on metal feet",
            nearest='foot = "metal foot", or leave stand_off out',
        )
    post_foot = read.get("raised.post_foot")
    if isinstance(post_foot, str) and foot == "in concrete":
        yield Fault(
            path="raised.post_foot",
            found=f"{post_foot} with raised.foot = in concrete",
            wanted="an article only where posts stand on metal feet",
            nearest='foot = "metal foot", or leave post_foot out',
        )
    if foot == "in concrete" and read.get("raised.footing") == "ground screw":
        yield Fault(
            path="raised.foot",
            found="in concrete with raised.footing = ground screw",
            wanted="posts on metal feet where no concrete is",
            nearest='foot = "metal foot"',
        )


def _screws(read: Read) -> Iterator[Fault]:
    """Yield what a screw carries where footings are none; without it the planner stops."""
    carries, footing = _number(read, "raised.screw_kn"), read.get("raised.footing", "pad")
    if carries is not None and footing in {"pad", "concreted hole"}:
        yield Fault(
            path="raised.screw_kn",
            found=f"{carries:g} with raised.footing = {footing}",
            wanted="what a screw carries only where footings are ground screws",
            nearest='footing = "ground screw", or leave screw_kn out',
        )


def _ledger(read: Read) -> Iterator[Fault]:
    """Yield fixings of a ledger that nobody wants."""
    if read.get("raised.ledger", True) is not False:
        return
    for key in ("ledger_fixing", "ledger_spacing_mm"):
        if f"raised.{key}" in read:
            yield Fault(
                path=f"raised.{key}",
                found="one with raised.ledger = false",
                wanted="fixings only where a ledger is wished",
                nearest=f"leave {key.removesuffix('_mm')} out",
            )


def _hung(read: Read) -> Iterator[Fault]:
    """Yield joists that hang between bearers and nothing that they hang in."""
    if read.get("raised.joists") == "between" and "fixings.hanger" not in read:
        yield Fault(
            path="fixings.hanger",
            found="nothing with raised.joists = between",
            wanted="which hangers joists hang in",
            nearest='joists = "over", or name fixings.hanger',
        )


def _rising(read: Read) -> Iterator[Fault]:
    """Yield lines of bearers and places of posts out of order, or told twice."""
    for key, what in (("lines_mm", "line"), ("posts_mm", "post")):
        places = read.get(f"raised.{key}")
        for at, (before, after) in enumerate(pairwise(places if isinstance(places, tuple) else ())):
            if after <= before:
                swapped = f"{before:g} after {after:g}"
                yield Fault(
                    path=f"raised.{key}[{at + 1}]",
                    found=f"{after:g} after {before:g}",
                    wanted=f"each {what} further from the start than the one before",
                    nearest=swapped if after < before else f"each {what} once",
                )


def _region(read: Read) -> Iterator[Fault]:
    """Yield guards, steps and soils of no region: whose rules hold is never guessed."""
    if "site.region" in read:
        return
    told = [f"guards.{key}" for key in _said(read, "guards")]
    told += [f"steps.{key}" for key in _said(read, "steps")]
    told += ["site.soil"] if "site.soil" in read else []
    if told:
        keys = [path.split(".")[1] for path in told]
        yield Fault(
            path="site.region",
            found=f"nothing with {', '.join(told)}",
            wanted=f"whose rules hold: {REGIONS}",
            nearest=f"leave {_bare(keys)} out, if none is wanted",
        )


def _steps(read: Read) -> Iterator[Fault]:
    """Yield steps into the house, and a flight that reaches beyond its side."""
    side = read.get("steps.side")
    if side == "house":
        yield Fault(
            path="steps.side",
            found="house",
            wanted="a side that steps can go down from: right, front or left",
            nearest='side = "front"',
        )
    elif isinstance(side, str):
        yield from _broad(read, f"cover.{_LENGTHS[side]}_mm")


def _broad(read: Read, cover: str) -> Iterator[Fault]:
    """Yield a flight broader than the side that it is on, or one that starts too far along it."""
    length, width = _number(read, cover), _number(read, "steps.width_mm")
    start = _number(read, "steps.from_mm") or 0.0
    if length is None:
        return
    if width is not None and width > length:
        yield Fault(
            path="steps.width_mm",
            found=f"{width:g} with {cover} = {length:g}",
            wanted="no broader than the side",
            nearest=f"width_mm = {length:g}",
        )
    elif start + (width or 0.0) > length:
        yield Fault(
            path="steps.from_mm",
            found=f"{start:g} with {cover} = {length:g}"
            + (f" and steps.width_mm = {width:g}" if width else ""),
            wanted="a flight that ends before its side does",
            nearest=f"from_mm = {max(0.0, length - (width or start)):g}",
        )


_CHECKS: tuple[Callable[[Read], Iterator[Fault]], ...] = (
    _first_keys,
    _needs,
    _on_what,
    _feet,
    _screws,
    _ledger,
    _hung,
    _rising,
    _region,
    _steps,
)
