"""A deck that stands: bearers, posts, ledger, bracing, and every post's length from the levels."""
