"""A small plan put together by hand: enough of everything, sums done here and nowhere else."""

from decimal import Decimal
from itertools import pairwise
from math import ceil, hypot

from attrs import evolve

from drylay.buying.model import BoughtLength, Buying, OrderLine, PackCount, PackPurchase, Purchase
from drylay.cutting.model import Certificate, Proof, Stock, Task, WorthVector
from drylay.cutting.model import Piece as Wanted
from drylay.edges.model import Edges, FasciaFace, FasciaPiece
from drylay.findings import Finding, Severity
from drylay.fixings.model import Fixings
from drylay.frame.model import Frame, Joist, Noggin, Rim, RimPiece, Splice
from drylay.pieces.model import Joint, Piece, Pieces
from drylay.plan.model import Digests, FamilyUsed, Plan
from drylay.reasons import Reasons, Ruling, Source, TurnedDown, adopt
from drylay.supports.model import JoistLine, Supports
from drylay.surface.model import Row, RuleMet, Surface, WayOut
from plan.sample_work import fixings_of, work_of

MEMORY = Source(kind="from memory", title="softwood family", clause="spacing")
PRACTICE = Source(kind="common practice", title="softwood family", clause="laying")
BRIEF = Source(kind="brief", title="brief")
SUMS = Source(kind="arithmetic", title="sums")
ENGINEER = Source(kind="named person's override", title="A. Person", clause="clay soil")

BOARD_MM, GAP_MM, JOIST_MM, DEPTH_MM, FASCIA_MM, LONGEST_MM = 145.0, 5.0, 45.0, 145.0, 22.0, 4800.0


def surface_of(row_length_mm: float, rows: int, run: str) -> Surface:
    depth_mm = rows * BOARD_MM + (rows - 1) * GAP_MM
    along, across = (row_length_mm, depth_mm) if run == "along" else (depth_mm, row_length_mm)
    rule = RuleMet(
        rule="gap_most_mm", met=True, measured=GAP_MM, limit=8.0, unit="mm", source=MEMORY
    )
    gaps = WayOut(kind="gaps", run=run, rows=rows, gap_mm=GAP_MM, cover_change_mm=0.0,
                  first_row_mm=BOARD_MM, last_row_mm=BOARD_MM, rules=(rule,), honest=True,
                  chosen=True, cost=Decimal("400.00"))  # fmt: skip
    rip = WayOut(kind="rip_last", run=run, rows=rows + 1, gap_mm=GAP_MM, cover_change_mm=0.0,
                 first_row_mm=BOARD_MM, last_row_mm=40.0, rules=(rule,), honest=False,
                 cost_note="breaks a rule")  # fmt: skip
    return Surface(
        run=run, cover_along_mm=along, cover_across_mm=across, cover_change_mm=12.0,
        row_length_mm=row_length_mm, rows_depth_mm=depth_mm, board_article="RW28x145",
        board_width_mm=BOARD_MM, board_thickness_mm=28.0, gap_preferred_mm=5.0, gap_least_mm=4.0,
        gap_most_mm=8.0, sliver_limit_mm=72.5, least_rip_mm=60.0, whole_rows=rows,
        remainder_mm=0.0, strip_mm=0.0, way_out="gaps", ways_out=(gaps, rip),
        rows=tuple(
            Row(mark=f"B{i + 1}", near_mm=i * (BOARD_MM + GAP_MM), width_mm=BOARD_MM,
                gap_mm=GAP_MM if i else 0.0, ripped=False)
            for i in range(rows)
        ),
    )  # fmt: skip


