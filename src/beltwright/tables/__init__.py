"""Published tables as plain CSV, each with its source, and the functions that read them."""
