"""What each side of the deck is: fascia here, walls and guards in later work."""
