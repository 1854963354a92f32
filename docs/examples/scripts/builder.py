"""A builder: which of these decks is worth its money, bought today and over the years."""

import drylay

brief = drylay.read_brief("docs/examples/studies/terrace.toml").replace("cover.along_mm", 2400)
stock = drylay.load_catalogue("catalogs/hobbleden.toml")
stock = stock | drylay.load_catalogue("catalogs/hobbleden-thirty.toml")
boards = {"softwood": {}, "thirty years": {"board.article": "TY-28-145"}}
cases = drylay.vary(brief, {"boards": boards, "cover.across_mm": [1790, 1810, 1850]})
rows = list(drylay.compare(cases, stock=stock, mode="quick", rate_ratio=0.04))
print(drylay.cost_by_size(rows, "cover.across_mm", by="boards"))
print(drylay.side_by_side(rows, by="boards"))
print(drylay.pareto(rows, {"total": "least", "cover_m2": "most", "yearly_most": "least"}))
