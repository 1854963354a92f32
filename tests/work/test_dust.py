"""Cautions on dust stand where that very material is sawn, with what keeps it off."""

import pytest

from drylay.work.cautions import FamilyCautions, cautions_at, dust_tools

OAK = (
    "Hardwood dust can cause nasal cancer: saw with extraction, and wear a P3 mask.",
    "Wax sawn ends within hours.",
)
PLASTIC = ("Sawdust is rich in plastic: catch it.", "Colour batches differ: do not mix them.")


def at(task: str, texts: tuple[str, ...], *, sawn: bool, like_frame: bool) -> tuple[str, ...]:
    told = FamilyCautions(texts=texts, sawn=sawn, like_frame=like_frame)
    return cautions_at(task, ("saw",), (told,))


@pytest.mark.parametrize(
    ("task", "sawn", "like_frame", "told"),
    [
        ("cut_frame", True, False, False),  # oak boards on a softwood frame: not at the frame
        ("boards", True, False, True),
        ("trim", True, False, True),
        ("boards", False, False, False),  # whole boards: nothing of them is sawn
        ("cut_frame", False, True, True),  # boards of the frame's own make
    ],
)
def test_dust_bites_where_the_material_is_sawn(
    task: str, *, sawn: bool, like_frame: bool, told: bool
) -> None:
    found = at(task, OAK, sawn=sawn, like_frame=like_frame)
    assert (OAK[0] in found) == told
    assert (dust_tools(found) == ("extractor",)) == told
    assert any("a P3 mask at the saw" in text for text in found) == told
    assert any("a dust mask at the saw" in text for text in found) == (not told)


def test_what_is_said_of_whole_boards_is_said_though_none_is_sawn() -> None:
    found = at("boards", PLASTIC, sawn=False, like_frame=False)
    assert PLASTIC[1] in found
    assert PLASTIC[0] not in found
    assert dust_tools(at("boards", PLASTIC, sawn=True, like_frame=False)) == ("dust_bag",)
