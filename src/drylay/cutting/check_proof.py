"""Check an order of timber: that it gives every piece wanted, and could not have been cheaper.

Run it beside proof.json:  python check_proof.py   (Python 3.11 or later and nothing else)
Exit code 0: every order holds; 1: one does not; 2: proof.json is missing or damaged.

What it checks first. The boards bought are sawn into exactly the pieces wanted, saw cuts and
trims counted; joints keep the rules beside them; prices and joints add up to the cost. Prices,
lengths and joint rules are what the proof is about: compare them with merchant and plan.

How it argues then. Suppose every piece you need has a worth. Work out the most worth one board of
each length can carry, whichever way you saw it, and the worth all your pieces must have
together, whichever way you joint the lines. The boards you buy must carry that worth. If no
board carries more worth than it costs, the order cannot cost less than the pieces are worth.
Sometimes one set of worths is not enough. Then several are given, and a "split": a sum of all
counts of boards and joints, each times a whole number (say, the length of all boards in some
unit). Such a sum is whole; but for less money, add up worths needed and money at hand, each so
many times, and it lies between two whole numbers. For any whole number left, another split follows.

Lines (rows of a deck) side by side must keep their joints apart. A "window" is two stretches of
stations (joists, say), one for each of two neighbours, so short and so near each other that the
neighbours have one joint in both together. Its price is charged for each joint there, and given
back once for as many as neighbours leave room for. Within a set of lines the first stretch is for
the `rows` numbered 1, 3, 5 ..., the second for the `others`; a joint on a row counts others / g, on
another rows / g, and together never more than rows x others / g, where g is their greatest common
divisor. Across sets it is for the last line of one and the first of another that lies beside it.
All numbers are whole; none is rounded to please.
"""

import json
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from math import gcd
from pathlib import Path
from typing import Any

Record = dict[str, Any]  # an object of the JSON file
Number = int | Fraction
STRETCHES = (("first", "width"), ("beside_first", "beside_width"))
NOT_BELOW_0 = ("count", "joint_gap", "least_bays", "stagger", "first_station")


class NotProven(Exception):  # noqa: N818 - the answer, no error
    """An order or its proof is wrong; the text says why."""


def ensure(holds: bool, otherwise: str) -> None:
    """Go on only if something holds."""
    if not holds:
        raise NotProven(otherwise)


