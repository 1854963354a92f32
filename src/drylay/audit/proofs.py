"""Proofs: is the task this plan's own, and does its certificate bear out the bound?"""

from collections.abc import Iterator
from decimal import Decimal

from drylay.audit.exact import minor, ticks
from drylay.audit.flaws import conventions, need, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.search import choices, none_is_cheaper, proven_by_sums
from drylay.audit.shapes import ProofShape
from drylay.audit.splits import splits_leave_none
from drylay.audit.tolls import keeps_apart
from drylay.audit.wanted import buying_of
from drylay.audit.worth import (
    Demand,
    TooMuchWork,
    arcs_of,
    demands_of_vector,
    joints_demanded,
    longest_piece,
    vector_is_fair,
)
from drylay.buying.model import Purchase
from drylay.findings import Severity
from drylay.plan.model import Plan

PROOF = conventions("Buying: objective, bound, proof")
GRADES = ("one worth vector", "worth vectors and splits", "resting on the solver")
BY_SUMS, BY_SPLITS, BY_SOLVER = GRADES


def digits_of(purchase: Purchase) -> int:
    """Return how many decimals the minor unit stands for, from any price the proof shares."""
    prices = {stock.length: stock.price for stock in purchase.proof.task.stock}
    for digits in (2, 0, 3, 1, 4):
        for bought in purchase.lengths:
            price = prices.get(ticks(bought.length_mm))
            if price and minor(bought.price, digits) == price:
                return digits
    return 2


def in_minor(money: Decimal, digits: int) -> int | None:
    """Return money in the minor unit, None where it is no whole count of it."""
    return minor(money, digits)


