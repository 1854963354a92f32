"""Movement: how boards grow and shrink with damp and heat, and what gaps come of it."""
