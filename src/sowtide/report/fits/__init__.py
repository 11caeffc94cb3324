"""What ``fits`` prints."""
