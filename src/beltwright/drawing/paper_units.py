"""Units in which printers and rulers count, in millimetres."""

INCH = 25.4
"""[mm], exact."""

POINT = INCH / 72.0
"""A printer's point [mm]."""
