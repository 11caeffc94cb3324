"""Rules of how a crop grows on its days."""
