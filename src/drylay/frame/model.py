"""The nouns of the frame.

`offset_mm` and `start_mm` run along the boards, `near_mm` and `across_mm` across them, all
from the cover's datum corner.
"""

from attrs import frozen

from drylay.reasons import because


@frozen(kw_only=True)
class RimPiece:
    """One length of a rim."""

    mark: str
    start_mm: float = because("frame.rim_joints")
    length_mm: float = because("frame.rim_joints")


@frozen(kw_only=True)
class Rim:
    """A rim: closes the joists' ends along the boards' run; `near_mm` is its near face.

    Where a bearer closes them the rim is that bearer: it has its mark, and no pieces of its own.
    """

    mark: str
    near_mm: float = because("edges.frame_depth_mm")
    start_mm: float = because("edges.frame_length_mm")
    length_mm: float = because("edges.frame_length_mm")
    pieces: tuple[RimPiece, ...]


@frozen(kw_only=True)
class JoistPart:
    """One length of a joist that hangs between bearers: from face to face of what holds it."""

    mark: str
    near_mm: float = because("raised.joists")
    length_mm: float = because("raised.joists")


@frozen(kw_only=True)
class Joist:
    """A joist between the rims: `offset_mm` is its centre, `near_mm` its near end.

    Where joists hang between bearers `parts` are what it is sawn in, one in every bay between
    them, and its own length goes from the first of these to the end of the last.
    """

    mark: str
    offset_mm: float = because("supports.line_count")
    near_mm: float = because("edges.frame_depth_mm")
    length_mm: float = because("edges.frame_depth_mm")
    parts: tuple[JoistPart, ...] = ()

    @property
    def sawn(self) -> tuple[tuple[str, float], ...]:
        """What it is sawn in, by mark and length in mm: its parts, or itself whole."""
        if not self.parts:
            return ((self.mark, self.length_mm),)
        return tuple((part.mark, part.length_mm) for part in self.parts)


@frozen(kw_only=True)
class Noggin:
    """A short piece between two neighbouring joists that keeps them upright."""

    mark: str
    left: str
    right: str
    across_mm: float = because("frame.noggin_rows")
    length_mm: float = because("supports.line_count")


@frozen(kw_only=True)
class Splice:
    """A plate behind a joint of a rim, in one bay; `offset_mm` is the joint's centre."""

    mark: str
    rim: str
    offset_mm: float = because("frame.rim_joints")
    length_mm: float = because("frame.rim_joints")


@frozen(kw_only=True)
class Batten:
    """A batten on edge against a joist's far face, under butt joints of the rows it lies below.

    `offset_mm` is its own centre, `near_mm` its end nearest the datum.
    """

    mark: str
    joist: str
    offset_mm: float = because("frame.batten_count")
    near_mm: float = because("frame.batten_count")
    length_mm: float = because("frame.batten_count")


@frozen(kw_only=True)
class Frame:
    """The whole frame. `diagonal_mm` is outer corner to outer corner, both ways.

    `batten_count` is None where joints do not lie on battens.
    """

    timber_article: str
    timber_thickness_mm: float = because("supports.joist_thickness_mm")
    timber_depth_mm: float = because("supports.joist_thickness_mm")
    diagonal_mm: float = because("edges.frame_length_mm")
    noggin_spacing_most_mm: float = because("frame.noggin_spacing_most_mm")
    noggin_rows: int = because("frame.noggin_rows")
    rim_joints: int = because("frame.rim_joints")
    rims: tuple[Rim, ...]
    joists: tuple[Joist, ...]
    noggins: tuple[Noggin, ...]
    splices: tuple[Splice, ...]
    batten_count: int | None = because("frame.batten_count", default=None)
    battens: tuple[Batten, ...] = ()

    @property
    def hung(self) -> bool:
        """Whether joists hang between bearers."""
        return any(joist.parts for joist in self.joists)

    @property
    def joists_sawn(self) -> tuple[tuple[str, float], ...]:
        """What all joists are sawn in, by mark and length in mm."""
        return tuple(piece for joist in self.joists for piece in joist.sawn)

    @property
    def hung_on(self) -> tuple[str, ...]:
        """Marks of what joists hang between, nearest first: a ledger's rim and bearers, or none."""
        if not self.hung:
            return ()
        own = tuple(rim.mark for rim in self.rims if rim.pieces)
        count = len(self.joists[0].parts) + 1 - len(own)
        return (*own, *(f"BR{number}" for number in range(1, count + 1)))
