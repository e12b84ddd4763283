"""The standard acceleration of free fall."""

STANDARD_GRAVITY = 9.80665
"""g [m/s²], exact by definition: 3rd General Conference on Weights and Measures, 1901."""
