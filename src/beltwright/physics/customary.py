"""Exact sizes of the customary units in which older printed formulas state their constants."""

INCH = 0.0254
"""[m], exact: NIST SP 811 (2008), appendix B.8."""

FOOT_PER_MINUTE = 12 * INCH / 60
"""[m/s], exact."""

POUND = 0.45359237
"""[kg], exact: NIST SP 811 (2008), appendix B.8."""

POUND_FORCE = POUND * 9.80665
"""[N], exact: NIST SP 811 (2008), appendix B.8."""

HORSEPOWER = 550 * 12 * INCH * POUND_FORCE
"""[W], exact: 550 ft·lbf/s."""