def edges_of(surface: Surface, sides: tuple[str, ...]) -> Edges:
    """All fascia as if the long sides were those along the house."""
    ends = ("left", "right") if surface.run == "along" else ("house", "front")
    flanks = ("house", "front") if surface.run == "along" else ("left", "right")
    start_mm = FASCIA_MM if ends[0] in sides else 0.0
    near_mm = FASCIA_MM if flanks[0] in sides else 0.0
    long_sides = ("house", "front")
    if surface.cover_across_mm > surface.cover_along_mm:
        long_sides = ("left", "right")
    faces = []
    for side in ("house", "right", "front", "left"):
        if side in sides:
            size = surface.cover_along_mm if side in ("house", "front") else surface.cover_across_mm
            if side not in long_sides:
                size -= FASCIA_MM * sum(other in sides for other in long_sides)
            count = ceil(size / LONGEST_MM)
            pieces = tuple(
                FasciaPiece(mark=f"F-{side}.{i + 1}", length_mm=size / count) for i in range(count)
            )
            faces.append(FasciaFace(mark=f"F-{side}", side=side, length_mm=size,
                                    long_face=side in long_sides, pieces=pieces))  # fmt: skip
    return Edges(
        fascia_article="RF22x170" if faces else "", fascia_thickness_mm=FASCIA_MM if faces else 0.0,
        fascia_depth_mm=170.0 if faces else 0.0, faces=tuple(faces), frame_start_mm=start_mm,
        frame_near_mm=near_mm,
        frame_length_mm=surface.row_length_mm - FASCIA_MM * sum(s in sides for s in ends),
        frame_depth_mm=surface.rows_depth_mm - FASCIA_MM * sum(s in sides for s in flanks),
    )  # fmt: skip


def supports_of(edges: Edges, most_mm: float = 400.0) -> Supports:
    span = edges.frame_length_mm - JOIST_MM
    bays = ceil(span / most_mm)
    pitch = ceil(span / bays * 2) / 2 if bays > 1 else span
    first = edges.frame_start_mm + JOIST_MM / 2
    offsets = [first + i * pitch for i in range(bays)] + [first + span]
    return Supports(
        most_centres_mm=most_mm, centres_mm=pitch, line_count=bays + 1,
        joist_thickness_mm=JOIST_MM, lines=tuple(JoistLine(offset_mm=at) for at in offsets),
    )  # fmt: skip


def pieces_of(surface: Surface, supports: Supports) -> Pieces:
    lines = [line.offset_mm for line in supports.lines]
    joints: list[Joint] = []
    pieces: list[Piece] = []
    for index, row in enumerate(surface.rows):
        count = ceil(surface.row_length_mm / LONGEST_MM) - 1
        step = len(lines) // (count + 1)
        at = [step * (i + 1) - (2 if index % 2 and step > 2 else 0) for i in range(count)]
        joints += [Joint(row=row.mark, joist=f"J{i + 1}", centre_mm=lines[i]) for i in at]
        ends = [0.0, *(lines[i] for i in at), surface.row_length_mm]
        for n in range(count + 1):
            start = ends[n] + (1.5 if n else 0.0)
            stop = ends[n + 1] - (1.5 if n < count else 0.0)
            pieces.append(
                Piece(
                    mark=f"{row.mark}.{n + 1}",
                    row=row.mark,
                    start_mm=start,
                    length_mm=stop - start,
                    cut_mm=stop - start,
                    width_mm=row.width_mm,
                    from_joist=f"J{at[n - 1] + 1}" if n else "",
                    to_joist=f"J{at[n] + 1}" if n < count else "",
                )
            )
    return Pieces(
        end_gap_mm=3.0, least_supports=3, stagger_bays=2, most_joints_per_row=None,
        joint_price=Decimal("1.50"), trim_allowance_mm=0.0, end_bearing_mm=21.0,
        end_bearing_least_mm=20.0, joint_count=len(joints), joints=tuple(joints),
        pieces=tuple(pieces),
    )  # fmt: skip


