"""The task list of a club."""

from tests.oracles.tools import overridden

globals().update(overridden("tasks", "usual_days", "usual_minutes", "usual_supplies"))
