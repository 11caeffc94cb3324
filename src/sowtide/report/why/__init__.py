"""What ``why`` prints."""
