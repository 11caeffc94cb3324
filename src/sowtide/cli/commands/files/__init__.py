"""Commands about the files themselves: begun, looked through, written on, and their shape."""
