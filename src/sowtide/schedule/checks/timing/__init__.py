"""Rules of when a wave is planted and picked."""
