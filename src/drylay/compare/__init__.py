"""Many plans beside one another: families of boards, step points, studies of any size."""
