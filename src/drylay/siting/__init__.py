"""Where a deck may stand: sun, view, water, ground, what lies near; each with a change."""
