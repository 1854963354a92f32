"""The frame under an outline: rims on every side, joists clipped to it, what openings want."""
