"""Questions about the engine."""
