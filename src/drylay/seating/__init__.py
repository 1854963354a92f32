"""How large a deck must be for what stands on it."""
