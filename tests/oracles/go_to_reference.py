"""Links to the sheets on which one looks something up, in the order of the tabs."""

from tests.oracles.sheets import links

globals().update(links("reference"))
