"""A garden with one thing of each kind, and places in it, for the tests of siting."""

from datetime import date

from drylay.siting.model import (
    Caster,
    DeckPlace,
    DrainCover,
    Fence,
    FirmTest,
    Flue,
    Garden,
    LowSpot,
    Meridian,
    Service,
    SunHours,
    Tree,
    WetSpot,
)

PLOT = ((-1000.0, 0.0), (12000.0, 0.0), (12000.0, 15000.0), (-1000.0, 15000.0))
JUNE = SunHours(day=date(2027, 6, 21), from_h=17.0, to_h=20.0)


def ring(x1: float, y1: float, x2: float, y2: float) -> tuple[tuple[float, float], ...]:
    return ((x1, y1), (x2, y1), (x2, y2), (x1, y2))


def place(**told: object) -> DeckPlace:
    plain: dict[str, object] = {
        "name": "A", "along_mm": 500.0, "across_mm": 500.0, "size_along_mm": 4000.0,
        "size_across_mm": 3000.0, "top_mm": 200.0, "stands": "ground", "ground_most_mm": 50.0,
        "ground_least_mm": -60.0, "build_mm": 175.0, "dig_mm": 150.0,
    }  # fmt: skip
    return DeckPlace(**(plain | told))  # type: ignore[arg-type]


def fence(**told: object) -> Fence:
    plain: dict[str, object] = {
        "name": "fence", "start_mm": (-1000.0, 15000.0), "end_mm": (12000.0, 15000.0),
        "height_mm": 1500.0, "private_mm": 8000.0,
    }  # fmt: skip
    return Fence(**(plain | told))  # type: ignore[arg-type]


def whole_garden() -> Garden:
    return Garden(
        meridian=Meridian(latitude_deg=51.5, longitude_deg=-0.1, utc_offset_h=1),
        along_bearing_deg=90.0,
        hours=(JUNE,),
        plot_mm=PLOT,
        clear_mm=500.0,
        door_mm=(4000.0, 0.0),
        casters=(
            Caster(name="house", corners_mm=ring(-1000, -8000, 9000, 0), height_mm=6000),
            Caster(name="shed", corners_mm=ring(-1000, 6000, 1000, 9000), height_mm=2400),
        ),
        fences=(
            fence(name="left fence", start_mm=(-1000.0, 0.0), end_mm=(-1000.0, 15000.0),
                  height_mm=1700.0, private_mm=6000.0),
            fence(name="back fence", beyond_mm=-200.0),
        ),
        services=(
            Service(name="cable", kind="electricity", line_mm=((3000, 0), (3000, 15000)),
                    depth_mm=450.0),
            Service(name="old pipe", kind="unknown", line_mm=((9000, 0), (9000, 15000))),
            Service(name="sewer", kind="sewer", line_mm=((-1000, 12000), (12000, 12000)),
                    depth_mm=900.0, shared=True),
            Service(name="line", kind="overhead line", line_mm=((-9000, 0), (-9000, 15000))),
        ),
        covers=(DrainCover(name="cover", at_mm=(3000, 2000), size_mm=600),),
        trees=(
            Tree(name="apple", at_mm=(10000, 10000), stem_mm=250, height_mm=5000, crown_mm=4000,
                 clear_mm=1500),
        ),
        flues=(Flue(name="flue", at_mm=(2000, 0), level_mm=2100.0),),
        wet=(WetSpot(name="puddle", corners_mm=ring(2000, 3000, 3500, 4500), stood_days=3),),
        low=LowSpot(name="lowest spot", at_mm=(2500, 3400)),
        firmness=(
            FirmTest(at_mm=(1000, 1000), kind="heel", sunk_mm=15.0),
            FirmTest(at_mm=(1500, 1000), kind="finger", sunk_mm=3.0),
        ),
    )  # fmt: skip
