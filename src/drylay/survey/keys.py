"""Every key of `[survey]`, with its bounds: they keep slips out. Source: assumption."""

from drylay.intake.keys import length, number, table, tables, text

PLACE_MM, LEVEL_MM = 100_000, 20_000

SURVEY = (
    text("outline", 200),
    length("accuracy_mm", 0.1, 100),
    tables("tapes"),
    tables("points"),
    length("opening_level_mm", -LEVEL_MM, LEVEL_MM),
    length("closing_level_mm", -LEVEL_MM, LEVEL_MM),
    table("cover"),
    tables("area"),
    tables("formations"),
    tables("flow_from"),
    number("across_bearing_deg", 0, 360),
)
TAPE = (
    text("start", 20, required=True),
    text("end", 20, required=True),
    length("length_mm", 50, PLACE_MM, required=True),
    length("accuracy_mm", 0.1, 100),
)
SPOT = (
    length("along_mm", -PLACE_MM, PLACE_MM, required=True),
    length("across_mm", -PLACE_MM, PLACE_MM, required=True),
)
POINT = (*SPOT, length("level_mm", -LEVEL_MM, LEVEL_MM, required=True))
COVER = (
    length("along_mm", 100, PLACE_MM, required=True),
    length("across_mm", 100, PLACE_MM, required=True),
    length("from_along_mm", -PLACE_MM, PLACE_MM),
    length("from_across_mm", -PLACE_MM, PLACE_MM),
)
FORMATION = (
    length("level_mm", -LEVEL_MM, LEVEL_MM, required=True),
    number("fall_along_ratio", -0.25, 0.25),
    number("fall_across_ratio", -0.25, 0.25),
)
