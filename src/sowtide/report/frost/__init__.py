"""What ``frost`` prints."""
