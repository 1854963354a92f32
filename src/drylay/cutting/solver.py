"""The linear and whole-number solver, behind a few verbs. HiGHS, one thread, no clock."""

from collections.abc import Callable, Sequence
from typing import Any

from attrs import frozen

Column = tuple[float, float, tuple[int, ...], tuple[float, ...]]  # cost, most, rows, values
INF = float("inf")


@frozen(kw_only=True)
class Answer:
    """A linear optimum: the objective, values of the columns, prices of the rows.

    `reduced` is what each column costs more than its rows' prices say it is worth. `pivots` is
    how many steps of the simplex method it took.
    """

    objective: float
    values: list[float]
    prices: list[float]
    reduced: list[float]
    pivots: int


def open_model(low: Sequence[float], high: Sequence[float]) -> Any:
    """Return an empty model with these row bounds."""
    import highspy

    model = highspy.Highs()
    for option, value in (("output_flag", False), ("threads", 1), ("parallel", "off")):
        model.setOptionValue(option, value)
    model.addRows(len(low), list(low), list(high), 0, [], [], [])
    return model


#: Searches within the search: they find plans, and take long over proofs.
INNER = ("rins", "rens", "root_reduced_cost")


def open_whole(
    low: Sequence[float],
    high: Sequence[float],
    *,
    nodes: int = 20_000,
    enough: float = -INF,
    inner: bool = True,
) -> Any:
    """Return an empty model whose columns may have to be whole, to be solved to the end.

    The search ends early at an objective of `enough` or less; without `inner` searches it
    spends its time on the proof.
    """
    model = open_model(low, high)
    for option, value in (
        ("mip_rel_gap", 0.0),
        ("mip_abs_gap", 1e-6),
        ("mip_max_nodes", nodes),
        ("objective_target", enough),
        *((f"mip_heuristic_run_{name}", inner) for name in INNER),
    ):
        model.setOptionValue(option, value)
    return model


def add_columns(model: Any, columns: Sequence[Column], *, whole: bool = False) -> None:
    """Add columns, each from 0 to its most; in whole numbers, if asked."""
    import highspy

    first = model.getNumCol()
    starts: list[int] = []
    rows: list[int] = []
    values: list[float] = []
    for _, _, where, what in columns:
        starts.append(len(rows))
        rows.extend(where)
        values.extend(what)
    costs, most = [c[0] for c in columns], [c[1] for c in columns]
    count = len(columns)
    model.addCols(count, costs, [0.0] * count, most, len(rows), starts, rows, values)
    if whole:
        kinds = [highspy.HighsVarType.kInteger] * count
        model.changeColsIntegrality(count, list(range(first, first + count)), kinds)


PRIMAL, DUAL = 4, 1  # ways of the simplex method


def solve_lp(model: Any, *, grown: bool = False) -> Answer | None:
    """Return the optimum of a linear model, None if there is none.

    Where it has only `grown` by columns since the last time, that optimum is gone on from.
    """
    import highspy

    model.setOptionValue("simplex_strategy", PRIMAL if grown else DUAL)
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    solution, info = model.getSolution(), model.getInfo()
    return Answer(
        objective=info.objective_function_value,
        values=list(solution.col_value),
        prices=list(solution.row_dual),
        reduced=list(solution.col_dual),
        pivots=info.simplex_iteration_count,
    )


def best_whole(
    model: Any, stopped: Callable[[], bool] | None = None
) -> tuple[list[float] | None, float]:
    """Return the best whole-number solution found, if any, and what none can be less than."""
    import highspy

    if stopped is not None:
        _ask_while_running(model, stopped)
    model.run()
    info = model.getInfo()
    if model.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
        return None, INF
    if info.primal_solution_status != 2:
        return None, info.mip_dual_bound
    return list(model.getSolution().col_value), info.mip_dual_bound


def _ask_while_running(model: Any, stopped: Callable[[], bool]) -> None:
    def ask(event: Any) -> None:
        event.interrupt(stopped())

    model.cbMipInterrupt.subscribe(ask)
    model.cbSimplexInterrupt.subscribe(ask)
