"""Rules of where a wave stands."""
