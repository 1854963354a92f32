"""Rows cut into pieces on the joist lines, with the purchase in view."""
