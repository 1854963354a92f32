"""What a key may hold: one noun per key, from which it is read and from which faults speak."""

from attrs import frozen


@frozen(kw_only=True)
class Key:
    """A key of a table.

    `kind` is one of "length", "lengths", "number", "count", "money", "text", "choice", "choices",
    "flag", "day", "gtin", "table", "tables", "measure". Bounds include their ends. A length
    `along_mm` is given in mm under that name, or as a text with its unit under `along`; a list
    of lengths likewise, whole. `digits` is how many decimals money may have.
    """

    name: str
    kind: str
    least: float = 0.0
    most: float = 0.0
    choices: tuple[str, ...] = ()
    required: bool = False
    digits: int = 0


#: Kinds that may be told in mm under one name, or as text with its unit under the bare one.
LENGTHS = ("length", "lengths")


def bare_name(key: Key) -> str:
    """Return the name under which a length is given as text with its unit."""
    return key.name.removesuffix("_mm")


def length(name: str, least: float, most: float, *, required: bool = False) -> Key:
    """Return the key of a length in mm."""
    return Key(name=name, kind="length", least=least, most=most, required=required)


def lengths(name: str, least: float, most: float) -> Key:
    """Return the key of a list of lengths in mm."""
    return Key(name=name, kind="lengths", least=least, most=most)


def number(name: str, least: float, most: float, *, required: bool = False) -> Key:
    """Return the key of a number whose unit stands in its name."""
    return Key(name=name, kind="number", least=least, most=most, required=required)


def count(name: str, least: int, most: int, *, required: bool = False) -> Key:
    """Return the key of a whole number."""
    return Key(name=name, kind="count", least=least, most=most, required=required)


def money(name: str, least: float, most: float, *, digits: int, required: bool = False) -> Key:
    """Return the key of a sum of money, as text or whole number, never a float."""
    return Key(name=name, kind="money", least=least, most=most, digits=digits, required=required)


def text(name: str, most: int = 80, *, required: bool = False, empty: bool = False) -> Key:
    """Return the key of one line of text of at most `most` characters."""
    return Key(name=name, kind="text", least=0.0 if empty else 1.0, most=most, required=required)


def choice(name: str, choices: tuple[str, ...], *, required: bool = False) -> Key:
    """Return the key of one word out of several."""
    return Key(name=name, kind="choice", choices=choices, required=required)


def choices(name: str, words: tuple[str, ...], *, least: int = 0) -> Key:
    """Return the key of a list of different words, at least `least` of them."""
    return Key(name=name, kind="choices", choices=words, least=least)


def flag(name: str, *, required: bool = False) -> Key:
    """Return the key of a yes or no."""
    return Key(name=name, kind="flag", required=required)


def day(name: str) -> Key:
    """Return the key of a day."""
    return Key(name=name, kind="day")


def gtin(name: str) -> Key:
    """Return the key of a trade item number with its check digit."""
    return Key(name=name, kind="gtin")


def table(name: str, *, required: bool = False) -> Key:
    """Return the key of a table, read apart."""
    return Key(name=name, kind="table", required=required)


def tables(name: str) -> Key:
    """Return the key of a list of tables, read apart."""
    return Key(name=name, kind="tables")