def frame_of(edges: Edges, supports: Supports, noggin_rows: int = 1) -> Frame:
    depth, near = edges.frame_depth_mm, edges.frame_near_mm
    lines = [line.offset_mm for line in supports.lines]
    split = edges.frame_length_mm > LONGEST_MM and len(lines) > 3
    middle = len(lines) // 2
    cut = (lines[middle - 1] + lines[middle]) / 2

    def rim(mark: str, at: float) -> Rim:
        start, size = edges.frame_start_mm, edges.frame_length_mm
        parts = [(start, size)] if not split else [(start, cut - start), (cut, start + size - cut)]
        return Rim(
            mark=mark, near_mm=at, start_mm=start, length_mm=size,
            pieces=tuple(
                RimPiece(mark=f"{mark}.{i + 1}", start_mm=s, length_mm=n)
                for i, (s, n) in enumerate(parts)
            ),
        )  # fmt: skip

    clear = [b - a - JOIST_MM for a, b in pairwise(lines)]
    noggins = [
        Noggin(mark=f"N{r * len(clear) + i + 1}", left=f"J{i + 1}", right=f"J{i + 2}",
               across_mm=near + JOIST_MM + (depth - 2 * JOIST_MM) * (r + 1) / (noggin_rows + 1)
               + (JOIST_MM / 2 if i % 2 else -JOIST_MM / 2), length_mm=size)
        for r in range(noggin_rows) for i, size in enumerate(clear)
    ]  # fmt: skip
    splices = [
        Splice(mark=f"S{i + 1}", rim=rim_mark, offset_mm=cut, length_mm=clear[middle - 1])
        for i, rim_mark in enumerate(("RA", "RB")) if split
    ]  # fmt: skip
    return Frame(
        timber_article="FT45x145", timber_thickness_mm=JOIST_MM, timber_depth_mm=DEPTH_MM,
        diagonal_mm=round(hypot(edges.frame_length_mm, depth), 1), noggin_spacing_most_mm=1800.0,
        noggin_rows=noggin_rows, rim_joints=2 if split else 0,
        rims=(rim("RA", near), rim("RB", near + depth - JOIST_MM)),
        joists=tuple(
            Joist(mark=f"J{i + 1}", offset_mm=at, near_mm=near + JOIST_MM,
                  length_mm=depth - 2 * JOIST_MM)
            for i, at in enumerate(lines)
        ),
        noggins=tuple(noggins), splices=tuple(splices),
    )  # fmt: skip


def purchase_of(what: str, article: str, wanted: list[tuple[str, float]], mark: str) -> Purchase:
    """One length per piece: dear, but easy to add up."""
    lengths = tuple(
        BoughtLength(mark=f"{mark}{i + 1}", length_mm=LONGEST_MM, price=Decimal("14.40"),
                     pieces=(piece,), offcut_mm=LONGEST_MM - size - 4.0)
        for i, (piece, size) in enumerate(wanted)
    )  # fmt: skip
    cost = Decimal("14.40") * len(lengths)
    stock = Stock(name="4800", length=1_536_000, price=1440)
    vector = WorthVector(scale=1, lengths=(768_000,), worths=(720,))
    proof = Proof(
        task=Task(stock=(stock,), kerf=1280, pieces=(Wanted(length=768_000, count=len(lengths)),)),
        objective=int(cost * 100),
        certificate=Certificate(grade="one worth vector", bound=int(cost * 100), vectors=(vector,)),
    )
    return Purchase(
        what=what, article=article, lengths=lengths, cost=cost, joint_cost=Decimal("0.00"),
        objective=cost, bound=cost, gap=Decimal("0.00"), grade="one worth vector", mode="proven",
        proof=proof,
    )  # fmt: skip


