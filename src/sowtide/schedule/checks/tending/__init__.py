"""Rules of care: what closes the picking, what gives way, manure, package rates, groups."""
