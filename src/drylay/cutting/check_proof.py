"""Check an order of timber: that it gives every piece wanted, and could not have been cheaper.

Run it beside proof.json:  python check_proof.py
It needs Python 3.11 or later and nothing else. Exit code 0: every order holds; 1: one does not;
2: proof.json is missing or damaged.

What it checks first. The boards bought are sawn into exactly the pieces wanted, saw cuts and
trims counted; joints keep the rules beside them; prices and joints add up to the cost. Prices,
lengths and joint rules are what the proof is about: compare them with merchant and plan.

How it argues then. Suppose every piece you need has a worth. Work out the most worth one board of
each length can carry, whichever way you saw it, and the worth all your pieces must have
together, whichever way you joint the lines. The boards you buy must carry that worth. If no
board carries more worth than it costs, the order cannot cost less than the pieces are worth.
Sometimes one set of worths is not enough: then several are given, and this program goes
through every count of boards that costs less than the bound and finds that each one carries
too little of at least one worth.

Lines (rows of a deck) side by side must keep their joints apart. A "window" is two stretches of
stations (joists, say), one for each of two neighbours, so short and so near each other that the
neighbours have one joint in both together. Its price is charged for each joint there, and given
back once for as many as neighbours leave room for. Within a set of lines the first stretch is for
the `odd` lines numbered 1, 3, 5 ..., the second for the `even` ones numbered 2, 4, 6 ... A joint
counts even / g on an odd line and odd / g on an even one, and together never more than
odd x even / g, where g is their greatest common divisor. Sets may lie beside one another, the
last line of one by the first of the other: there a window is of these two lines only. All
numbers are whole; none is rounded to please.
"""

import json
import sys
from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import gcd
from pathlib import Path
from typing import Any

Record = dict[str, Any]  # an object of the JSON file
Place = int | str  # a station, or "start" or "end"
Kind = tuple[int, int | None, list[int]]  # price, limit, worth in each set
STRETCHES = (("line", "first", "width"), ("beside", "beside_first", "beside_width"))
NOT_BELOW_0 = ("count", "joint_gap", "least_bays", "stagger", "first_station")


def most_worth_on_a_board(space: int, kerf: int, worth_of: dict[int, int]) -> int:
    """Return the most worth that pieces sawn from `space` (the usable length) can have.

    Each piece takes its length and one kerf; the last kerf may fall off the end.
    """
    best = {0: 0}  # length used so far -> most worth that uses just that
    for length, worth in worth_of.items():
        take = length + kerf
        if worth == 0 or take > space + kerf:
            continue
        for used in sorted(best):
            at, total = used + take, best[used] + worth
            while at <= space + kerf and total > best.get(at, -1):
                best[at] = total
                at, total = at + take, total + worth
    return max(best.values())


def pieces_of_a_line(line: Record, longest: int) -> dict[tuple[Place, Place], int]:
    """Return {(from, to): length} of every piece a line may have.

    Joints are counted 0, 1, ... by station; "start" and "end" are the line's own ends.
    """
    stations, bays = line["stations"], line["least_bays"]
    before = line["joint_gap"] // 2  # what the joint takes off the piece before it
    after = line["joint_gap"] - before
    last = len(stations) - 1
    pieces: dict[tuple[Place, Place], int] = {("start", "end"): line["end"] - line["start"]}
    if line["most_joints"] != 0:
        for j, here in enumerate(stations):
            if j >= bays:
                pieces["start", j] = here - before - line["start"]
            if last - j >= bays:
                pieces[j, "end"] = line["end"] - here - after
            for i in range(max(0, j - max(1, bays)), -1, -1):
                pieces[i, j] = here - before - stations[i] - after
    return {ends: length for ends, length in pieces.items() if 0 < length <= longest}


