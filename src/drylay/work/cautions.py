"""Cautions, chosen by what a task of this very deck does, and the family's own where they bite."""

import re

from attrs import frozen

#: Cautions of ours by what a task does. Common practice unless a source stands in the words.
OF_A_KIND: dict[str, tuple[str, ...]] = {
    "dig": (
        "Scan for buried cables and pipes before every dig; dig by hand near them, and stop at "
        "any that nobody knows.",
        "Wear boots; keep a straight back and small loads on the spade.",
    ),
    "saw": (
        "Mains tools outdoors only behind a residual-current device; none in the rain.",
        "Wear ear and eye protection and a dust mask at the saw, clamp what you saw, and keep "
        "hands and cable behind the blade.",
    ),
    "treated": ("Sweep up the dust of treated wood; never burn or compost it or the offcuts.",),
    "preserver": (
        "Wear gloves and goggles with preserver, read its label, keep it off soil, drains, ponds "
        "and animals, and wash before eating.",
    ),
    "lift": (
        "Lift with two where a piece is over 25 kg (55 lb) or longer than you can hold level (HSE "
        "guidance, from memory).",
    ),
    "drill": (
        "Wear eye protection when drilling and driving; keep the other hand off the line of the "
        "bit.",
    ),
    "tips": ("Screw tips may stand out on the far side: feel for none with bare hands.",),
    "kneel": ("Wear knee pads; walk on joists only, never between them, until boards are down.",),
    "electric": (
        "Fixed wiring, its supply and its test are a licensed electrician's work; extra-low "
        "voltage alone does not change that near a pool.",
    ),
    "coat": (
        "Rags with oil heat themselves and can catch fire: soak them in water or lay them flat "
        "outdoors to dry.",
        "Wear gloves, read the tin, keep it off drains and ponds.",
    ),
    "hole": (
        "Board over or fence off open holes until they are filled, and keep children away.",
    ),
    "cement": (
        "Wet concrete burns skin and eyes: wear gloves, goggles and boots, wash it off at once, "
        "and wear a dust mask when bags are opened and mixed.",
    ),
    "stay": (
        "Stay every post both ways before you let go of it; nobody climbs on or stands under what "
        "is not stayed or braced.",
    ),
    "wall": ("Look for cables and pipes in the wall before you drill it.",),
    "edge": (
        "The edge is a drop of more than 600 mm (2 ft): until guards are up keep a rail or barrier "
        "along it, work from inside, and let nobody else on.",
    ),
    "use_turf": (
        "Keep barbecues, fire pits and glass that throws the sun's glare 2 m or more clear: strips "
        "of turf melt.",
        "Wet or green boards are slippery: sweep them, wash them, and keep the gaps open.",
    ),
    "tile": (
        "Wear knee pads, gloves against sharp edges, and boots: a dropped tile breaks toes.",
        "Lift a tile over 25 kg (55 lb) with two (HSE guidance, from memory), best with a suction "
        "lifter.",
    ),
    "silica": (
        "Cutting these tiles makes crystalline silica dust, limit 0.1 mg/m3 over 8 hours (EH40), "
        "which a single dry cut can pass: cut wet or with M-class extraction, and wear a P3 mask "
        "as well; keep others away.",
    ),
    "cut_tile": (
        "Mains tools outdoors only behind a residual-current device; none in the rain.",
        "Wear ear and eye protection, clamp what you cut, and keep hands and cable behind the "
        "blade.",
    ),
    "use_tiles": (
        "Wet or green tiles are slippery: wash them; ask the merchant for their wet pendulum "
        "value.",
    ),
    "use": (
        "Keep barbecues and heaters 1 m or more clear and on a mat; hot coals burn through boards.",
        "Wet or green boards are slippery: sweep them, wash them, and keep the gaps open.",
    ),
}  # fmt: skip

