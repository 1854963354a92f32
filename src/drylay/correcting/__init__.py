"""Correcting: gaps set anew from what was measured while laying, and how true the end will be."""
