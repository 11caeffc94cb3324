"""What ``check`` prints."""
