"""Briefs for tiles: which keys such a brief may leave out, and which mean nothing in it.

A brief that names `board.support` is one for tiles; boards always lie on a frame.
"""

from collections.abc import Iterator, Mapping

from attrs import evolve

from drylay.brief.keys import SECTIONS, TOP
from drylay.brief.model import SUPPORTS
from drylay.errors import Fault
from drylay.intake.keys import Key

#: What a brief need not say of tiles, by what they lie on.
MAY_LACK = {
    "frame": ("fixings.screw",),
    "pads": ("frame", "frame.article", "fixings", "fixings.screw", "fixings.coach_screw"),
}
#: Keys that speak of boards alone, or of what holds them.
OF_BOARDS = (
    "board.measured_width_mm", "board.ends", "board.trim_allowance_mm", "board.face_up",
    "joints.end_gap_mm", "joints.least_supports", "joints.stagger_bays", "joints.most_per_row",
    "joints.price_each", "joints.support", "joints.lines_mm", "fixings.screw", "fixings.clip",
    "fixings.starter_clip", "fixings.end_cap", "frame.lines", "finish.article", "finish.coats",
    "finish.end_wax", "lights.count", "border.article", "strength.board_class",
    *(f"climate.{key.name}" for key in SECTIONS["climate"]),
)  # fmt: skip
#: Keys that speak of a frame, which tiles on pads have not.
OF_FRAMES = (
    "frame.article", "frame.most_centres_mm", "fixings.coach_screw", "fixings.frame_screw",
    "fixings.fascia_screw", "fixings.hanger", "fascia.sides", "fascia.article",
    "groundwork.packer_spacing_mm", "finish.preserver",
)  # fmt: skip

Read = dict[str, object]


def support_of(tables: Mapping[str, object]) -> str:
    """Return what a brief's tiles lie on; "" where it is one for boards.

    A word that is none counts as pads, which ask for least: that word is the fault to tell.
    """
    board = tables.get("board")
    support = board.get("support") if isinstance(board, Mapping) else None
    if support is None:
        return ""
    return support if isinstance(support, str) and support in SUPPORTS else "pads"


def top_keys(support: str) -> tuple[Key, ...]:
    """Return the top keys of a brief whose tiles lie on this; "" for boards."""
    return _lacking(TOP, "", MAY_LACK.get(support, ()))


def section_keys(support: str) -> dict[str, tuple[Key, ...]]:
    """Return the keys of every section of a brief whose tiles lie on this; "" for boards."""
    may_lack = MAY_LACK.get(support, ())
    return {name: _lacking(keys, f"{name}.", may_lack) for name, keys in SECTIONS.items()}


def _lacking(keys: tuple[Key, ...], before: str, may_lack: tuple[str, ...]) -> tuple[Key, ...]:
    return tuple(
        evolve(key, required=key.required and f"{before}{key.name}" not in may_lack)
        for key in keys
    )  # fmt: skip


def tiles_make_sense(read: Read) -> Iterator[Fault]:
    """Yield what a brief for tiles says of boards or, on pads, of a frame, and what it lacks."""
    support = read.get("board.support")
    if support not in SUPPORTS:
        return
    for path in (*OF_BOARDS, *(OF_FRAMES if support == "pads" else ())):
        if _says(read, path):
            yield Fault(
                path=path,
                found=f"{_told(read[path])} with board.support = {support}",
                wanted=f"nothing of {'frames' if path in OF_FRAMES else 'boards'}",
                nearest=f"leave {path.rsplit('.', 1)[1].removesuffix('_mm')} out",
            )
    if support == "frame" and "steps.side" in read and "steps.tread_mm" not in read:
        yield Fault(
            path="steps.tread_mm",
            found="nothing with board.support = frame",
            wanted="how thick the treads are: tiles are none by themselves",
            nearest="28 mm, say",
        )
    if support == "pads" and "groundwork.packer" not in read:
        yield Fault(
            path="groundwork.packer",
            found="nothing with board.support = pads",
            wanted="which pads the tiles stand on",
            nearest='support = "frame", if they are to lie on joists',
        )


def _told(value: object) -> str:
    return ", ".join(map(str, value)) if isinstance(value, tuple) else str(value)


#: What a brief may write out though it is what holds anyway.
PLAIN: dict[str, object] = {
    "board.ends": "cut_first", "frame.lines": "fewest", "lights.count": 0, "fascia.sides": (),
}  # fmt: skip


def _says(read: Read, path: str) -> bool:
    """Return whether a brief says something at a path, beyond what holds without it."""
    return path in read and not (path in PLAIN and read[path] == PLAIN[path])
