"""``python -m sowtide``."""

from sowtide.cli import main

main()
