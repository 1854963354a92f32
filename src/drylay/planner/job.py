"""What a design runs on: the brief, the articles it names, the stock, the rules that govern."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from decimal import ROUND_CEILING, Decimal
from typing import Any, Protocol

from attrs import field, frozen

from drylay.brief.model import Brief
from drylay.errors import BriefError, Cancelled, Fault, UnknownPathError
from drylay.findings import Finding
from drylay.materials.lookup import (
    find_board,
    find_clip,
    find_coach_screw,
    find_coating,
    find_concrete,
    find_fabric,
    find_fascia,
    find_gravel,
    find_hanger,
    find_packer,
    find_post_foot,
    find_screw,
    find_tile,
    find_timber,
)
from drylay.materials.stock_model import (
    Article,
    Board,
    Catalogue,
    Clip,
    CoachScrew,
    Coating,
    ConcreteMix,
    Fabric,
    FasciaBoard,
    Gravel,
    Hanger,
    Packer,
    PostFoot,
    Screw,
    Tile,
    Timber,
)
from drylay.materials.treatment import is_untreated
from drylay.planner.tile_articles import (
    NO_COACH_SCREW,
    NO_SCREW,
    NO_TIMBER,
    tile_faults,
    tile_named,
)
from drylay.reasons import Ruling, Source, TurnedDown
from drylay.strength.model import DesignBasis
from drylay.work.model import Upkeep

Progress = Callable[[str, int, int], None]


class CancelToken(Protocol):
    """Anything that can be asked whether to stop, such as `threading.Event`."""

    def is_set(self) -> bool:
        """Return whether the work is to stop."""
        ...


@frozen(kw_only=True)
class Articles:
    """The articles a brief names, as the merchant sells them; None where it names none.

    Where `tile` is named, `board` is what the boards' rules are asked with in its place; what tiles
    do without is an article of no size.
    """

    board: Board
    timber: Timber = NO_TIMBER
    screw: Screw = NO_SCREW
    coach_screw: CoachScrew = NO_COACH_SCREW
    tile: Tile | None = None
    border: Board | None = None
    border_screw: Screw | None = None
    fascia: FasciaBoard | None = None
    frame_screw: Screw | None = None
    fascia_screw: Screw | None = None
    hanger: Hanger | None = None
    hanger_screw: Screw | None = None
    preserver: Coating | None = None
    end_wax: Coating | None = None
    finish: Coating | None = None
    fabric: Fabric | None = None
    gravel: Gravel | None = None
    packer: Packer | None = None
    clip: Clip | None = None
    starter_clip: Clip | None = None
    end_cap: Clip | None = None
    bearer: Timber | None = None
    post: Timber | None = None
    concrete: ConcreteMix | None = None
    post_foot: PostFoot | None = None
    guard_post: Timber | None = None


#: Each article of a design: the key of the brief that names it, and how it is found.
NAMED_AT: dict[str, tuple[str, Callable[[Catalogue, str], Article]]] = {
    "board": ("board.article", find_board),
    "border": ("border.article", find_board),
    "border_screw": ("border.screw", find_screw),
    "timber": ("frame.article", find_timber),
    "fascia": ("fascia.article", find_fascia),
    "screw": ("fixings.screw", find_screw),
    "coach_screw": ("fixings.coach_screw", find_coach_screw),
    "frame_screw": ("fixings.frame_screw", find_screw),
    "fascia_screw": ("fixings.fascia_screw", find_screw),
    "hanger": ("fixings.hanger", find_hanger),
    "clip": ("fixings.clip", find_clip),
    "starter_clip": ("fixings.starter_clip", find_clip),
    "end_cap": ("fixings.end_cap", find_clip),
    "preserver": ("finish.preserver", find_coating),
    "end_wax": ("finish.end_wax", find_coating),
    "finish": ("finish.article", find_coating),
    "fabric": ("groundwork.fabric", find_fabric),
    "gravel": ("groundwork.gravel", find_gravel),
    "packer": ("groundwork.packer", find_packer),
    "bearer": ("raised.bearer", find_timber),
    "post": ("raised.post", find_timber),
    "concrete": ("raised.concrete", find_concrete),
    "post_foot": ("raised.post_foot", find_post_foot),
    "guard_post": ("guards.post_article", find_timber),
}
#: What a coating that a brief names under a key must be for.
COATING_FOR = {"preserver": "end grain", "end_wax": "end wax", "finish": "finish"}
#: What a clip that a brief names under a key must be: its role.
CLIP_FOR = {"clip": "row", "starter_clip": "starter", "end_cap": "end cap"}


#: What a fixing is driven into, and its metal.
DrivenMetal = tuple[str, str]


@frozen(kw_only=True)
class Governance:
    """The ruling that governs each path, and what is wrong or notable about them.

    `metals`: what the family says to a fixing of each metal, as far as it covers them;
    `border_metals`: what the border's does. `turned_down`: what a stricter ruling left standing
    beside it, by path.
    """

    rulings: dict[str, Ruling]
    findings: tuple[Finding, ...]
    metals: dict[DrivenMetal, Ruling] = field(factory=dict)
    border_metals: dict[DrivenMetal, Ruling] = field(factory=dict)
    turned_down: dict[str, tuple[TurnedDown, ...]] = field(factory=dict)

    def value(self, path: str) -> float:
        """Return the value that governs a path."""
        return float(self.rulings[path].value or 0)

    def known(self, path: str) -> float | None:
        """Return the value that governs a path, None where no rule came of it."""
        return self.value(path) if path in self.rulings else None

    def count(self, path: str) -> int:
        """Return the whole number that governs a path."""
        return int(self.value(path))

    def source(self, path: str) -> Source:
        """Return who says so."""
        return self.rulings[path].source


@frozen(kw_only=True)
class Job:
    """One design: everything the rooms' inputs are drawn from.

    `asked` is the brief as handed in, `brief` the same with the boards' run of this job;
    `cautions` are those of the boards' family, `cautions_by` the same by the families' ids; `basis`
    is the design basis that the brief names, each of its functions guarded; `memory` keeps what was
    settled once for this design.
    """

    asked: Brief
    brief: Brief
    stock: Catalogue
    articles: Articles
    rules: Governance
    cautions: tuple[str, ...] = ()
    upkeep: tuple[Upkeep, ...] = ()
    cautions_by: Mapping[str, tuple[str, ...]] = field(factory=dict)
    basis: DesignBasis | None = None
    memory: dict[Any, Any] = field(factory=dict, eq=False, repr=False)
    progress: Progress | None = None
    cancel: CancelToken | None = None


def step(job: Job, name: str, done: int, total: int) -> None:
    """Tell the caller where the work stands, and stop if asked to.

    Raises:
        Cancelled: The caller's token is set.
    """
    if job.cancel is not None and job.cancel.is_set():
        raise Cancelled(f"cancelled at: {name}")
    tell(job, name, done, total)


def tell(job: Job, name: str, done: int, total: int) -> None:
    """Tell the caller where the work stands."""
    if job.progress is not None:
        job.progress(name, done, total)


def find_articles(brief: Brief, stock: Catalogue, others: Iterable[Fault] = ()) -> Articles:
    """Return the articles the brief names.

    Raises:
        BriefError: The stock does not hold an article, or its currency has no coin as small
            as the brief's joint price; all such are told at once.
    """
    faults = [*_too_fine(brief, stock), *tile_faults(brief, stock), *others]
    found: dict[str, Any] = tile_named(brief, stock)
    for name, (path, finder) in NAMED_AT.items():
        code = _code_at(brief, path)
        if code is None or (name == "fascia" and not _is_faced(brief)) or name in found:
            continue
        try:
            found[name] = _finder(brief, name, finder)(stock, code)
        except UnknownPathError as error:
            faults.append(_not_found(path, code, stock, error.nearest))
    faults += [*_wrong_coatings(found), *_wrong_clips(found)]
    faults += _no_such_face(brief, found.get("board"))
    faults += _other_guard_posts(brief, found.get("guard_post"))
    faults += _too_shallow(brief, stock, found.get("bearer"), found.get("timber"))
    found |= _hanger_screw(found.get("hanger"), stock, faults)
    if faults:
        raise BriefError(tuple(faults))
    return Articles(**found)


def _other_guard_posts(brief: Brief, post: Timber | None) -> Iterator[Fault]:
    """Yield a thickness of guards' posts that their article is not sold with."""
    thick_mm = brief.guards.post_mm
    if post is not None and thick_mm is not None and thick_mm != post.thickness_mm:
        found = f"{thick_mm:g} with guards.post_article = {post.code}"
        wanted = f"the thickness that it is sold with, {post.thickness_mm:g} mm"
        yield Fault(path="guards.post_mm", found=found, wanted=wanted, nearest="leave post out")


