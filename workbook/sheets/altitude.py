"""How much oxygen water holds where the room stands."""

from workbook.equations import gases
from workbook.tables.formula import Formula
from workbook.tables.idioms import only_if, within

# From the shore of the Dead Sea to where nobody keeps fish.
ALTITUDES = (-430, 6000)


def saturation(temperature: str) -> Formula:
    """Oxygen at saturation, at the altitude on Start; blank where that is out of the question."""
    return only_if(
        within(ALTITUDES, "{settings.altitude}"),
        gases.oxygen_at_altitude(
            saturation=gases.oxygen_saturation(temperature=temperature),
            pressure=gases.pressure(altitude="{settings.altitude}"),
            temperature=temperature,
        ),
    )
