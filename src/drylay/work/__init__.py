"""How the deck is built: setting out, tasks with hold points, tools, lights."""
