"""Heat, oil, pressure and seals of a gearbox."""
