"""A mutated file yields nothing but the documented error: 300 of each kind, one fixed seed."""

import random
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from drylay.brief.codec import brief_to_dict
from drylay.brief.reader import check_brief, read_brief
from drylay.errors import CatalogueError, Fault, InputError
from drylay.materials.loader import check_catalogue, load_catalogue

ROOT = Path(__file__).parents[2]
FILES = [*(ROOT / "docs" / "examples").glob("*.toml"), *(ROOT / "catalogs").glob("*.toml")]
SPARE = ['"', "'", "[", "]", "{", "}", "=", ".", ",", "\n", "#", "\\", "-", "0", "9", "e", "\x00",
         "é", "½", "nan", "true", '"""', "[[", "1e999", "_", " ", "\r", "\ud800", "💡"]  # fmt: skip


def mutated(text: str, dice: random.Random) -> str:
    """Return a text with one to four places cut, doubled, moved or overwritten."""
    for _ in range(dice.randint(1, 4)):
        at, end = sorted(dice.sample(range(len(text)), 2))
        end = min(end, at + dice.choice([1, 1, 3, 12, 60]))
        part = dice.choice(["", dice.choice(SPARE), text[at:end] * 2, text[end : end + 20]])
        text = text[:at] + part + text[end:]
    return text


@pytest.mark.parametrize("path", sorted(FILES), ids=lambda path: path.stem)
def test_a_mutated_file_yields_faults_or_a_noun(path: Path, tmp_path: Path) -> None:
    read: Callable[[Path], object] = read_brief
    check: Callable[[Path], tuple[Fault, ...]] = check_brief
    if path.parent.name == "catalogs":
        read, check = load_catalogue, check_catalogue
    dice, text, refused = random.Random(20261125), path.read_text(encoding="utf-8"), 0
    for n in range(300):
        changed = tmp_path / f"{n}.toml"
        changed.write_bytes(mutated(text, dice).encode("utf-8", "surrogatepass"))
        faults = check(changed)
        if faults:
            refused += 1
            with pytest.raises(InputError) as caught:
                read(changed)
            assert caught.value.faults == faults
            assert all(fault.line >= 1 or "nested" in fault.found for fault in faults)
        else:
            read(changed)
    assert refused > 150


ODD: list[Any] = [
    None, True, 0, -1, 3.0, float("nan"), float("inf"), 10**400, "", "x" * 10_000, "6 m", "\ud800",
    b"x", [], [[]], {}, {"a": {"b": 1}}, (), object(), 1j, set(), range(3), lambda: 3, {None: 1},
    float, "3 in", 1e-300, -0.0,
]  # fmt: skip


def leaves(tree: Any, keys: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    if keys:
        yield keys
    pairs = tree.items() if isinstance(tree, dict) else ()
    for key, value in enumerate(tree) if isinstance(tree, list) else pairs:
        yield from leaves(value, (*keys, key))


def with_value(tree: Any, keys: tuple[Any, ...], value: Any) -> Any:
    if not keys:
        return value
    copy = tree.copy()
    copy[keys[0]] = with_value(tree[keys[0]], keys[1:], value)
    return copy


def test_any_value_anywhere_in_a_mapping_yields_faults_or_a_brief() -> None:
    plain = brief_to_dict(read_brief(ROOT / "docs" / "examples" / "long-terrace.toml"))
    for keys in leaves(plain):
        for odd in ODD:
            for fault in check_brief(with_value(plain, keys, odd)):
                assert fault.path
                assert fault.found
                assert str(fault).isprintable()
                assert len(str(fault)) < 1200


def test_any_value_anywhere_in_a_stock_mapping_yields_faults_or_a_catalogue() -> None:
    import tomllib

    text = (ROOT / "tests" / "reference" / "S03-stock.toml").read_text(encoding="utf-8")
    plain = tomllib.loads(text)
    for keys in leaves(plain):
        for odd in ODD:
            changed = with_value(plain, keys, odd)
            try:
                load_catalogue(changed)
            except CatalogueError as error:
                assert error.faults == check_catalogue(changed)  # noqa: PT017
