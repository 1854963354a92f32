"""What is to be said of frame screws, fascia screws, hangers, metals and treatment."""

from collections.abc import Iterable, Iterator

from drylay.findings import Finding, Severity
from drylay.fixings.frame_screws import HANGER_OFF_MM
from drylay.fixings.model import FasciaScrews, FixingMetal, Hangers, TimberClass
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import METALS
from drylay.planner import timber_notes, touching
from drylay.planner.board_notes import tannin_rich
from drylay.planner.built import Framed
from drylay.planner.job import Job
from drylay.planner.metals import metal_ruling, metal_rulings
from drylay.planner.rows import ARITHMETIC, PRACTICE, merchant_says
from drylay.planner.treated import treated_too_little
from drylay.reasons import Source

OFF = Source(kind="assumption", title="docs/conventions.md", clause="Hangers")
#: What the tannin of oak and its like eats. From memory.
EATEN = ("plain steel", "bright zinc")
#: Which article of a design each timber is.
_PART_OF = {"deck boards": "board", "border boards": "border", "frame timber": "timber",
            "fascia": "fascia"}  # fmt: skip
#: Why a piece of fascia has no place for its screws, and what helps.
NO_ROOM = ("no place for its screws: too little of it is clear of ends, coach screws and joints; "
           "name shorter coach screws, or leave its side without fascia")  # fmt: skip
NO_ROOM_HUNG = ("no place for its screws: too little of it is clear of ends, bearers' ends and "
                "joints; leave its side without fascia")  # fmt: skip
#: Code, subject, message, measured, limit, whether it is wrong, who says so.
_Check = tuple[str, str, str, float, float, bool, Source]


def remarks(job: Job, built: Framed) -> list[Finding]:
    """Return what is worth telling, in no order of weight."""
    return [
        *(_stop(check) for check in _checks(job, built) if check[5]),
        *_pieces_without_room(built),
        *refused_metals(job, built.fixings.metals),
        *touching.remarks(built),
        *timber_notes.remarks(job),
        *too_low_classes(job, built.fixings.use_classes),
        *_long_frame_screws(built),
        *_uncounted(built),
    ]


def _stop(check: _Check) -> Finding:
    code, subject, message, measured, limit, _, source = check
    return Finding(
        code=code,
        severity=Severity.STOP,
        subject=subject,
        message=message,
        measured=measured,
        limit=limit,
        unit="mm",
        source=source,
    )


def _checks(job: Job, built: Framed) -> Iterator[_Check]:
    frame, fascia, hangers = (
        built.fixings.frame_screws, built.fixings.fascia_screws, built.fixings.hangers,
    )  # fmt: skip
    if frame is not None:
        yield (
            "FIX-013", "frame screws", "the screw of noggins and splices is too short; name a "
            "longer one", frame.length_mm, frame.length_least_mm,
            frame.length_mm < frame.length_least_mm,
            job.rules.source("fixings.frame_screws.length_least_mm"),
        )  # fmt: skip
    if fascia is not None:
        yield from _fascia_checks(job, built, fascia)
    if hangers is not None:
        yield from _hanger_checks(job, built, hangers)


