"""What ``plan --repack`` prints."""
