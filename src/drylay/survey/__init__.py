"""What was measured of a garden: corners by tapes, ground by levels, and what follows of both."""
