"""Rules of the garden and its year."""
