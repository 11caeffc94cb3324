"""What the place does: frost, and later warmth and daylight."""
