"""What ``week`` prints."""
