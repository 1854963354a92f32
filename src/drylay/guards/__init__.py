"""Guards: where an edge needs one, how high, what fills it, and what it takes."""
