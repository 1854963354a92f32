"""The scanner finds what tomllib reads, where it stands."""

import json
import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.intake.places import line_and_column, line_starts, places_of


def quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


NAMES = st.from_regex(r"[A-Za-z0-9_-]{1,6}", fullmatch=True)
SCALARS = st.one_of(
    st.integers(-(2**31), 2**31).map(str),
    st.floats(allow_nan=False, allow_infinity=False).map(lambda x: f"{x:.6f}"),
    st.sampled_from(["true", "false", "1979-05-27 07:32:00", "07:32:00", "inf", "-nan", "0x1F"]),
    st.text(st.characters(codec="utf-8", exclude_categories=["C"])).map(quoted),
    st.sampled_from(["'#]}'", '"a # b"', '"""\n"q" ""x"""""', "'''\n'''", '"\\"]"', "'''a''b'''"]),
)
SPACE = st.sampled_from(["", " ", "\n", " # note ]}\n", "\t"])
FLAT = st.sampled_from(["", " ", "\t"])


@st.composite
def lists(draw: st.DrawFn, items: st.SearchStrategy[str]) -> str:
    parts = [draw(SPACE) + item + draw(SPACE) for item in draw(st.lists(items, max_size=3))]
    tail = "," if parts and draw(st.booleans()) else ""
    return "[" + ",".join(parts) + tail + draw(SPACE) + "]"


@st.composite
def inline_tables(draw: st.DrawFn, items: st.SearchStrategy[str]) -> str:
    names = draw(st.lists(NAMES, max_size=3, unique=True))
    pairs = [f"{draw(FLAT)}{name}{draw(FLAT)}={draw(FLAT)}{draw(items)}" for name in names]
    return "{" + ",".join(pairs) + draw(FLAT) + "}"


VALUES = st.recursive(SCALARS, lambda inner: lists(inner) | inline_tables(inner), max_leaves=8)


@st.composite
def documents(draw: st.DrawFn) -> str:
    """Return TOML with sections and lists of tables, keys dotted and quoted here and there."""
    lines: list[str] = []
    for name in ["", *draw(st.lists(NAMES, max_size=4, unique=True))]:
        repeat = draw(st.integers(1, 3)) if name and draw(st.booleans()) else 0
        for _ in range(max(repeat, 1)):
            if name:
                lines.append(f"[[{name}]]" if repeat else f"[ {name} . sub ] # note")
            for key in draw(st.lists(NAMES, max_size=3, unique=True)):
                shape = draw(st.sampled_from(["k{}", '"k {}"', "'k {}'", "d{} . x", '"a.b{}".y']))
                lines.append(f"{draw(FLAT)}{shape.format(key)} = {draw(VALUES)} # note")
    return "\n".join(lines) + "\n"


def paths(tree: Any, keys: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    if keys:
        yield keys
    pairs = tree.items() if isinstance(tree, dict) else ()
    for key, value in enumerate(tree) if isinstance(tree, list) else pairs:
        yield from paths(value, (*keys, key))


def value_at(tree: Any, keys: tuple[Any, ...]) -> Any:
    for key in keys:
        tree = tree[key]
    return tree


@given(documents())
def test_the_scanner_finds_every_key_and_value_that_tomllib_reads(text: str) -> None:
    tree = tomllib.loads(text)
    places = places_of(text)
    assert set(places) == set(paths(tree))
    for keys, span in places.items():
        value = value_at(tree, keys)
        if not isinstance(value, dict | list):
            again = tomllib.loads(f"again = {text[span.start : span.end]}")["again"]
            assert repr(again) == repr(value)


@pytest.mark.parametrize(
    ("keys", "line", "column"),
    [
        (("title",), 1, 9),
        (("boards", 0, "code"), 4, 8),
        (("boards", 0, "lengths", 1, "price"), 7, 30),
        (("boards", 1), 9, 1),
        (("boards", 1, "source", "kind"), 11, 8),
    ],
)
def test_places_counted_by_eye(keys: tuple[Any, ...], line: int, column: int) -> None:
    text = "\n".join(
        [
            'title = "x"',
            "",
            "[[boards]]",
            'code = "A"',
            "lengths = [",
            '  { length_mm = 1, price = "2" },',
            '  { length_mm = 3,  price  = "4" },',
            "]",
            "[[boards]]",
            "[boards.source]",
            'kind = "x"',
        ]
    )
    assert line_and_column(line_starts(text), places_of(text)[keys].start) == (line, column)


@given(text=st.text("ab\n", max_size=30), at=st.integers(0, 30))
def test_a_line_and_a_column_lead_back_to_their_place(text: str, at: int) -> None:
    at = min(at, len(text))
    line, column = line_and_column(line_starts(text), at)
    lines = text.split("\n")
    assert sum(len(before) + 1 for before in lines[: line - 1]) + column - 1 == at
    assert column - 1 <= len(lines[line - 1])
