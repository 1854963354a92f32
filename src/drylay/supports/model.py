"""The nouns of the supports. Offsets run along the boards from the cover's datum edge."""

from attrs import frozen

from drylay.reasons import because


@frozen(kw_only=True)
class JoistLine:
    """One line of support: the centre of a joist."""

    offset_mm: float = because("supports.line_count")


@frozen(kw_only=True)
class Seam:
    """Where the two joists of a pair touch: butt joints are centred on it.

    `left` and `right` are the marks of the joists on the datum side of it and beyond.
    """

    offset_mm: float = because("supports.seam_count")
    left: str
    right: str


@frozen(kw_only=True)
class Supports:
    """All joist lines. `centres_mm` is the widest bay, centre to centre, as marked.

    `joists_under_joint` is 2 where butt joints lie over pairs of joists: `seams` then are all
    joint lines. With `battens_per_joint` 1 each joint lies over a joist's far face and a batten
    beside it; `batten_for_pair`: that does as well as the pair which is ruled. `overhang_mm` is how
    far boards reach past the outer joists' faces, at the end where they do more so. What older
    plans do not tell is None; so is `seam_count` without pairs.
    """

    most_centres_mm: float = because("supports.most_centres_mm")
    centres_mm: float = because("supports.centres_mm")
    line_count: int = because("supports.line_count")
    joist_thickness_mm: float = because("supports.joist_thickness_mm")
    lines: tuple[JoistLine, ...]
    joists_under_joint: int | None = because("supports.joists_under_joint", default=None)
    battens_per_joint: int | None = because("supports.battens_per_joint", default=None)
    batten_for_pair: bool | None = because("supports.batten_for_pair", default=None)
    seam_count: int | None = because("supports.seam_count", default=None)
    seams: tuple[Seam, ...] = ()
    overhang_mm: float | None = because("supports.overhang_mm", default=None)
    overhang_most_mm: float | None = because("supports.overhang_most_mm", default=None)
