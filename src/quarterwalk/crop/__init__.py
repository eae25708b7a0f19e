"""The crop's clock: dates of a field's season, and the stage and squaring week on a day."""

from quarterwalk.crop.dates import CropDateError, CropDates
from quarterwalk.crop.stage import Stage, StageName, stage_on, weeks_between

__all__ = ["CropDateError", "CropDates", "Stage", "StageName", "stage_on", "weeks_between"]
