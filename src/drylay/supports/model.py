"""The nouns of the supports. Offsets run along the boards from the cover's datum edge."""

from attrs import frozen

from drylay.reasons import because


@frozen(kw_only=True)
class JoistLine:
    """One line of support: the centre of a joist."""

    offset_mm: float = because("supports.line_count")


@frozen(kw_only=True)
class Supports:
    """All joist lines. `centres_mm` is the widest bay, centre to centre, as marked."""

    most_centres_mm: float = because("supports.most_centres_mm")
    centres_mm: float = because("supports.centres_mm")
    line_count: int = because("supports.line_count")
    joist_thickness_mm: float = because("supports.joist_thickness_mm")
    lines: tuple[JoistLine, ...]
