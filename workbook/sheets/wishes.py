"""What animals want of their place, and what a tank offers: the same words on Species and on Tanks."""

from typing import NamedTuple


class Wish(NamedTuple):
    """Key of its columns, name, and its choices; those of light, cover and flow go from little to much."""

    key: str
    label: str
    choices: tuple[str, ...]

    @property
    def keys(self) -> tuple[tuple[str, str], ...]:
        """Each choice with the key of the columns about it."""
        return tuple((choice, f"{self.key}_{choice.replace(' ', '_')}") for choice in self.choices)


LIGHT = Wish("light", "Light", ("dim", "medium", "bright"))
COVER = Wish("cover", "Cover", ("open", "some", "much"))
GROUND = Wish("ground", "Ground", ("any", "fine sand", "dark", "stones"))
BACKGROUND = Wish("background", "Background", ("any", "dark"))
FLOW = Wish("flow", "Flow", ("still", "gentle", "medium", "strong"))
WISHES = (LIGHT, COVER, GROUND, BACKGROUND, FLOW)
