"""What the files of a garden may hold, as JSON Schema: for editors, and for programs that write.

Made from the tables that the reader walks, so what it refuses by its shape the reader refuses too.
"""

from sowtide.garden.described.garden_schema import garden_schema
from sowtide.garden.described.journal_schema import journal_schema

__all__ = ["garden_schema", "journal_schema"]
