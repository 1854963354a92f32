"""The proof slip: a stand-alone script and the data it checks."""

import json
from importlib.resources import files

from attrs import asdict, evolve

from drylay.cutting.model import ProvenOrder
from drylay.cutting.splitting import with_splits


def slip(
    orders: tuple[ProvenOrder, ...],
    *,
    currency: str = "",
    money_places: int = 2,
    units_per_m: int = 320_000,
) -> dict[str, bytes]:
    """Return the two files of a proof slip: "check_proof.py" and "proof.json".

    The script needs the standard library only. With code of its own it checks that every
    order gives the pieces wanted at the cost told, and every proof again. `currency`,
    `money_places` (digits of the minor unit) and `units_per_m` (how many of the proofs'
    length units make a metre) say how to print the numbers. Splits that a proof of an older plan
    file does not tell are found.
    """
    content = {
        "money": {"name": currency, "places": money_places},
        "orders": [asdict(evolve(order, proof=with_splits(order.proof))) for order in orders],
        "units_per_m": units_per_m,
    }
    text = json.dumps(content, sort_keys=True, indent=1, ensure_ascii=False) + "\n"
    script = files("drylay.cutting").joinpath("check_proof.py").read_bytes()
    return {"check_proof.py": script, "proof.json": text.encode("utf-8")}
