"""Families (rules) and stock catalogues (data): nouns, loader, lookup."""
