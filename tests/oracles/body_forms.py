"""Body forms of a club."""

from tests.oracles.tools import overridden

globals().update(overridden("body_forms", "mass_factor", "mass_exponent"))
