"""The shop sheets."""
