"""The work of the hand-made deck: pegs, tasks, hours and lights worked out by hand."""

from audit.sample_deck import PRACTICE
from drylay.work.model import HoldPoint, Light, Lighting, Peg, SettingOut, Task, Tool, Work

#: Kind, what it waits for, least and most hours for two people, in quarters outwards.
TASKS = (
    ("check", (), 0.5, 1.5),  # 1 and 3, halved
    # 16 lengths and 14 packs: 0.5 + 30 x 0.02 = 1.1 and 1 + 30 x 0.05 = 2.5
    ("delivery", ("check",), 0.5, 1.25),
    ("set_out", ("check",), 0.5, 1.0),
    ("dig", ("set_out",), 0.0, 0.5),  # 0.182 m3: 0.364 and 0.728
    ("fabric", ("dig",), 0.0, 0.5),  # 1 strip: 0.35 and 0.75
    ("gravel", ("fabric", "dig"), 0.0, 0.5),  # 0.2424 t: 0.3712 and 0.7424
    (
        "packing",
        ("gravel", "fabric", "dig", "set_out"),
        0.5,
        1.75,
    ),  # 33: 0.25 + 0.99 and 0.5 + 2.64
    ("cut_frame", ("delivery",), 0.75, 2.0),  # 27 pieces: 0.5 + 1.35 and 1 + 2.7
    ("frame", ("cut_frame", "packing", "gravel", "set_out"), 1.75, 4.5),
    # 22 ends, 10 noggins, 2 splices: 0.5 + 2.2 + 0.8 + 0.3 = 3.8; 1 + 5.5 + 1.5 + 0.6 = 8.6
    ("cable", ("frame",), 0.25, 1.0),  # 2 lights: 0.5 + 0.4 and 1 + 0.8
    # 8 pieces, 44 crossings, 10 ends waxed: 0.5 + 0.8 + 0.88 + 0.2 = 2.38; 1 + 1.6 + 2.2 + 0.5
    ("boards", ("frame", "cable"), 1.0, 2.75),
    ("fascia", ("frame",), 0.5, 1.5),  # 4 pieces: 0.25 + 1.2 = 1.45 and 0.5 + 2.4 = 2.9
    ("lights", ("boards", "cable"), 0.25, 0.75),  # 0.25 + 0.5 = 0.75 and 0.5 + 1 = 1.5
    # 2.9975 m2 twice: 0.25 + 5.995 x 0.06 = 0.61 and 0.5 + 5.995 x 0.15 = 1.4
    ("finish", ("boards", "fascia", "lights"), 0.25, 0.75),
    ("hand_over", ("boards", "fascia", "lights", "finish"), 0.25, 0.5),
)
HOLDS = {
    "check": ("rules", "services"), "dig": ("dig_depth",), "fabric": ("laps",),
    "gravel": ("gravel_depth",), "packing": ("pack_level",),
    "delivery": ("delivered", "board_width"), "set_out": ("square",),
    "cut_frame": ("lengths", "ends"), "frame": ("square", "frame_level"), "cable": ("cable",),
    "boards": ("first_row", "fifth_row", "last_rows"), "fascia": ("ends",),
    "lights": ("lit",), "finish": ("dry",), "hand_over": ("hand_over",),
}  # fmt: skip
LIMITS = {
    "dig_depth": 10.0, "gravel_depth": 10.0, "pack_level": 3.0, "square": 5.0, "lengths": 1.0,
    "frame_level": 3.0, "first_row": 2.0, "fifth_row": 2.0,
    "last_rows": 2.0, "board_width": 0.5, "dry": 20.0,
}  # fmt: skip
TOOLS = {
    "saw": "buying.kerf_mm", "deck_bit": "fixings.deck_screws.pilot_mm",
    "frame_bit": "fixings.frame_screws.pilot_mm", "fascia_bit": "fixings.fascia_screws.pilot_mm",
    "coach_bit": "fixings.coach_screws.pilot_mm", "gap_spacer": "surface.rows[1].gap_mm",
}  # fmt: skip


def hold(mark: str) -> HoldPoint:
    limit = LIMITS.get(mark)
    return HoldPoint(
        mark=mark, check=f"{mark} holds", limit=limit,
        unit="" if limit is None else "%" if mark == "dry" else "mm",
        source=PRACTICE, signed_by="builder",
    )  # fmt: skip


def tasks() -> tuple[Task, ...]:
    marks = {kind: f"W{number}" for number, (kind, *_) in enumerate(TASKS, 1)}
    return tuple(
        Task(
            mark=marks[kind], kind=kind, title=kind, steps=("The diagonals: {frame.diagonal_mm}.",),
            after=tuple(marks[before] for before in after),
            holds=tuple(hold(mark) for mark in HOLDS[kind]), tools=tuple(TOOLS),
            cautions=("Wear gloves.",), least_h=least, most_h=most,
            people=2 if kind in {"set_out", "fabric", "frame", "fascia"} else 1,
        )
        for kind, after, least, most in TASKS
    )  # fmt: skip


def lighting() -> Lighting:
    """Two lights in the third row, its middle at 372.5, over the middles of bays 3 and 8.

    Joists end at 842.5 + 22.5 and begin at 1242.5 - 22.5: 1042.5 is 177.5 from both. Across, the
    noggin of an even bay ends at 265 + 22.5, of an odd one at 310 + 22.5 = 332.5, 40 before
    372.5; the far rim begins at 530. A hole of 40 needs 20 + 20 = 40. The joists are 485 long, a
    quarter is 121.25: from the house side's rim the trunk runs at 45 + 121.25 = 166.25. The
    cable: 166.25 + 3042.5 + 2 x 2 x (372.5 - 166.25) + 2 x 300 = 4633.75.
    """
    return Lighting(
        side="house", count=2, hole_mm=40.0, depth_mm=60.0, clear_least_mm=20.0, trunk_mm=166.25,
        cable_mm=4633.75,
        lights=(
            Light(mark="L1", row="B3", along_mm=1042.5, across_mm=372.5),
            Light(mark="L2", row="B3", along_mm=3042.5, across_mm=372.5),
        ),
    )  # fmt: skip


def work() -> Work:
    corners = ((20.0, 0.0), (4065.0, 0.0), (4065.0, 575.0), (20.0, 575.0))
    return Work(
        face_up="smooth", people=2, holds=21, tasks=tasks(), lighting=lighting(),
        tools=tuple(
            Tool(mark=mark, what=mark, purpose="boards", size_at=path)
            for mark, path in TOOLS.items()
        ),
        setting_out=SettingOut(  # 575 holds one leg of 300, not two; 4045 one of 400
            pegs=tuple(
                Peg(mark=f"P{n}", along_mm=along, across_mm=across)
                for n, (along, across) in enumerate(corners, 1)
            ),
            leg_along_mm=400.0, leg_across_mm=300.0, slant_mm=500.0, accepted_mm=5.0,
        ),
        least_h=sum(row[2] for row in TASKS), most_h=sum(row[3] for row in TASKS),
    )  # fmt: skip
