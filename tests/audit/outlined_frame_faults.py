"""Faults planted in the frame under the hand-made L."""

from audit.outlined_planting import CROSSED, member, members_too
from audit.outlined_sample import box, level, spot, upright
from audit.planting import Fault, both, by, to, turned, twice, without
from drylay.subframe.model import Seam

FRAME: tuple[Fault, ...] = (
    ("AUD-787", "a member more", by("subframe.member_count", 1)),
    ("AUD-787", "a mark twice", to("subframe.members[6].mark", "J3")),
    ("AUD-787", "no shape", to("subframe.members[6].corners", CROSSED)),
    ("AUD-787", "an unknown kind", to("subframe.members[6].kind", "beam")),
    ("AUD-788", "a longer member", by("subframe.members[6].length_mm", 0.5)),
    ("AUD-788", "an angle that is not there", to("subframe.members[6].end_deg", 1.0)),
    (
        "AUD-788",
        "nothing between its ends",
        member("J2", start=spot((341.0, 45.0)), end=spot((341.0, 45.0))),
    ),
    (
        "AUD-788",
        "a line beside it",
        member("J2", start=spot((400.0, 45.0)), end=spot((400.0, 1000.0))),
    ),
    (
        "AUD-788",
        "a line not in the middle",
        member("J2", start=spot((345.0, 45.0)), end=spot((345.0, 1000.0))),
    ),
    ("AUD-788", "a line too short", member("J2", end=spot((341.0, 990.0)))),
    ("AUD-789", "out of the outline", member("J5", corners=box(1281.5, 45.0, 1326.5, 600.0))),
    ("AUD-789", "in the fascia", member("J5", corners=box(1281.5, 45.0, 1326.5, 510.0))),
    ("AUD-790", "no rim", without("subframe.members", 1)),
    ("AUD-790", "a short rim", member("R1", corners=box(0.0, 0.0, 1500.0, 45.0))),
    ("AUD-790", "a rim of noggins", member("R1", kind="noggin")),
    (
        "AUD-791",
        "two in one place",
        members_too(upright("J9", "joist", 350.0, 45.0, 1000.0, "R1-R5")),
    ),
    ("AUD-792", "carried by nothing", member("J2", start_on="")),
    ("AUD-792", "carried by none there is", member("J2", start_on="R99")),
    ("AUD-792", "carried from afar", member("J2", start_on="R3")),
    ("AUD-793", "a line more", by("subframe.line_count", 1)),
    ("AUD-793", "too far apart", to("subframe.most_centres_mm", 326.0)),
    ("AUD-793", "out of order", turned("subframe.lines_mm", 1, 2)),
    ("AUD-793", "off the marks", to("subframe.lines_mm[1]", 341.2)),
    ("AUD-793", "another widest bay", to("subframe.centres_mm", 326.5)),
    ("AUD-794", "a joist off its line", to("subframe.lines_mm[1]", 342.0)),
    ("AUD-794", "another way", to("subframe.joist_run", "up")),
    ("AUD-795", "another angle", to("subframe.board_to_joist_deg", 89.0)),
    ("AUD-795", "wider than the angle lets", to("subframe.most_centres_mm", 401.0)),
    ("AUD-796", "a joist fewer", without("subframe.members", 8)),
    ("AUD-797", "no rim under ends", without("subframe.members", 1)),
    ("AUD-797", "nothing below", to("subframe.members", ())),
    ("AUD-797", "more than practice", to("subframe.end_support_most_mm", 120.0)),
    (
        "AUD-798",
        "a joist in the hole",
        members_too(upright("J9", "joist", 450.0, 735.0, 870.0, "U1-U2")),
    ),
    ("AUD-798", "no trimmer", without("subframe.members", 12)),
    (
        "AUD-799",
        "tails on one timber",
        members_too(
            upright("J9.1", "joist", 450.0, 545.0, 690.0, "N2-U1"),
            upright("J9.2", "joist", 500.0, 545.0, 690.0, "N2-U1"),
        ),
    ),
    ("AUD-930", "no noggin", without("subframe.members", 13)),
    (
        "AUD-991",
        "no timber under a border's inner edge",
        both(to("laying.border_courses", 1), to("subframe.members", ())),
    ),
    ("AUD-931", "a seam more", by("subframe.seam_count", 1)),
    (
        "AUD-931",
        "a seam of none",
        to(
            "subframe.seams",
            (Seam(left="J2", right="J99", start=spot((341.0, 45.0)), end=spot((341.0, 1000.0))),),
        ),
    ),
    (
        "AUD-931",
        "a seam of joists apart",
        to(
            "subframe.seams",
            (Seam(left="J2", right="J3", start=spot((363.5, 45.0)), end=spot((363.5, 1000.0))),),
        ),
    ),
    (
        "AUD-932",
        "a joint that nothing backs",
        both(
            member(
                "R5",
                mark="R5.1",
                start=spot((1000.0, 1022.5)),
                end=spot((500.0, 1022.5)),
                corners=box(500.0, 1000.0, 1000.0, 1045.0),
                length_mm=500.0,
            ),
            members_too(level("R5.2", "rim", 1022.5, 0.0, 500.0, back=True, side="E5")),
        ),
    ),
    ("AUD-932", "a splice of nothing", members_too(level("S1", "splice", 977.5, 400.0, 600.0))),
    ("AUD-933", "a side bare", without("subframe.facings", 0)),
    ("AUD-933", "off its side", to("subframe.facings[0].start", spot((1999.0, 0.0)))),
    ("AUD-933", "no lap", to("subframe.facings[1].start_end", "mitre")),
    ("AUD-933", "short of its end", to("subframe.facings[0].end", spot((2000.0, 499.0)))),
    (
        "AUD-933",
        "a gap between lengths",
        both(
            twice("subframe.facings", 1),
            to("subframe.facings[1].end", spot((1500.0, 520.0))),
            to("subframe.facings[2].start", spot((1490.0, 520.0))),
        ),
    ),
    ("AUD-934", "another mark", to("subframe.facings[0].mark", "F1")),
    ("AUD-934", "a side there is not", to("subframe.facings[0].side", "E9")),
    ("AUD-934", "a longer one", by("subframe.facings[0].length_mm", 1.0)),
    ("AUD-934", "an unknown end", to("subframe.facings[0].start_end", "glue")),
    ("AUD-934", "a saw setting for a butt", to("subframe.facings[1].start_deg", 45.0)),
    ("AUD-934", "another run", by("subframe.facing_run_mm", 1.0)),
)
