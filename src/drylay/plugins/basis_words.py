"""Whether a word is one of a design basis's own, which may be forms with figures and names in."""

import re
from collections.abc import Iterable


def fits(word: str, forms: Iterable[str]) -> bool:
    """Return whether a word is of one of these forms, such as `stated RATIO by WHO`.

    A form's words in capitals stand for anything of one word, the last for one or more; capitals
    and spaces of the others are free. What stands for figures is the basis's to judge.
    """
    said = " ".join(word.split())
    return any(_pattern(form).fullmatch(said) for form in forms)


def _pattern(form: str) -> re.Pattern[str]:
    words = form.split()
    parts = [_part(word, is_last=at == len(words) - 1) for at, word in enumerate(words)]
    return re.compile(" ".join(parts), re.IGNORECASE)


def _part(word: str, *, is_last: bool) -> str:
    if not (word.isalpha() and word.isupper() and len(word) > 1):
        return re.escape(word)
    return r"\S.*" if is_last else r"\S+"
