"""The part of the job sheet on what is brushed on."""

from drylay.fixings.model import Preserver
from drylay.papers.coats_text import brushed_told
from drylay.papers.html import FIGURE, TEXT, Html, points, table
from drylay.papers.quantities import area
from drylay.papers.sheet_parts import COATS, care, part
from drylay.papers.wording import clean
from drylay.plan.model import Plan

COLUMNS = (("What", TEXT), ("Sawn ends", FIGURE), ("Area", FIGURE))


def coats_part(plan: Plan) -> Html:
    """Return what is brushed on: the ends of each kind of piece, litres, tins."""
    texts = brushed_told(plan)
    if not texts or plan.fixings is None:
        return Html("")
    preserver = plan.fixings.preserver
    ends = Html("") if preserver is None else _ends(preserver, plan.units)
    return part(COATS, "Preserver and finish", [care(plan, COATS), ends, points(texts)])


def _ends(preserver: Preserver, units: str) -> Html:
    rows = [
        (clean(each.what), str(each.ends), area(each.area_m2, units)) for each in preserver.parts
    ]
    if preserver.ripped_m2:
        rows.append(("ripped edges", "", area(preserver.ripped_m2, units)))
    rows.append(("all", str(preserver.ends), area(preserver.area_m2, units)))
    return table("Bare timber to give preserver to; each area is rounded up", COLUMNS, rows)
