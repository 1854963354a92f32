"""Whether screws of boards fit: long enough, ending in the joist, room for them in every row."""

from collections.abc import Iterator

from attrs import frozen

from drylay.findings import Finding, Severity
from drylay.fixings.model import INSIDE_FACE_MM, BorderScrews, DeckScrews
from drylay.planner import fascia_notes
from drylay.planner.built import Built
from drylay.planner.job import Job
from drylay.surface.model import Row

#: Code, subject, message, measured, limit, whether it is wrong, path of the governing rule.
Check = tuple[str, str, str, float, float, bool, str]


@frozen(kw_only=True)
class Screwed:
    """Boards of one kind and what holds them; `packing_mm` is what lies under them."""

    subject: str
    path: str
    screws: DeckScrews | BorderScrews
    rows: tuple[Row, ...]
    thickness_mm: float
    packing_mm: float
    joint_count: int
    end_bearing_mm: float

    @property
    def shank_mm(self) -> float:
        """What two screws side by side take of a row's width besides their distances."""
        return self.screws.shank_mm if self.screws.per_crossing > 1 else 0.0


def screwed(built: Built) -> list[Screwed]:
    """Return the field's boards, and the border's if there are any."""
    surface, pieces, fixings = built.surface, built.pieces, built.fixings
    border, joints, screws = surface.border, pieces.border, fixings.border_screws
    packed = border.packed if border else ""
    assert fixings.deck_screws is not None
    found = [
        Screwed(
            subject="deck screws",
            path="fixings.deck_screws",
            screws=fixings.deck_screws,
            rows=tuple(row for row in surface.rows if not row.border),
            thickness_mm=surface.board_thickness_mm,
            packing_mm=border.packing_mm if border and packed == "field" else 0.0,
            joint_count=pieces.joint_count,
            end_bearing_mm=pieces.end_bearing_mm,
        )
    ]
    if border is not None and joints is not None and screws is not None:
        found.append(
            Screwed(
                subject="border screws",
                path="fixings.border_screws",
                screws=screws,
                rows=tuple(row for row in surface.rows if row.border),
                thickness_mm=border.thickness_mm,
                packing_mm=border.packing_mm if packed == "border" else 0.0,
                joint_count=joints.joint_count,
                end_bearing_mm=joints.end_bearing_mm,
            )
        )
    return found


def outer_screws(built: Built) -> Screwed:
    """Return what holds the outermost rows: the border's boards where there is a border."""
    return screwed(built)[-1]


def unheld(job: Job, built: Built) -> Iterator[Finding]:
    """Yield the stop for boards that no screw goes through and no clip holds."""
    if built.fixings.clips is not None:
        return
    for held in screwed(built):
        if held.screws.per_crossing < 1:
            path = f"{held.path}.per_crossing"
            ruling = job.rules.rulings[path]
            yield Finding(
                code="FIX-023",
                severity=Severity.STOP,
                subject=held.subject,
                message=f"nothing holds these boards: {ruling.rule}, and the brief names no clip; "
                "name one in fixings.clip if these boards are clipped, else a board that may be "
                "screwed",
                measured=float(held.screws.per_crossing),
                limit=1.0,
                unit="screws",
                source=ruling.source,
            )


def deck_screw_checks(built: Built) -> Iterator[Check]:
    """Yield every check of the screws of field and border."""
    for held in screwed(built):
        yield from boards_checks(built, held)
    yield _over_the_frame(built, outer_screws(built))


def boards_checks(built: Built, held: Screwed) -> Iterator[Check]:
    """Yield the checks of one kind of board's screws, but for where its outer rows lie."""
    screws, subject, path = held.screws, held.subject, held.path
    through_mm = held.thickness_mm + held.packing_mm + built.frame.timber_depth_mm
    least_mm = screws.length_least_mm + held.packing_mm
    needs_mm = 2 * screws.edge_least_mm + held.shank_mm
    narrowest_mm = min(row.width_mm for row in held.rows)
    packed = ", packers under its boards reckoned in" if held.packing_mm else ""
    name = subject.removesuffix("s")
    yield ("FIX-001", subject, f"the {name} is too short{packed}; name a longer one",
           screws.length_mm, least_mm, screws.length_mm < least_mm,
           f"{path}.length_least_mm")  # fmt: skip
    yield ("FIX-004", subject, f"the {name} comes out below the joist; name a shorter one",
           screws.length_mm, through_mm, screws.length_mm > through_mm,
           f"{path}.length_least_mm")  # fmt: skip
    yield ("FIX-005", subject, "the narrowest row has no room for its screws",
           narrowest_mm, needs_mm, narrowest_mm < needs_mm, f"{path}.edge_least_mm")  # fmt: skip
    yield ("FIX-007", subject, "at a joint, so far from the board's end the screw misses the "
           "joist: name thicker joists or a smaller end gap", held.end_bearing_mm,
           screws.end_least_mm,
           bool(held.joint_count) and held.end_bearing_mm < screws.end_least_mm,
           f"{path}.end_least_mm")  # fmt: skip


def _over_the_frame(built: Built, held: Screwed) -> Check:
    over_mm = _over_the_frame_mm(built)
    room_mm = INSIDE_FACE_MM + held.screws.edge_least_mm + held.shank_mm
    return ("FIX-009", held.subject, "an outer row lies too little over the frame for its screws: "
            "rip less off it, or name a thinner fascia", over_mm, room_mm,
            fascia_notes.rims_faced(built) and over_mm < room_mm,
            f"{held.path}.edge_least_mm")  # fmt: skip


def _over_the_frame_mm(built: Built) -> float:
    """Return how wide the narrower of the outer rows lies over the frame, not over fascia."""
    near_mm = built.edges.frame_near_mm
    far_mm = near_mm + built.edges.frame_depth_mm
    outer = (built.surface.rows[0], built.surface.rows[-1])
    return min(min(r.near_mm + r.width_mm, far_mm) - max(r.near_mm, near_mm) for r in outer)