def cheapest_line(
    line: Record, longest: int, piece_cost: Callable[[int], int], joint_cost: list[int]
) -> int | None:
    """Return the least a line can cost, or None if no line can be made.

    `piece_cost` is asked for each length, `joint_cost` has an entry for each station.
    """
    pieces = pieces_of_a_line(line, longest)
    most = line["most_joints"]
    most = len(line["stations"]) if most is None else most
    ways: dict[Place, int] = {"start": 0}  # where a line has got to -> the least that cost
    finished = []
    for _ in range(most + 1):
        onward: dict[Place, int] = {}
        for (tail, head), length in pieces.items():
            if tail in ways:
                cost = ways[tail] + piece_cost(length)
                if head == "end":
                    finished.append(cost)
                else:
                    cost += joint_cost[int(head)]
                    onward[head] = min(cost, onward.get(head, cost))
        ways = onward
        if not ways:
            break
    return min(finished) if finished else None


def worth_needed(task: Record, vector: Record, worth_of: dict[int, int]) -> int:
    """Return the least worth of everything wanted, whichever way the lines are jointed."""
    needed: int = sum(p["count"] * worth_of.get(p["length"], 0) for p in task["pieces"])
    longest, plain = longest_usable(task), task["joint_price"] * vector["scale"]
    for number, line in enumerate(task["lines"]):
        rows = range(line["count"])
        alike = Counter(tuple(charges(task, vector["windows"], number, row)) for row in rows)
        for charged, count in alike.items():
            joint = [plain + charge for charge in charged]
            cheapest = cheapest_line(line, longest, lambda n: worth_of.get(n, 0), joint)
            needed += count * (cheapest or 0)
    return needed - sum(w["price"] * what_joints_count(task, w)[2] for w in vector["windows"])


