"""Commands that look at no garden: what there is to know, and the shape of what is read."""
