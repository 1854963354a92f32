"""Rows: how many, how far apart, and every honest way out of a sliver."""
