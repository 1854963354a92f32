"""Finish on boards and fascia: how much, its decisions, and boards that want none."""

from drylay.edges.model import Edges
from drylay.findings import Finding, Severity
from drylay.fixings.coats import Coat, Face, Tops, coat_faces, face_up
from drylay.fixings.model import Finish
from drylay.planner.built import Framed
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE, Row, brief_says, merchant_says, row
from drylay.reasons import Ruling, Source
from drylay.surface.model import Surface

AT = "fixings.finish"
#: How many coats the boards of field and border want, 0 for none.
COATS = {"field": "fixings.board_finish_coats", "border": "fixings.border_finish_coats"}
UNTOLD = Source(kind="assumption", title="docs/conventions.md", clause="Preserver and finish")


def bare(job: Job) -> tuple[str, ...]:
    """Return which boards want no finish: the field's, the border's, both or none."""
    return tuple(part for part in _parts(job) if not job.rules.count(COATS[part]))


def _parts(job: Job) -> tuple[str, ...]:
    return ("field", "border") if job.articles.border else ("field",)


def brushed(job: Job, surface: Surface, edges: Edges) -> Finish | None:
    """Return the finish for boards that want one and the fascia; None where none wants any."""
    article, none = job.articles.finish, bare(job)
    if article is None or none == _parts(job):
        return None
    return coat_faces(
        Coat(
            article=article.code,
            coats=job.rules.count(f"{AT}.coats"),
            covers_m2_per_l=article.covers_m2_per_l,
        ),
        field=Tops(
            up=face_up(job.articles.board.faces, job.brief.board.face_up),
            groove_ratio=job.rules.value(f"{AT}.groove_ratio"),
            rows=() if "field" in none else _tops(surface, border=False),
        ),
        border=_border_tops(job, surface, none),
        fascia=[Face(length_mm=f.length_mm, width_mm=edges.fascia_depth_mm) for f in edges.faces],
    )


def _tops(surface: Surface, *, border: bool) -> tuple[Face, ...]:
    return tuple(
        Face(length_mm=surface.row_length_mm, width_mm=line.width_mm)
        for line in surface.rows
        if line.border == border
    )


def _border_tops(job: Job, surface: Surface, none: tuple[str, ...]) -> Tops | None:
    """Return the tops of the border's boards: the brief's face up speaks of the field alone."""
    board = job.articles.border
    if board is None:
        return None
    return Tops(
        up=face_up(board.faces, None),
        groove_ratio=job.rules.value(f"{AT}.border_groove_ratio"),
        rows=() if "border" in none else _tops(surface, border=True),
    )


def rows(job: Job, finish: Finish | None) -> list[Row]:
    """Return the decisions taken on the finish, none where there is none."""
    if finish is None:
        return []
    path = f"{AT}.groove_ratio"
    smooth = Ruling(value=0.0, unit="ratio", rule="smooth face up: it has no grooves",
                    source=_says_up(job))  # fmt: skip
    ruling = smooth if finish.face_up == "smooth" else job.rules.rulings[path]
    return [
        (path, ruling.value, ruling, ()),
        *_border_groove_rows(job, finish),
        row(f"{AT}.area_m2", finish.area_m2, "m2",
            f"tops of the boards, {finish.face_up} face up, and outer faces of the fascia",
            _says_up(job), (("boards_m2", finish.boards_m2), ("fascia_m2", finish.fascia_m2))),
    ]  # fmt: skip


def _border_groove_rows(job: Job, finish: Finish) -> list[Row]:
    path, board = f"{AT}.border_groove_ratio", job.articles.border
    if board is None:
        return []
    smooth = Ruling(value=0.0, unit="ratio", rule="smooth face up: it has no grooves",
                    source=merchant_says(job, board.code))  # fmt: skip
    ruling = smooth if finish.border_face_up == "smooth" else job.rules.rulings[path]
    return [(path, ruling.value, ruling, ())]


def _says_up(job: Job) -> Source:
    """Return who says which face of the boards lies up."""
    board = job.articles.board
    if job.brief.board.face_up is not None:
        return brief_says("board.face_up")
    if board.faces is None:
        return UNTOLD
    return PRACTICE if board.faces == "one grooved" else merchant_says(job, board.code)


def remarks(job: Job, built: Framed) -> list[Finding]:
    """Return what is worth telling about the finish: nothing where the brief names none."""
    if job.articles.finish is None:
        return []
    return [*_not_wanted(job), *_all_the_same(job), *_notes(job, built)]


def _not_wanted(job: Job) -> list[Finding]:
    """Return the caution that boards want no finish, and what becomes of the one named."""
    none, article = bare(job), job.articles.finish
    if not none or article is None:
        return []
    whose = "these boards" if none == _parts(job) else f"the {none[0]}'s boards"
    left = "it is not in the order" if none == _parts(job) else "none of it is reckoned for them"
    faced = ", for the fascia neither" if none == _parts(job) and job.brief.fascia.sides else ""
    ruling = job.rules.rulings[COATS[none[0]]]
    return [
        Finding(
            code="COT-006",
            severity=Severity.CAUTION,
            subject="finish",
            message=f"the brief names {article.code}, and {whose} want no finish: {left}{faced}; "
            "say how many coats (finish.coats) to have it all the same",
            measured=float(ruling.value or 0),
            limit=1.0,
            unit="coats",
            source=ruling.source,
        )
    ]


def _all_the_same(job: Job) -> list[Finding]:
    """Return the note on coats that the brief wants of boards which want none."""
    unasked = [
        part
        for part in _parts(job)
        if job.brief.finish.coats
        and dict(job.rules.rulings[COATS[part]].inputs).get("otherwise") == 0
    ]
    if not unasked:
        return []
    whose = "these boards" if tuple(unasked) == _parts(job) else f"the {unasked[0]}'s boards"
    return [
        Finding(
            code="COT-007",
            severity=Severity.NOTE,
            subject="finish",
            message=f"{whose} want no finish, and the brief has it brushed on all the same: ask "
            "the maker whether it holds on them",
            measured=float(job.brief.finish.coats or 0),
            limit=0.0,
            unit="coats",
            source=brief_says("finish.coats"),
        )
    ]


def _notes(job: Job, built: Framed) -> list[Finding]:
    board = job.articles.board
    if built.fixings.finish is None:
        return []
    notes = [
        ("COT-002", "wait until the timber is under 20 % moisture: on wet timber a finish peels",
         PRACTICE),
    ]  # fmt: skip
    field = "field" not in bare(job)
    if field and board.faces is None and job.brief.board.face_up is None:
        notes.append(("COT-003", "the stock does not say how the board's faces are worked: "
                      "reckoned as grooved, which takes more", UNTOLD))  # fmt: skip
    if field and board.faces == "one grooved" and job.brief.board.face_up is None:
        notes.append(("COT-004", "the board is grooved on one face, and the brief leaves open "
                      "which: smooth face up, kinder to feet", PRACTICE))  # fmt: skip
    return [
        Finding(code=code, severity=Severity.NOTE, subject="finish", message=message,
                source=source)
        for code, message, source in notes
    ]  # fmt: skip
