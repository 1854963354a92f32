"""Joist lines: where a board may be carried, fixed and jointed."""
