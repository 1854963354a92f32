"""A merchant: which lengths to keep for these decks, and prices that hold if one sells out."""

import drylay

brief = drylay.read_brief("docs/examples/studies/terrace.toml")
stock = drylay.load_catalogue("catalogs/hobbleden.toml")
sizes = {"small": (2400, 1795), "middle": (3000, 1795), "wide": (3600, 1795)}
decks = {
    name: brief.replace("cover.along_mm", along).replace("cover.across_mm", across)
    for name, (along, across) in sizes.items()
}
print(drylay.lengths_to_keep(decks, article="DB-28-145", stock=stock, keep=3))
print(drylay.holding_prices(decks, stock=stock, articles=["DB-28-145"]))
