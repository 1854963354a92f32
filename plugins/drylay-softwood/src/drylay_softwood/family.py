"""The family of treated softwood, put together from its table and its rules."""

from functools import partial

from drylay.materials.model import RULES, Family, Rule
from drylay_softwood import rules
from drylay_softwood.table import Table, read_table

ID = "softwood"

_CODED: dict[str, rules.TableRule] = {
    "most_centres_mm": rules.most_centres_mm,
    "sliver_mm": rules.sliver_mm,
    "least_rip_mm": rules.least_rip_mm,
    "screw_length_least_mm": rules.screw_length_least_mm,
    "coach_screw_length_least_mm": rules.coach_screw_length_least_mm,
    "spare_ratio": rules.spare_ratio,
    "frame_screw_length_least_mm": rules.frame_screw_length_least_mm,
    "fascia_screw_length_least_mm": rules.fascia_screw_length_least_mm,
    "metal_allowed": rules.metal_allowed,
}
_GAPS = {
    "gap_least_mm": "narrowest gap by width",
    "gap_preferred_mm": "gap to aim for by width",
    "gap_most_mm": "widest gap by width",
}
_ONE_NUMBER = {
    "end_gap_mm": "end gap at a butt joint",
    "end_bearing_least_mm": "bearing of a board end at a butt joint",
    "least_supports": "supports under one piece",
    "stagger_bays": "stagger of neighbouring rows",
    "may_rip": "treated boards may be ripped",
    "screws_per_crossing": "screws at a crossing",
    "screw_edge_least_mm": "screw from the edge",
    "screw_end_least_mm": "screw from the end, with a pilot",
    "screw_pilot_ratio": "pilot near an end",
    "coach_screws_per_joist_end": "coach screws at a joist end",
    "coach_screw_sink_mm": "coach screw heads under a fascia",
    "coach_screw_pilot_ratio": "lead hole of a coach screw's thread",
    "noggin_spacing_most_mm": "noggin spacing",
    "frame_screws_per_noggin_end": "screws at a noggin's end",
    "frame_screws_per_splice_side": "screws of a splice, each side of the joint",
    "fascia_screws_per_place": "screws of a fascia, one above the other",
    "fascia_screw_spacing_most_mm": "spacing of fascia screws",
    "fascia_screw_end_least_mm": "fascia screw from an end",
    "board_use_class_least": "use class of boards and fascia",
    "frame_use_class_least": "use class of frame timber",
    "preserver_coats": "coats of preserver on sawn ends",
    "finish_coats": "coats of finish",
    "groove_ratio": "surface of a grooved face",
    "density_most_kg_m3": "mass fresh from treatment",
}


def softwood() -> Family:
    """Return the family, its table read afresh."""
    table = read_table()
    return Family(id=ID, title=table.title, rules=_rules(table), cautions=table.cautions)


def _rules(table: Table) -> dict[str, Rule]:
    coded = {name: partial(rule, table) for name, rule in _CODED.items()}
    gaps = {
        name: partial(rules.gap_mm, table, name=name, rule=says) for name, says in _GAPS.items()
    }
    numbers = {
        name: partial(rules.one_number, table, name=name, unit=RULES[name][0], rule=says)
        for name, says in _ONE_NUMBER.items()
    }
    return {**coded, **gaps, **numbers}
