"""Hold points: what must be right before the next task, how far off at most, who says so.

All limits are common practice, no source, but where another source stands beside them.
"""

from attrs import frozen

from drylay.reasons import Source
from drylay.work.model import HoldPoint

PRACTICE = Source(kind="common practice", title="common practice, no source")
OURS = Source(kind="assumption", title="docs/conventions.md", clause="Work")
CODES = Source(kind="common practice", title="local rules come first")
BUILDER = "builder"


@frozen(kw_only=True)
class _Hold:
    check: str
    limit: float | None = None
    unit: str = ""
    source: Source = PRACTICE
    signed_by: str = BUILDER


HOLDS: dict[str, _Hold] = {
    "rules": _Hold(check="the local authority's rules on heights, boundaries and use are known",
                   source=CODES, signed_by="owner"),
    "services": _Hold(check="buried cables, pipes and drains are looked for and marked; one that "
                      "nobody knows stops the digging", signed_by="whoever digs"),
    "delivered": _Hold(check="what was delivered is what the order says, nothing split or bowed"),
    "board_width": _Hold(check="mean width of ten boards against {surface.board_width_mm}: off by "
                         "more, plan again with board.measured_width", limit=0.5, unit="mm",
                         source=OURS),
    "square": _Hold(check="the two diagonals against each other",
                    limit=5.0, unit="mm"),
    "dig_depth": _Hold(check="depth of the dig under the turf, anywhere, against "
                       "{groundwork.dig.depth_mm}", limit=10.0, unit="mm"),
    "laps": _Hold(check="no lap of the fabric under {groundwork.fabric.lap_mm}"),
    "gravel_depth": _Hold(check="top of the gravel under the lawn's edge, all round, against "
                          "{groundwork.gravel.below_lawn_mm}", limit=10.0, unit="mm"),
    "pack_level": _Hold(check="tops of the packers against their line", limit=3.0, unit="mm"),
    "lengths": _Hold(check="every piece against the cut list", limit=1.0, unit="mm"),
    "ends": _Hold(check="every sawn end has had its coats of preserver, and is dry"),
    "frame_level": _Hold(check="top of the frame against a straightedge of 3 m (10 ft), every way",
                         limit=3.0, unit="mm"),
    "fall": _Hold(check="fall of the frame over a whole row, along both outer joists or rims, to "
                  "the {surface.low_side}: {surface.fall_mm}, and no less"),
    "cable": _Hold(check="cable and fittings tested before boards hide them", source=CODES,
                   signed_by="licensed electrician"),
    "lit": _Hold(check="every light lights, and its supply switches off when tested", source=CODES,
                 signed_by="licensed electrician"),
    "first_row": _Hold(check="edge of the first row against a string line", limit=2.0, unit="mm"),
    "fifth_row": _Hold(check="every fifth row's far edge against the rod, at both ends; share "
                       "a difference out over the gaps left, no more than 1.5 mm (1/16 in) a row",
                       limit=2.0, unit="mm"),
    "last_rows": _Hold(check="with eight rows left, their edge against the rod, at both ends",
                       limit=2.0, unit="mm"),
    "board_warmth": _Hold(check="boards no colder than {pieces.movement.laying_c}, else by the "
                          "table of end gaps"),
    "board_moisture": _Hold(check="mean moisture of ten boards against "
                            "{surface.gaps_by_moisture.laying_pct} %",
                            limit=1.0, unit="%", source=OURS),
    "dry": _Hold(check="moisture of the boards before a coat goes on, at most", limit=20.0,
                 unit="%"),
    "tile_size": _Hold(check="both sides of ten tiles against {tiling.tile_length_mm} by "
                       "{surface.board_width_mm}: off by more, the grid will not come out",
                       limit=1.0, unit="mm", source=OURS),
    "pad_level": _Hold(check="tops of the pads against a level line", limit=2.0, unit="mm"),
    "first_tiles": _Hold(check="edges of the first whole row and column against their lines",
                         limit=2.0, unit="mm"),
    "fifth_line": _Hold(check="first, middle and last joint, and every fifth, both ways, against "
                        "their places on the tiles drawing", limit=3.0, unit="mm"),
    "lips": _Hold(check="tops of neighbouring tiles against each other, at every joint",
                  limit=2.0, unit="mm"),
    "rock": _Hold(check="no tile rocks under a foot on any corner"),
    "tile_cuts": _Hold(check="every cut tile against its list and its place", limit=2.0,
                       unit="mm"),
    "tiles_done": _Hold(check="no tile loose or proud, every outer edge held, every joint open, "
                        "water runs off", signed_by="builder and owner"),
    "panels": _Hold(check="one person lifts every panel out and lays it back; none binds or rocks"),
    "panels_barred": _Hold(check="nobody stands on a panel that spans too far (OUT-025), by "
                           "anybody's foot or load, before its boards are carried between: "
                           "whoever uses the deck has been told", signed_by="builder and owner"),
    "post_places": _Hold(check="every post's place against the list of posts, and both diagonals "
                         "over them", limit=5.0, unit="mm"),
    "hole_sizes": _Hold(check="every hole at least as wide and as deep as told, down to firm "
                        "ground that nobody has loosened, and dry"),
    "holes_seen": _Hold(check="the open holes before any concrete goes in: the local authority may "
                        "want to see them", source=CODES,
                        signed_by="local authority, or the builder where it does not want to"),
    "feet": _Hold(check="every foot's middle against the strings, and level", limit=5.0, unit="mm"),
    "concrete_set": _Hold(check="the concrete is as old as its bag says before anything loads it, "
                          "and no frost has been at it"),
    "plumb": _Hold(check="every post against a level, on two faces", limit=3.0, unit="in 1000"),
    "post_tops": _Hold(check="every post's top against the level line from the datum", limit=3.0,
                       unit="mm"),
    "ledger_level": _Hold(check="the ledger's top against a straightedge of 3 m (10 ft)",
                          limit=3.0, unit="mm"),
    "anchors": _Hold(check="every fixing of the ledger at the torque that its maker tells, in "
                     "sound wall, and none turns in its hole"),
    "bearer_level": _Hold(check="tops of the bearers against a straightedge of 3 m (10 ft), along "
                          "each and from one to the next", limit=3.0, unit="mm"),
    "bearing": _Hold(check="every bearer bears on the whole top of its posts, and every joint of a "
                     "ply is over one"),
    "ties": _Hold(check="a tie is fixed at every joist on every bearer"),
    "braced": _Hold(check="every brace is bolted at both ends before any stay comes off"),
    "guard_push": _Hold(check="push hard at the top of every post of a guard: no give",
                        signed_by="builder and owner"),
    "guard_gaps": _Hold(check="no gap of a guard lets a ball of {guards.ball_mm} pass, and its top "
                        "is {guards.height_mm} or more over the deck"),
    "risers": _Hold(check="every riser over finished treads against every other, first and last as "
                    "well", limit=5.0, unit="mm"),
    "handrail": _Hold(check="the handrail stands fast from end to end, and a hand closes round it"),
    "hand_over": _Hold(check="no screw proud, no sharp edge, every gap open, water runs off",
                       signed_by="builder and owner"),
}  # fmt: skip


