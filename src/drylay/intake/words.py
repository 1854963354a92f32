"""Words that are written for others: what a choice is called elsewhere, and the nearest word."""

from difflib import get_close_matches

#: What is meant by a word that no likeness of letters leads to. Assumption.
MEANT = {
    "semicolon": ";", "semi-colon": ";", "comma": ",", "pipe": "|", "bar": "|", "\t": "tab",
    "ansi": "windows-1252", "cp1252": "windows-1252", "1252": "windows-1252",
    "latin1": "iso-8859-1", "latin-1": "iso-8859-1", "latin9": "iso-8859-15", "utf8": "utf-8",
    "a2": "stainless A2", "a4": "stainless A4", "304": "stainless A2", "316": "stainless A4",
    "planed": "smooth", "ribbed": "grooved", "reeded": "grooved",
    "point": ".", "dot": ".",
}  # fmt: skip


def nearest_of(word: object, known: tuple[str, ...]) -> str:
    """Return the known word most like this one, "" if none is."""
    if not isinstance(word, str) or len(word) > 60:
        return ""
    close = get_close_matches(word.lower(), known, n=1, cutoff=0.6)
    # a word half as long shares a few letters with it, and no more
    return close[0] if close and 2 * len(close[0]) >= len(word) else ""


def nearest_choice(word: object, choices: tuple[str, ...]) -> str:
    """Return the choice that a word means or is most like, "" if none is."""
    meant = MEANT.get(word.lower(), "") if isinstance(word, str) else ""
    if meant in choices:
        return meant
    near = nearest_of(word, choices)
    return near if _begin_alike(word, near) else ""


def _begin_alike(word: object, near: str) -> bool:
    """Return whether first words are alike too: "cavity masonry" is no slip for a solid one."""
    if not isinstance(word, str) or " " not in word or " " not in near:
        return True
    return bool(get_close_matches(word.lower().split()[0], near.split()[:1], n=1, cutoff=0.6))


def told_choices(choices: tuple[str, ...]) -> str:
    """Return choices as a fault lists them: marks in quotes, words as they stand."""
    plain = all(word[:1].isalnum() for word in choices)
    return ", ".join(choices) if plain else ", ".join(f'"{word}"' for word in choices)
