"""What ``plan`` prints."""
