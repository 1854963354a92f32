"""An embedding developer: what each size costs that a web form offers, or why it cannot be had."""

import drylay

brief = drylay.read_brief("docs/examples/studies/terrace.toml")
stock = drylay.load_catalogue("catalogs/hobbleden.toml")
sizes = {"cover.along_mm": [2400, 3600, "19 ft"], "joints.most_per_row": [0]}
for row in drylay.compare(drylay.vary(brief, sizes), stock=stock, mode="quick"):
    price = f"{row['total']} {row['currency']}" if row["buildable"] else f"no: {row['codes']}"
    print(f"{row['cover.along_mm']}: {price}")
