"""What the hand-made deck was made from: its brief and its stock."""

from decimal import Decimal

from audit.sample_coats import sample_coatings
from audit.sample_deck import (
    RECORD,
)
from audit.sample_site import house, levels_wish
from drylay.brief.model import (
    BoardWish,
    Brief,
    CoverWish,
    CuttingWish,
    FasciaWish,
    FinishWish,
    FixingsWish,
    FrameWish,
    GapWish,
    JointsWish,
    LightsWish,
    Override,
)
from drylay.materials.stock_model import (
    ArticleRule,
    Board,
    Catalogue,
    CoachScrew,
    FasciaBoard,
    Hanger,
    Pack,
    Screw,
    StockLength,
    Timber,
)


def sample_brief() -> Brief:
    return Brief(
        title="Hand-made deck",
        cover=CoverWish(along_mm=4085.0, across_mm=595.0),
        finish=FinishWish(preserver="QP-1", end_wax="QW-1", article="QO-1"),
        board=BoardWish(article="QB-28-145", face_up="smooth"),
        house=house(),
        levels=levels_wish(),
        frame=FrameWish(article="QT-45-120", most_centres_mm=400.0),
        fixings=FixingsWish(
            screw="QS-45-70", coach_screw="QC-8-110", frame_screw="QN-6-90",
            fascia_screw="QF-5-50", hanger="QH-45-90",
        ),
        gap=GapWish(preferred_mm=5.0, least_mm=4.0, most_mm=8.0),
        fascia=FasciaWish(sides=("right", "front", "left"), article="QF-20-120"),
        joints=JointsWish(end_gap_mm=4.0, most_per_row=1, price_each=Decimal("0.50")),
        cutting=CuttingWish(kerf_mm=3.0),
        lights=LightsWish(count=2, side="house", hole_mm=40.0, depth_mm=60.0),
        overrides=(
            Override(
                path="frame.noggin_spacing_most_mm", value=300.0, unit="mm",
                by="A. Nobody, engineer (invented)", reason="a sample",
            ),
        ),
    )  # fmt: skip


def sold(
    length: float, price: str, limit: int | None = None, pack: int = 1
) -> tuple[StockLength, ...]:
    return (StockLength(length_mm=length, price=Decimal(price), limit=limit, pack=pack),)


def boxes(count: int, price: str) -> tuple[Pack, ...]:
    return (Pack(count=count, price=Decimal(price)),)


def sample_stock() -> Catalogue:
    def titled(code: str) -> dict[str, str]:
        return {"code": code, "title": f"{code} (invented)"}

    return Catalogue(
        name="Quillhaven Yard (invented)", currency="EUR", vat="included",
        boards=(
            Board(
                **titled("QB-28-145"), family="softwood", width_mm=145.0, thickness_mm=28.0,
                faces="one grooved",
                lengths=sold(3000.0, "12.00", pack=7), use_class=3,
                rules=(ArticleRule(rule="stagger_bays", value=2.0, source=RECORD),),
            ),
        ),
        timbers=(
            Timber(
                **titled("QT-45-120"), thickness_mm=45.0, depth_mm=120.0,
                lengths=sold(3000.0, "7.50"), use_class=4,
            ),
        ),
        fascias=(
            FasciaBoard(
                **titled("QF-20-120"), thickness_mm=20.0, depth_mm=120.0,
                lengths=sold(2400.0, "6.00", 5), use_class=3,
            ),
        ),
        screws=(
            Screw(
                **titled("QN-6-90"), shank_mm=6.0, length_mm=90.0, driver="star 30",
                metal="coated for treated timber", packs=boxes(100, "22.00"),
            ),
            Screw(
                **titled("QF-5-50"), shank_mm=5.0, length_mm=50.0, driver="star 20",
                metal="stainless A2", packs=boxes(50, "8.00"),
            ),
            Screw(
                **titled("QS-5-40"), shank_mm=5.0, length_mm=40.0, metal="hot-dip galvanised",
                packs=boxes(200, "15.00"),
            ),
            Screw(
                **titled("QS-45-70"), shank_mm=4.5, length_mm=70.0, metal="stainless A2",
                packs=(
                    Pack(count=100, price=Decimal("12.00")),
                    Pack(count=50, price=Decimal("7.00")),
                ),
            ),
        ),
        hangers=(
            Hanger(
                **titled("QH-45-90"), joist_mm=45.0, depth_mm=90.0, metal="hot-dip galvanised",
                screw="QS-5-40", screws_each=8, packs=boxes(10, "18.00"),
            ),
        ),
        coatings=sample_coatings(),
        coach_screws=(
            CoachScrew(
                **titled("QC-8-110"), shank_mm=8.0, length_mm=110.0, head_mm=7.5,
                metal="hot-dip galvanised",
                packs=(
                    Pack(count=50, price=Decimal("28.00")),
                    Pack(count=25, price=Decimal("15.00")),
                ),
            ),
        ),
    )  # fmt: skip