#: What is checked instead where clips make the gaps.
CLIPPED = {
    "fifth_row": "every fifth row's far edge against the rod, at both ends; where it is off, "
    "find which row is not home",
}  # fmt: skip


#: What is checked instead where tiles are laid.
TILED = {"delivered": "what was delivered is what the order says, nothing cracked or chipped"}


#: What is checked instead on an outline, which has ties for diagonals.
OUTLINED = {
    "fifth_row": "every fifth row's near edge, the one that the list of rows tells, against its "
    "figures there, at both ends; share a difference out over the gaps left, no more than 1.5 mm "
    "(1/16 in) a row",
    "last_rows": "with eight rows left, the near edge of the next against the list of rows, at "
    "both ends",
    "square": "every tie, and every check, against the length told",
    "board_width": "mean width of ten boards against {laying.board_width_mm}: off by more, plan "
    "again with board.measured_width",
}

#: The same where clips make the gaps.
CLIPPED_OUTLINE = {
    "fifth_row": "every fifth row's near edge, the one that the list of rows tells, against its "
    "figures there, at both ends; where it is off, find which row is not home",
}

#: What is checked instead where tiles are laid on an outline.
TILED_OUTLINE = {
    **TILED,
    "square": OUTLINED["square"],
    "tile_size": "both sides of ten tiles against {tiles.tile_length_mm} by {tiles.tile_width_mm}: "
    "off by more, the grid will not come out",
}


def hold_points(
    keys: tuple[str, ...], *, clipped: bool = False, tiled: bool = False, outlined: bool = False
) -> tuple[HoldPoint, ...]:
    """Return the hold points of these keys. Source: each names its own."""
    instead = {**(CLIPPED if clipped else {}), **(TILED if tiled else {})}
    instead |= OUTLINED if outlined else {}
    instead |= CLIPPED_OUTLINE if clipped and outlined else {}
    instead |= TILED_OUTLINE if tiled and outlined else {}
    return tuple(
        HoldPoint(
            mark=key,
            check=instead.get(key, HOLDS[key].check),
            limit=HOLDS[key].limit,
            unit=HOLDS[key].unit,
            source=HOLDS[key].source,
            signed_by=HOLDS[key].signed_by,
        )
        for key in keys
    )
