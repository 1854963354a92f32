"""Other people's text in every paper: it may look odd, it may do no harm."""

import unicodedata
from html.parser import HTMLParser
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from drylay.findings import Finding, Severity
from drylay.papers.wording import clean
from drylay.plan.model import Plan
from drylay.reasons import Reasons
from papers import measured
from plan.sample import MEMORY, blocked_plan, sample_plan

NASTY = [
    "<script>alert('x')</script>",
    '"><img src=x onerror=alert(1)>',
    "]]><!-- & &amp; &#60; -->",
    "line one\nline two\r\n\tthree\x0b\x0c",
    "\u202edrawkcab\u2066 \u200f\u061c\u200b",
    "null \x00 bell \x07 escape \x1b[31m delete \x7f",
    "\ufffe\uffff\U0001f1e6\U000e0041",
    "e\u0301" * 40,
    "\u05d3\u05e7 \u0627\u0644\u0633\u0637\u062d \u7532\u677f",
    "=1+1;@SUM(A1)",
    "../../etc/passwd",
    "W" * 5_000,
    "\ufdfd" * 50,
    "%s %n {0} {plan} $HOME `id`",
    "",
    "   ",
]


def poisoned(text: str) -> Plan:
    """The sample with one text everywhere that a brief, a catalogue or a family may put one."""
    plan = sample_plan(row_length_mm=6000.0, title=text)
    finding = Finding(code="X-001", severity=Severity.CAUTION, subject=text, message=text,
                      measured=1.0, unit=text, source=evolve(MEMORY, title=text))  # fmt: skip
    decisions = tuple(
        evolve(d, rule=text or "r", value=text if isinstance(d.value, str) else d.value,
               source=evolve(d.source, title=text, clause=text))
        for d in plan.reasons.decisions
    )  # fmt: skip
    buying = evolve(
        plan.buying, currency=text[:12], vat=text,
        order=tuple(evolve(line, article=text, title=text) for line in plan.buying.order),
        spares=tuple(evolve(line, article=text, title=text) for line in plan.buying.spares),
        packs=tuple(evolve(pack, article=text, what=text) for pack in plan.buying.packs),
        purchases=tuple(evolve(part, article=text, grade=text) for part in plan.buying.purchases),
    )  # fmt: skip
    return evolve(
        plan,
        surface=evolve(plan.surface, board_article=text),
        frame=evolve(plan.frame, timber_article=text),
        edges=evolve(plan.edges, fascia_article=text),
        reasons=Reasons(decisions=decisions), findings=(finding,), cautions=(text,),
        not_checked=(text,), buying=buying,
    )  # fmt: skip


class Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.seen: set[str] = set()

    def handle_starttag(self, tag: str, attrs: object) -> None:  # noqa: ARG002
        self.seen.add(tag)


@pytest.mark.parametrize("text", NASTY, ids=range(len(NASTY)))
def test_every_paper_holds_hostile_text_without_harm(text: str) -> None:
    papers = drylay.papers(poisoned(text))
    drawings = {name for name in papers if name.endswith(".svg")}
    assert drawings == {"bars.svg", "boards.svg", "frame.svg", "rod.svg", "section.svg",
                        "setting-out.svg"}  # fmt: skip
    assert set(papers) - drawings == {
        "check_proof.py", "cuts.csv", "jobsheet.html", "labels.csv", "order.csv", "plan.json",
        "proof.json", "summary.txt",
    }  # fmt: skip
    for name in drawings:
        tags = {part.tag.removeprefix(measured.SVG) for part in ET.fromstring(papers[name]).iter()}
        assert tags <= {"svg", "title", "desc", "g", "rect", "line", "circle", "text"}
        assert measured.overlapping(papers[name]) == []
        assert measured.outside(papers[name]) == []
    for name in (*drawings, "jobsheet.html", "summary.txt"):
        shown = papers[name].decode("utf-8")
        assert not [s for s in shown if unicodedata.category(s) in ("Cc", "Cf", "Co") and s != "\n"]
    lines = papers["summary.txt"].decode("utf-8").splitlines()
    assert max(len(line) for line in lines) <= 78
    assert drylay.plan_from_json(papers["plan.json"].decode("ascii")) == poisoned(text)


@pytest.mark.parametrize("text", NASTY[:7], ids=range(7))
def test_marks_of_an_edited_plan_do_no_harm_in_a_drawing(text: str) -> None:
    plan = sample_plan(row_length_mm=6000.0)
    first, *rows = plan.surface.rows
    joist, *joists = plan.frame.joists
    length, *lengths = plan.buying.purchases[0].lengths
    bought = evolve(plan.buying.purchases[0],
                    lengths=(evolve(length, mark=text, pieces=(text,)), *lengths))  # fmt: skip
    edited = evolve(
        plan,
        surface=evolve(plan.surface, rows=(evolve(first, mark=text), *rows)),
        frame=evolve(plan.frame, joists=(evolve(joist, mark=text), *joists)),
        buying=evolve(plan.buying, purchases=(bought,)),
    )
    names = [name for name in drylay.papers(edited) if name.endswith(".svg")]
    for name, drawing in drylay.papers(edited, only=names).items():
        tags = {part.tag.removeprefix(measured.SVG) for part in ET.fromstring(drawing).iter()}
        assert tags <= {"svg", "title", "desc", "g", "rect", "line", "circle", "text"}, name


@pytest.mark.parametrize("text", NASTY, ids=range(len(NASTY)))
def test_a_notebook_shows_hostile_text_without_harm(text: str) -> None:
    tags = Tags()
    tags.feed(drylay.show(poisoned(text))._repr_html_())
    assert tags.seen <= {
        "div",
        "pre",
        "svg",
        "title",
        "desc",
        "g",
        "rect",
        "line",
        "circle",
        "text",
    }


@settings(max_examples=200, deadline=None)
@given(st.text())
def test_clean_text_is_one_printable_line(text: str) -> None:
    shown = clean(text)
    assert len(shown) <= 120
    assert "\n" not in shown
    assert not any(unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Co", "Cn") for sign in shown)
    assert clean(shown) == shown
    ET.fromstring(f"<a>{shown.replace('&', '&amp;').replace('<', '&lt;')}</a>")


def test_plain_text_stays_as_it_is() -> None:
    assert clean("Deck behind the house, 3.6 m") == "Deck behind the house, 3.6 m"
    assert clean("Größe Ø 145") == "Größe Ø 145"


def test_a_blocked_plan_with_hostile_text() -> None:
    plan = blocked_plan(title=NASTY[0])
    assert set(drylay.papers(plan)) == {"plan.json", "summary.txt"}
    assert drylay.show(plan)._repr_svg_() is None
    assert "<script" not in drylay.show(plan)._repr_html_()
