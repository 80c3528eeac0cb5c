"""The four things of the water for which ranges are kept side by side."""

from typing import NamedTuple


class Parameter(NamedTuple):
    """Key of its columns, name, name within a sentence, unit, limits of sense, number format and the constant that calls a range narrow."""

    key: str
    label: str
    word: str
    unit: str
    low: float
    high: float
    show: str
    narrow: str


PARAMETERS = (
    Parameter("temperature", "Temperature", "temperature", "degC", 0, 40, "0.0", "{const.narrow_temperature}"),
    Parameter("ph", "pH", "pH", "1", 3, 11, "0.0", "{const.narrow_ph}"),
    Parameter("gh", "GH", "GH", "degH", 0, 60, "0.0", "{const.narrow_gh}"),
    Parameter("kh", "KH", "KH", "degH", 0, 60, "0.0", "{const.narrow_kh}"),
)
RANGE_CHOICES = ("reported", "own", "both", "either")
