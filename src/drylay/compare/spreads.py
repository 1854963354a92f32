"""What is not certain: ranges of prices, sizes and lives as they are told, and draws from them."""

from collections.abc import Iterator, Mapping, Sequence
from math import floor, sqrt

from attrs import evolve

from drylay.brief.keys import SECTIONS
from drylay.compare.model import Lives
from drylay.compare.shelf import MOST_RATIO, RATIO, code_faults
from drylay.compare.study_model import Assumed
from drylay.compare.years import MOST_YEARS
from drylay.errors import Fault
from drylay.intake.keys import Key, number
from drylay.intake.shown import shown
from drylay.intake.values import READERS, unfit
from drylay.intake.words import nearest_of
from drylay.marks import PER_MM, exact, nearest_mark, to_mm
from drylay.materials.stock_model import KINDS, Catalogue
from drylay.reasons import Source

BOARDS, FRAME = "life.boards", "life.frame"
LIVES = (BOARDS, FRAME)
#: What a rule or a caliper is read to: 0.1 mm, or 1/64 in in an imperial brief. A drawn length is
#: one that was measured, so that no pencil has to set it. Common practice, no source.
READ_320 = {"metric": PER_MM // 10, "imperial": 127}
TRIANGLE = Source(
    kind="from memory",
    title="textbooks on simulation",
    clause="inverse of the triangular distribution",
)
A_SPREAD = "(least, most) or (least, likely, most), all of them numbers"


def read_spreads(
    spreads: object, stock: Catalogue, lives: Lives, wrong: list[Fault]
) -> tuple[Assumed, ...]:
    """Return what is not certain, in order of the paths; what cannot be used goes on the list.

    `lives` are those that stand for a life whose range is left to the family, None.
    """
    if not isinstance(spreads, Mapping) or not spreads:
        found = "nothing" if isinstance(spreads, Mapping) else shown(spreads)
        wrong.append(Fault(path="spreads", found=found, wanted=f"paths, each with {A_SPREAD}"))
        return ()
    unnamed = [path for path in spreads if not isinstance(path, str)]
    wrong += [evolve(unfit(path, "a path"), path="spreads") for path in unnamed]
    paths = sorted(path for path in spreads if isinstance(path, str))
    wrong += code_faults(stock, (path for path in paths if path.startswith(RATIO)))
    read = (_read(path, spreads[path], stock, lives, wrong) for path in paths)
    return tuple(assumed for assumed in read if assumed is not None)


def _read(
    path: str, spread: object, stock: Catalogue, lives: Lives, wrong: list[Fault]
) -> Assumed | None:
    key = _key(path)
    if key is None:
        wrong.append(_unknown(path, stock))
        return None
    if spread is None and path in LIVES:
        return _by_family(path, lives, wrong)
    if not isinstance(spread, list | tuple) or len(spread) not in (2, 3):
        family = " or None, as the family tells" if path in LIVES else ""
        wrong.append(evolve(unfit(spread, A_SPREAD + family), path=path))
        return None
    return _by_caller(path, key, spread, wrong)


def _key(path: str) -> Key | None:
    """Return the key whose bounds hold for a path, None where nothing can be drawn for it."""
    if path == RATIO or path.removeprefix(f"{RATIO}.") not in ("", path):
        return number(RATIO, 1 / MOST_RATIO, MOST_RATIO)
    if path in LIVES:
        return number(path, 1, MOST_YEARS)
    section, _, name = path.partition(".")
    keys = (key for key in SECTIONS.get(section, ()) if key.name == name)
    return next((key for key in keys if key.kind in ("length", "number")), None)


def _unknown(path: str, stock: Catalogue) -> Fault:
    known = tuple(_known(stock))
    ends = tuple(name for name in known if path and name.endswith(f".{path}"))
    return Fault(
        path=path[:80],
        found=f"{shown(path)}, which nothing is drawn for",
        wanted=f"a length or a number of the brief, {RATIO}, {RATIO}.CODE, {BOARDS} or {FRAME}",
        nearest=", ".join(ends[:3]) or nearest_of(path, known),
    )


def _known(stock: Catalogue) -> Iterator[str]:
    yield from LIVES
    for section, keys in SECTIONS.items():
        yield from (f"{section}.{key.name}" for key in keys if key.kind in ("length", "number"))
    yield RATIO
    yield from (f"{RATIO}.{each.code}" for kind in KINDS for each in getattr(stock, kind))


def _by_family(path: str, lives: Lives, wrong: list[Fault]) -> Assumed | None:
    """Return a life as the family tells it: every part of its range is as likely as the next."""
    ends = (lives.surface_least_years, lives.surface_most_years)
    least, most = (lives.frame_least_years, lives.frame_most_years) if path == FRAME else ends
    if least is None or most is None:
        wanted = "a range of years, since no family and no record tells one"
        wrong.append(Fault(path=path, found="nothing", wanted=wanted))
        return None
    return Assumed(path=path, least=least, likely=None, most=most, told_by="family")


def _by_caller(path: str, key: Key, spread: Sequence[object], wrong: list[Fault]) -> Assumed | None:
    read = [READERS[key.kind](key, each) for each in spread]
    faults = [(at, each) for at, each in enumerate(read) if isinstance(each, Fault)]
    wrong += [
        evolve(each, path=f"{path}[{at}]", nearest=_bare(key, each.nearest)) for at, each in faults
    ]
    ends = [float(each) for each in read if isinstance(each, int | float)]
    if faults:
        return None
    if ends != sorted(ends):
        told = ", ".join(f"{each:.15g}" for each in sorted(ends))
        wrong.append(evolve(unfit(spread, "the least first and the most last", f"({told})"),
                            path=path))  # fmt: skip
        return None
    likely = ends[1] if len(ends) == 3 else None
    return Assumed(path=path, least=ends[0], likely=likely, most=ends[-1])


def _bare(key: Key, nearest: str) -> str:
    """Return a nearest fix as a spread takes it: a bare number, and no text with its unit."""
    value = nearest.removeprefix(f"{key.name} = ")
    return "" if value == nearest or '"' in value else value


def drawn(assumed: Assumed, ratio: float, units: str) -> float | int:
    """Return what is drawn at a ratio, 0 to 1, of the chances: never outside the spread.

    Lengths are those that can be read, unless an end of the spread lies nearer in; lives are whole
    years, a part of one left off.
    """
    value = min(max(_inverse(assumed, ratio), assumed.least), assumed.most)
    if assumed.path in LIVES:
        return floor(value)
    if assumed.path.endswith("_mm"):
        read_mm = to_mm(nearest_mark(exact(value), READ_320[units]))
        return min(max(read_mm, assumed.least), assumed.most)
    return value


def _inverse(assumed: Assumed, ratio: float) -> float:
    """Return the figure below which the share `ratio` of all chances lies.

    Source: `TRIANGLE`.
    """
    least, likely, most = assumed.least, assumed.likely, assumed.most
    wide = most - least
    if likely is None:
        return least + ratio * wide
    if ratio * wide < likely - least:
        return least + sqrt(ratio * wide * (likely - least))
    return most - sqrt((1 - ratio) * wide * (most - likely))
