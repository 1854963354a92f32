"""Planted faults in the work of decks that stand: each with the deck that it is planted in."""

from attrs import evolve

from audit.edits import put
from audit.planting import Edit, Fault, by, to, turned, without
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.work.model import NotOrdered, PostPlace, PostTie, Task, Upkeep

PRACTICE = Source(kind="common practice", title="common practice, no source", clause="a test")
OUT, LOOSE = "work.setting_out", "work.not_ordered"
HELD = "held"

#: On the ground nothing stands: what is told of posts there is a fault.
ON_THE_GROUND: tuple[Fault, ...] = (
    ("AUD-907", "places of posts where none stand", to(f"{OUT}.posts", (
        PostPlace(mark="PO1", along_mm=1.0, across_mm=1.0, from_along_mm=1.0,
                  from_across_mm=1.0),))),
    ("AUD-907", "a diagonal over posts where none stand", to(f"{OUT}.post_ties", (
        PostTie(start="P1", end="P3", length_mm=1.0),))),
    ("AUD-908", "ties of joists to no bearer", to(LOOSE, (
        NotOrdered(what="joist ties", each="one", count=3, source=PRACTICE),))),
    ("AUD-909", "feet of posts probed where none stand", to("work.upkeep", (
        Upkeep(what="post feet", times=1, in_years=1, source=PRACTICE),))),
)  # fmt: skip


def task(kind: str, **changes: object) -> Edit:
    """Return an edit of the task of one kind."""

    def run(plan: Plan) -> Plan:
        assert plan.work is not None
        tasks = tuple(_changed(each, changes) if each.kind == kind else each
                      for each in plan.work.tasks)  # fmt: skip
        return put(plan, "work.tasks", tasks)

    return run


def _changed(told: Task, changes: dict[str, object]) -> Task:
    return evolve(told, **changes)


def held_without(kind: str, mark: str) -> Edit:
    """Return an edit that leaves one hold point out of a task."""

    def run(plan: Plan) -> Plan:
        assert plan.work is not None
        (found,) = [each for each in plan.work.tasks if each.kind == kind]
        assert mark in {hold.mark for hold in found.holds}
        left = tuple(hold for hold in found.holds if hold.mark != mark)
        return task(kind, holds=left)(plan)

    return run


def not_after(kind: str, other: str) -> Edit:
    """Return an edit that lets a task start before another is done."""

    def run(plan: Plan) -> Plan:
        assert plan.work is not None
        marks = {each.kind: each.mark for each in plan.work.tasks}
        (found,) = [each for each in plan.work.tasks if each.kind == kind]
        assert marks[other] in found.after
        return task(kind, after=tuple(m for m in found.after if m != marks[other]))(plan)

    return run


def gone(kind: str) -> Edit:
    """Return an edit that leaves a task out, what comes after it moved up."""

    def run(plan: Plan) -> Plan:
        assert plan.work is not None
        left = tuple(each for each in plan.work.tasks if each.kind != kind)
        return put(plan, "work.tasks", left)

    return run


def hushed(subject: str) -> Edit:
    """Return an edit that leaves out the note on one kind of fixings."""
    return lambda plan: put(plan, "findings", tuple(
        each for each in plan.findings if (each.code, each.subject) != ("RSD-010", subject)
    ))  # fmt: skip


def looked_after_without(what: str) -> Edit:
    def run(plan: Plan) -> Plan:
        assert plan.work is not None
        assert what in {each.what for each in plan.work.upkeep}
        return put(plan, "work.upkeep",
                   tuple(each for each in plan.work.upkeep if each.what != what))  # fmt: skip

    return run


