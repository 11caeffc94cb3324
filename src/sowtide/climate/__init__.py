"""What the place does: its frosts, its days and their warmth, and what becomes of a wave in it."""
