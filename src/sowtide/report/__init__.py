"""A season as text, JSON or CSV."""
