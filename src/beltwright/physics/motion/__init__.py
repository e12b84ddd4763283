"""Pull, climb, top speed and the start."""