def proof_is_of_this_purchase(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless proof and purchase tell the same objective and bound."""
    for purchase in buying_of(plan).purchases:
        digits, proof = digits_of(purchase), purchase.proof
        pairs = {
            "objective": (purchase.objective, proof.objective),
            "bound": (purchase.bound, proof.certificate.bound),
        }
        for name, (told, proven) in pairs.items():
            if in_minor(told, digits) != proven:
                yield Flaw(
                    subject=f"{purchase.article}: {name}",
                    message="not the amount in the proof",
                    measured=float(told),
                    limit=float(Decimal(proven).scaleb(-digits)),
                    unit="money",
                    source=PROOF,
                )


def grades_agree(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the grade is none, or the certificate has another one."""
    for purchase in buying_of(plan).purchases:
        certificate = purchase.proof.certificate
        if purchase.grade != certificate.grade or purchase.grade not in GRADES:
            message = f"grade {purchase.grade!r}, but its certificate is {certificate.grade!r}"
            yield Flaw(subject=purchase.article, message=message, source=PROOF)
        if purchase.mode not in {"proven", "quick"}:
            message = f"no mode is {purchase.mode!r}"
            yield Flaw(subject=purchase.article, message=message, source=PROOF)


def demands_of(proof: ProofShape) -> tuple[Demand, ...] | None:
    """Return all that a certificate's vectors demand; None where a line cannot be made.

    Raises:
        TooMuchWork: A board's most worth asks for too many steps.
    """
    task = proof.task
    arcs = tuple(arcs_of(line, longest_piece(task)) for line in task.lines)
    joints = joints_demanded(task, arcs)
    if joints is None:
        return None
    found = [joints]
    for vector in proof.certificate.vectors:
        found += demands_of_vector(task, vector, arcs)
    return tuple(found)


def bound_holds(proof: ProofShape) -> tuple[str, int]:
    """Return how a bound is borne out ("" where it is not), and the most that sums prove.

    Raises:
        TooMuchWork: The certificate asks for too many steps.
    """
    task, bound = proof.task, proof.certificate.bound
    demands = demands_of(proof)
    if demands is None:
        return "", 0
    prices = tuple(stock.price for stock in task.stock)
    limits = tuple(stock.limit for stock in task.stock)
    buys = choices(prices, limits, task.joint_price, demands)
    least = tuple(demand.least for demand in demands)
    proven = max((proven_by_sums(buys, rest, i) for i, rest in enumerate(least)), default=0)
    if proven >= bound:
        return BY_SUMS, proven
    if proof.certificate.grade != BY_SPLITS:
        return "", proven
    by_splits = splits_hold(proof, demands)
    return (BY_SPLITS if by_splits or none_is_cheaper(buys, least, bound) else ""), proven


def splits_hold(proof: ProofShape, demands: tuple[Demand, ...]) -> bool:
    """Return whether the certificate's splits bear out the bound, joints at the joint price."""
    task, certificate = proof.task, proof.certificate
    jointed = any(line.count for line in task.lines)
    joint_price = task.joint_price if jointed else 0
    fewest, *others = demands
    priced = [demand for demand in others if demand.joint or not (task.lines and task.joint_price)]
    scales = [vector.scale for vector in certificate.vectors]
    prices = tuple(stock.price for stock in task.stock)
    limits = tuple(stock.limit for stock in task.stock)
    buys = choices(prices, limits, joint_price, tuple(priced))
    told = tuple((demand.least, scale) for demand, scale in zip(priced, scales, strict=True))
    bound = certificate.bound
    return splits_leave_none(buys, told, fewest.least, bound, certificate.splits)


def bounds_are_borne_out(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bound its certificate does not support."""
    for purchase in buying_of(plan).purchases:
        yield from _borne_out(purchase)


def _borne_out(purchase: Purchase) -> Iterator[Flaw]:
    certificate, subject = purchase.proof.certificate, f"{purchase.article}: bound"
    if not all(vector_is_fair(vector) for vector in certificate.vectors):
        yield Flaw(subject=subject, message="a worth vector out of step or below 0", source=PROOF)
        return
    try:
        how, proven = bound_holds(purchase.proof)
    except TooMuchWork as work:
        message = f"the audit could not prove it again: {work}"
        yield Flaw(subject=subject, message=message, severity=Severity.CAUTION, source=PROOF)
        return
    if not how and certificate.grade != BY_SOLVER:
        message = "its certificate does not bear it out"
        yield from same_count(subject, message, proven, certificate.bound, PROOF)


def vectors_speak_of_the_task(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each worth of a length that no part of the task can have."""
    for purchase in buying_of(plan).purchases:
        task = purchase.proof.task
        lengths = {piece.length for piece in task.pieces}
        for line in task.lines:
            lengths |= {arc.length for arc in arcs_of(line, longest_piece(task))}
        for vector in purchase.proof.certificate.vectors:
            for length in sorted(set(vector.lengths) - lengths):
                message = f"a worth for {length / 320:g} mm, which nothing is cut to"
                yield Flaw(subject=f"{purchase.article}: proof", message=message, source=PROOF)


def windows_keep_joints_apart(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each price on a window that does not hold: the proof goes without it."""
    for purchase in buying_of(plan).purchases:
        task = purchase.proof.task
        for number, vector in enumerate(purchase.proof.certificate.vectors):
            for index, window in enumerate(vector.windows):
                if not keeps_apart(task, window):
                    subject = f"{purchase.article}: worth vector {number}, window {index}"
                    message = "a price on joints that nothing keeps apart"
                    yield Flaw(subject=subject, message=message, source=PROOF)


def splits_leave_nothing_cheaper(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where splits are told and do not show the bound, whatever else may show it."""
    for purchase in buying_of(plan).purchases:
        certificate = purchase.proof.certificate
        if certificate.splits and all(vector_is_fair(vector) for vector in certificate.vectors):
            try:
                demands = demands_of(purchase.proof)
            except TooMuchWork:
                continue  # AUD-823 says so
            if demands is None or not splits_hold(purchase.proof, demands):
                message = "the splits told do not show that nothing is cheaper"
                yield Flaw(subject=f"{purchase.article}: splits", message=message, source=PROOF)


def grades_are_honest(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a grade claims what its certificate does not hold."""
    for purchase in buying_of(plan).purchases:
        certificate = purchase.proof.certificate
        subject = f"{purchase.article}: grade"
        vectors = len(certificate.vectors)
        if certificate.grade == BY_SUMS:
            yield from same_count(subject, "one worth vector is claimed", vectors, 1, PROOF)
            yield from same_count(subject, "nodes without splits", certificate.nodes, 0, PROOF)
        if certificate.grade == BY_SPLITS and not vectors:
            yield from same_count(subject, "worth vectors are claimed", vectors, 1, PROOF)
        if certificate.splits:
            splits = len(certificate.splits)
            yield from same_count(subject, "nodes of splits", certificate.nodes, splits, PROOF)
        if certificate.nodes < 0:
            yield from same_count(subject, "nodes below 0", certificate.nodes, 0, PROOF)


def bounds_are_not_beaten(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a plan is cheaper than what no plan is said to go below."""
    need(buying_of(plan).purchases or None, "purchases")
    for purchase in buying_of(plan).purchases:
        proof = purchase.proof
        if not 0 <= proof.certificate.bound <= proof.objective:
            message = "the bound is beaten by the plan itself"
            subject = f"{purchase.article}: bound"
            yield from same_count(subject, message, proof.certificate.bound, proof.objective, PROOF)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-821", "proof and purchase tell the same objective and bound", proof_is_of_this_purchase),
    ("AUD-822", "grades are known and agree", grades_agree),
    ("AUD-823", "every bound is borne out by its certificate", bounds_are_borne_out),
    ("AUD-824", "a grade claims no more than its certificate holds", grades_are_honest),
    ("AUD-826", "worths are of lengths that may be cut", vectors_speak_of_the_task),
    ("AUD-825", "no plan beats its own bound", bounds_are_not_beaten),
    ("AUD-827", "prices on windows are of joints kept apart", windows_keep_joints_apart),
    ("AUD-828", "splits leave nothing cheaper than the bound", splits_leave_nothing_cheaper),
)