def what_joints_count(task: Record, window: Record) -> tuple[int, int, int]:
    """Return what a joint in either stretch of a window counts, and what all may come to."""
    count = task["lines"][window["line"]]["count"]
    odd, even = ((count + 1) // 2, count // 2) if window["line"] == window["beside"] else (1, 1)
    shared = gcd(odd, even) or 1
    return even // shared, odd // shared, odd * even // shared


def charges(task: Record, windows: list[Record], number: int, row: int) -> list[int]:
    """Return what the windows charge for a joint at each station of a row (0, 1 ...) of a set."""
    line = task["lines"][number]
    charged = [0] * len(line["stations"])
    for window in windows:
        counts = what_joints_count(task, window)
        for side, (name, first, width) in enumerate(STRETCHES):
            within = window["line"] == window["beside"]
            meant = row % 2 == side if within else row == (line["count"] - 1, 0)[side]
            if meant and window[name] == number:
                for station in range(window[first], window[first] + window[width]):
                    charged[station] += window["price"] * counts[side]
    return charged


def longest_usable(task: Record) -> int:
    """Return the longest length that can be sawn from a board on sale."""
    on_sale = [s for s in task["stock"] if s["limit"] != 0]
    return max((s["length"] - 2 * s["trim"] for s in on_sale), default=0)


def fewest_joints(task: Record) -> int | None:
    """Return the fewest joints all lines can be made with, None if a line cannot be made."""
    longest, total = longest_usable(task), 0
    for line in task["lines"]:
        fewest = cheapest_line(line, longest, lambda _: 0, [1] * len(line["stations"]))
        if line["count"] and fewest is None:
            return None
        total += line["count"] * (fewest or 0)
    return total


def what_is_wrong_with(task: Record, vector: Record) -> str:
    """Return why a set of worths must not be used, "" if it may."""
    if vector["scale"] < 1 or min(vector["worths"], default=0) < 0:
        return "a worth or a scale is negative"
    if len(vector["lengths"]) != len(vector["worths"]):
        return "lengths and worths do not match"
    if len(set(vector["lengths"])) != len(vector["lengths"]):
        return "a length is named twice"
    if min(vector["lengths"], default=1) < 1:
        return "a length is not positive"
    wrongs = (what_is_wrong_with_a_window(task, window) for window in vector["windows"])
    return next(filter(None, wrongs), "")


def what_is_wrong_with_a_window(task: Record, window: Record) -> str:
    """Return why two neighbours might have more than one joint in a window, "" if not."""
    lines, number, beside = task["lines"], window["line"], window["beside"]
    if number not in range(len(lines)) or beside not in range(len(lines)) or window["price"] < 0:
        return "a window is on no line, or its price is negative"
    if number != beside and {"one": number, "other": beside} not in task["beside"]:
        return "a window is across sets that do not lie beside one another"
    if min(lines[number]["count"], lines[beside]["count"]) < (2 if number == beside else 1):
        return "a window is on a line without a neighbour"
    places = []
    for name, first, width in STRETCHES:
        line = lines[window[name]]
        if not 1 <= window[width] <= max(1, line["least_bays"]):
            return "a window is too wide for one joint of a line"
        if not 0 <= window[first] <= len(line["stations"]) - window[width]:
            return "a window is beyond the stations"
        start = line["first_station"] + window[first]
        places.append(range(start, start + window[width]))
    stagger = max(lines[number]["stagger"], lines[beside]["stagger"])
    if any(abs(a - b) >= stagger for a in places[0] for b in places[1]):
        return "a window is too wide for one joint of two neighbours"
    return ""


def bound_of_one(task: Record, carries: list[int], needed: int, scale: int) -> int:
    """Return the bound one set of worths gives by itself."""
    for stock, carried in zip(task["stock"], carries, strict=True):
        excess = carried - stock["price"] * scale
        if excess > 0 and stock["limit"] is None:
            return 0  # this board carries more worth than it costs: no bound
        if excess > 0:
            needed -= stock["limit"] * excess
    prices = [stock["price"] for stock in task["stock"]]
    prices += [task["joint_price"]] if any(line["count"] for line in task["lines"]) else []
    step = gcd(*prices) or 1  # every cost is a multiple of this
    return -(-needed // (scale * step)) * step


def cheaper_counts_exist(kinds: list[Kind], money: int, needs: list[int]) -> bool:
    """Return whether some counts that cost `money` or less carry every worth needed.

    All boards that cost nothing are taken. Then one kind after the other is counted, the one
    with the fewest possible counts first; of the last, as many as there is money for.
    """
    for _, limit, worths in (kind for kind in kinds if kind[0] == 0):
        plenty = max([0, *needs]) if limit is None else limit
        needs = [need - plenty * worth for need, worth in zip(needs, worths, strict=True)]
    kinds = [kind for kind in kinds if kind[0] > 0]

    @cache
    def reach(left: tuple[int, ...]) -> list[tuple[int, int, int, int]]:
        return [way for v in range(len(needs)) for way in most([kinds[k] for k in left], v)]

    def exist(left: tuple[int, ...], money: int, needs: list[int]) -> bool:
        if all(need <= 0 for need in needs):
            return True
        ways = [(k, tuple(other for other in left if other != k)) for k in left]
        options = [
            (possible_counts(kinds[k], reach(others), money, needs), k, others)
            for k, others in ways
        ]
        counts, k, others = min(options, key=lambda o: len(o[0]), default=(range(0), 0, ()))
        price, _, worths = kinds[k] if left else (0, 0, [])
        return any(
            exist(
                others, money - n * price, [a - n * b for a, b in zip(needs, worths, strict=True)]
            )
            for n in (counts if others else counts[-1:])
        )

    return exist(tuple(range(len(kinds))), money, needs)


def possible_counts(
    kind: Kind, reach: list[tuple[int, int, int, int]], money: int, needs: list[int]
) -> range:
    """Return how many of a kind may be bought so that the others can carry the rest."""
    price, limit, worths = kind
    least, most = 0, money // price if limit is None else min(limit, money // price)
    for v, gain, cost, extra in reach:
        # need - n worth <= ((money - n price) gain + extra) / cost
        missing = needs[v] * cost - money * gain - extra
        each = worths[v] * cost - price * gain
        if each > 0:
            least = max(least, -(-missing // each))
        elif each < 0:
            most = min(most, missing // each)
        elif missing > 0:
            return range(0)
    return range(least, most + 1)


def most(kinds: list[Kind], v: int) -> list[tuple[int, int, int, int]]:
    """Return (v, gain, cost, extra): m money brings no more than (m gain + extra) / cost of v.

    gain / cost is the best rate of the kinds without a limit, or a better one of a kind with
    one; extra is what those with a limit add to it.
    """
    rates = [(worths[v], price) for price, limit, worths in kinds if limit is None]
    best = max([(0, 1), *rates], key=lambda rate: Fraction(*rate))
    rates = [(worths[v], price) for price, limit, worths in kinds if limit is not None]
    found = []
    for gain, cost in [best, *(rate for rate in rates if Fraction(*rate) > Fraction(*best))]:
        limited = [(limit, w[v] * cost - price * gain) for price, limit, w in kinds if limit]
        found.append((v, gain, cost, sum(limit * max(0, more) for limit, more in limited)))
    return found


def is_nonsense(task: Record) -> bool:
    """Return whether a number of a task is below what it can be, or a name stands twice."""
    sold, names = task["stock"], {stock["name"] for stock in task["stock"]}
    least = [task["kerf"], task["joint_price"], *(p["length"] - 1 for p in task["pieces"])]
    least += [piece["count"] for piece in task["pieces"]] + [s["length"] - 1 for s in sold]
    least += [number for s in sold for number in (s["price"], s["trim"], s["limit"] or 0)]
    least += [line[name] for line in task["lines"] for name in NOT_BELOW_0]
    pairs, sets = (
        [(pair["one"], pair["other"]) for pair in task["beside"]],
        range(len(task["lines"])),
    )
    unlike = all(one in sets and other in sets and one != other for one, other in pairs)
    ordered = all(line["stations"] == sorted(set(line["stations"])) for line in task["lines"])
    twice = len(names) != len(sold) or len(set(pairs)) != len(pairs)
    return min(least) < 0 or twice or not unlike or not ordered


def check(proof: Record) -> tuple[bool, str]:
    """Return (holds, why) for one proof."""
    task, bound = proof["task"], proof["certificate"]["bound"]
    if is_nonsense(task):
        return False, "a price, length, count or limit is below nothing, or a name stands twice"
    if bound > proof["objective"]:
        return False, "the bound is above the cost"
    joints = fewest_joints(task)
    if joints is None:
        return False, "a line cannot be made from these boards"
    sets = []
    for vector in proof["certificate"]["vectors"]:
        wrong = what_is_wrong_with(task, vector)
        if wrong:
            return False, wrong
        worth_of = dict(zip(vector["lengths"], vector["worths"], strict=True))
        carries = [
            most_worth_on_a_board(s["length"] - 2 * s["trim"], task["kerf"], worth_of)
            for s in task["stock"]
        ]
        sets.append((carries, worth_needed(task, vector, worth_of), vector["scale"]))
    if bound <= max([0, *(bound_of_one(task, *one) for one in sets)]):
        return True, "one set of worths proves it"
    kinds = [
        (stock["price"], stock["limit"], [carries[s] for carries, _, _ in sets])
        for s, stock in enumerate(task["stock"])
    ]
    price = task["joint_price"] if task["lines"] else 0
    if price:
        kinds.append((price, None, [price * scale for _, _, scale in sets]))
    money = bound - 1 - joints * price
    needs = [needed - joints * price * scale for _, needed, scale in sets]
    if money >= 0 and cheaper_counts_exist(kinds, money, needs):
        return False, "some counts of boards cost less and carry every worth needed"
    return True, f"no counts of boards that cost less carry all {len(sets)} sets of worths"


def pieces_of_a_row(line: Record, joints: list[int], longest: int) -> list[int] | None:
    """Return the lengths a row with these joints is made of, None if it may not be."""
    possible = pieces_of_a_line(line, longest)
    most = line["most_joints"]
    ends: list[Place] = ["start", *joints, "end"]
    if most is not None and len(joints) > most:
        return None
    lengths = [possible.get(both) for both in pairwise(ends)]
    return [n for n in lengths if n is not None] if None not in lengths else None


def pieces_wanted(task: Record, joints: list[list[list[int]]]) -> Counter[int] | str:
    """Return how many of each length the rows and fixed pieces ask for, or what is wrong."""
    wanted: Counter[int] = Counter()
    for piece in task["pieces"]:
        wanted[piece["length"]] += piece["count"]
    longest = longest_usable(task)
    if len(joints) != len(task["lines"]):
        return "joints are given for other lines than those wanted"
    for line, rows in zip(task["lines"], joints, strict=True):
        if len(rows) != line["count"]:
            return "joints are given for more or fewer rows than there are"
        for number, row in enumerate(rows, 1):
            lengths = pieces_of_a_row(line, row, longest)
            if lengths is None:
                return f"row {number} has a piece or joint that the rules forbid"
            wanted.update(lengths)
        for number, (row, other) in enumerate(pairwise(rows), 1):
            if any(abs(a - b) < line["stagger"] for a in row for b in other):
                return f"joints of rows {number} and {number + 1} are too near each other"
    for pair in task["beside"]:
        one, other = task["lines"][pair["one"]], task["lines"][pair["other"]]
        stagger, shift = (
            max(one["stagger"], other["stagger"]),
            other["first_station"] - one["first_station"],
        )
        for row, near in zip(joints[pair["one"]][-1:], joints[pair["other"]][:1], strict=False):
            if any(abs(a - b - shift) < stagger for a in row for b in near):
                return f"joints of set {pair['one']} are too near those of set {pair['other']}"
    return wanted


def what_is_wrong_with_the_order(order: Record) -> str:
    """Return why the boards bought do not make the pieces wanted at the cost told, "" if so."""
    proof, task = order["proof"], order["proof"]["task"]
    on_sale = {stock["name"]: stock for stock in task["stock"]}
    sawn: Counter[int] = Counter()
    bought: Counter[str] = Counter()
    for cut in order["cuts"]:
        stock, pieces = on_sale.get(cut["stock"]), cut["pieces"]
        if stock is None or cut["boards"] < 1:
            return f"{cut['stock']} is not on sale"
        room = stock["length"] - 2 * stock["trim"]
        if not pieces or min(pieces) < 1 or sum(pieces) + task["kerf"] * (len(pieces) - 1) > room:
            return f"the pieces sawn from a board of {cut['stock']} do not fit it"
        bought[cut["stock"]] += cut["boards"]
        sawn.update({n: cut["boards"] * pieces.count(n) for n in set(pieces)})
    for name, boards in bought.items():
        if on_sale[name]["limit"] is not None and boards > on_sale[name]["limit"]:
            return f"more boards of {name} than there are"
    wanted = pieces_wanted(task, order["joints"])
    if isinstance(wanted, str):
        return wanted
    if sawn != wanted:
        return "the pieces sawn are not the pieces wanted"
    joints = sum(len(row) for rows in order["joints"] for row in rows)
    cost = sum(boards * on_sale[name]["price"] for name, boards in bought.items())
    if cost + joints * task["joint_price"] != proof["objective"]:
        return "prices and joints do not add up to the cost"
    return ""


def check_order(order: Record) -> tuple[bool, str]:
    """Return (holds, why) for an order: what is bought, and that it could not cost less."""
    wrong = what_is_wrong_with_the_order(order)
    return (False, wrong) if wrong else check(order["proof"])


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
    return holds, [
        *lines,
        f"  cost in all                {money(cost)}",
        f"  none can cost less than    {money(bound)}",
        f"  could save at most         {money(cost - bound)}",
    ]


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
            places = unit["places"]
            sign, digits = ("-" if value < 0 else ""), str(abs(value)).rjust(places + 1, "0")
            whole, part = digits[: len(digits) - places], digits[len(digits) - places :]
            amount = sign + whole + ("." + part if places else "")
            return " ".join(filter(None, [amount, unit["name"]]))

        outcomes = [told(order, money, metre) for order in slip["orders"]]
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError) as wrong:
        print(f"{path} is missing or damaged: {wrong!r}", file=sys.stderr)  # noqa: T201
        return 2
    for _, lines in outcomes:
        sys.stdout.write("\n".join(lines) + "\n")
    return 0 if outcomes and all(holds for holds, _ in outcomes) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).with_name("proof.json")))
