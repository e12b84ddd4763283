"""What an engine gives and what its turning parts stand."""
