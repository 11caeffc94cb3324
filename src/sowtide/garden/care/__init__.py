"""Care as the grower wrote it: routines of feeding, spraying, watering and looking."""

from sowtide.garden.care.care_keys import CareKeys, LabelKeys
from sowtide.garden.care.dimensions import Dimension
from sowtide.garden.care.kept_together import days_between
from sowtide.garden.care.measured import (
    Measured,
    in_largest,
    ladder_of,
    said,
    size_of,
    usual_units,
)
from sowtide.garden.care.routine import (
    Against,
    Label,
    Made,
    Moment,
    OnDemand,
    Rate,
    Routine,
    StageDay,
    Targets,
    TimeOfDay,
    WaveStage,
    Work,
)
from sowtide.garden.care.routines import care_of
from sowtide.garden.care.targets import covers

__all__ = [
    "Against",
    "CareKeys",
    "Dimension",
    "Label",
    "LabelKeys",
    "Made",
    "Measured",
    "Moment",
    "OnDemand",
    "Rate",
    "Routine",
    "StageDay",
    "Targets",
    "TimeOfDay",
    "WaveStage",
    "Work",
    "care_of",
    "covers",
    "days_between",
    "in_largest",
    "ladder_of",
    "said",
    "size_of",
    "usual_units",
]
