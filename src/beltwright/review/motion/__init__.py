"""Questions about pull, climb and getting away."""
