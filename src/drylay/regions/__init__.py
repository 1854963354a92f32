"""What the rules of a region say about guards, steps, heights and footings, as data."""
