"""Whether a task's own numbers make sense: a proof about nonsense proves nothing."""

from drylay.cutting.model import Line, Stock, Task


def task_fault(task: Task) -> str:
    """Return what makes a task nonsense, "" if nothing does."""
    if not _whole((task.kerf, task.joint_price)) or min(task.kerf, task.joint_price) < 0:
        return "the kerf or the price of a joint is below nothing"
    if len({stock.name for stock in task.stock}) != len(task.stock):
        return "a length on sale is named twice"
    if not all(_is_sold(stock) for stock in task.stock):
        return "a length, price, trim or limit of the stock is below nothing"
    if not all(_whole((p.length, p.count)) and p.length > 0 <= p.count for p in task.pieces):
        return "a piece wanted has no length, or is wanted less than no times"
    if not all(_is_a_line(line) for line in task.lines):
        return "a line of the task is nonsense"
    pairs = [(pair.one, pair.other) for pair in task.beside]
    if not all(_whole(pair) for pair in pairs) or len(set(pairs)) != len(pairs):
        return "two sets of lines are told to lie beside one another twice, or not by number"
    sets = range(len(task.lines))
    if not all(one in sets and other in sets and one != other for one, other in pairs):
        return "a set of lines lies beside itself or beside none"
    return ""


def _whole(numbers: tuple[object, ...]) -> bool:
    return all(type(number) is int for number in numbers)


def _is_sold(stock: Stock) -> bool:
    limit = 0 if stock.limit is None else stock.limit
    numbers = (stock.length, stock.price, stock.trim, limit)
    return _whole(numbers) and stock.length > 0 and min(numbers) >= 0


def _is_a_line(line: Line) -> bool:
    cap = 0 if line.most_joints is None else line.most_joints
    counts = (line.count, line.joint_gap, line.least_bays, line.stagger, cap, line.first_station)
    if not _whole((*counts, line.start, line.end, *line.stations)) or min(counts) < 0:
        return False
    return line.start < line.end and list(line.stations) == sorted(set(line.stations))
