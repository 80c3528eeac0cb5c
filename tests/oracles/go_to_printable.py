"""Links to the sheets on which one prints, in the order of the tabs."""

from tests.oracles.sheets import links

globals().update(links("printable"))