#: Deck, check, what is wrong, the edit.
LEGS: tuple[tuple[str, str, str, Edit], ...] = (
    (HELD, "AUD-907", "a post beside its place", by(f"{OUT}.posts[1].along_mm", 10.0)),
    (HELD, "AUD-907", "a post taped wrongly from P1", by(f"{OUT}.posts[1].from_across_mm", 10.0)),
    (HELD, "AUD-907", "a post left out", without(f"{OUT}.posts", 0)),
    (HELD, "AUD-907", "posts changed over", turned(f"{OUT}.posts", 0, 1)),
    (HELD, "AUD-907", "a diagonal too long", by(f"{OUT}.post_ties[0].length_mm", 1.0)),
    (HELD, "AUD-907", "one diagonal alone", without(f"{OUT}.post_ties", 0)),
    (HELD, "AUD-907", "posts let go", to(f"{OUT}.post_accepted_mm", 50.0)),
    (HELD, "AUD-907", "nothing told of how far off", to(f"{OUT}.post_accepted_mm", None)),
    ("across", "AUD-907", "places in the boards' axes", to("surface.run", "along")),
    ("narrow", "AUD-907", "a diagonal from the wrong peg", to(f"{OUT}.post_ties[0].start", "P4")),
    ("narrow", "AUD-907", "a diagonal from a peg too short",
     by(f"{OUT}.post_ties[0].length_mm", -1.0)),
    (HELD, "AUD-908", "too few ties", by(f"{LOOSE}[0].count", -1)),
    (HELD, "AUD-908", "no fixings of the ledger", without(LOOSE, 1)),
    (HELD, "AUD-908", "too few bolts of plies", by(f"{LOOSE}[2].count", -2)),
    (HELD, "AUD-908", "kinds miscounted", to("work.not_ordered_count", 9)),
    (HELD, "AUD-908", "a note hushed up", hushed("guard bolts")),
    ("tall", "AUD-908", "a bolt for a brace alone", by(f"{LOOSE}[2].count", -1)),
    (HELD, "AUD-909", "feet that nobody probes", looked_after_without("post feet")),
    (HELD, "AUD-909", "a ledger that nobody tries", looked_after_without("ledger fixings")),
    (HELD, "AUD-909", "guards that nobody pushes", looked_after_without("guard posts")),
    ("tall", "AUD-909", "braces that nobody tries", looked_after_without("braces")),
    (HELD, "AUD-913", "holes that nobody digs", gone("holes")),
    (HELD, "AUD-913", "no task on the ledger", gone("ledger")),
    (HELD, "AUD-913", "no task on guards", gone("guards")),
    ("tall", "AUD-913", "no task on braces", gone("braces")),
    (HELD, "AUD-914", "a post stood alone", task("posts", people=1)),
    (HELD, "AUD-914", "a frame before its bearers", not_after("frame", "bearers")),
    (HELD, "AUD-914", "posts before concrete", not_after("posts", "concrete")),
    ("set in", "AUD-914", "concrete before posts", not_after("concrete", "posts")),
    ("dug", "AUD-914", "fabric under holes to be dug", not_after("fabric", "posts")),
    (HELD, "AUD-914", "handed over without guards", not_after("hand_over", "guards")),
    (HELD, "AUD-916", "buried services not looked for", held_without("check", "services")),
    (HELD, "AUD-916", "holes that nobody sees", held_without("holes", "holes_seen")),
    (HELD, "AUD-916", "posts that lean", held_without("posts", "plumb")),
    (HELD, "AUD-916", "feet out of line", held_without("concrete", "feet")),
    (HELD, "AUD-916", "raw ends of posts", held_without("posts", "ends")),
    ("set in", "AUD-916", "posts in concrete never topped", held_without("concrete", "post_tops")),
    (HELD, "AUD-916", "joists that are not tied", held_without("frame", "ties")),
    (HELD, "AUD-916", "anchors not tightened", held_without("ledger", "anchors")),
    (HELD, "AUD-916", "a guard not pushed", held_without("guards", "guard_push")),
    (HELD, "AUD-916", "a loose handrail", held_without("steps", "handrail")),
    ("tall", "AUD-916", "raw ends of braces", held_without("braces", "ends")),
    (HELD, "AUD-918", "posts in no time", task("posts", most_h=0.5)),
    (HELD, "AUD-918", "a frame without its ties' time", task("frame", most_h=1.0)),
    ("tall", "AUD-918", "braces in no time", task("braces", most_h=0.25)),
)  # fmt: skip
