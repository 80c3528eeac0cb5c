"""The same of a plan: see planned.py."""

from tests.oracles import planned

__getattr__ = planned.asked_about("overlap_detail", planned.TOUCHED)
