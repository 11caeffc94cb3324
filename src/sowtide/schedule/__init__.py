"""The date engine, pure: waves, their beds, their work."""
