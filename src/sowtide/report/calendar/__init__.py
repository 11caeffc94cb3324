"""What ``calendar`` prints."""
