"""Plan sowings in waves between two frosts."""

__version__ = "0.1.0"
