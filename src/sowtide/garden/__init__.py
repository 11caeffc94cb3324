"""What the grower wrote: reading the file, the values made of it, the built-in crops."""
