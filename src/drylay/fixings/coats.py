"""What is brushed on: preserver on sawn ends and ripped edges, finish on boards and fascia.

Areas are exact fractions of a square metre until they are told.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from math import ceil

from attrs import frozen

from drylay.fixings.model import CoatedEnds, EndWax, Finish, Preserver, WaxedEnds
from drylay.marks import PER_MM, exact

#: Counts of 1/320 mm by counts of 1/320 mm in one square metre.
PER_M2 = (1000 * PER_MM) ** 2
#: What the ends are called that are sawn once the boards are laid.
IN_LINE = "board ends trimmed in line"
#: What boards' own ends are called: those that a family may want waxed, or left without preserver.
OF_BOARDS = ("boards", IN_LINE)
#: The same of a border's boards.
BORDER, BORDER_IN_LINE = "border boards", "border board ends trimmed in line"
OF_BORDER = (BORDER, BORDER_IN_LINE)
#: The face that lies up where the brief leaves it open, by the board's two faces. Common
#: practice, no source: of one grooved and one smooth, smooth is kinder to feet.
FACE_UP = {"smooth": "smooth", "grooved": "grooved", "one grooved": "smooth"}
#: What a board is taken for whose faces the stock does not tell. Assumption: it takes more.
FACE_UNTOLD = "grooved"


@frozen(kw_only=True)
class SawnLength:
    """A bought length as it is sawn: the kinds of its pieces in order.

    `trimmed`: both its own ends are sawn off first; `filled`: nothing at all is left over, so
    that the last piece keeps the other end as it was bought.
    """

    kinds: tuple[str, ...]
    trimmed: bool
    filled: bool


@frozen(kw_only=True)
class Coat:
    """A coating to brush on: the article, how many coats, and what a litre covers once."""

    article: str
    coats: int
    covers_m2_per_l: float


@frozen(kw_only=True)
class Face:
    """One rectangle that is seen, by its sides."""

    length_mm: float
    width_mm: float


def count_ends(lengths: Iterable[SawnLength]) -> dict[str, int]:
    """Return how many ends of each kind of piece are sawn."""
    ends: dict[str, int] = {}
    for length in lengths:
        last = len(length.kinds) - 1
        for at, kind in enumerate(length.kinds):
            bought = 0 if length.trimmed else (at == 0) + (at == last and length.filled)
            ends[kind] = ends.get(kind, 0) + 2 - bought
    return ends


def m2(length_mm: float, width_mm: float) -> Fraction:
    """Return the area of a rectangle, exactly."""
    return Fraction(exact(length_mm) * exact(width_mm), PER_M2)


def needed_ml(area: Fraction, coat: Coat) -> int:
    """Return how many ml so many coats on an area take, rounded up."""
    return ceil(area * coat.coats / Fraction(repr(coat.covers_m2_per_l)) * 1000)


def coat_ends(
    coat: Coat, ends: Mapping[str, int], sections: Mapping[str, Face], ripped: Iterable[Face]
) -> Preserver | None:
    """Return the preserver for the ends of every kind and all ripped edges; None without any.

    Args:
        coat: The preserver.
        ends: How many ends of each kind are sawn.
        sections: The section of each kind, by kind: parts come in this order.
        ripped: Every ripped edge: its length by the board's thickness.
    """
    kinds = [kind for kind in sections if ends.get(kind)]
    areas = {k: ends[k] * m2(sections[k].length_mm, sections[k].width_mm) for k in kinds}
    along = sum((m2(edge.length_mm, edge.width_mm) for edge in ripped), Fraction(0))
    area = sum(areas.values(), along)
    if not area:
        return None
    return Preserver(
        article=coat.article,
        coats=coat.coats,
        covers_m2_per_l=coat.covers_m2_per_l,
        parts=tuple(
            CoatedEnds(what=kind, ends=ends[kind], area_m2=float(areas[kind])) for kind in kinds
        ),
        ends=sum(ends[kind] for kind in kinds),
        ripped_m2=float(along),
        area_m2=float(area),
        need_ml=needed_ml(area, coat),
    )


def wax_ends(coat: Coat, ends: Mapping[str, int], sections: Mapping[str, Face]) -> EndWax | None:
    """Return the wax for the ends of the kinds in `sections`; None where none of them is sawn."""
    areas = {
        kind: ends[kind] * m2(face.length_mm, face.width_mm)
        for kind, face in sections.items()
        if ends.get(kind)
    }
    area = sum(areas.values(), Fraction(0))
    if not area:
        return None
    return EndWax(
        article=coat.article,
        covers_m2_per_l=coat.covers_m2_per_l,
        parts=tuple(WaxedEnds(what=k, ends=ends[k], area_m2=float(m)) for k, m in areas.items()),
        ends=sum(ends[kind] for kind in areas),
        area_m2=float(area),
        need_ml=needed_ml(area, coat),
    )


def face_up(faces: str | None, wished: str | None) -> str:
    """Return which face of the boards lies up: as wished, else as the board's faces have it."""
    return wished or FACE_UP.get(faces or "", FACE_UNTOLD)


@frozen(kw_only=True)
class Tops:
    """Tops of one kind of board: which face lies up, by how much grooves make it larger."""

    up: str
    groove_ratio: float
    rows: tuple[Face, ...]

    @property
    def more(self) -> float:
        """By how much the face that lies up is larger: a smooth one is as large as it is."""
        return self.groove_ratio if self.up == "grooved" else 0.0


def coat_faces(coat: Coat, *, field: Tops, border: Tops | None, fascia: Iterable[Face]) -> Finish:
    """Return the finish for the boards' tops, the border's too, and the fascia's outer faces."""
    faces = _area(fascia)
    kinds = [field] if border is None else [field, border]
    area = sum((_area(tops.rows) * (1 + Fraction(repr(tops.more))) for tops in kinds), faces)
    return Finish(
        article=coat.article,
        coats=coat.coats,
        covers_m2_per_l=coat.covers_m2_per_l,
        face_up=field.up,
        groove_ratio=field.more,
        boards_m2=float(_area(field.rows)),
        border_m2=None if border is None else float(_area(border.rows)),
        border_groove_ratio=None if border is None else border.more,
        border_face_up="" if border is None else border.up,
        fascia_m2=float(faces),
        area_m2=float(area),
        need_ml=needed_ml(area, coat),
    )


def _area(faces: Iterable[Face]) -> Fraction:
    return sum((m2(face.length_mm, face.width_mm) for face in faces), Fraction(0))
