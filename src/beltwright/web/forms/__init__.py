"""Forms made from the build file's own model, as plain data for the page."""
