"""What a first drive shows: readings, and whether they agree with what was predicted."""
