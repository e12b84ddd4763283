"""Questions about the steering."""
