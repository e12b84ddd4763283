"""Pure array functions in SI units; knows nothing of builds, files or text."""
