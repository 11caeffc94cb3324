"""What ``did`` prints."""