def _is_faced(brief: Brief) -> bool:
    """Return whether any side carries fascia: of a cover, or of an outline."""
    points, rectangles = brief.outline.points, brief.outline.rectangles
    outlined = [each.faced for each in points] + [each.faced for each in rectangles]
    return bool(brief.fascia.sides) or any(outlined)


def _finder(
    brief: Brief, name: str, finder: Callable[[Catalogue, str], Article]
) -> Callable[[Catalogue, str], Article]:
    """Return how an article is looked for: a board of which a support is told is a tile."""
    return find_tile if name == "board" and brief.board.support else finder


def _code_at(brief: Brief, path: str) -> str | None:
    section, name = path.split(".")
    code: str | None = getattr(getattr(brief, section), name)
    return code


def _not_found(path: str, code: str, stock: Catalogue, nearest: tuple[str, ...]) -> Fault:
    wanted = f"an article of {stock.name} of the right kind"
    named = ", ".join(f"{near}{_told_of(stock, near)}" for near in nearest)
    return Fault(path=path, found=repr(code), wanted=wanted, nearest=named)


def _told_of(stock: Catalogue, code: str) -> str:
    """Return what is to be said beside a timber that is named as a fix: that it is untreated."""
    timbers: tuple[Board | Timber | FasciaBoard, ...]
    timbers = (*stock.boards, *stock.timbers, *stock.fascias)
    bare = any(timber.code == code and is_untreated(timber.treatment) for timber in timbers)
    return " (sold untreated)" if bare else ""


