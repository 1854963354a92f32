"""The nouns of the work.

Texts of tasks name figures of the plan by their path in braces, "{groundwork.dig.depth_mm}",
so that no figure stands twice; papers write them in the plan's units.
"""

from attrs import frozen

from drylay.reasons import Source, because


@frozen(kw_only=True)
class Peg:
    """A peg, in the cover's own axes; outside the cover figures may be below nothing."""

    mark: str
    along_mm: float = because("edges.frame_length_mm")
    across_mm: float = because("edges.frame_depth_mm")


@frozen(kw_only=True)
class SettingOut:
    """Pegs at the frame's corners, and the triangle of 3, 4 and 5 that proves a corner square."""

    pegs: tuple[Peg, ...]
    side_along_mm: float = because("work.setting_out.side_along_mm")
    side_across_mm: float = because("work.setting_out.side_along_mm")
    across_corner_mm: float = because("work.setting_out.side_along_mm")


@frozen(kw_only=True)
class HoldPoint:
    """A check to pass before going on: what, how far off at most, who says so, who may sign."""

    check: str
    limit: float | None
    unit: str
    source: Source
    signed_by: str


@frozen(kw_only=True)
class Task:
    """One task: what to do, after which others, what must then be right, with what, how long."""

    mark: str
    title: str
    steps: tuple[str, ...]
    after: tuple[str, ...]
    holds: tuple[HoldPoint, ...]
    tools: tuple[str, ...]
    cautions: tuple[str, ...]
    people: int = because("work.people")
    least_h: float = because("work.most_h")
    most_h: float = because("work.most_h")


@frozen(kw_only=True)
class Tool:
    """A tool, the size that matters (a bit's diameter, a spacer's thickness), what it is for."""

    mark: str
    what: str
    size_mm: float | None = because("work.tools", default=None)
    fits: str = ""


@frozen(kw_only=True)
class Light:
    """A light let into a row of boards, its centre in the cover's axes."""

    mark: str
    row: str
    along_mm: float = because("work.lighting.count")
    across_mm: float = because("work.lighting.count")


@frozen(kw_only=True)
class Lighting:
    """The lights, and the cable from the datum corner's side to the last of them."""

    side: str
    count: int = because("work.lighting.count")
    hole_mm: float = because("work.lighting.hole_mm")
    depth_mm: float = because("work.lighting.depth_mm")
    clear_least_mm: float = because("work.lighting.clear_least_mm")
    cable_mm: float = because("work.lighting.count")
    lights: tuple[Light, ...]


@frozen(kw_only=True)
class Work:
    """The whole work, in order. `least_h` and `most_h` are hours by the clock for `people`."""

    face_up: str = because("work.face_up")
    people: int = because("work.people")
    setting_out: SettingOut
    tasks: tuple[Task, ...]
    tools: tuple[Tool, ...]
    lighting: Lighting | None
    least_h: float = because("work.most_h")
    most_h: float = because("work.most_h")
