"""What holds what: how many, how long."""