def _wrong_coatings(found: dict[str, Any]) -> list[Fault]:
    return [
        Fault(
            path=NAMED_AT[name][0],
            found=f"{found[name].code}, which is for {found[name].use}",
            wanted=f"a coating for {use}",
        )
        for name, use in COATING_FOR.items()
        if name in found and found[name].use != use
    ]


def _wrong_clips(found: dict[str, Any]) -> list[Fault]:
    """Return clips named for what they are not, and a row clip whose gap the stock keeps back."""
    wrong = [
        Fault(
            path=NAMED_AT[name][0],
            found=f"{found[name].code}, whose role is {found[name].role!r}",
            wanted=f"a clip whose role is {role!r}",
        )
        for name, role in CLIP_FOR.items()
        if name in found and found[name].role != role
    ]
    clip = found.get("clip")
    if clip is not None and clip.role == CLIP_FOR["clip"] and clip.gap_mm is None:
        wanted = "a clip whose record tells the gap it leaves, gap_mm"
        wrong.append(Fault(path=NAMED_AT["clip"][0], found=clip.code, wanted=wanted))
    return wrong


def _no_such_face(brief: Brief, board: Board | None) -> list[Fault]:
    """Return the fault of a face wished up that the board does not have, as far as told."""
    wished = brief.board.face_up
    if wished is None or board is None or board.faces in {None, wished, "one grooved"}:
        return []
    return [
        Fault(
            path="board.face_up",
            found=f"{wished}, and {board.code} has both faces {board.faces}",
            wanted="a face that the board has",
            nearest=f'face_up = "{board.faces}"',
        )
    ]


def _too_shallow(
    brief: Brief, stock: Catalogue, bearer: Timber | None, joist: Timber | None
) -> list[Fault]:
    """Return the fault of a bearer named that joists which hang between are deeper than."""
    if brief.raised.joists != "between" or bearer is None or joist is None:
        return []
    if bearer.depth_mm >= joist.depth_mm:
        return []
    deep = [each for each in stock.timbers if each.depth_mm >= joist.depth_mm
            and each.strength_class and not is_untreated(each.treatment)]  # fmt: skip
    near = min(deep, key=lambda each: (each.depth_mm, each.code), default=None)
    return [
        Fault(
            path="raised.bearer",
            found=f"{bearer.code}, {bearer.depth_mm:g} deep, with raised.joists = between",
            wanted=f"a bearer as deep as the joists that hang on it, {joist.depth_mm:g}",
            nearest='joists = "over"' if near is None else f'bearer = "{near.code}"',
        )
    ]


def _hanger_screw(hanger: Hanger | None, stock: Catalogue, faults: list[Fault]) -> dict[str, Screw]:
    """Return the screw that holds the hanger, if there is a hanger."""
    if hanger is None:
        return {}
    try:
        return {"hanger_screw": find_screw(stock, hanger.screw)}
    except UnknownPathError as error:
        path = f"{NAMED_AT['hanger'][0]}: screw of {hanger.code}"
        faults.append(_not_found(path, hanger.screw, stock, error.nearest))
        return {}


def _too_fine(brief: Brief, stock: Catalogue) -> list[Fault]:
    """Return the fault of a joint price with more decimals than the stock's currency."""
    price = brief.joints.price_each
    if price is None or price == round(price, stock.minor_digits):
        return []
    wanted = f"no more than {stock.minor_digits} decimals of {stock.currency}"
    nearest = str(price.quantize(Decimal(1).scaleb(-stock.minor_digits), ROUND_CEILING))
    return [Fault(path="joints.price_each", found=str(price), wanted=wanted, nearest=nearest)]
