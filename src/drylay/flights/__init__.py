"""Flights: equal risers, goings, pitch, handrail, landings, and rules that clash."""