def buying_of(pieces: Pieces, frame: Frame, edges: Edges, fixings: Fixings) -> Buying:
    boards = [(p.mark, p.cut_mm) for p in pieces.pieces]
    members = [(j.mark, j.length_mm) for j in frame.joists]
    members += [(p.mark, p.length_mm) for rim in frame.rims for p in rim.pieces]
    members += [(n.mark, n.length_mm) for n in (*frame.noggins, *frame.splices)]
    fascia = [(p.mark, p.length_mm) for face in edges.faces for p in face.pieces]
    purchases = [
        purchase_of("boards", "RW28x145", boards, "DB"),
        purchase_of("frame", "FT45x145", members, "T"),
    ]
    purchases += [purchase_of("fascia", "RF22x170", fascia, "FB")] if fascia else []
    packs = tuple(
        PackPurchase(what=what, article=article, need=need, spare=10, cost=Decimal("25.00"),
                     bound=Decimal("25.00"),
                     packs=(PackCount(pack=5000, packs=1, price=Decimal("25.00")),))
        for what, article, need in (
            ("deck_screws", "DS5x70", fixings.deck_screws.count),
            ("coach_screws", "CS8x120", fixings.coach_screws.count),
        )
    )  # fmt: skip
    order = [
        OrderLine(article=p.article, title=p.article, length_mm=LONGEST_MM, pack=None,
                  quantity=len(p.lengths), unit_price=Decimal("14.40"), total=p.cost)
        for p in purchases
    ]  # fmt: skip
    order += [
        OrderLine(article=p.article, title=p.article, length_mm=None, pack=5000, quantity=1,
                  unit_price=Decimal("25.00"), total=Decimal("25.00"))
        for p in packs
    ]  # fmt: skip
    spares = (
        OrderLine(article="RW28x145", title="RW28x145", length_mm=LONGEST_MM, pack=None, quantity=2,
                  unit_price=Decimal("14.40"), total=Decimal("28.80")),
    )  # fmt: skip
    order_total = sum((line.total for line in order), Decimal(0))
    return Buying(
        currency="EUR", vat="included", kerf_mm=4.0, end_trim_mm=0.0, spare_ratio=0.1,
        purchases=tuple(purchases), packs=packs, order=tuple(order), spares=spares,
        order_total=order_total, spares_total=Decimal("28.80"),
        total=order_total + Decimal("28.80"),
    )  # fmt: skip


def reasons_of(plan: Plan, most_mm: float) -> Reasons:
    """A decision for every path that the nouns' fields name."""
    surface, edges, supports, pieces = plan.surface, plan.edges, plan.supports, plan.pieces
    frame, fixings, buying = plan.frame, plan.fixings, plan.buying
    assert None not in (surface, edges, supports, pieces, frame, fixings, buying)
    rows = [
        (f"surface.{name}", getattr(surface, name), "mm", MEMORY)
        for name in (
            "gap_preferred_mm",
            "gap_least_mm",
            "gap_most_mm",
            "sliver_limit_mm",
            "least_rip_mm",
        )
    ]
    rows += [
        (f"surface.{name}", getattr(surface, name), "mm", BRIEF)
        for name in ("rows_depth_mm", "row_length_mm", "board_width_mm", "board_thickness_mm")
    ]
    rows += [("surface.way_out", surface.way_out, "", PRACTICE)]
    rows += [
        (f"edges.{name}", getattr(edges, name), "mm", SUMS)
        for name in ("fascia_thickness_mm", "frame_length_mm", "frame_depth_mm")
    ]
    rows += [
        ("supports.most_centres_mm", most_mm, "mm", ENGINEER),
        ("supports.centres_mm", supports.centres_mm, "mm", SUMS),
        ("supports.line_count", supports.line_count, "count", SUMS),
        ("supports.joist_thickness_mm", JOIST_MM, "mm", BRIEF),
    ]
    rows += [
        (f"pieces.{name}", getattr(pieces, name), unit, MEMORY)
        for name, unit in (
            ("end_gap_mm", "mm"),
            ("least_supports", "count"),
            ("stagger_bays", "count"),
            ("trim_allowance_mm", "mm"),
            ("end_bearing_mm", "mm"),
            ("end_bearing_least_mm", "mm"),
            ("joint_count", "count"),
        )
    ]
    rows += [
        ("pieces.joint_price", "1.50", "EUR", BRIEF),
        ("pieces.most_joints_per_row", "no cap", "", BRIEF),
    ]
    rows += [
        ("frame.noggin_spacing_most_mm", 1800.0, "mm", PRACTICE),
        ("frame.noggin_rows", frame.noggin_rows, "count", SUMS),
        ("frame.rim_joints", frame.rim_joints, "count", SUMS),
    ]
    rows += [
        (f"fixings.deck_screws.{name}", getattr(fixings.deck_screws, name), unit, MEMORY)
        for name, unit in (
            ("length_mm", "mm"),
            ("length_least_mm", "mm"),
            ("per_crossing", "count"),
            ("count", "count"),
            ("edge_least_mm", "mm"),
            ("end_least_mm", "mm"),
            ("pilot_ratio", "ratio"),
        )
    ]
    rows += [
        (f"fixings.coach_screws.{name}", getattr(fixings.coach_screws, name), unit, MEMORY)
        for name, unit in (
            ("length_mm", "mm"),
            ("length_least_mm", "mm"),
            ("per_joist_end", "count"),
            ("count", "count"),
            ("sink_mm", "mm"),
            ("pilot_ratio", "ratio"),
        )
    ]
    rows += [
        ("buying.kerf_mm", 4.0, "mm", BRIEF),
        ("buying.end_trim_mm", 0.0, "mm", BRIEF),
        ("buying.spare_ratio", 0.1, "ratio", PRACTICE),
        ("buying.order_total", str(buying.order_total), "EUR", SUMS),
        ("buying.total", str(buying.total), "EUR", SUMS),
    ]
    rows += [
        ("work.people", 2, "count", BRIEF),
        ("work.face_up", "smooth", "", PRACTICE),
        ("work.holds", 1, "count", PRACTICE),
        ("work.most_h", 5.0, "h", PRACTICE),
        ("work.setting_out.slant_mm", plan.work.setting_out.slant_mm, "mm", SUMS),
        ("work.setting_out.accepted_mm", 5.0, "mm", PRACTICE),
    ]
    reasons = Reasons()
    for path, value, unit, source in rows:
        down = (TurnedDown(value="rip_last", because="a sliver"),) if "way" in path else ()
        ruling = Ruling(
            value=value,
            unit=unit,
            rule=path.split(".")[-1],
            source=source,
            inputs=(("board_thickness_mm", 28.0), ("use", "dwelling")),
        )
        reasons = adopt(reasons, path, value, ruling, down)
    return reasons  # fmt: skip


