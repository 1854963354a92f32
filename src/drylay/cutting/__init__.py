"""Linear cutting stock and joint patterns: knows pieces, stock, kerf and prices, no deck."""