#: Words in a family's sentences that say at which task they bite. Families write sentences, so
#: this finds as much as their words allow; all of them stand in the plan's cautions anyway.
BITES = {
    "delivery": r"zinc|galvanised|galvanized|stainless",
    "check": r"local|rules|before 2006|take out|taken out|old timber",
    "dig": r"dig|digging|buried|services",
    "cut_frame": r"saw|sawing|sawn|sanding|dust|preserver|offcuts?|notch|blade",
    "frame": r"lift|lifting|heavy|notch",
    "posts": r"sawn|notch",
    "pads": r"roof|membrane|base|drain",
    "tiles": r"lift|lifting|heavy|kneel|knee|loose|slippery",
    "cut_tiles": r"silica|cut|cutting|saw|dust|mask",
    "boards": r"rip|ripped|slippery|kneel|nails?|strips?|inserts?|tannin|batch|batches"
    r"|saw|sawing|sawn|sanding|dust|sawdust|offcuts?|blade|wax|moisture|temperature|fix",
    "trim": r"saw|sawing|sawn|dust|sawdust|blade|wax",
    "finish": r"coat|oil|stain|paint",
    "hand_over": r"slippery|sweep|burn|salt|pools?|barbecue",
}


#: Words of a family's sentences that ours of a kind have said already.
SAID = {
    "saw": r"ear and eye protection|dust mask",
    "treated": r"burn treated",
    "preserver": r"gloves and goggles",
    "use": r"slippery",
    "use_turf": r"slippery|barbecue",
    "use_tiles": r"slippery",
    "silica": r"silica",
    "tile": r"knee|25 kg",
}


#: Words of what a saw does to the material itself: it bites only where that material is sawn.
SAWING = re.compile(
    r"\b(?:saw|sawing|sawn|sanding|dust|sawdust|offcuts?|blade|wax|notch|rip|ripped)\b",
    re.IGNORECASE,
)
#: Where boards themselves are sawn, and where the frame is.
BOARDS_SAWN, FRAME_SAWN = frozenset({"boards", "trim"}), frozenset({"cut_frame", "fascia", "posts"})
#: What a family says where a plain dust mask will not do, and where dust must not fly.
P3, CATCH = "P3 mask", re.compile(r"\bcatch\b", re.IGNORECASE)


@frozen(kw_only=True)
class FamilyCautions:
    """A family's sentences; whether any of its boards is sawn, and the frame is of its make."""

    texts: tuple[str, ...]
    sawn: bool = True
    like_frame: bool = False


def cautions_at(
    key: str, kinds: tuple[str, ...], families: tuple[FamilyCautions, ...]
) -> tuple[str, ...]:
    """Return what to take care of at one task: ours, then the families' that bite here."""
    theirs = tuple(text for family in families for text in _biting(key, kinds, family))
    ours = tuple(text for kind in kinds for text in OF_A_KIND[kind])
    if any(P3 in text for text in theirs):
        ours = tuple(text.replace("a dust mask", f"a {P3}") for text in ours)
    return tuple(dict.fromkeys((*ours, *theirs)))


def dust_tools(cautions: tuple[str, ...]) -> tuple[str, ...]:
    """Return the keys of the tools that cautions at one task ask for against dust."""
    if any(P3 in text for text in cautions):
        return ("extractor",)
    return ("dust_bag",) if any(CATCH.search(text) for text in cautions) else ()


def _biting(key: str, kinds: tuple[str, ...], family: FamilyCautions) -> list[str]:
    """Return a family's sentences that bite at a task and are not said there by ours."""
    if key not in BITES:
        return []
    bites = re.compile(rf"\b(?:{BITES[key]})\b", re.IGNORECASE)
    said = [re.compile(SAID[kind], re.IGNORECASE) for kind in kinds if kind in SAID]
    sawn = (key not in BOARDS_SAWN or family.sawn) and (key not in FRAME_SAWN or family.like_frame)
    return [
        text
        for text in family.texts
        if bites.search(text)
        and (sawn or not SAWING.search(text))
        and not any(each.search(text) for each in said)
    ]
