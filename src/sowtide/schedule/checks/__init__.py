"""Problems of the plan: what was asked for and cannot, or should better not, come true.

They stop no command. Each is one rule in one file of the rooms below.
"""

from sowtide.schedule.checks.naming import named
from sowtide.schedule.checks.registry import problems_of, rules
from sowtide.schedule.checks.rule import Plan, Said, SeasonRule, SeriesRule, WaveRule

__all__ = [
    "Plan",
    "Said",
    "SeasonRule",
    "SeriesRule",
    "WaveRule",
    "named",
    "problems_of",
    "rules",
]
