"""The build file: its model, reading it with good errors, writing it without loss."""
