"""Why there is no plan, and whether that is proven."""

from drylay.cutting.errors import Shortfall
from drylay.cutting.master import Master
from drylay.cutting.model import Line
from drylay.cutting.verify import legal_pieces, longest_usable
from drylay.cutting.worths import worth_of


def why_none(master: Master) -> tuple[Shortfall, ...]:
    """Return the reasons why no plan was found: lines that cannot be staggered, else stock."""
    task = master.ready.task
    longest = longest_usable(task)
    found = [
        Shortfall(kind="lines cannot be staggered", line=index, longest=longest)
        for index, line in enumerate(task.lines)
        if line.count > 1 and not neighbours_fit(line, longest)
    ]
    return tuple(found) or (Shortfall(kind="not enough stock", longest=longest),)


def is_proven(master: Master) -> bool:
    """Return whether it is certain that there is no plan."""
    return why_none(master)[0].kind != "not enough stock" or stock_falls_short(master)


def stock_falls_short(master: Master) -> bool:
    """Return whether all boards there are carry less worth than is wanted, for some worths.

    Checked in integers: sure if True, unknown if False.
    """
    master.sink_costs(True)
    prices = master.solve()
    master.sink_costs(False)
    if prices is None:
        return False
    carries, demand, scale = worth_of(master, prices).weighed
    most = sum(lane.count * lane.nodes for lane in master.ready.lanes)
    carried = master.ready.task.joint_price * scale * most
    for board in master.ready.boards:
        if board.limit is None and carries[board.stock]:
            return False
        carried += (board.limit or 0) * carries[board.stock]
    return carried < demand


def neighbours_fit(line: Line, longest: int) -> bool:
    """Return whether two lines side by side can be made with their joints kept apart."""
    arcs = legal_pieces(line, longest)
    onward: dict[int, list[int]] = {}
    for tail, head, _ in arcs:
        onward.setdefault(tail, []).append(head)
    most = len(line.stations) if line.most_joints is None else line.most_joints
    todo, seen = [(-1, -1, 0, 0)], {(-1, -1, 0, 0)}
    while todo:
        state = todo.pop()
        if state[0] == state[1] == -2:
            return True
        for following in _steps(line, onward, state, most):
            if following not in seen:
                seen.add(following)
                todo.append(following)
    return False


State = tuple[int, int, int, int]  # last joint of one line, of the other, joints of each


def _steps(line: Line, onward: dict[int, list[int]], state: State, most: int) -> list[State]:
    """Return the states after one more piece of either line, joints taken from start to end."""
    found = []
    joints = state[2:]
    for side in (0, 1):
        own, other = state[side], state[1 - side]
        for head in onward.get(own, ()):
            if head >= 0 and (other == -2 or joints[side] == most):
                continue
            if head >= 0 and other >= 0 and head - other < line.stagger:
                continue
            more = (joints[0] + (side == 0 and head >= 0), joints[1] + (side == 1 and head >= 0))
            ends = (head, other) if side == 0 else (other, head)
            found.append((*ends, *more))
    return found
