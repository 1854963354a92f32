"""The outline of a deck that is no rectangle: its sides, its openings, what they keep clear."""
