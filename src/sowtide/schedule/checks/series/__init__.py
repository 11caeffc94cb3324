"""Rules of a series as a whole."""
