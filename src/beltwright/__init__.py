"""Plan, check, draw and prove a cart built from scrapped belt-drive machines."""

__version__ = "0.1.0"
