# A notebook in cells, as editors open it. docs/notebook.md shows what it draws.

# %% Thirteen depths, boards along the house and away from it
import drylay

brief = drylay.read_brief("docs/examples/studies/terrace.toml")
stock = drylay.load_catalogue("catalogs/hobbleden.toml")
cases = drylay.vary(
    brief.replace("cover.along_mm", 2400),
    {"board.run": ["along", "across"], "cover.across_mm": range(1500, 2101, 50)},
)
rows = list(drylay.compare(cases, stock=stock, mode="quick", rate_ratio=0.04))
len(rows)

# %% What a depth costs
depths = drylay.cost_by_size(rows, "cover.across_mm", by="board.run")
depths

# %% Which decks no other beats
best = drylay.pareto(rows, {"total": "least", "cover_m2": "most"})
best

# %% Both ways side by side
drylay.side_by_side(rows, by="board.run", of=("total", "yearly_least", "yearly_most"))

# %% What one of them may come to: prices and lives are not certain
deck = cases.brief.replace("cover.across_mm", 1800)
spreads = {"stock.price_ratio": (0.9, 1.0, 1.25), "life.boards": None, "life.frame": (10, 25)}
drylay.uncertainty(deck, stock=stock, spreads=spreads, samples=20, seed=9, rate_ratio=0.04)
