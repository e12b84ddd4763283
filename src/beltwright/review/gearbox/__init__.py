"""Questions about heat, oil and pressure of the gearbox."""
