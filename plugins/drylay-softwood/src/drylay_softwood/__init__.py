"""Treated softwood: the family, found by drylay through its entry point."""
