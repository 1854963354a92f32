"""A researcher: a sample of decks planned in two processes, the best of them, rows for any tool."""

import drylay

if __name__ == "__main__":  # processes begin by reading this file again
    brief = drylay.read_brief("docs/examples/studies/terrace.toml")
    stock = drylay.load_catalogue("catalogs/hobbleden.toml")
    sizes = {"cover.along_mm": range(1800, 6001), "cover.across_mm": range(1200, 4201)}
    cases = drylay.vary(brief, sizes, how="sample", count=12, seed=9)
    rows = list(drylay.compare(cases, stock=stock, mode="quick", workers=2, rate_ratio=0.04))
    drylay.write_rows(rows, "decks.csv")
    print(drylay.pareto(rows, {"total": "least", "cover_m2": "most"}))
