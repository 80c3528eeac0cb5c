"""Links to the sheets on which one sees how answers come about, in the order of the tabs."""

from tests.oracles.sheets import links

globals().update(links("detail"))
