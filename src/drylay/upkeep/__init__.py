"""The deck after it is built: looking at it, mending, extending, salvage, waste, carbon."""
