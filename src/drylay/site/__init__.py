"""Where the deck stands: levels beside the house, the ground, the hollow."""
