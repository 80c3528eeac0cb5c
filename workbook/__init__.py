"""shoalbook: builds planning workbooks for people who keep freshwater aquarium fish."""

__version__ = "0.1.0"
