"""What ``crops`` prints."""