def _fascia_checks(job: Job, built: Framed, screws: FasciaScrews) -> Iterator[_Check]:
    through_mm = built.edges.fascia_thickness_mm + built.frame.timber_thickness_mm
    yield ("FIX-014", "fascia screws", "the fascia screw is too short; name a longer one",
           screws.length_mm, screws.length_least_mm, screws.length_mm < screws.length_least_mm,
           job.rules.source("fixings.fascia_screws.length_least_mm"))  # fmt: skip
    yield ("FIX-015", "fascia screws", "the fascia screw comes out behind the frame timber; name "
           "a shorter one", screws.length_mm, through_mm, screws.length_mm > through_mm,
           ARITHMETIC)  # fmt: skip
    lower = -(-3 * exact(built.edges.fascia_depth_mm) // 4)  # a quarter in from the lower edge
    most = exact(built.frame.timber_depth_mm) - exact(screws.shank_mm)
    yield ("FIX-022", "fascia screws", "the lower screws miss the frame: name a shallower fascia",
           to_mm(lower), to_mm(most), lower > most, ARITHMETIC)  # fmt: skip


def _hanger_checks(job: Job, built: Framed, hangers: Hangers) -> Iterator[_Check]:
    frame = built.frame
    thick_mm, deep_mm = frame.timber_thickness_mm, frame.timber_depth_mm
    record = merchant_says(job, hangers.article)
    decided = "fixings.hangers.depth_least_mm"
    least = Source(kind="from memory", title="US residential deck guidance", clause=decided)
    yield ("FIX-017", "hangers", "the hanger is not as wide as the joist is thick; name one that "
           "takes it", hangers.joist_mm, thick_mm,
           abs(hangers.joist_mm - thick_mm) > HANGER_OFF_MM, OFF)  # fmt: skip
    yield ("FIX-018", "hangers", "the hanger holds too little of the joist's depth; name a deeper "
           "one", hangers.depth_mm, hangers.depth_least_mm,
           hangers.depth_mm < hangers.depth_least_mm, least)  # fmt: skip
    yield ("FIX-019", "hangers", "the hanger is deeper than the joist; name a lower one",
           hangers.depth_mm, deep_mm, hangers.depth_mm > deep_mm, record)  # fmt: skip
    yield ("FIX-020", "hanger screws", "the hanger's screws come out of rim and joist; name a "
           "hanger that takes shorter ones, or thicker timber", hangers.screw_length_mm, thick_mm,
           hangers.screw_length_mm > thick_mm, record)  # fmt: skip


def _pieces_without_room(built: Framed) -> Iterator[Finding]:
    """Yield the stop for each piece of fascia that no screw can hold where it may stand."""
    screws = built.fixings.fascia_screws
    if screws is None:
        return
    placed = {place.fascia for place in screws.places}
    for face in built.edges.faces:
        for piece in face.pieces:
            if piece.mark not in placed:
                yield Finding(
                    code="FIX-016",
                    severity=Severity.STOP,
                    subject=piece.mark,
                    message=NO_ROOM_HUNG if built.frame.hung else NO_ROOM,
                    measured=piece.length_mm,
                    unit="mm",
                    source=ARITHMETIC,
                )


def refused_metals(job: Job, metals: Iterable[FixingMetal]) -> Iterator[Finding]:
    """Yield the stop for each fixing whose metal the family refuses here."""
    exposure = job.brief.site.exposure
    for held in metals:
        ruled = metal_rulings(job, held.what)
        ruling = metal_ruling(job, held.what, held.metal)
        if not held.allowed and ruling is not None:
            good = [
                metal
                for metal in METALS
                if all(metal in known and known[metal].value == 1 for known in ruled)
            ]
            yield Finding(
                code="FIX-021",
                severity=Severity.STOP,
                subject=held.what,
                message=f"{held.article} is {held.metal}, which does not last driven into the "
                f"{held.driven_into} ({exposure}{_eaten(job, held)}); allowed here: "
                f"{', '.join(good) or 'none that is known'}",
                source=ruling.source,
            )


def _eaten(job: Job, held: FixingMetal) -> str:
    """Return that a frame's tannin eats a metal, "" where it does not. From memory."""
    species = job.articles.timber.species
    eats = held.driven_into == "frame" and held.metal in EATEN
    if not (eats and tannin_rich(species, timber=True)):
        return ""
    return f"; tannin-rich {species} eats plain steel and zinc, and is stained black"


def class_path(timber: TimberClass) -> str:
    """Return the path of the rule that a timber's use class is held against."""
    part = {"frame timber": "frame", "border boards": "border"}.get(timber.what, "board")
    return f"fixings.{part}_use_class_least"


def too_low_classes(job: Job, timbers: Iterable[TimberClass]) -> Iterator[Finding]:
    """Yield what is wrong with the treatment of boards, fascia and frame timber."""
    for timber in timbers:
        path = class_path(timber)
        least, source = job.rules.count(path), job.rules.source(path)
        article = getattr(job.articles, _PART_OF[timber.what])
        yield from treated_too_little(article, timber.what, least, source)


def _long_frame_screws(built: Framed) -> Iterator[Finding]:
    screws = built.fixings.frame_screws
    both_mm = 2 * built.frame.timber_thickness_mm
    if screws is None or not screws.splice_sides or screws.length_mm <= both_mm:
        return
    yield Finding(
        code="FIX-010",
        severity=Severity.NOTE,
        subject="frame screws",
        message="longer than rim and splice together: drive them from outside, the tips stand "
        "out on the inside",
        measured=screws.length_mm,
        limit=both_mm,
        unit="mm",
        source=PRACTICE,
    )


def _uncounted(built: Framed) -> Iterator[Finding]:
    fixings = built.fixings
    parts = (
        ("FIX-011", "noggins and splices", "frame_screw",
         fixings.frame_screws is None and bool(built.frame.noggins or built.frame.splices)),
        ("FIX-012", "fascia", "fascia_screw",
         fixings.fascia_screws is None and bool(built.edges.faces)),
    )  # fmt: skip
    for code, subject, key, missing in parts:
        if missing:
            yield Finding(
                code=code,
                severity=Severity.NOTE,
                subject=subject,
                message=f"its screws are not counted: name fixings.{key} in the brief",
                source=Source(kind="brief", title="the brief", clause=f"fixings.{key}"),
            )