def sample_plan(  # noqa: PLR0917 - a plan by its main figures
    row_length_mm: float = 3600.0, rows: int = 4, run: str = "along", units: str = "metric",
    sides: tuple[str, ...] = ("front",), title: str = "Sample deck", noggin_rows: int = 1,
    most_mm: float = 400.0,
) -> Plan:  # fmt: skip
    surface = surface_of(row_length_mm, rows, run)
    edges = edges_of(surface, sides)
    supports = supports_of(edges, most_mm)
    pieces = pieces_of(surface, supports)
    frame = frame_of(edges, supports, noggin_rows)
    fixings = fixings_of(pieces, rows, supports.line_count)
    note = Finding(
        code="ROW-001",
        severity=Severity.NOTE,
        subject="cover",
        measured=12.0,
        unit="mm",
        message="the cover grows across the rows",
        source=PRACTICE,
    )
    plan = Plan(
        drylay_version="0.1.0", title=title, units=units, use="dwelling",
        digests=Digests(brief="a" * 64, stock="b" * 64),
        families=(FamilyUsed(id="softwood", title="Softwood", package="drylay-softwood",
                             version="0.1.0"),),
        surface=surface, edges=edges, supports=supports, pieces=pieces, frame=frame,
        fixings=fixings, buying=buying_of(pieces, frame, edges, fixings), reasons=Reasons(),
        findings=(note,), cautions=("Wear a mask when sawing treated timber.",),
        not_checked=("loads other than people", "the ground"), work=work_of(edges, run, units),
    )  # fmt: skip
    return evolve(plan, reasons=reasons_of(plan, most_mm))


def blocked_plan(title: str = "Sample deck") -> Plan:
    stop = Finding(
        code="FAM-001",
        severity=Severity.STOP,
        subject="RW28x145",
        message="no family covers this board",
        source=SUMS,
    )
    whole = sample_plan(title=title)
    rooms = ("surface", "edges", "supports", "pieces", "frame", "fixings", "buying", "work")
    return evolve(whole, **dict.fromkeys(rooms), reasons=Reasons(), findings=(stop,))
