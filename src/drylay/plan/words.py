"""The words that certain texts of a plan, a brief or a catalogue must be one of."""

from drylay.brief.model import (
    DOORS,
    ENDS,
    EXPOSURES,
    FACES_UP,
    JOINT_SUPPORTS,
    LINE_CHOICES,
    RUNS,
    SIDES,
    SPOIL,
    SUPPORTS,
    UNITS,
    USES,
    WAYS_OUT,
    BoardWish,
    Brief,
    FasciaWish,
    FrameWish,
    GroundworkWish,
    HouseWish,
    JointsWish,
    LightsWish,
    RowsWish,
    SiteWish,
)
from drylay.brief.outline_model import (
    BREAKERS,
    FIRST_ROWS,
    HOW,
    FieldWish,
    LayingWish,
    OpeningWish,
    OutlinePoint,
    OutlineRectangle,
)
from drylay.brief.raised_model import (
    FEET,
    FOOTINGS,
    INFILLS,
    SHAPES,
    WALLS,
    GuardsWish,
    RaisedWish,
    StepsWish,
)
from drylay.correcting.model import (
    BOARD_TAKES,
    CUT_DO,
    CUT_WHAT,
    WAYS_BACK,
    CutAgain,
    Laid,
    Recut,
    WayBack,
)
from drylay.edges.model import FasciaFace
from drylay.fixings.model import Finish, FixingMetal
from drylay.flights.model import Steps
from drylay.groundwork.model import Footing, Footings
from drylay.guards.model import Edge, Infill
from drylay.laying.model import PIECE_KINDS, LaidPiece, Zone
from drylay.materials.model import NO_RECORD, QUESTIONS
from drylay.materials.stock_model import (
    CLIP_ROLES,
    COATING_USES,
    FACES,
    METALS,
    ArticleRule,
    Board,
    Clip,
    CoachScrew,
    Coating,
    Hanger,
    PostFoot,
    Screw,
)
from drylay.outline.model import OPENING_KINDS, SIDE_KINDS, Opening, Side
from drylay.plan.model import Plan
from drylay.raised.model import (
    HEIGHT_CLASSES,
    SHARINGS,
    SOUND_WALLS,
    Brace,
    Ledger,
    Post,
    PostRow,
    RaisedDeck,
)
from drylay.reasons import SOURCE_KINDS, Source
from drylay.subframe.model import FACING_ENDS, MEMBER_KINDS, Facing, Member, Subframe
from drylay.surface.model import Surface, WayOut
from drylay.tiling.model import PAD_KINDS, OtherLay, Pad, Tiling
from drylay.tiling.outline_model import OUTLINE_PAD_KINDS, TILE_WAYS, OutlinePad, OutlineTiles

Words = dict[tuple[type, str], tuple[str, ...]]

WORDS: Words = {
    (Plan, "units"): UNITS,
    (Plan, "use"): USES,
    (Surface, "run"): RUNS,
    (Surface, "way_out"): WAYS_OUT,
    (WayOut, "kind"): WAYS_OUT,
    (WayOut, "run"): RUNS,
    (FasciaFace, "side"): SIDES,
    (Source, "kind"): SOURCE_KINDS,
    (Finish, "face_up"): FACES_UP,
    (FixingMetal, "metal"): METALS,
    (Tiling, "support"): SUPPORTS,
    (Tiling, "run"): RUNS,
    (Tiling, "way_out"): WAYS_OUT,
    (OtherLay, "run"): RUNS,
    (Pad, "kind"): PAD_KINDS,
    (OutlinePad, "kind"): OUTLINE_PAD_KINDS,
    (OutlineTiles, "support"): SUPPORTS,
    (OutlineTiles, "along_way"): TILE_WAYS,
    (OutlineTiles, "across_way"): TILE_WAYS,
    (Side, "kind"): SIDE_KINDS,
    (Opening, "kind"): OPENING_KINDS,
    (Zone, "first_row"): FIRST_ROWS,
    (LaidPiece, "kind"): PIECE_KINDS,
    (Member, "kind"): MEMBER_KINDS,
    (Facing, "start_end"): FACING_ENDS,
    (Facing, "end_end"): FACING_ENDS,
    (Subframe, "joist_run"): RUNS,
    (RaisedDeck, "sharing"): SHARINGS,
    (Ledger, "wall"): SOUND_WALLS,
    (Post, "height_class"): HEIGHT_CLASSES,
    (PostRow, "height_class"): HEIGHT_CLASSES,
    (Brace, "way"): RUNS,
    (Footings, "kind"): FOOTINGS,
    (Footings, "shape"): SHAPES,
    (Footing, "kind"): FOOTINGS,
    (Footing, "shape"): SHAPES,
    (Edge, "kind"): SIDE_KINDS,
    (Infill, "kind"): INFILLS,
    (Steps, "side"): SIDES,
    (Laid, "board_takes"): BOARD_TAKES,
    (WayBack, "kind"): WAYS_BACK,
    (CutAgain, "do"): CUT_DO,
    (Recut, "what"): CUT_WHAT,
}

#: What a brief and a catalogue may say; of a list, what each of its words may be.
INPUT_WORDS: Words = {
    (Brief, "units"): UNITS,
    (Brief, "use"): USES,
    (BoardWish, "run"): RUNS,
    (BoardWish, "ends"): ENDS,
    (BoardWish, "support"): SUPPORTS,
    (FrameWish, "lines"): LINE_CHOICES,
    (JointsWish, "support"): JOINT_SUPPORTS,
    (FasciaWish, "sides"): SIDES,
    (RowsWish, "prefer"): WAYS_OUT,
    (BoardWish, "face_up"): FACES_UP,
    (SiteWish, "exposure"): EXPOSURES,
    (HouseWish, "door_opens"): DOORS,
    (GroundworkWish, "spoil"): SPOIL,
    (LightsWish, "side"): SIDES,
    (OutlinePoint, "side"): SIDE_KINDS,
    (OutlineRectangle, "side"): SIDE_KINDS,
    (OutlineRectangle, "how"): HOW,
    (OpeningWish, "kind"): OPENING_KINDS,
    (LayingWish, "first_row"): FIRST_ROWS,
    (LayingWish, "breakers"): BREAKERS,
    (FieldWish, "first_row"): FIRST_ROWS,
    (HouseWish, "wall"): WALLS,
    (RaisedWish, "foot"): FEET,
    (RaisedWish, "footing"): FOOTINGS,
    (RaisedWish, "shape"): SHAPES,
    (GuardsWish, "infill"): INFILLS,
    (StepsWish, "side"): SIDES,
    (Board, "faces"): FACES,
    (Screw, "metal"): METALS,
    (CoachScrew, "metal"): METALS,
    (Clip, "role"): CLIP_ROLES,
    (Clip, "metal"): METALS,
    (Hanger, "metal"): METALS,
    (PostFoot, "metal"): METALS,
    (Coating, "use"): COATING_USES,
    (ArticleRule, "rule"): tuple(rule for rule in QUESTIONS if rule not in NO_RECORD),
    (Source, "kind"): SOURCE_KINDS,
}
