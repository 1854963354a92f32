"""Tiles: a grid of them, what is cut and out of which tiles, and the pads they stand on."""
