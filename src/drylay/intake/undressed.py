"""A number freed of what stands around it: marks of thousands, a currency, a dash for no cents."""

import re

#: A number in thousands, or with a currency beside it: what it means is plain to a person only.
_DRESSED = re.compile(r"[^\d,.-]*(-?\d[\d,.' \u00a0\u202f]*\d|\d)[^\d,.-]*", re.ASCII)
_DASH = re.compile(r"(?<=\d)[.,][-\u2013\u2014]+(?=\D*$)", re.ASCII)
_NUMBER = {mark: re.compile(rf"-?\d{{1,12}}(?:{re.escape(mark)}\d{{1,9}})?", re.ASCII)
           for mark in ".,"}  # fmt: skip


def undressed(text: str, decimal: str) -> str:
    """Return a number without thousands marks and currency, "" where it may mean two things."""
    match = _DRESSED.fullmatch(_DASH.sub("", text)) if len(text) <= 40 else None
    if match is None:
        return ""
    bare = re.sub(r"[' \u00a0\u202f]", "", match[1])
    marks = re.findall(r"[.,]", bare)
    if len(set(marks)) == 2:  # the last of two unlike marks parts the decimals
        last = max(bare.rfind("."), bare.rfind(","))
        bare = re.sub(r"[.,]", "", bare[:last]) + decimal + bare[last + 1 :]
    elif len(marks) == 1 and not re.search(r"[.,]\d{3}$", bare):
        bare = re.sub(r"[.,]", decimal, bare)
    elif marks and marks[0] != decimal:
        bare = bare.replace(marks[0], "")
    return bare if bare != text and _NUMBER[decimal].fullmatch(bare) else ""


def undressed_money(text: str, digits: int) -> str:
    """Return a sum as money is written in TOML, "" where it may mean two things.

    One comma before three digits parts thousands or decimals: no mapping says which.
    """
    if len(re.findall(r"[.,]", text)) == 1 and re.search(r",\d{3}(?!\d)", text, re.ASCII):
        return ""
    bare = undressed(text, ".")
    return bare if len(bare.partition(".")[2]) <= digits else ""
