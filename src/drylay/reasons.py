"""Why a number is what it is: Source, Ruling, Decision, Reasons."""

from typing import Any

from attrs import field, frozen

SOURCE_KINDS = (
    "standard",
    "handbook",
    "merchant record",
    "common practice",
    "from memory",
    "assumption",
    "named person's override",
    "brief",
    "arithmetic",
)

Scalar = float | int | str | None  # money as text; None where there is no cap
Inputs = tuple[tuple[str, Scalar], ...]


def because(path: str, **more: Any) -> Any:
    """Return a field that says which decision governs it: `plan.why` answers with that one.

    A field whose own path is `path` *is* the decision.
    """
    return field(metadata={"why": path}, **more)


@frozen(kw_only=True)
class Source:
    """Who says so: what kind of source, its title, the clause or place in it."""

    kind: str
    title: str
    clause: str = ""


@frozen(kw_only=True)
class Ruling:
    """A rule's answer: the value with its unit, the rule's name, source and inputs."""

    value: Scalar
    unit: str
    rule: str
    source: Source
    inputs: Inputs = ()


@frozen(kw_only=True)
class TurnedDown:
    """An alternative to a decision, and why it was not taken."""

    value: Scalar
    because: str


@frozen(kw_only=True)
class Decision:
    """A value adopted in a plan at `path`, with the ruling that governs it."""

    path: str
    value: Scalar
    unit: str
    rule: str
    source: Source
    inputs: Inputs = ()
    turned_down: tuple[TurnedDown, ...] = ()


@frozen(kw_only=True)
class Reasons:
    """All decisions of one plan, in the order in which they were taken."""

    decisions: tuple[Decision, ...] = field(default=())


def adopt(
    reasons: Reasons,
    path: str,
    value: Scalar,
    ruling: Ruling,
    turned_down: tuple[TurnedDown, ...] = (),
) -> Reasons:
    """Return the reasons with one more decision: `value` at `path`, because of `ruling`."""
    decision = Decision(
        path=path,
        value=value,
        unit=ruling.unit,
        rule=ruling.rule,
        source=ruling.source,
        inputs=ruling.inputs,
        turned_down=turned_down,
    )
    return Reasons(decisions=(*reasons.decisions, decision))
