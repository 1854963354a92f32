"""Many plans beside one another: so far one brief in several families of boards."""
