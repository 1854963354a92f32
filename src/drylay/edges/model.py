"""The nouns of the edges. Positions are in the cover's own axes, see docs/conventions.md."""

from attrs import frozen

from drylay.reasons import because


@frozen(kw_only=True)
class FasciaPiece:
    """One piece of fascia; pieces of a face butt end to end."""

    mark: str
    length_mm: float = because("edges.frame_length_mm")


@frozen(kw_only=True)
class FasciaFace:
    """The fascia on one side of the cover; a long face covers the ends of its neighbours."""

    mark: str
    side: str
    length_mm: float = because("edges.frame_length_mm")
    long_face: bool
    pieces: tuple[FasciaPiece, ...]


@frozen(kw_only=True)
class Edges:
    """All fascia, and the frame that is left when its thickness comes off the cover.

    `frame_start_mm` (along the boards) and `frame_near_mm` (across them) say where the
    frame's own faces begin, counted from the cover's edges at the datum corner.
    `frame_length_mm` runs along the boards, `frame_depth_mm` across them.
    """

    fascia_article: str = ""
    fascia_thickness_mm: float = because("edges.fascia_thickness_mm", default=0.0)
    fascia_depth_mm: float = because("edges.fascia_thickness_mm", default=0.0)
    faces: tuple[FasciaFace, ...] = ()
    frame_start_mm: float = because("edges.frame_length_mm")
    frame_near_mm: float = because("edges.frame_depth_mm")
    frame_length_mm: float = because("edges.frame_length_mm")
    frame_depth_mm: float = because("edges.frame_depth_mm")
