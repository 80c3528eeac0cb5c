"""The four things of the water for which ranges are kept side by side."""

from typing import NamedTuple

from workbook.tables.formula import Formula, Part, filled, logic
from workbook.tables.template import here, quoted, starred


class Parameter(NamedTuple):
    """Key of its columns, name, name within a sentence, unit, limits of sense, number format, and what is narrow.

    In its templates a star stands for its key; {kept}, {word} and {narrow} for what a tank is kept at, its name within
    a sentence, and the constant below which a range is narrow.
    """

    key: str
    label: str
    word: str
    unit: str
    low: float
    high: float
    show: str
    narrow: str

    @property
    def kept(self) -> str:
        """The key of what a tank is kept at: its set temperature, or what is typed or follows from its water."""
        return "temperature" if self.key == "temperature" else f"{self.key}_used"

    @property
    def step(self) -> str:
        """The unit of a difference: two temperatures lie so many degrees apart, which is no temperature."""
        return "K" if self.unit == "degC" else self.unit

    @property
    def is_wide(self) -> bool:
        """Whether its name wants a wider column."""
        return self.key == "temperature"

    def parts(self, template: str, given: dict[str, Part]) -> dict[str, Part]:
        """What is given, and what of its own the template asks for."""
        own = {"kept": here(self.kept), "word": quoted(self.word), "narrow": self.narrow}
        return {name: part for name, part in own.items() if here(name) in template} | given

    def filled(self, template: str, **parts: Part) -> str:
        """Formula text for this parameter."""
        return filled(template, each=self.key, **self.parts(template, parts))

    def logic(
        self, template: str, unit: str = "", *, copes: bool = False, needs: tuple[str, ...] = (), **parts: Part
    ) -> Formula:
        """A decision for this parameter."""
        return logic(template, unit, copes=copes, needs=needs, each=self.key, **self.parts(template, parts))

    def told(self, sentence: str) -> str:
        """A sentence of a flag for this parameter."""
        return starred(sentence, self.key).replace("{word}", self.word).replace("{kept}", here(self.kept))


PARAMETERS = (
    Parameter("temperature", "Temperature", "temperature", "degC", 0, 40, "0.0", "{const.narrow_temperature}"),
    Parameter("ph", "pH", "pH", "1", 3, 11, "0.0", "{const.narrow_ph}"),
    Parameter("gh", "GH", "GH", "degH", 0, 60, "0.0", "{const.narrow_gh}"),
    Parameter("kh", "KH", "KH", "degH", 0, 60, "0.0", "{const.narrow_kh}"),
)
KEYS = tuple(p.key for p in PARAMETERS)
RANGE_CHOICES = ("reported", "own", "both", "either")