def most_worth_on_a_board(space: int, kerf: int, worth_of: dict[int, int]) -> int:
    """Return the most worth that pieces sawn from `space` (the usable length) can have.

    Each piece takes its length and one kerf; the last kerf may fall off the end. Of as many pieces
    as the densest takes units, some take a multiple of that, and it could be had in their place.
    """
    fit = [(size + kerf, worth) for size, worth in worth_of.items() if worth and size <= space]
    pieces = sorted(fit, key=lambda piece: Fraction(-piece[1], piece[0])) or [(1, 0)]
    sure = max(0, (space + kerf) // pieces[0][0] - max(pieces)[0])  # so many of the densest
    space, best, ways = space + kerf - sure * pieces[0][0], 0, {0: 0}  # length used -> most worth
    for piece, after in pairwise([*pieces, (1, 0)]):
        onward: dict[int, int] = {}
        for used, had in ways.items():
            for count in range((space - used) // piece[0], -1, -1):
                at, total = used + count * piece[0], had + count * piece[1]
                best = max(best, total)
                if (total - best) * after[0] + (space - at) * after[1] <= 0:
                    break  # nor do fewer come to more than the best, as densely as may follow
                onward[at] = max(total, onward.get(at, 0))
        ways = onward
    return best + sure * pieces[0][1]


def pieces_of_a_line(line: Record, longest: int) -> dict[tuple[int, int], int]:
    """Return {(from, to): length} of every piece a line may have.

    Stations count 0, 1, ...; the line's own start is -1, its end as many as there are stations.
    """
    stations, last = line["stations"], len(line["stations"]) - 1
    before, after = line["joint_gap"] // 2, -(-line["joint_gap"] // 2)  # off the pieces there
    pieces = {(-1, last + 1): line["end"] - line["start"]}
    starts = [(-1, 0, line["start"]), *((j, j, at + after) for j, at in enumerate(stations))]
    ends = [(last + 1, last, line["end"]), *((j, j, at - before) for j, at in enumerate(stations))]
    for i, bay, start in starts:
        for j, other_bay, end in ends:
            if line["most_joints"] != 0 and other_bay - bay >= line["least_bays"]:
                pieces[i, j] = end - start
    return {ends: length for ends, length in pieces.items() if 0 < length <= longest}


def cheapest_line(
    line: Record, longest: int, worth_of: dict[int, int], joint_cost: list[int]
) -> int | None:
    """Return the least a line comes to in worths and in joints, by station; None if none can."""
    pieces, end, costs = pieces_of_a_line(line, longest), len(joint_cost), [*joint_cost, 0]
    ways, finished = {-1: 0}, []  # where a line has got to -> the least that cost
    for _ in range(1 + (end if line["most_joints"] is None else line["most_joints"])):
        onward: dict[int, int] = {}
        for (tail, head), length in pieces.items():
            if tail in ways:
                cost = ways[tail] + worth_of.get(length, 0) + costs[head]
                onward[head] = min(cost, onward.get(head, cost))
        finished += [onward.pop(end)] if end in onward else []
        ways = onward
    return min(finished, default=None)


def worth_needed(task: Record, vector: Record, worth_of: dict[int, int]) -> int:
    """Return the least worth of everything wanted, whichever way the lines are jointed."""
    charged, given_back = charges(task, vector["windows"])
    needed = sum(p["count"] * worth_of.get(p["length"], 0) for p in task["pieces"]) - given_back
    longest, plain = longest_usable(task), task["joint_price"] * vector["scale"]
    for line, rows in zip(task["lines"], charged, strict=True):
        for joints, count in Counter(map(tuple, rows)).items():
            joint = [plain + charge for charge in joints]
            needed += count * (cheapest_line(line, longest, worth_of, joint) or 0)
    return int(needed)


def charges(task: Record, windows: list[Record]) -> tuple[list[list[list[int]]], int]:
    """Return what windows charge for a joint, by set, row and station, and give back in all."""
    lines, given_back = task["lines"], 0
    charged = [[[0] * len(line["stations"]) for _ in range(line["count"])] for line in lines]
    for window in windows:
        rows, others = charged[window["line"]][::2], charged[window["beside"]][1::2]
        if window["line"] != window["beside"]:
            rows, others = charged[window["line"]][-1:], charged[window["beside"]][:1]
        shared = gcd(len(rows), len(others))
        sides = zip((rows, others), (others, rows), STRETCHES, strict=True)
        for side, across, (first, width) in sides:
            for row in side:
                for station in range(window[first], window[first] + window[width]):
                    row[station] += window["price"] * len(across) // shared
        given_back += window["price"] * len(rows) * len(others) // shared
    return charged, given_back


def longest_usable(task: Record) -> int:
    """Return the longest length that can be sawn from a board on sale."""
    on_sale = [s for s in task["stock"] if s["limit"] != 0]
    return max((s["length"] - 2 * s["trim"] for s in on_sale), default=0)


def fewest_joints(task: Record) -> int:
    """Return the fewest joints all lines can be made with; NotProven if a line cannot be made."""
    longest, total = longest_usable(task), 0
    for line in task["lines"]:
        fewest = cheapest_line(line, longest, {}, [1] * len(line["stations"]))
        ensure(fewest is not None or not line["count"], "a line cannot be made from these boards")
        total += line["count"] * (fewest or 0)
    return total


def ensure_worths_may_be_used(task: Record, vector: Record) -> None:
    """Refuse a set of worths that makes no sense, or whose windows may hold two joints."""
    lengths, worths = vector["lengths"], vector["worths"]
    ensure(vector["scale"] > 0 <= min(worths, default=0), "a worth or a scale is negative")
    ensure(len(set(lengths)) == len(lengths) == len(worths), "a length has no worth, or two")
    ensure(min(lengths, default=1) > 0, "a length is not positive")
    for window in vector["windows"]:
        ensure_one_joint(task, window)


def ensure_one_joint(task: Record, window: Record) -> None:
    """Refuse a window in which two neighbours might have more than one joint."""
    one, other, sets = window["line"], window["beside"], range(len(task["lines"]))
    ensure(one in sets and other in sets, "a window is on no line")
    ensure(window["price"] >= 0, "the price of a window is negative")
    told = one == other or {"one": one, "other": other} in task["beside"]
    ensure(told, "a window is across sets that do not lie beside one another")
    lines, places = [task["lines"][one], task["lines"][other]], []
    fewest = min(line["count"] for line in lines)
    ensure(fewest > (one == other), "a window is on a line without a neighbour")
    for line, (first, width) in zip(lines, STRETCHES, strict=True):
        start, end = window[first], window[first] + window[width]
        ensure(0 <= start < end <= len(line["stations"]), "a window is beyond the stations")
        ensure(end - start <= max(1, line["least_bays"]), "a window is too wide for one joint")
        places.append(range(line["first_station"] + start, line["first_station"] + end))
    stagger = max(line["stagger"] for line in lines)
    near = all(abs(a - b) < stagger for a in places[0] for b in places[1])
    ensure(near, "a window is too wide for one joint of two neighbours")


def worths_carried(task: Record, vector: Record, joints: int) -> list[Number]:
    """Return [factors ..., least] by a set of worths, in money: each stock, then further joints.

    The counts, each times its factor, come to `least` or more. Boards that cost nothing are all
    taken beforehand, or as many as carry it: their factor is 0.
    """
    worth_of = dict(zip(vector["lengths"], vector["worths"], strict=True))
    joint, scale, factors = task["joint_price"], vector["scale"], []
    least = Fraction(worth_needed(task, vector, worth_of), scale) - joints * joint
    for one in task["stock"]:
        space = one["length"] - 2 * one["trim"]
        most = Fraction(most_worth_on_a_board(space, task["kerf"], worth_of), scale)
        if one["price"] == 0 and most:
            least -= most * (-(-max(0, least) // most) if one["limit"] is None else one["limit"])
        factors.append(most if one["price"] else 0)
    return [*factors, joint, least]


def money_and_limits(task: Record, money: int) -> list[list[Number]]:
    """Return [factors ..., least] by the money there is, then by the limit of each stock."""
    stock = task["stock"]
    sums = [[*(-one["price"] for one in stock), -task["joint_price"], -money]]
    for number, one in enumerate(stock):
        sums.append([0] * (len(stock) + 2))
        if one["price"] > 0 and one["limit"] is not None:
            sums[-1][number], sums[-1][-1] = -1, -one["limit"]
    return sums


def is_enough(sums: list[list[Number]], v: int, prices: list[int]) -> bool:
    """Return whether one set of worths shows that no boards for this money carry what is needed."""
    # what boards with a limit carry beyond their price, they carry as often as the limit
    limits = [max(0, sums[v][k] - price) for k, price in enumerate(prices)]
    once = [int(k == v) for k in range(len(sums) - 1 - len(prices))]
    blend = {"times": 1, "vectors": once, "money": 1, "limits": limits, "splits": []}
    return (comes_to([0] * (len(prices) + 1), blend, sums, []) or 0) > 0


def no_counts_are_left(
    sums: list[list[Number]], splits: Iterator[Record], given: list[list[Number]]
) -> bool:
    """Return whether the next splits leave no counts, the sums split before being as `given`."""
    split = next(splits, None)
    if split is None or len(given) > len(sums[0]):
        return False
    form = split["weights"]
    least = comes_to(form, split["least"], sums, given)
    most = comes_to([-weight for weight in form], split["most"], sums, given)
    if least is None or most is None:
        return False
    return all(
        no_counts_are_left(sums, splits, [*given, [*form, n]]) for n in range(least, 1 - most)
    )


def comes_to(
    form: list[int], blend: Record, sums: list[list[Number]], given: list[list[Number]]
) -> int | None:
    """Return the least a split sum can come to, None if what is blended does not show it."""
    often, times = [*blend["vectors"], blend["money"], *blend["limits"]], blend["times"]
    in_step = (len(often), len(blend["splits"])) == (len(sums), len(given))
    if not in_step or len(form) + 1 != len(sums[0]) or times < 1 or min(often) < 0:
        return None
    taken = list(zip([*often, *blend["splits"]], [*sums, *given], strict=True))
    *total, least = [sum(n * one[k] for n, one in taken) for k in range(len(sums[0]))]
    # no count is below 0, so where no factor is above the form's, the form comes to as much
    short = all(factor <= times * weight for factor, weight in zip(total, form, strict=True))
    return -(-least // times) if short else None


def ensure_sense(task: Record) -> None:
    """Refuse a task with a number below what it can be, or with a name that stands twice."""
    sold, names = task["stock"], {stock["name"] for stock in task["stock"]}
    least = [task["kerf"], task["joint_price"], *(p["length"] - 1 for p in task["pieces"])]
    least += [piece["count"] for piece in task["pieces"]] + [s["length"] - 1 for s in sold]
    least += [number for s in sold for number in (s["price"], s["trim"], s["limit"] or 0)]
    least += [line[name] for line in task["lines"] for name in NOT_BELOW_0]
    ensure(min(least) >= 0, "a price, length, count or limit is below nothing")
    ensure(len(names) == len(sold), "a name stands twice")
    ordered = all(line["stations"] == sorted(set(line["stations"])) for line in task["lines"])
    ensure(ordered, "the stations of a line are out of order")
    pairs, sets = [(p["one"], p["other"]) for p in task["beside"]], range(len(task["lines"]))
    lie = all({one, other} <= {*sets} and one != other for one, other in pairs)
    ensure(lie and len(set(pairs)) == len(pairs), "sets lie beside themselves, none, or twice")


def why_it_holds(proof: Record) -> str:
    """Return why a proof holds; NotProven if it does not."""
    task, certificate = proof["task"], proof["certificate"]
    ensure_sense(task)
    ensure(certificate["bound"] <= proof["objective"], "the bound is above the cost")
    if not any(line["count"] for line in task["lines"]):
        task = task | {"joint_price": 0}  # there are none
    joints, vectors, splits = fewest_joints(task), certificate["vectors"], certificate["splits"]
    for vector in vectors:
        ensure_worths_may_be_used(task, vector)
    prices = [stock["price"] for stock in task["stock"]]
    step = gcd(task["joint_price"], *prices) or 1
    money = (certificate["bound"] - 1) // step * step  # all that costs less costs no more than this
    sums = [worths_carried(task, vector, joints) for vector in vectors]
    sums += money_and_limits(task, money - joints * task["joint_price"])
    if money < 0 or any(is_enough(sums, v, prices) for v in range(len(vectors))):
        return "one set of worths proves it"
    none_left = no_counts_are_left(sums, iter(splits), [])
    ensure(none_left, "the worths do not rule out that some counts of boards cost less")
    return f"proven by sets of worths: {len(vectors)}, and splits of the counts: {len(splits)}"


def pieces_wanted(task: Record, joints: list[list[list[int]]]) -> Counter[int]:
    """Return how many of each length the rows and fixed pieces ask for."""
    wanted: Counter[int] = Counter()
    for piece in task["pieces"]:
        wanted[piece["length"]] += piece["count"]
    lines, longest, near = task["lines"], longest_usable(task), list[Any]()
    ensure(len(joints) == len(lines), "joints are given for other lines than those wanted")
    for line, rows in zip(lines, joints, strict=True):
        ensure(len(rows) == line["count"], "joints are given for more or fewer rows than there are")
        possible, most = pieces_of_a_line(line, longest), line["most_joints"]
        for number, row in enumerate(rows, 1):
            ends = list(pairwise([-1, *row, len(line["stations"])]))
            legal = possible.keys() >= set(ends) and (most is None or len(row) <= most)
            ensure(legal, f"row {number} has a piece or joint that the rules forbid")
            wanted.update(possible[both] for both in ends)
        near += [(row, other, line["stagger"]) for row, other in pairwise(rows)]
    for pair in task["beside"]:
        one, other = lines[pair["one"]], lines[pair["other"]]
        stagger, shift = max(one["stagger"], other["stagger"]), one["first_station"]
        for row, beside in zip(joints[pair["one"]][-1:], joints[pair["other"]][:1], strict=False):
            near.append((row, [b + other["first_station"] - shift for b in beside], stagger))
    for row, other, stagger in near:
        apart = all(abs(a - b) >= stagger for a in row for b in other)
        ensure(apart, "joints of neighbouring rows are too near each other")
    return wanted


def ensure_sawn(order: Record) -> None:
    """Refuse an order whose boards do not make the pieces wanted at the cost told."""
    proof, task = order["proof"], order["proof"]["task"]
    on_sale = {stock["name"]: stock for stock in task["stock"]}
    sawn: Counter[int] = Counter()
    bought: Counter[str] = Counter()
    for cut in order["cuts"]:
        name, pieces, boards = cut["stock"], cut["pieces"], cut["boards"]
        ensure(name in on_sale and boards > 0, f"{name} is not on sale")
        room = on_sale[name]["length"] - 2 * on_sale[name]["trim"]
        fits = pieces and sum(pieces) + task["kerf"] * (len(pieces) - 1) <= room
        ensure(fits and min(pieces) > 0, f"the pieces sawn from a board of {name} do not fit it")
        bought[name] += boards
        sawn.update({n: boards * pieces.count(n) for n in set(pieces)})
    for name, boards in bought.items():
        limit = on_sale[name]["limit"]
        ensure(limit is None or boards <= limit, f"more boards of {name} than there are")
    ensure(sawn == pieces_wanted(task, order["joints"]), "the pieces sawn are not those wanted")
    cost = sum(boards * on_sale[name]["price"] for name, boards in bought.items())
    cost += sum(len(row) for rows in order["joints"] for row in rows) * task["joint_price"]
    ensure(cost == proof["objective"], "prices and joints do not add up to the cost")


def check_order(order: Record) -> tuple[bool, str]:
    """Return (holds, why) for an order: what is bought, and that it could not cost less."""
    try:
        ensure_sawn(order)
        return True, why_it_holds(order["proof"])
    except NotProven as wrong:
        return False, str(wrong)


def told(order: Record, money: Callable[[int], str], metre: int) -> tuple[bool, list[str]]:
    """Return whether an order holds, and the lines that say so."""
    proof, task = order["proof"], order["proof"]["task"]
    holds, why = check_order(order)
    cost, bound = proof["objective"], proof["certificate"]["bound"]
    joints = sum(len(row) for rows in order["joints"] for row in rows)
    lines = [f"{order['name']}: {'holds' if holds else 'DOES NOT HOLD'} ({why})"]
    for stock in task["stock"]:
        boards = sum(cut["boards"] for cut in order["cuts"] if cut["stock"] == stock["name"])
        if boards:
            one = f"{stock['length'] / metre:.3f} m at {money(stock['price'])}"
            lines.append(f"  {boards:>4} x {one}: {money(boards * stock['price'])}")
    if joints and (price := task["joint_price"]):
        lines.append(f"  {joints:>4} x joint at {money(price)}: {money(joints * price)}")
    lines.append(f"  cost in all                {money(cost)}")
    lines.append(f"  none can cost less than    {money(bound)}")
    return holds, [*lines, f"  could save at most         {money(cost - bound)}"]


def whole_only(text: str) -> int:
    """Refuse a number of the file that is not whole."""
    raise ValueError(f"{text} is no whole number")


def main(path: str | Path) -> int:
    """Print what each order comes to; return 0 if all hold, 1 if not, 2 if unreadable."""
    try:
        text = Path(path).read_text(encoding="utf-8")
        slip = json.loads(text, parse_float=whole_only, parse_constant=whole_only)
        unit, metre = slip["money"], slip["units_per_m"]

        def money(value: int) -> str:
            return f"{Decimal(value).scaleb(-unit['places']):f} {unit['name']}".rstrip()

        outcomes = [told(order, money, metre) for order in slip["orders"]]
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError) as wrong:
        print(f"{path} is missing or damaged: {wrong!r}", file=sys.stderr)  # noqa: T201
        return 2
    for _, lines in outcomes:
        sys.stdout.write("\n".join(lines) + "\n")
    return 0 if outcomes and all(holds for holds, _ in outcomes) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).with_name("proof.json")))
