"""What lies under the deck: dig, fabric, gravel, packers."""
