"""A job sheet read from its HTML alone, by somebody who trusts no tag."""

from html.parser import HTMLParser

VOID = {"meta", "input"}
HEADINGS = {f"h{rank}": rank for rank in range(1, 7)}
DRAWN = {"svg", "title", "desc", "g", "rect", "line", "circle", "polygon", "text"}
TAGS = DRAWN | VOID | set(HEADINGS) | set(
    "html head style body main header section p ul li div figure figcaption table caption thead "
    "tbody tr th td span".split()
)  # fmt: skip


class Sheet(HTMLParser):
    """What a file holds, and everything in it that is not as it should be.

    `parts` holds the text outside drawings by the heading of the second rank above it, "" above
    the first; `rows` the cells of every row of a table, likewise.
    """

    def __init__(self, held: bytes) -> None:
        super().__init__(convert_charrefs=True)
        self.wrongs: list[str] = []
        self.parts: dict[str, list[str]] = {"": []}
        self.rows: dict[str, list[list[str]]] = {}
        self.headings: list[tuple[int, str]] = []
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.ids: list[str] = []
        self.style = ""
        self._open: list[str] = []
        self.feed(held.decode("utf-8"))
        self.close()
        self.wrongs += [f"not closed: {tag}" for tag in self._open]
        self.wrongs += [f"id twice: {name}" for name in set(self.ids) if self.ids.count(name) > 1]
        ranks = [rank for rank, _ in self.headings]
        self.wrongs += [f"rank {b} after {a}" for a, b in zip([0, *ranks], ranks) if b > a + 1]  # noqa: B905

    def handle_decl(self, decl: str) -> None:
        if decl != "DOCTYPE html" or self.tags:
            self.wrongs.append(f"declaration {decl}")

    def handle_comment(self, data: str) -> None:
        self.wrongs.append(f"comment {data}")

    def handle_pi(self, data: str) -> None:
        self.wrongs.append(f"instruction {data}")

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = {name: value or "" for name, value in attrs}
        self.tags.append((tag, told))
        self._look(tag, told)
        if len(told) != len(attrs):
            self.wrongs.append(f"attribute twice in {tag}")
        self.ids += [told["id"]] if "id" in told else []
        if tag in HEADINGS:
            self.headings.append((HEADINGS[tag], ""))
        if tag in ("td", "th"):
            self.rows[self._heading][-1].append("")
        if tag == "tr":
            self.rows.setdefault(self._heading, []).append([])
        if tag not in VOID:
            self._open.append(tag)

    def _look(self, tag: str, told: dict[str, str]) -> None:
        if tag not in TAGS:
            self.wrongs.append(f"tag {tag}")
        if tag in DRAWN and tag != "svg" and "svg" not in self._open and tag != "title":
            self.wrongs.append(f"{tag} outside a drawing")
        for name, value in told.items():
            link = name in ("src", "href", "srcset", "style", "action", "xlink:href")
            if name.startswith("on") or link or "javascript:" in value.lower():
                self.wrongs.append(f"{tag} {name}={value}")
        if tag == "th" and told.get("scope") not in ("col", "row"):
            self.wrongs.append("th without scope")
        if tag == "input" and not told.get("aria-label"):
            self.wrongs.append("box without a name")

    def handle_endtag(self, tag: str) -> None:
        if not self._open or self._open[-1] != tag:
            self.wrongs.append(f"{tag} closed in {self._open[-3:]}")
            return
        self._open.pop()

    def handle_data(self, data: str) -> None:
        if "style" in self._open:
            self.style += data
        elif "svg" not in self._open and self._open and "head" not in self._open:
            if self._open[-1] in HEADINGS:
                rank, before = self.headings[-1]
                self.headings[-1] = (rank, before + data)
                if rank == 2:
                    self.parts.setdefault(data, [])
            self.parts[self._heading].append(data)
            if {"td", "th"} & set(self._open):
                self.rows[self._heading][-1][-1] += data

    @property
    def _heading(self) -> str:
        return list(self.parts)[-1]

    def part(self, heading: str) -> str:
        """Return the text under one heading, in one line."""
        return " ".join(" ".join(self.parts[heading]).split())

    @property
    def text(self) -> str:
        """The whole text outside drawings, in one line."""
        return " ".join(self.part(heading) for heading in self.parts)
