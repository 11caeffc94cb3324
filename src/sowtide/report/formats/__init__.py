"""Blocks or views as bytes, each form knowing nothing of any command."""
